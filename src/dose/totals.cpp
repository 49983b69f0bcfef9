// SPDX-License-Identifier: MIT
#include "dose/totals.h"

#include <algorithm>
#include <map>
#include <utility>

#include "dose/calendar.h"

namespace tickleaf::dose {

namespace {

using prescription::Dose;
using prescription::Holds;
using prescription::Repetitions;
using prescription::Tempo;
using prescription::TimeSpent;
using prescription::ToFatigue;

/// One end of every range of a dose.
enum class End { Low, High };

template <class T>
T at(const Range<T>& range, End end) {
    return end == End::Low ? range.low : range.high;
}

/// A repetition with all its phases, in seconds.
std::int64_t repetition_seconds(const std::optional<Tempo>& tempo) {
    if (!tempo || tempo->steps.empty()) {
        return kPlainRepetitionSeconds;
    }
    std::int64_t seconds = 0;
    for (const prescription::TempoStep& step : tempo->steps) {
        seconds += step.length.count;
    }
    return seconds;
}

/// What one set is at one end: how many repetitions (or holds) of how long.
struct SetAt {
    std::int64_t repetitions = 1;
    std::int64_t each = 0;
    bool is_counted = true; ///< time spent has nothing to count
};

struct ToSet {
    End end;
    std::int64_t repetition;
    SetAt operator()(const Repetitions& set) const {
        return {at(set.count, end), repetition, true};
    }
    SetAt operator()(const Holds& set) const {
        return {set.count, at(set.length, end).count, true};
    }
    SetAt operator()(const TimeSpent& set) const { return {1, at(set.length, end).count, false}; }
    // Whoever tires at once does one repetition.
    SetAt operator()(const ToFatigue& set) const {
        return {end == End::Low ? 1 : set.at_most, repetition, true};
    }
};

struct TotalsAt {
    std::int64_t repetition = 0;
    std::int64_t set = 0;
    std::int64_t session = 0;
    std::int64_t tension = 0;
    std::int64_t repetitions = 0;
    std::int64_t repetitions_week = 0;
};

TotalsAt totals_at(End end, const Dose& dose, std::int64_t repetition, const Frequency& frequency) {
    const SetAt set = std::visit(ToSet{end, repetition}, dose.content);
    const std::int64_t sets = at(dose.sets, end);
    TotalsAt totals;
    totals.repetition = set.each;
    totals.set = set.repetitions * set.each;
    totals.session = frequency.sides * (sets * totals.set + (sets - 1) * at(dose.rest, end).count);
    totals.tension = frequency.sides * sets * totals.set;
    totals.repetitions = set.is_counted ? frequency.sides * sets * set.repetitions : 0;
    totals.repetitions_week =
        totals.repetitions * at(dose.per_day, end) * at(frequency.days_per_week, end);
    return totals;
}

/// Sessions of one day: as many as the most frequent of its exercises asks for.
int sessions_of(const std::vector<const PlannedExercise*>& due, End end) {
    int sessions = 0;
    for (const PlannedExercise* one : due) {
        sessions = std::max(sessions, at(one->dose.per_day, end));
    }
    return sessions;
}

/// All sessions of one day on which the given exercises are due.
std::int64_t day_seconds(const std::vector<const PlannedExercise*>& due, End end) {
    const int sessions = sessions_of(due, end);
    std::int64_t seconds = 0;
    for (int session = 1; session <= sessions; ++session) {
        std::int64_t done = 0;
        for (const PlannedExercise* one : due) {
            if (at(one->dose.per_day, end) >= session) {
                seconds += at(one->totals.session, end).count;
                ++done;
            }
        }
        seconds += (done - 1) * kChangeOverSeconds;
    }
    return seconds;
}

/// What falls on the days of a week.
struct WeekAt {
    std::int64_t seconds = 0;
    int sessions = 0;
    int days = 0;
};

WeekAt week_at(const std::vector<PlannedExercise>& exercises, End end) {
    std::vector<int> wanted;
    wanted.reserve(exercises.size());
    for (const PlannedExercise& one : exercises) {
        wanted.push_back(at(one.days_per_week, end));
    }
    WeekAt week;
    for (const std::vector<std::size_t>& day : week_plan(wanted)) {
        std::vector<const PlannedExercise*> due;
        due.reserve(day.size());
        for (const std::size_t index : day) {
            due.push_back(&exercises.at(index));
        }
        week.seconds += day_seconds(due, end);
        week.sessions += sessions_of(due, end);
        week.days += due.empty() ? 0 : 1;
    }
    return week;
}

std::int64_t session_seconds(const std::vector<PlannedExercise>& exercises, End end) {
    std::int64_t seconds = 0;
    for (const PlannedExercise& one : exercises) {
        seconds += at(one.totals.session, end).count;
    }
    const auto changes = static_cast<std::int64_t>(exercises.size()) - 1;
    return seconds + changes * kChangeOverSeconds;
}

} // namespace

ExerciseTotals totals_of(const Dose& dose, const std::optional<Tempo>& tempo,
                         const Frequency& frequency) {
    const std::int64_t repetition = repetition_seconds(tempo);
    const TotalsAt low = totals_at(End::Low, dose, repetition, frequency);
    const TotalsAt high = totals_at(End::High, dose, repetition, frequency);
    ExerciseTotals totals;
    totals.repetition = {{low.repetition}, {high.repetition}};
    totals.set = {{low.set}, {high.set}};
    totals.session = {{low.session}, {high.session}};
    totals.tension = {{low.tension}, {high.tension}};
    totals.repetitions_session = {static_cast<int>(low.repetitions),
                                  static_cast<int>(high.repetitions)};
    totals.repetitions_week = {low.repetitions_week, high.repetitions_week};
    totals.repetitions_stage = {low.repetitions_week * frequency.weeks,
                                high.repetitions_week * frequency.weeks};
    totals.sides = frequency.sides;
    return totals;
}

void sum_up(PlannedStage& stage) {
    if (stage.exercises.empty()) {
        return;
    }
    std::vector<const PlannedExercise*> all;
    all.reserve(stage.exercises.size());
    for (const PlannedExercise& one : stage.exercises) {
        all.push_back(&one);
        stage.sessions_per_day = std::max(stage.sessions_per_day, one.dose.per_day.high);
    }
    stage.session = {{session_seconds(stage.exercises, End::Low)},
                     {session_seconds(stage.exercises, End::High)}};
    stage.day = {{day_seconds(all, End::Low)}, {day_seconds(all, End::High)}};
    const WeekAt low = week_at(stage.exercises, End::Low);
    const WeekAt high = week_at(stage.exercises, End::High);
    stage.week = {{low.seconds}, {high.seconds}};
    stage.sessions_week = {low.sessions, high.sessions};
    stage.exercise_days = {low.days, high.days};
}

std::vector<FamilyWork> weekly_work(const PlannedStage& stage, const FamilyOf& family_of) {
    std::map<std::string, FamilyWork> by_family;
    for (const PlannedExercise& one : stage.exercises) {
        const std::string family = family_of(one.exercise);
        if (family.empty()) {
            continue;
        }
        FamilyWork& work = by_family[family];
        work.family = family;
        const Range<int>& per_day = one.dose.per_day;
        const Range<int>& days = one.days_per_week;
        work.tension_seconds.low += one.totals.tension.low.count * per_day.low * days.low;
        work.tension_seconds.high += one.totals.tension.high.count * per_day.high * days.high;
        work.repetitions.low += one.totals.repetitions_week.low;
        work.repetitions.high += one.totals.repetitions_week.high;
    }
    std::vector<FamilyWork> result;
    result.reserve(by_family.size());
    for (auto& [family, work] : by_family) {
        result.push_back(std::move(work));
    }
    return result;
}

std::vector<FamilyWork> weekly_work(const PlannedStage& stage) {
    std::map<std::string, std::string> family;
    for (const PlannedExercise& one : stage.exercises) {
        family.emplace(one.exercise, one.family);
    }
    return weekly_work(stage, [&](const std::string& exercise) { return family.at(exercise); });
}

SideWork weekly_counts(const PlannedStage& stage) {
    SideWork work;
    for (const PlannedExercise& one : stage.exercises) {
        const bool held = std::holds_alternative<Holds>(one.dose.content);
        SideCounts& counts = held ? work.holds : work.repetitions;
        const Range<std::int64_t>& week = one.totals.repetitions_week;
        // Both sides do the same, so that half of an even number is exact.
        const Range<std::int64_t> each{week.low / one.totals.sides, week.high / one.totals.sides};
        const auto add = [&](Range<std::int64_t>& sum) {
            sum = {sum.low + each.low, sum.high + each.high};
        };
        if (one.side == support::Side::None) {
            add(counts.no_side);
        }
        if (one.side == support::Side::Left || one.side == support::Side::Both) {
            add(counts.left);
        }
        if (one.side == support::Side::Right || one.side == support::Side::Both) {
            add(counts.right);
        }
    }
    return work;
}

} // namespace tickleaf::dose
