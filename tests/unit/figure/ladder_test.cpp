// SPDX-License-Identifier: MIT
// What holds between exercises, and of bands and balance over every exercise, by formulas of its
// own.
#include <catch2/catch.hpp>

#include <cmath>
#include <map>
#include <set>

#include "every_exercise.h"

using namespace tickleaf;
using namespace tickleaf::figure;
using namespace tickleaf::figure_test;
using support::Side;

namespace {

using Names = std::vector<std::string>;

bool has(const Names& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

double length_of(const BandLine& band) {
    double sum = 0.0;
    for (std::size_t i = 1; i < band.points.size(); ++i) {
        const Point3& a = band.points[i - 1];
        const Point3& b = band.points[i];
        sum += std::sqrt((a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y) +
                         (a.z - b.z) * (a.z - b.z));
    }
    return sum;
}

} // namespace

TEST_CASE("every exercise has an easier or a harder neighbour, and they agree") {
    std::map<std::string, Facts> facts;
    for (const auto& [id, exercise] : all_exercises()) {
        facts[id] = exercise.facts();
    }
    CHECK(facts.size() >= 60);
    for (const auto& [id, own] : facts) {
        INFO(id);
        CHECK_FALSE((own.easier.empty() && own.harder.empty()));
        for (const std::string& name : own.harder) {
            INFO("harder: " << name);
            REQUIRE(facts.count(name) == 1);
            CHECK(has(facts[name].easier, id));
        }
        for (const std::string& name : own.easier) {
            INFO("easier: " << name);
            REQUIRE(facts.count(name) == 1);
            CHECK(has(facts[name].harder, id));
        }
    }
}

TEST_CASE("no chain of harder exercises comes back to where it began") {
    std::map<std::string, Names> harder;
    for (const auto& [id, exercise] : all_exercises()) {
        harder[id] = exercise.facts().harder;
    }
    for (const auto& [id, first] : harder) {
        std::set<std::string> seen;
        Names open = first;
        while (!open.empty()) {
            const std::string next = open.back();
            open.pop_back();
            if (seen.insert(next).second) {
                open.insert(open.end(), harder[next].begin(), harder[next].end());
            }
        }
        INFO(id);
        CHECK(seen.count(id) == 0);
    }
}

TEST_CASE("all kinds of exercise are there") {
    // The kinds a practitioner chooses from (common practice).
    std::map<DoseKind, int> kinds;
    int lowers_on_one = 0;
    int presses = 0;
    for (const auto& [id, exercise] : all_exercises()) {
        ++kinds[exercise.facts().dose_kind];
        lowers_on_one += id == "calf-raise-up-two-down-one" ? 1 : 0;
        support::Findings findings;
        const auto solution = solve(exercise, request_for(Side::Right, 1700), findings);
        REQUIRE(solution);
        for (const Panel& panel : solution->scene.panels) {
            presses += panel.press_at.empty() ? 0 : 1;
        }
    }
    for (const DoseKind kind : {DoseKind::Hold, DoseKind::Strength, DoseKind::Mobility,
                                DoseKind::Stretch, DoseKind::Balance, DoseKind::Walk}) {
        CHECK(kinds[kind] >= 1);
    }
    CHECK(lowers_on_one == 1);
    CHECK(presses >= 4);
}

TEST_CASE("bands fit every body: never slack, never over their limit, force by the formula") {
    int bands = 0;
    for (const auto& [id, exercise] : all_exercises()) {
        for (const double stature : {1500.0, 1700.0, 1950.0}) {
            for (const Side side : {Side::Left, Side::Right}) {
                support::Findings findings;
                const auto solution = solve(exercise, request_for(side, stature), findings);
                REQUIRE(solution);
                double least = 1e9;
                for (std::size_t p = 0; p < solution->poses.size(); ++p) {
                    for (const BandResult& band : solution->poses[p].bands) {
                        INFO(id << ' ' << stature << " pose " << p + 1);
                        ++bands;
                        least = std::min(least, band.stretch);
                        CHECK(band.stretch <= 1.5);
                        // Neo-Hookean rubber (Treloar 1975, value from memory), 22 N at double
                        // length, times the strands.
                        const double l = 1.0 + band.stretch;
                        const double one = 22.0 * (l - std::pow(l, -2.0)) / 1.75;
                        const double strands = band.force_newtons / one;
                        CHECK(strands == Approx(std::round(strands)).margin(1e-6));
                        CHECK(strands > 0.5);
                    }
                }
                if (solution->band_setup_mm) {
                    INFO(id << ' ' << stature << " set up at " << *solution->band_setup_mm);
                    // The slackest picture is near the slackest point of the movement.
                    CHECK(least >= 0.02);
                    CHECK(*solution->band_setup_mm > 100.0);
                    CHECK(*solution->band_setup_mm < 3000.0);
                }
                for (const Panel& panel : solution->scene.panels) {
                    for (const BandLine& band : panel.bands) {
                        CHECK(length_of(band) == Approx(band.length).margin(0.01));
                        CHECK(length_of(band) > 50.0);
                    }
                }
            }
        }
    }
    CHECK(bands > 60);
}

TEST_CASE("a band that is too short or stretched too far is refused") {
    const std::string head = "region: ankle\nfamily: x\nposition: sitting\nweight_bearing: none\n"
                             "dose_kind: strength\n";
    support::Findings findings;
    const auto loop = read_text(
        head + "band: {from: other forefoot, to: work forefoot, strands: 4}\nposes:\n  - {}\n",
        findings);
    REQUIRE(loop);
    Request request = request_for(Side::Right, 1700);
    request.band_rest_length_mm = 60;
    CHECK_FALSE(solve(*loop, request, findings));
    INFO(listing(findings));
    REQUIRE(findings.has_errors());
    CHECK(findings.all().front().id == "figure-band");
    CHECK(findings.all().front().span.line == 6);

    support::Findings far;
    const auto kick = read_text(head + "band: {from: work forefoot, anchor: behind, "
                                       "most_stretch: 0.1}\nposes:\n  - release: [work foot]\n"
                                       "  - work knee: 5\n",
                                far);
    REQUIRE(kick);
    request.band_rest_length_mm = 300;
    CHECK_FALSE(solve(*kick, request, far));
    INFO(listing(far));
    REQUIRE(far.has_errors());
    CHECK(far.all().front().message.find("over its limit of 10 %") != std::string::npos);
    for (const double length : {-1.0, 0.0, 49.0, 20001.0, 1e300, std::nan("")}) {
        support::Findings absurd;
        request.band_rest_length_mm = length;
        CHECK_FALSE(solve(*kick, request, absurd));
        CHECK(absurd.has_errors());
    }
}

TEST_CASE("a standing body that is not passing stands over its own feet or hands") {
    // A bound that needs no hull: the mass is inside the box round everything that is low or held.
    for (const auto& [id, exercise] : all_exercises()) {
        support::Findings findings;
        const auto solution = solve(exercise, request_for(Side::Left, 1620), findings);
        REQUIRE(solution);
        for (const SolvedPose& pose : solution->poses) {
            const bool leans = std::any_of(
                pose.contacts.begin(), pose.contacts.end(), [](const ContactResult& contact) {
                    return contact.name.find("on wall") != std::string::npos;
                });
            if (pose.passing || leans || exercise.facts().position != "standing") {
                continue;
            }
            Point3 low{1e9, 0, 1e9};
            Point3 high{-1e9, 0, -1e9};
            for (std::size_t i = 0; i < kLandmarks; ++i) {
                const auto landmark = static_cast<Landmark>(i);
                const bool hand = landmark >= Landmark::WristL && landmark <= Landmark::FingertipR;
                const bool foot = landmark >= Landmark::AnkleL;
                if (hand || foot) {
                    const Point3& p = pose.body.at(landmark);
                    low = {std::min(low.x, p.x), 0, std::min(low.z, p.z)};
                    high = {std::max(high.x, p.x), 0, std::max(high.z, p.z)};
                }
            }
            INFO(id);
            CHECK(pose.centre_of_mass.x > low.x);
            CHECK(pose.centre_of_mass.x < high.x);
            CHECK(pose.centre_of_mass.z > low.z);
            CHECK(pose.centre_of_mass.z < high.z);
        }
    }
}
