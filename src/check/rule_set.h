// SPDX-License-Identifier: MIT
// How a rule looks inside: what it says of itself, and a function that reports where it is broken.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "check/check.h"

namespace tickleaf::check {

/// Reports one breach: where, what was found, how to mend it. Id and severity come from the rule.
using Report = std::function<void(const support::Span&, std::string message, std::string hint)>;

struct CodedRule {
    Rule rule;
    void (*look)(const Subject&, const Report&);
};

// The rules by what they look at, one file each.
std::vector<CodedRule> dose_rules();
std::vector<CodedRule> load_rules();
std::vector<CodedRule> movement_rules();
std::vector<CodedRule> frame_rules();

/// Calls `visit(planned stage, planned exercise, facts)` for every exercise of the schedule.
template <class Visit>
void for_each_exercise(const Subject& subject, const Visit& visit) {
    for (const dose::PlannedStage& stage : subject.schedule->stages) {
        for (const dose::PlannedExercise& planned : stage.exercises) {
            visit(stage, planned, subject.exercises->at(planned.exercise).facts());
        }
    }
}

} // namespace tickleaf::check
