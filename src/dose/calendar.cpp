// SPDX-License-Identifier: MIT
#include "dose/calendar.h"

#include <algorithm>
#include <bit>
#include <tuple>

namespace tickleaf::dose {

namespace {

constexpr int kWeek = 7;

int clamped(int days) {
    return std::clamp(days, 1, kWeek);
}

/// How well days are spread over a week that repeats: the smallest gap, then the sum of squared
/// gaps (less is evener).
struct Spread {
    int smallest = kWeek;
    int squares = 0;
    bool is_better_than(const Spread& other) const {
        return std::tie(smallest, other.squares) > std::tie(other.smallest, squares);
    }
};

Spread spread_of(const std::vector<int>& days) {
    Spread spread;
    for (std::size_t i = 0; i < days.size(); ++i) {
        const int next = i + 1 < days.size() ? days.at(i + 1) : days.front() + kWeek;
        const int gap = next - days.at(i);
        spread.smallest = std::min(spread.smallest, gap);
        spread.squares += gap * gap;
    }
    return spread;
}

std::vector<int> subset(const std::vector<int>& days, unsigned chosen) {
    std::vector<int> result;
    for (std::size_t i = 0; i < days.size(); ++i) {
        if ((chosen >> i & 1u) != 0) {
            result.push_back(days.at(i));
        }
    }
    return result;
}

/// The `number` days among these that are best spread; all choices are tried, at most 127. The
/// first of equals.
std::vector<int> best_of(const std::vector<int>& days, int number) {
    if (static_cast<std::size_t>(number) >= days.size()) {
        return days;
    }
    std::vector<int> best;
    Spread best_spread;
    for (unsigned chosen = 1; chosen < 1u << days.size(); ++chosen) {
        if (std::popcount(chosen) != number) {
            continue;
        }
        std::vector<int> candidate = subset(days, chosen);
        const Spread spread = spread_of(candidate);
        const bool better = best.empty() || spread.is_better_than(best_spread);
        const bool equal = !better && !best_spread.is_better_than(spread);
        if (better || (equal && candidate < best)) {
            best = std::move(candidate);
            best_spread = spread;
        }
    }
    return best;
}

} // namespace

std::vector<int> spread_days(int days_per_week) {
    const int number = clamped(days_per_week);
    std::vector<int> days;
    days.reserve(static_cast<std::size_t>(number));
    for (int i = 0; i < number; ++i) {
        days.push_back(i * kWeek / number);
    }
    return days;
}

std::array<std::vector<std::size_t>, 7> week_plan(const std::vector<int>& days) {
    std::array<std::vector<std::size_t>, 7> plan;
    if (days.empty()) {
        return plan;
    }
    const std::vector<int> busy = spread_days(*std::max_element(days.begin(), days.end()));
    for (std::size_t index = 0; index < days.size(); ++index) {
        for (const int day : best_of(busy, clamped(days.at(index)))) {
            plan.at(static_cast<std::size_t>(day)).push_back(index);
        }
    }
    return plan;
}

Date days_after(const Date& date, int offset) {
    return Date{std::chrono::sys_days{date} + std::chrono::days{offset}};
}

std::vector<PlannedDay> all_days(const std::vector<PlannedStage>& stages,
                                 const std::optional<Date>& starts) {
    std::vector<PlannedDay> days;
    for (const PlannedStage& stage : stages) {
        std::vector<int> wanted;
        wanted.reserve(stage.exercises.size());
        for (const PlannedExercise& one : stage.exercises) {
            wanted.push_back(one.days_per_week.high);
        }
        const auto plan = week_plan(wanted);
        for (int week = stage.weeks.low; week <= stage.weeks.high; ++week) {
            for (int weekday = 0; weekday < kWeek; ++weekday) {
                PlannedDay day;
                day.week = week;
                day.weekday = weekday;
                day.stage = stage.index;
                if (starts) {
                    day.date = days_after(*starts, kWeek * (week - 1) + weekday);
                }
                day.exercises = plan.at(static_cast<std::size_t>(weekday));
                days.push_back(std::move(day));
            }
        }
    }
    return days;
}

} // namespace tickleaf::dose
