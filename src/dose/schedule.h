// SPDX-License-Identifier: MIT
// What the prescription comes to in sessions, days, seconds and counts. Exact integers; both ends
// of every range: low ends come from all low ends (sets, repetitions, rest, times a day, days),
// high ends from all high ends. Units: seconds, counts, calendar days. No words and no text:
// content/ says it in a language. Errors: impossible combinations are findings: begin-kind,
// begin-above-target, begin-too-low, side-missing, side-contradiction, side-not-used. Source:
// session time = sets x set + rest x (sets - 1), a side at a time (common practice).
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "prescription/prescription.h"
#include "support/finding.h"

namespace tickleaf::dose {

using prescription::Date;
using support::Range;
using support::Seconds;

/// One rung of the start-low ladder: so many holds (or repetitions) of such a length, on each side
/// that works. The ladder climbs to the low ends of the dose's hold or repetitions; the dose itself
/// goes on from there.
struct Rung {
    Range<int> sets{1, 1}; ///< sets of this rung; a hold that is a set of its own counts as one
    Range<int> count{1,
                     1}; ///< holds or repetitions in all sets of one session; a whole number a set
    Seconds hold{};      ///< of one hold; 0 for repetitions
    int week = 1;        ///< week of the programme in which the rung is first due
};

/// Totals of one exercise line. "Session" is one of the `per_day` times it is done.
struct ExerciseTotals {
    Range<Seconds> repetition{}; ///< one repetition (or one hold)
    Range<Seconds> set{};        ///< one set, one side
    Range<Seconds> session{};    ///< all sets, sides and the rests between them
    /// Time under tension of a session: all sides, all phases of every repetition, no rests between
    /// sets (the convention of Wilk, Zajac and Tufano 2021, Sports Med 51:1629-50; value from
    /// memory).
    Range<Seconds> tension{};
    Range<int>
        repetitions_session{}; ///< repetitions (or holds) a session, all sides; 0 for time spent
    Range<std::int64_t> repetitions_week{};
    Range<std::int64_t> repetitions_stage{};
    int sides = 1;
};

/// One exercise of a stage, ready for saying and ticking.
struct PlannedExercise {
    std::string exercise; ///< id
    std::string family;   ///< what it loads, from the exercise files; empty where that is not known
    support::Side side = support::Side::None;
    prescription::Dose dose;
    std::optional<prescription::Tempo> tempo;
    Range<int> days_per_week{7, 7};
    std::vector<Rung> ladder; ///< lowest first, last is the target; empty where no `begin`
    ExerciseTotals totals;
    std::size_t line = 0; ///< index in the stage's exercises of the prescription
    bool is_sound = true; ///< nothing impossible was found in it
    support::Span span{};
};

/// A stage in time: earliest first day and latest last day where a start date is known.
struct PlannedStage {
    std::size_t index = 0;
    Range<int> weeks{1, 1};
    std::optional<Date> first_day;
    std::optional<Date> last_day;
    std::vector<PlannedExercise> exercises;
    Range<Seconds> session{}; ///< one session, each exercise once, changes of exercise included
    Range<Seconds> day{};     ///< all sessions of a day on which every exercise is due
    Range<Seconds> week{};
    int sessions_per_day = 1; ///< the most any exercise asks for
    /// Sessions of a week: on each day with exercises as many as the most frequent of them asks
    /// for.
    Range<int> sessions_week{};
    Range<int> exercise_days{}; ///< days of a week with at least one session
};

/// One calendar day of the programme.
struct PlannedDay {
    int week = 1;    ///< of the programme, from 1
    int weekday = 0; ///< day within the programme week, 0 is the start day's weekday
    std::size_t stage = 0;
    std::optional<Date> date;
    std::vector<std::size_t>
        exercises; ///< indexes into the stage's exercises due that day (most days of a range)
    bool is_rest_day() const { return exercises.empty(); }
};

struct Schedule {
    std::vector<PlannedStage> stages;
    std::vector<PlannedDay> days; ///< every day of every week, in order
    Range<int> expected_weeks{};  ///< the whole programme
    std::optional<Date> review;
};

/// Time to change over from one exercise to the next, counted once between two exercises (common
/// practice).
inline constexpr std::int64_t kChangeOverSeconds = 30;
/// Seconds a repetition takes where no tempo is given (common practice: 3 s).
inline constexpr std::int64_t kPlainRepetitionSeconds = 3;

/// What planning asks of an exercise; comes from the exercise files.
struct SidedExercises {
    virtual ~SidedExercises() = default;
    /// True where it is done with one side at a time.
    virtual bool has_sides(const std::string& exercise) const = 0;
    /// What it loads, such as "calf"; empty where that is not known.
    virtual std::string family(const std::string& /*exercise*/) const { return {}; }
};

/// Plans all stages. A line whose side is missing is planned for both sides, and the finding stops
/// the booklet.
std::optional<Schedule> plan(const prescription::Prescription& prescription,
                             const SidedExercises& sided, support::Findings& findings);

/// The work of one family of exercises in a week of a stage; both ends of every range.
struct FamilyWork {
    std::string family;
    Range<std::int64_t> tension_seconds{}; ///< under tension, all sides
    Range<std::int64_t> repetitions{};     ///< or holds, all sides; 0 for time spent
    bool operator==(const FamilyWork&) const = default;
};

/// The family an exercise loads, from the exercise files; empty leaves the exercise out.
using FamilyOf = std::function<std::string(const std::string& exercise)>;

/// The work of a stage's week by family, in alphabetical order of the families.
std::vector<FamilyWork> weekly_work(const PlannedStage& stage, const FamilyOf& family_of);
/// The same by the families planned with; exercises without one are left out.
std::vector<FamilyWork> weekly_work(const PlannedStage& stage);

/// Counts by the side that works; both ends of every range.
struct SideCounts {
    Range<std::int64_t> left{}, right{};
    Range<std::int64_t> no_side{}; ///< of exercises without sides
    bool operator==(const SideCounts&) const = default;
};
/// What a stage's week comes to by side. Time spent is neither.
struct SideWork {
    SideCounts repetitions; ///< until tired counts from 1 up to its cap
    SideCounts holds;
    bool operator==(const SideWork&) const = default;
};
SideWork weekly_counts(const PlannedStage& stage);

/// An exact quotient: nothing is rounded before it is compared or printed.
struct Ratio {
    std::int64_t numerator = 0;
    std::int64_t denominator = 1; ///< above 0
    constexpr bool is_above_percent(std::int64_t percent) const {
        return numerator * 100 > denominator * percent;
    }
    /// For messages: 200.4 is "201 percent", so that what is above a threshold also looks so.
    constexpr std::int64_t percent_rounded_up() const {
        return (numerator * 100 + denominator - 1) / denominator;
    }
};

/// A step of the ladder adds at most this share of the rung below, in percent (and at least one
/// unit: one repetition, or 5 s where both ends are fives). Half as much again is a step that a
/// pain score the next morning can still judge, and reaches 45 s from 15 s in three steps (common
/// practice).
inline constexpr int kLargestStepPercent = 50;
/// More holds or sets than this on one rung cannot be counted by a patient lying on the floor.
inline constexpr int kMostOnRung = 60;

/// The ladder alone: from `begin` to the target at equal total, whole counts, bounded steps. Counts
/// are rounded down, so that no rung asks for more than the target's total and each is short of it
/// by less than one hold (or one set). As few rungs as the bound allows; of the ways with so few,
/// the one that falls short least in all.
std::vector<Rung> ladder(const prescription::Dose& dose, const prescription::BeginValue& begin,
                         Range<int> weeks, support::Findings& findings);

/// Days of a programme week (0..6) for n days a week (1..7), spread as evenly as whole days allow.
std::vector<int> spread_days(int days_per_week);

/// The schedule as JSON (for `tickleaf inspect --stage schedule`), as
/// templates/schedule.schema.json has it. A range is {"low", "high"}, a date is "YYYY-MM-DD" (ISO
/// 8601 calendar date), every number is whole; what counts places starts at 1.
///   expected_weeks  range: weeks of the whole programme
///   review          date; only where one is given
///   stages[]        stage: its place; weeks: range; first_day, last_day: dates, only with a start
///                   (no earlier and no later than these); sessions_per_day: the most any exercise
///                   asks for; sessions_per_week, exercise_days_per_week: ranges; session_seconds,
///                   day_seconds, week_seconds: ranges; repetitions_per_week, holds_per_week:
///                   sides; families[]; exercises[]
///   sides           left, right, no_side: ranges
///   families[]      family: id; tension_seconds, repetitions (or holds): ranges, a week, all sides
///   exercises[]     exercise: id; family: only where known; side: "left", "right", "both" or
///   "none"; dose: compact notation;
///                   tempo: named phases, only where given; days_per_week: range; ladder[]; totals
///   ladder[]        week of the programme; sets, count: ranges; hold_seconds, 0 for repetitions
///   totals          sides: 1 or 2; repetition_seconds, set_seconds, session_seconds,
///                   tension_seconds, repetitions_session, repetitions_week, repetitions_stage:
///                   ranges
///   days[]          week, day (of the week, 1 is the start day's), stage; date: only with a start;
///                   exercises: places in the stage's list, empty on a day of rest
std::string dump(const Schedule& schedule);

} // namespace tickleaf::dose
