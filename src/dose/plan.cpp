// SPDX-License-Identifier: MIT
#include "dose/schedule.h"

#include "dose/calendar.h"
#include "dose/totals.h"

namespace tickleaf::dose {

namespace {

using prescription::ExerciseLine;
using prescription::Prescription;
using prescription::Stage;
using support::Findings;
using support::Side;

/// An exercise without sides: a side said for it would be lost, so it is pointed out.
Side side_of_unsided(const ExerciseLine& line, Findings& findings) {
    if (prescription::is_each_side(line.dose)) {
        findings.error(line.dose.span, "side-contradiction",
                       "the dose says each side, but \"" + line.exercise.value + "\" has no sides",
                       "remove each side");
    }
    if (line.side && line.side->value != Side::None) {
        findings.warning(line.side->span, "side-not-used",
                         '"' + line.exercise.value +
                             "\" has no sides, so the side given for it is not used",
                         "remove the side");
    }
    return Side::None;
}

Side side_of_sided(const ExerciseLine& line, const Prescription& prescription, Findings& findings) {
    if (prescription::is_each_side(line.dose)) {
        if (line.side && line.side->value != Side::Both) {
            findings.error(line.side->span, "side-contradiction",
                           "the side is " + std::string(support::to_word(line.side->value)) +
                               ", but the dose says each side",
                           "keep one of the two");
        }
        return Side::Both;
    }
    const auto& side = line.side ? line.side : prescription.side;
    if (!side || side->value == Side::None) {
        findings.error(side ? side->span : line.exercise.span, "side-missing",
                       '"' + line.exercise.value + "\" is done on one side, but no side is given",
                       "add side: left, right or both to the exercise or to the prescription");
        return Side::Both;
    }
    return side->value;
}

struct LinePlace {
    const Prescription& prescription;
    const Stage& stage;
    std::size_t index;
};

PlannedExercise plan_line(const LinePlace& place, const SidedExercises& sided, Findings& findings) {
    const ExerciseLine& line = place.stage.exercises.at(place.index);
    PlannedExercise planned;
    Findings own;
    planned.exercise = line.exercise.value;
    planned.family = sided.family(line.exercise.value);
    planned.side = sided.has_sides(line.exercise.value)
                       ? side_of_sided(line, place.prescription, own)
                       : side_of_unsided(line, own);
    planned.dose = line.dose;
    planned.tempo = line.tempo;
    planned.days_per_week = line.dose.days_per_week.value_or(place.stage.days_per_week);
    planned.line = place.index;
    planned.span = line.exercise.span;
    if (line.begin) {
        planned.ladder = ladder(line.dose, *line.begin, place.stage.weeks, own);
    }
    planned.is_sound = !own.has_errors();
    for (const support::Finding& finding : own.all()) {
        findings.add(finding);
    }
    const int weeks = place.stage.weeks.high - place.stage.weeks.low + 1;
    planned.totals = totals_of(line.dose, line.tempo,
                               {planned.days_per_week, weeks, planned.side == Side::Both ? 2 : 1});
    return planned;
}

} // namespace

std::optional<Schedule> plan(const Prescription& prescription, const SidedExercises& sided,
                             Findings& findings) {
    if (prescription.stages.empty()) {
        return std::nullopt;
    }
    const auto starts =
        prescription.starts ? std::optional<Date>(prescription.starts->value) : std::nullopt;
    Schedule schedule;
    for (std::size_t index = 0; index < prescription.stages.size(); ++index) {
        const Stage& stage = prescription.stages.at(index);
        PlannedStage planned;
        planned.index = index;
        planned.weeks = stage.weeks;
        if (starts) {
            planned.first_day = days_after(*starts, 7 * (stage.weeks.low - 1));
            planned.last_day = days_after(*starts, 7 * stage.weeks.high - 1);
        }
        for (std::size_t line = 0; line < stage.exercises.size(); ++line) {
            planned.exercises.push_back(plan_line({prescription, stage, line}, sided, findings));
        }
        sum_up(planned);
        schedule.expected_weeks = {stage.weeks.high, stage.weeks.high};
        schedule.stages.push_back(std::move(planned));
    }
    schedule.days = all_days(schedule.stages, starts);
    if (prescription.review) {
        schedule.review = prescription.review->value;
    }
    return schedule;
}

} // namespace tickleaf::dose
