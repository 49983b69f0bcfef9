// SPDX-License-Identifier: MIT
#include "dose/schedule.h"

#include "support/json.h"

namespace tickleaf::dose {

namespace {

using support::Json;

std::string date_text(const Date& date) {
    const auto two = [](unsigned value) { return (value < 10 ? "0" : "") + std::to_string(value); };
    return std::to_string(static_cast<int>(date.year())) + '-' +
           two(static_cast<unsigned>(date.month())) + '-' + two(static_cast<unsigned>(date.day()));
}

template <class T>
Json range(const Range<T>& value) {
    return Json{{"low", value.low}, {"high", value.high}};
}

Json range(const Range<Seconds>& value) {
    return Json{{"low", value.low.count}, {"high", value.high.count}};
}

Json rung(const Rung& one) {
    return Json{{"week", one.week},
                {"sets", range(one.sets)},
                {"count", range(one.count)},
                {"hold_seconds", one.hold.count}};
}

Json totals(const ExerciseTotals& totals) {
    return Json{{"sides", totals.sides},
                {"repetition_seconds", range(totals.repetition)},
                {"set_seconds", range(totals.set)},
                {"session_seconds", range(totals.session)},
                {"tension_seconds", range(totals.tension)},
                {"repetitions_session", range(totals.repetitions_session)},
                {"repetitions_week", range(totals.repetitions_week)},
                {"repetitions_stage", range(totals.repetitions_stage)}};
}

Json sides(const SideCounts& counts) {
    return Json{{"left", range(counts.left)},
                {"right", range(counts.right)},
                {"no_side", range(counts.no_side)}};
}

Json family(const FamilyWork& work) {
    return Json{{"family", work.family},
                {"tension_seconds", range(work.tension_seconds)},
                {"repetitions", range(work.repetitions)}};
}

Json exercise(const PlannedExercise& one) {
    Json json{{"exercise", one.exercise}};
    if (!one.family.empty()) {
        json["family"] = one.family;
    }
    json["side"] = support::to_word(one.side);
    json["dose"] = prescription::to_notation(one.dose);
    if (one.tempo) {
        json["tempo"] = prescription::to_notation(*one.tempo);
    }
    json["days_per_week"] = range(one.days_per_week);
    json["ladder"] = Json::array();
    for (const Rung& step : one.ladder) {
        json["ladder"].push_back(rung(step));
    }
    json["totals"] = totals(one.totals);
    return json;
}

Json stage(const PlannedStage& stage) {
    Json json{{"stage", stage.index + 1}, {"weeks", range(stage.weeks)}};
    if (stage.first_day && stage.last_day) {
        json["first_day"] = date_text(*stage.first_day);
        json["last_day"] = date_text(*stage.last_day);
    }
    json["sessions_per_day"] = stage.sessions_per_day;
    json["sessions_per_week"] = range(stage.sessions_week);
    json["exercise_days_per_week"] = range(stage.exercise_days);
    json["session_seconds"] = range(stage.session);
    json["day_seconds"] = range(stage.day);
    json["week_seconds"] = range(stage.week);
    const SideWork counts = weekly_counts(stage);
    json["repetitions_per_week"] = sides(counts.repetitions);
    json["holds_per_week"] = sides(counts.holds);
    json["families"] = Json::array();
    for (const FamilyWork& work : weekly_work(stage)) {
        json["families"].push_back(family(work));
    }
    json["exercises"] = Json::array();
    for (const PlannedExercise& one : stage.exercises) {
        json["exercises"].push_back(exercise(one));
    }
    return json;
}

Json day(const PlannedDay& day) {
    Json json{{"week", day.week}, {"day", day.weekday + 1}, {"stage", day.stage + 1}};
    if (day.date) {
        json["date"] = date_text(*day.date);
    }
    json["exercises"] = Json::array();
    for (const std::size_t index : day.exercises) {
        json["exercises"].push_back(index + 1);
    }
    return json;
}

} // namespace

std::string dump(const Schedule& schedule) {
    Json json{{"expected_weeks", range(schedule.expected_weeks)}};
    if (schedule.review) {
        json["review"] = date_text(*schedule.review);
    }
    json["stages"] = Json::array();
    for (const PlannedStage& one : schedule.stages) {
        json["stages"].push_back(stage(one));
    }
    json["days"] = Json::array();
    for (const PlannedDay& one : schedule.days) {
        json["days"].push_back(day(one));
    }
    return json.dump(2) + '\n';
}

} // namespace tickleaf::dose
