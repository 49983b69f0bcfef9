// SPDX-License-Identifier: MIT
#include "dose/schedule.h"

#include <algorithm>
#include <string>
#include <tuple>

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

Rung rung_of(const Dose& dose, const Climb& climb, std::int64_t step) {
    return climb.is_time ? rung_of_holds(dose, climb, step)
                         : rung_of_repetitions(dose, climb, step);
}

/// How far a rung of this height stays below the dose's totals, at both ends together.
std::int64_t shortfall(const Dose& dose, const Climb& climb, std::int64_t step) {
    const Rung rung = rung_of(dose, climb, step);
    const std::int64_t each = climb.is_time ? step : 1;
    const std::int64_t sets = std::int64_t{dose.sets.low} + dose.sets.high;
    const std::int64_t wanted = sets * climb.holds_in_set * climb.target;
    return wanted - (std::int64_t{rung.count.low} + rung.count.high) * each;
}

/// The way from one height up to the target.
struct Way {
    std::int64_t rungs = 0;
    std::int64_t short_by = 0; ///< of all rungs on it
    std::size_t next = 0;      ///< index of the next height
    bool is_better_than(const Way& other) const {
        return std::tie(rungs, short_by) < std::tie(other.rungs, other.short_by);
    }
};

/// As few rungs as the largest step allows; of these the ones that keep the total best; of equals
/// the gentlest start.
std::vector<std::int64_t> heights(std::int64_t begin, const Dose& dose, const Climb& climb) {
    const std::int64_t unit = unit_of(begin, climb);
    std::vector<std::int64_t> grid;
    for (std::int64_t height = begin; height <= climb.target; height += unit) {
        grid.push_back(height);
    }
    std::vector<Way> best(grid.size());
    for (std::size_t i = grid.size() - 1; i-- > 0;) {
        const std::int64_t step = std::max(unit, grid[i] * kLargestStepPercent / 100);
        for (std::size_t next = i + 1; next < grid.size() && grid[next] <= grid[i] + step; ++next) {
            const Way way{best[next].rungs + 1,
                          best[next].short_by + shortfall(dose, climb, grid[next]), next};
            if (best[i].rungs == 0 || way.is_better_than(best[i])) {
                best[i] = way;
            }
        }
    }
    std::vector<std::int64_t> result{begin};
    for (std::size_t i = 0; i + 1 < grid.size(); i = best[i].next) {
        result.push_back(grid[best[i].next]);
    }
    return result;
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
    const std::vector<std::int64_t> steps = heights(*start, dose, climb);
    const auto in_stage = std::int64_t{weeks.high} - weeks.low + 1;
    const auto number = static_cast<std::int64_t>(steps.size());
    std::vector<Rung> rungs;
    rungs.reserve(steps.size());
    for (std::int64_t i = 0; i < number; ++i) {
        const std::int64_t step = steps.at(static_cast<std::size_t>(i));
        Rung rung = rung_of(dose, climb, step);
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
