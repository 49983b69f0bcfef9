// SPDX-License-Identifier: MIT
#include "dose/schedule.h"

#include <algorithm>
#include <string>

namespace tickleaf::dose {

namespace {

using prescription::BeginValue;
using prescription::Dose;
using prescription::Holds;
using prescription::Repetitions;
using prescription::TimeSpent;
using prescription::ToFatigue;
using support::Findings;

/// What climbs: the length of a hold, or the repetitions of a set.
struct Climb {
    std::int64_t target = 0; ///< seconds or repetitions, low end of the dose
    int holds_in_set = 1;
    bool is_time = false;
    bool keeps_total = true; ///< until tired has no total to keep
};

struct ToClimb {
    Climb operator()(const Repetitions& set) const { return {set.count.low, 1, false, true}; }
    Climb operator()(const Holds& set) const {
        return {set.length.low.count, set.count, true, true};
    }
    Climb operator()(const TimeSpent& set) const { return {set.length.low.count, 1, true, true}; }
    Climb operator()(const ToFatigue& set) const { return {set.at_most, 1, false, false}; }
};

/// The number that steps are multiples of: minutes and fives are easier to count than odd seconds.
std::int64_t unit_of(std::int64_t begin, const Climb& climb) {
    constexpr std::int64_t minute = 60;
    constexpr std::int64_t five = 5;
    if (!climb.is_time) {
        return 1;
    }
    if (begin % minute == 0 && climb.target % minute == 0 && begin >= 2 * minute) {
        return minute;
    }
    return begin % five == 0 && climb.target % five == 0 ? five : 1;
}

std::vector<std::int64_t> heights(std::int64_t begin, const Climb& climb) {
    const std::int64_t unit = unit_of(begin, climb);
    std::vector<std::int64_t> result{begin};
    while (result.back() < climb.target) {
        const std::int64_t allowed = result.back() * kLargestStepPercent / 100;
        const std::int64_t step = std::max(unit, allowed / unit * unit);
        result.push_back(std::min(climb.target, result.back() + step));
    }
    return result;
}

/// Sets of repetitions: more sets of fewer, never more repetitions than the target has.
Rung rung_of_repetitions(const Dose& dose, const Climb& climb, std::int64_t in_set) {
    const auto sets = [&](int of_dose) {
        return climb.keeps_total ? static_cast<int>(of_dose * climb.target / in_set) : of_dose;
    };
    Rung rung;
    rung.sets = {sets(dose.sets.low), sets(dose.sets.high)};
    const int each = static_cast<int>(in_set);
    rung.count = {rung.sets.low * each, rung.sets.high * each};
    return rung;
}

/// Shorter holds, more of them. Where a set is one hold, the total of all sets is shared out anew;
/// where a set has several, each set keeps its own total.
Rung rung_of_holds(const Dose& dose, const Climb& climb, std::int64_t length) {
    Rung rung;
    rung.hold = {length};
    if (climb.holds_in_set == 1) {
        rung.count = {static_cast<int>(dose.sets.low * climb.target / length),
                      static_cast<int>(dose.sets.high * climb.target / length)};
        rung.sets = rung.count;
        return rung;
    }
    const int in_set = static_cast<int>(climb.holds_in_set * climb.target / length);
    rung.sets = dose.sets;
    rung.count = {dose.sets.low * in_set, dose.sets.high * in_set};
    return rung;
}

std::string with_unit(std::int64_t value, const Climb& climb) {
    return std::to_string(value) + (climb.is_time ? " s"
                                    : value == 1  ? " repetition"
                                                  : " repetitions");
}

/// The start value where it fits the dose.
std::optional<std::int64_t> start_of(const BeginValue& begin, const Climb& climb,
                                     Findings& findings) {
    const auto* seconds = std::get_if<Seconds>(&begin.value);
    if ((seconds != nullptr) != climb.is_time) {
        findings.error(begin.span, "begin-kind",
                       climb.is_time
                           ? "begin is a number of repetitions, but the dose is in seconds"
                           : "begin is a time, but the dose is in repetitions",
                       climb.is_time ? "write the first hold with its unit, such as 15 s"
                                     : "write the repetitions to start with, such as 5");
        return std::nullopt;
    }
    const std::int64_t value = seconds != nullptr ? seconds->count : std::get<int>(begin.value);
    if (value < 1) {
        findings.error(begin.span, "begin-too-low", "begin must be at least 1", "write 1 or more");
        return std::nullopt;
    }
    if (value >= climb.target) {
        findings.error(begin.span, "begin-above-target",
                       "begin is " + with_unit(value, climb) + ", not less than the " +
                           with_unit(climb.target, climb) + " the dose asks for",
                       "write less, or remove begin");
        return std::nullopt;
    }
    return value;
}

} // namespace

std::vector<Rung> ladder(const Dose& dose, const BeginValue& begin, Range<int> weeks,
                         Findings& findings) {
    const Climb climb = std::visit(ToClimb{}, dose.content);
    const auto start = start_of(begin, climb, findings);
    if (!start) {
        return {};
    }
    const std::vector<std::int64_t> steps = heights(*start, climb);
    const auto in_stage = std::int64_t{weeks.high} - weeks.low + 1;
    const auto number = static_cast<std::int64_t>(steps.size());
    std::vector<Rung> rungs;
    rungs.reserve(steps.size());
    for (std::int64_t i = 0; i < number; ++i) {
        const std::int64_t step = steps.at(static_cast<std::size_t>(i));
        Rung rung = climb.is_time ? rung_of_holds(dose, climb, step)
                                  : rung_of_repetitions(dose, climb, step);
        rung.week = weeks.low + static_cast<int>(i * in_stage / number);
        rungs.push_back(rung);
    }
    const int most = climb.is_time ? rungs.front().count.high : rungs.front().sets.high;
    if (most > kMostOnRung) {
        findings.error(begin.span, "begin-too-low",
                       "starting at " + with_unit(*start, climb) + " would take " +
                           std::to_string(most) + (climb.is_time ? " holds" : " sets") +
                           " for the same total",
                       "begin nearer to the " + with_unit(climb.target, climb) + " of the dose");
        return {};
    }
    return rungs;
}

} // namespace tickleaf::dose
