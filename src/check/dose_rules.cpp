// SPDX-License-Identifier: MIT
#include <string>

#include "check/rule_set.h"

namespace tickleaf::check {

namespace {

using dose::PlannedExercise;
using dose::PlannedStage;
using figure::DoseKind;
using figure::Facts;
using prescription::Holds;
using prescription::Repetitions;
using prescription::ToFatigue;

/// What is usual for one kind of exercise; 0 where nothing is asked.
struct Usual {
    DoseKind kind;
    int least_repetitions, most_repetitions;
    int least_hold, most_hold;
    int most_sets;
    const char* name;
};

// Strength and stretch: Garber et al. 2011, Med Sci Sports Exerc 43:1334-59 (2-4 sets of 8-12,
// 10-15 when frail or starting, up to 20 for endurance; stretches 10-30 s, 60 s when older),
// widened to 5-25 repetitions and 6 sets for home programmes with small loads (common practice).
// Isometric holds to 60 s: common practice, after the 45 s of Rio et al. 2015, BJSM 49:1277-83.
// Mobility, balance: common practice.
constexpr Usual kUsual[] = {
    {DoseKind::Hold, 1, 15, 5, 60, 6, "an isometric hold"},
    {DoseKind::Strength, 5, 25, 1, 60, 6, "a strength exercise"},
    {DoseKind::Mobility, 5, 30, 1, 60, 6, "a mobility exercise"},
    {DoseKind::Stretch, 1, 10, 10, 60, 6, "a stretch"},
    {DoseKind::Balance, 1, 20, 5, 60, 6, "a balance exercise"},
};

const Usual* usual_for(DoseKind kind) {
    for (const Usual& usual : kUsual) {
        if (usual.kind == kind) {
            return &usual;
        }
    }
    return nullptr;
}

void check_range(const PlannedExercise& planned, support::Range<std::int64_t> found,
                 support::Range<int> usual, const std::string& what, const Report& report) {
    if (found.low < usual.low || found.high > usual.high) {
        report(planned.dose.span,
               "\"" + planned.exercise + "\": " + std::to_string(found.low) +
                   (found.low == found.high ? "" : " to " + std::to_string(found.high)) + ' ' +
                   what + "; usual are " + std::to_string(usual.low) + " to " +
                   std::to_string(usual.high),
               "check the dose");
    }
}

void usual_dose(const Subject& subject, const Report& report) {
    for_each_exercise(
        subject, [&](const PlannedStage&, const PlannedExercise& planned, const Facts& facts) {
            const Usual* usual = usual_for(facts.dose_kind);
            if (usual == nullptr) {
                return;
            }
            check_range(planned, {planned.dose.sets.low, planned.dose.sets.high},
                        {1, usual->most_sets}, std::string("sets of ") + usual->name, report);
            if (const auto* repetitions = std::get_if<Repetitions>(&planned.dose.content)) {
                check_range(planned, {repetitions->count.low, repetitions->count.high},
                            {usual->least_repetitions, usual->most_repetitions},
                            std::string("repetitions of ") + usual->name, report);
            }
            if (const auto* holds = std::get_if<Holds>(&planned.dose.content)) {
                check_range(planned, {holds->length.low.count, holds->length.high.count},
                            {usual->least_hold, usual->most_hold},
                            std::string("seconds for ") + usual->name, report);
            }
        });
}

/// ACSM 2009 (Ratamess et al., Med Sci Sports Exerc 41:687-708): at least 2 to 3 minutes between
/// heavy sets. Home loads are lighter: half a minute is the floor here (common practice).
constexpr std::int64_t kLeastRestSeconds = 30;

bool is_loaded(const Facts& facts) {
    return facts.dose_kind == DoseKind::Strength || facts.dose_kind == DoseKind::Hold;
}

void rest_for_load(const Subject& subject, const Report& report) {
    for_each_exercise(subject, [&](const PlannedStage&, const PlannedExercise& planned,
                                   const Facts& facts) {
        if (!is_loaded(facts) || planned.dose.sets.high < 2) {
            return;
        }
        if (!planned.dose.has_rest) {
            report(planned.dose.span,
                   "\"" + planned.exercise + "\" has more than one set but no rest between them",
                   "add \"rest 60 s\" to the dose");
        } else if (planned.dose.rest.low.count < kLeastRestSeconds) {
            report(planned.dose.span,
                   "\"" + planned.exercise + "\" rests only " +
                       std::to_string(planned.dose.rest.low.count) +
                       " seconds between sets under load",
                   "rest at least " + std::to_string(kLeastRestSeconds) + " s");
        }
    });
}

/// A hold of this length or more is a lot to ask on the first day (common practice).
constexpr std::int64_t kLongHoldSeconds = 30;

void start_low(const Subject& subject, const Report& report) {
    for_each_exercise(
        subject, [&](const PlannedStage&, const PlannedExercise& planned, const Facts& facts) {
            const auto* holds = std::get_if<Holds>(&planned.dose.content);
            const bool long_hold = holds != nullptr && holds->length.high.count >= kLongHoldSeconds;
            if (facts.dose_kind == DoseKind::Hold && long_hold && planned.ladder.empty()) {
                report(planned.dose.span,
                       "\"" + planned.exercise + "\" is held " +
                           std::to_string(holds->length.high.count) +
                           " seconds and has no way to start lower",
                       "add \"begin: 15 s\"; the steps up are then computed");
            }
        });
}

void fatigue_daily(const Subject& subject, const Report& report) {
    for_each_exercise(
        subject, [&](const PlannedStage&, const PlannedExercise& planned, const Facts& /*facts*/) {
            if (std::holds_alternative<ToFatigue>(planned.dose.content) &&
                planned.days_per_week.high > 3) {
                report(planned.dose.span,
                       "\"" + planned.exercise + "\" is done until tired on " +
                           std::to_string(planned.days_per_week.high) + " days a week",
                       "leave a day of rest between: at most 3 days a week");
            }
        });
}

} // namespace

std::vector<CodedRule> dose_rules() {
    using support::Severity;
    return {
        {{"dose-usual-range", Severity::Warning,
          "The dose lies inside the usual range for its kind of exercise.",
          "Garber et al. 2011, Med Sci Sports Exerc 43:1334-59, widened for home loads (common "
          "practice)"},
         usual_dose},
        {{"rest-for-load", Severity::Warning,
          "Sets under load have a rest of at least 30 seconds between them.",
          "Ratamess et al. 2009, Med Sci Sports Exerc 41:687-708; the floor is common practice"},
         rest_for_load},
        {{"start-low", Severity::Warning, "A long isometric hold has a lower start.",
          "common practice"},
         start_low},
        {{"fatigue-with-rest-days", Severity::Warning,
          "Work until tired leaves a rest day between.",
          "Garber et al. 2011, Med Sci Sports Exerc 43:1334-59 (48 hours between sessions)"},
         fatigue_daily},
    };
}

} // namespace tickleaf::check
