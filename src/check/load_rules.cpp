// SPDX-License-Identifier: MIT
#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "check/rule_set.h"

namespace tickleaf::check {

namespace {

using dose::PlannedExercise;
using dose::PlannedStage;
using figure::DoseKind;
using figure::Facts;

/// Weekly work by family, of the exercises that load something.
std::vector<dose::FamilyWork> weekly_load(const Subject& subject, const PlannedStage& stage) {
    return dose::weekly_work(stage, [&](const std::string& id) {
        const Facts& facts = subject.exercises->at(id).facts();
        const bool is_load =
            facts.dose_kind == DoseKind::Strength || facts.dose_kind == DoseKind::Hold;
        return is_load ? facts.family : std::string();
    });
}

/// More than twice the work of the stage before, for the same family, is called a jump (common
/// practice).
constexpr std::int64_t kMostGrowthPercent = 200;

void report_jump(const prescription::Stage& stage, const dose::FamilyWork& before,
                 const dose::FamilyWork& now, const Report& report) {
    const dose::Ratio growth{now.tension_seconds.high, before.tension_seconds.high};
    if (growth.denominator == 0 || !growth.is_above_percent(kMostGrowthPercent)) {
        return;
    }
    report(stage.span,
           "the weekly work of \"" + now.family + "\" grows to " +
               std::to_string(growth.percent_rounded_up()) + " percent of the stage before",
           "raise it in smaller steps, at most to " + std::to_string(kMostGrowthPercent) +
               " percent");
}

/// All of the stage could be read, so that its sums are its own.
bool is_known(const Subject& subject, const PlannedStage& planned) {
    const auto& stage = subject.prescription->stages.at(planned.index);
    return stage.has_whole_frame && stage.has_days && stage.has_all_lines;
}

void volume_jump(const Subject& subject, const Report& report) {
    const auto& stages = subject.schedule->stages;
    for (std::size_t i = 1; i < stages.size(); ++i) {
        if (!is_known(subject, stages[i - 1]) || !is_known(subject, stages[i])) {
            continue;
        }
        const auto before = weekly_load(subject, stages[i - 1]);
        for (const dose::FamilyWork& now : weekly_load(subject, stages[i])) {
            const auto earlier =
                std::find_if(before.begin(), before.end(), [&](const dose::FamilyWork& work) {
                    return work.family == now.family;
                });
            if (earlier != before.end()) {
                report_jump(subject.prescription->stages.at(stages[i].index), *earlier, now,
                            report);
            }
        }
    }
}

/// Strength work of one family on more days than this leaves no rest day between (48 hours).
constexpr int kMostStrengthDays = 4;

/// How many days of a week have strength work of each family, where no exercise alone asks for as
/// many: two exercises that take turns load the same muscles day after day.
void rest_days_of_families(const Subject& subject, const PlannedStage& stage,
                           const Report& report) {
    std::map<std::string, std::set<int>> days;
    std::map<std::string, int> most_alone;
    for (const dose::PlannedDay& day : subject.schedule->days) {
        if (day.stage != stage.index || day.week != stage.weeks.low) {
            continue;
        }
        for (const std::size_t index : day.exercises) {
            const PlannedExercise& planned = stage.exercises.at(index);
            const Facts& facts = subject.exercises->at(planned.exercise).facts();
            if (facts.dose_kind == DoseKind::Strength) {
                days[facts.family].insert(day.weekday);
                int& most = most_alone[facts.family];
                most = std::max(most, planned.days_per_week.high);
            }
        }
    }
    for (const auto& [family, on] : days) {
        const int number = static_cast<int>(on.size());
        if (number > kMostStrengthDays && most_alone.at(family) <= kMostStrengthDays) {
            report(subject.prescription->stages.at(stage.index).span,
                   "the exercises of \"" + family + "\" together load the same muscles on " +
                       std::to_string(number) + " days a week",
                   "give them the same number of days a week");
        }
    }
}

void rest_days(const Subject& subject, const Report& report) {
    for_each_exercise(subject,
                      [&](const PlannedStage&, const PlannedExercise& planned, const Facts& facts) {
                          if (facts.dose_kind == DoseKind::Strength &&
                              planned.days_per_week.high > kMostStrengthDays) {
                              report(planned.dose.span,
                                     "\"" + planned.exercise + "\" loads the same muscles on " +
                                         std::to_string(planned.days_per_week.high) +
                                         " days a week, without a rest day between",
                                     "add \"3 days/week\" to its dose");
                          }
                      });
    for (const PlannedStage& stage : subject.schedule->stages) {
        rest_days_of_families(subject, stage, report);
    }
}

std::int64_t whole_minutes(std::int64_t seconds) {
    return (seconds + 59) / 60;
}

void session_too_long(const Subject& subject, const Report& report) {
    const auto& minutes = subject.prescription->home.minutes_per_day;
    if (!minutes) {
        return;
    }
    for (const PlannedStage& stage : subject.schedule->stages) {
        const std::int64_t needed = whole_minutes(stage.day.high.count);
        if (subject.prescription->stages.at(stage.index).has_all_lines && needed > minutes->value) {
            report(subject.prescription->stages.at(stage.index).span,
                   "a day of this stage takes up to " + std::to_string(needed) +
                       " minutes; the patient has " + std::to_string(minutes->value),
                   "take an exercise out, fewer sets, or shorter rests");
        }
    }
}

void equipment_at_home(const Subject& subject, const Report& report) {
    if (subject.prescription->unread.home) {
        return;
    }
    std::set<std::string> at_home;
    for (const prescription::Equipment& equipment : subject.prescription->home.equipment) {
        at_home.insert(equipment.kind.value);
    }
    for_each_exercise(subject, [&](const PlannedStage& stage, const PlannedExercise& planned,
                                   const Facts& facts) {
        const auto& line = subject.prescription->stages.at(stage.index).exercises.at(planned.line);
        for (const std::string& needed : facts.equipment) {
            if (!at_home.contains(needed)) {
                report(line.exercise.span,
                       "\"" + planned.exercise + "\" needs a " + needed +
                           ", which is not among the things at home",
                       needed == "band"
                           ? "describe it under home: equipment, by length and pull, or choose "
                             "another exercise"
                           : "add it under home: equipment, or choose another exercise");
            }
        }
    });
}

} // namespace

std::vector<CodedRule> load_rules() {
    using support::Severity;
    return {
        {{"weekly-volume-jump", Severity::Warning,
          "The weekly work of a family of exercises at most doubles from one stage to the next.",
          "common practice"},
         volume_jump},
        {{"rest-days", Severity::Warning, "Strength work leaves days of rest for the same muscles.",
          "Garber et al. 2011, Med Sci Sports Exerc 43:1334-59 (48 hours between sessions)"},
         rest_days},
        {{"session-too-long", Severity::Warning,
          "A day's exercises fit into the minutes the patient has.", "common practice"},
         session_too_long},
        {{"equipment-at-home", Severity::Warning,
          "Every exercise can be done with what is at home.", "common practice"},
         equipment_at_home},
    };
}

} // namespace tickleaf::check
