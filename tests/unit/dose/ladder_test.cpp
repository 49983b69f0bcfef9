// SPDX-License-Identifier: MIT
// The start-low ladder: steps, laws and what cannot be climbed.
#include <catch2/catch.hpp>

#include <random>

#include "planned.h"

namespace {

using namespace tickleaf;
using namespace tickleaf::dose;
using namespace tickleaf::tests;

using Rungs = std::vector<std::vector<int>>;

/// {week, sets low, sets high, count low, count high, hold}
Rungs rungs_of(const PlannedExercise& one) {
    Rungs rungs;
    for (const Rung& rung : one.ladder) {
        rungs.push_back({rung.week, rung.sets.low, rung.sets.high, rung.count.low, rung.count.high,
                         static_cast<int>(rung.hold.count)});
    }
    return rungs;
}

} // namespace

TEST_CASE("ladders keep the total, step by step to the dose") {
    struct Row {
        std::string line;
        std::string weeks;
        Rungs rungs;
    };
    const std::vector<Row> rows = {
        // Five holds of 45 s are 225 s; at 15 s that is 15 holds (and four are 12).
        {"dose: 5 x 45 s, begin: 15 s",
         "1-2",
         {{1, 15, 15, 15, 15, 15},
          {1, 11, 11, 11, 11, 20},
          {2, 7, 7, 7, 7, 30},
          {2, 5, 5, 5, 5, 45}}},
        // Pearson et al. 2020, Clin J Sport Med: 24 x 10 s are as much as 6 x 40 s.
        {"dose: 6 x 40 s, begin: 10 s",
         "1-4",
         {{1, 24, 24, 24, 24, 10},
          {1, 16, 16, 16, 16, 15},
          {2, 12, 12, 12, 12, 20},
          {3, 8, 8, 8, 8, 30},
          {4, 6, 6, 6, 6, 40}}},
        {"dose: 4-5 x 45 s, begin: 15 s",
         "1-4",
         {{1, 12, 15, 12, 15, 15},
          {2, 9, 11, 9, 11, 20},
          {3, 6, 7, 6, 7, 30},
          {4, 4, 5, 4, 5, 45}}},
        {"dose: 4 x 20-30 s, begin: 10 s",
         "1-2",
         {{1, 8, 8, 8, 8, 10}, {1, 5, 5, 5, 5, 15}, {2, 4, 4, 4, 4, 20}}},
        {"dose: 3 x 8-10, begin: 5",
         "1-4",
         {{1, 4, 4, 20, 20, 0}, {2, 4, 4, 24, 24, 0}, {3, 3, 3, 24, 24, 0}}},
        {"dose: 3 x 5 x 10 s, begin: 5 s", "1", {{1, 3, 3, 30, 30, 5}, {1, 3, 3, 15, 15, 10}}},
        {"dose: 10 min, begin: 4 min",
         "1-3",
         {{1, 2, 2, 2, 2, 240}, {1, 2, 2, 2, 2, 300}, {2, 1, 1, 1, 1, 420}, {3, 1, 1, 1, 1, 600}}},
        {"dose: 2 x to fatigue at most 15, begin: 10",
         "1-2",
         {{1, 2, 2, 20, 20, 0}, {2, 2, 2, 30, 30, 0}}},
    };
    for (const Row& row : rows) {
        INFO(row.line);
        CHECK(rungs_of(first(plan_stage(row.weeks, "7", {"do: hold, " + row.line}))) == row.rungs);
    }
}

TEST_CASE("start values that cannot be climbed from are findings") {
    const auto [line, id, column] = GENERATE(table<std::string, std::string, int>({
        {"dose: 5 x 45 s, begin: 5", "begin-kind", 43},
        {"dose: 3 x 10, begin: 5 s", "begin-kind", 41},
        {"dose: 5 x 45 s, begin: 45 s", "begin-above-target", 43},
        {"dose: 3 x 8-12, begin: 9", "begin-above-target", 43},
        {"dose: 30 x 600 s, begin: 1 s", "begin-too-low", 45},
    }));
    INFO(line);
    const Planned planned = plan_stage("1-2", "7", {"do: hold, " + line});
    REQUIRE(planned.findings.size() == 1);
    CHECK(planned.findings.all().front().id == id);
    CHECK(planned.findings.all().front().span.line == 10);
    CHECK(planned.findings.all().front().span.column == column);
    CHECK_FALSE(planned.findings.all().front().hint.empty());
    CHECK(planned.schedule->stages.front().exercises.front().ladder.empty());
}

TEST_CASE("ladder laws hold for generated doses") {
    constexpr unsigned seed = 45;
    INFO("seed " << seed);
    std::mt19937 random(seed);
    const auto number = [&](int low, int high) {
        return low + static_cast<int>(random() % static_cast<unsigned long>(high - low + 1));
    };
    int climbed = 0;
    for (int i = 0; i < 10000; ++i) {
        prescription::Dose dose;
        dose.sets.low = number(1, 8);
        dose.sets.high = number(dose.sets.low, 10);
        const bool is_time = number(0, 1) == 0;
        const int target = is_time ? number(2, 600) : number(2, 30);
        if (is_time) {
            dose.content = prescription::Holds{{{target}, {target + 10}}, number(1, 3), false};
        } else {
            dose.content = prescription::Repetitions{{target, target + 2}, false};
        }
        prescription::BeginValue begin;
        const int start = number(1, target - 1);
        if (is_time) {
            begin.value = Seconds{start};
        } else {
            begin.value = start;
        }
        const Range<int> weeks{number(1, 5), number(5, 12)};
        support::Findings findings;
        const auto rungs = ladder(dose, begin, weeks, findings);
        INFO(prescription::to_notation(dose) << " from " << start);
        if (rungs.empty()) {
            REQUIRE(findings.all().front().id == "begin-too-low");
            continue;
        }
        ++climbed;
        const int holds = is_time ? std::get<prescription::Holds>(dose.content).count : 1;
        const std::int64_t low = std::int64_t{dose.sets.low} * holds * target;
        const std::int64_t high = std::int64_t{dose.sets.high} * holds * target;
        std::int64_t before = 0;
        for (const Rung& rung : rungs) {
            REQUIRE(rung.count.low % rung.sets.low == 0);
            REQUIRE(rung.count.high % rung.sets.high == 0);
            const std::int64_t in_set = is_time ? rung.hold.count : rung.count.low / rung.sets.low;
            const std::int64_t of_low = is_time ? rung.count.low * in_set : rung.count.low;
            const std::int64_t of_high = is_time ? rung.count.high * in_set : rung.count.high;
            // Never more than the total, and short of it by less than one hold (one a set where
            // sets have several).
            const std::int64_t short_by = in_set * (holds > 1 ? dose.sets.high : 1);
            REQUIRE(of_low <= low);
            REQUIRE(of_high <= high);
            REQUIRE(low - of_low < short_by);
            REQUIRE(high - of_high < short_by);
            if (before > 0) {
                REQUIRE(in_set > before);
                REQUIRE(2 * (in_set - before) <= std::max<std::int64_t>(before, is_time ? 10 : 2));
            }
            before = in_set;
            REQUIRE(rung.week >= weeks.low);
            REQUIRE(rung.week <= weeks.high);
        }
        REQUIRE((is_time ? rungs.front().hold.count
                         : rungs.front().count.low / rungs.front().sets.low) == start);
        REQUIRE(before == target);
        REQUIRE(rungs.front().week == weeks.low);
    }
    CHECK(climbed > 5000);
}

namespace {

/// The fewest steps from a height to the target, and of the ways with so few the least that is lost
/// of the total: every way is walked.
std::pair<int, std::int64_t> best_way(std::int64_t height, std::int64_t target,
                                      std::int64_t total) {
    if (height == target) {
        return {0, 0};
    }
    std::pair<int, std::int64_t> best{1 << 20, 0};
    for (std::int64_t next = height + 1;
         next <= target && 2 * (next - height) <= std::max<std::int64_t>(height, 2); ++next) {
        auto [steps, lost] = best_way(next, target, total);
        best = std::min(best, {steps + 1, lost + total % next});
    }
    return best;
}

} // namespace

TEST_CASE("no way with as few rungs keeps the total better") {
    for (int target = 2; target <= 14; ++target) {
        for (int begin = 1; begin < target; ++begin) {
            for (int sets = 1; sets <= 4; ++sets) {
                prescription::Dose dose;
                dose.sets = {sets, sets};
                dose.content = prescription::Repetitions{{target, target}, false};
                support::Findings findings;
                const auto rungs = ladder(dose, {begin, {}}, {1, 4}, findings);
                INFO(prescription::to_notation(dose) << " from " << begin);
                REQUIRE_FALSE(rungs.empty());
                const int total = sets * target;
                std::int64_t lost = 0;
                for (std::size_t i = 1; i < rungs.size(); ++i) {
                    lost += total - rungs[i].count.high;
                }
                CHECK(std::pair(static_cast<int>(rungs.size()) - 1, lost) ==
                      best_way(begin, target, total));
            }
        }
    }
}
