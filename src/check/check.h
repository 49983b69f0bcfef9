// SPDX-License-Identifier: MIT
// The rules a programme is held against before it is printed, and their sources.
// Errors: a rule that is broken is a finding with the rule's id; a waived one is a note with the
// reason.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "dose/schedule.h"
#include "figure/solve.h"
#include "prescription/prescription.h"
#include "support/finding.h"

namespace tickleaf::check {

struct Rule {
    std::string id;
    support::Severity severity = support::Severity::Warning;
    std::string sentence; ///< plain, one sentence
    std::string source;   ///< paper or standard, or "common practice"
};

/// All rules, in order of id.
const std::vector<Rule>& rules();

/// What the rules look at. Solutions are [stage][exercise] as in the schedule.
struct Subject {
    const prescription::Prescription* prescription = nullptr;
    const dose::Schedule* schedule = nullptr;
    const std::map<std::string, figure::Exercise>* exercises = nullptr;
    const std::vector<std::vector<figure::Solution>>* solutions = nullptr;
};

void check(const Subject& subject, support::Findings& findings);

} // namespace tickleaf::check
