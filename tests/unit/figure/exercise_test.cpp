// SPDX-License-Identifier: MIT
// Every exercise of figures/ at three statures and on both sides; and files that must be refused.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "every_exercise.h"
#include "figure/parts.h"

using namespace tickleaf;
using namespace tickleaf::figure;
using namespace tickleaf::figure_test;
using support::Side;

namespace {

Landmark across(Landmark landmark) {
    const int first = static_cast<int>(Landmark::ShoulderL);
    const int index = static_cast<int>(landmark);
    return index < first ? landmark : static_cast<Landmark>(first + ((index - first) ^ 1));
}

bool is_mirrored(const Body& a, const Body& b) {
    for (std::size_t i = 0; i < kLandmarks; ++i) {
        const Point3& p = a.points[i];
        const Point3& q = b.at(across(static_cast<Landmark>(i)));
        if (p.x != q.x || p.y != q.y || p.z != -q.z) {
            return false;
        }
    }
    return true;
}

/// Largest angle change of a side between the first and a later pose.
double movement_of(const Solution& solution, Side side) {
    double most = 0.0;
    const auto& first = solution.poses.front().angles;
    for (const SolvedPose& pose : solution.poses) {
        for (std::size_t i = 0; i < first.size(); ++i) {
            const bool leg =
                first[i].joint == "ankle" || first[i].joint == "knee" || first[i].joint == "hip";
            if (first[i].side == side && leg) {
                most = std::max(most, std::abs(pose.angles[i].degrees - first[i].degrees));
            }
        }
    }
    return most;
}

const char* const kHead =
    "region: ankle\nfamily: calf\nposition: standing\nweight_bearing: both\ndose_kind: strength\n";

} // namespace

TEST_CASE("every exercise solves for every body and both sides") {
    for (const auto& [id, exercise] : all_exercises()) {
        for (const double stature : {1500.0, 1700.0, 1950.0}) {
            support::Findings findings;
            const auto right = solve(exercise, request_for(Side::Right, stature), findings);
            const auto left = solve(exercise, request_for(Side::Left, stature), findings);
            INFO(id << " at " << stature << '\n' << listing(findings));
            CHECK(right);
            CHECK(left);
            if (!right || !left) {
                continue; // the other exercises are checked all the same
            }
            for (const SolvedPose& pose : right->poses) {
                for (const ContactResult& contact : pose.contacts) {
                    INFO(contact.name);
                    CHECK(contact.miss_mm <= 2.0);
                }
                for (const JointAngle& angle : pose.angles) {
                    const auto named = find_dof(angle.joint, angle.movement);
                    REQUIRE(named);
                    const DofInfo& info = dof_info(named->dof);
                    INFO(angle.joint << ' ' << angle.movement << ' ' << angle.degrees);
                    CHECK(named->sign * angle.degrees <= info.high + 1e-9);
                    CHECK(named->sign * angle.degrees >= info.low - 1e-9);
                }
                for (const Point3& point : pose.body.points) {
                    CHECK(std::isfinite(point.x + point.y + point.z));
                    CHECK(point.y > -2.0);
                }
                if (!pose.passing) {
                    CHECK(pose.balance_margin_mm >= 0.0);
                }
                for (const BandResult& band : pose.bands) {
                    CHECK(band.stretch > 0.0);
                    CHECK(band.stretch < 2.5);
                    CHECK(band.force_newtons > 0.0);
                }
            }
        }
    }
}

TEST_CASE("no body is stuck between two that pass") {
    // Sizes at which one search from the authored pose ends too early.
    struct Row {
        const char* id;
        double stature;
    };
    const Row rows[] = {{"arm-slide-wall", 1588},  {"wrist-lower-weight", 1602},
                        {"step-up", 1802},         {"calf-stretch-wall", 1946},
                        {"neck-side-press", 1982}, {"seated-trunk-turn", 1502}};
    for (const auto& [id, exercise] : all_exercises()) {
        for (const Row& row : rows) {
            if (id != row.id) {
                continue;
            }
            for (const Side side : {Side::Right, Side::Left}) {
                support::Findings findings;
                const auto solution = solve(exercise, request_for(side, row.stature), findings);
                INFO(id << " at " << row.stature << '\n' << listing(findings));
                CHECK(solution);
            }
        }
    }
}

TEST_CASE("near the front edge, feet behind the knees, as the words of standing up ask") {
    for (const auto& [id, exercise] : all_exercises()) {
        if (id != "sit-to-stand") {
            continue;
        }
        for (const double stature : {1500.0, 1700.0, 1950.0}) {
            support::Findings findings;
            const auto solution = solve(exercise, request_for(Side::Right, stature), findings);
            REQUIRE(solution);
            const Prop& chair = solution->scene.props.front();
            REQUIRE(chair.kind == Prop::Kind::Chair);
            const double edge = chair.at.x + chair.depth / 2;
            const Body& body = solution->poses.front().body;
            CHECK(edge == Approx(0.1 * stature));
            // On the seat, but nearer its front edge than its back rest.
            CHECK(body.at(Landmark::Pelvis).x < edge);
            CHECK(edge - body.at(Landmark::Pelvis).x < chair.depth / 2);
            CHECK(body.at(Landmark::AnkleR).x < body.at(Landmark::KneeR).x);
        }
    }
}

TEST_CASE("a press against a wall is drawn on the wall's face") {
    for (const auto& [id, exercise] : all_exercises()) {
        if (id != "shoulder-press-out-wall" && id != "ankle-press-out") {
            continue;
        }
        INFO(id);
        support::Findings findings;
        const auto solution = solve(exercise, request_for(Side::Right, 1700), findings);
        REQUIRE(solution);
        const auto wall =
            std::find_if(solution->scene.props.begin(), solution->scene.props.end(),
                         [](const Prop& prop) { return prop.kind == Prop::Kind::Wall; });
        REQUIRE(wall != solution->scene.props.end());
        const Panel& pressing = solution->scene.panels.back();
        REQUIRE(pressing.press_at.size() == 1);
        CHECK(pressing.press_at[0].z == Approx(wall->at.z - wall->depth / 2));
    }
}

TEST_CASE("left is right in a mirror, working side and near side included") {
    for (const auto& [id, exercise] : all_exercises()) {
        INFO(id);
        support::Findings findings;
        const auto right = solve(exercise, request_for(Side::Right, 1700), findings);
        const auto left = solve(exercise, request_for(Side::Left, 1700), findings);
        REQUIRE(right);
        REQUIRE(left);
        const bool other_near = // near: other
            id == "side-plank-knees" || id == "one-leg-reach" || id == "shoulder-press-out-wall";
        CHECK(right->scene.near_side == (other_near ? Side::Left : Side::Right));
        CHECK(left->scene.near_side == support::opposite(right->scene.near_side));
        REQUIRE(right->scene.panels.size() == left->scene.panels.size());
        REQUIRE_FALSE(right->scene.panels.empty());
        for (std::size_t i = 0; i < right->scene.panels.size(); ++i) {
            const Panel& a = right->scene.panels[i];
            const Panel& b = left->scene.panels[i];
            CHECK(is_mirrored(a.body, b.body));
            CHECK(a.ghost.has_value() == b.ghost.has_value());
            REQUIRE(a.arrows.size() == b.arrows.size());
            for (std::size_t k = 0; k < a.arrows.size(); ++k) {
                CHECK(a.arrows[k].path.back().z == -b.arrows[k].path.back().z);
                CHECK(a.arrows[k].path.back().x == b.arrows[k].path.back().x);
            }
        }
        REQUIRE_FALSE(right->scene.working.empty());
        for (std::size_t i = 0; i < right->scene.working.size(); ++i) {
            CHECK(left->scene.working[i].side == support::opposite(right->scene.working[i].side));
            if (exercise.facts().has_sides) {
                CHECK(right->scene.working[i].side != Side::Left);
            }
        }
        // Where an ankle exercise moves a limb, it moves the prescribed one.
        if (id == "ankle-pumps" || id == "ankle-turn-out-band") {
            CHECK(movement_of(*right, Side::Right) > 10.0);
            CHECK(movement_of(*right, Side::Left) < 6.0);
            CHECK(movement_of(*left, Side::Left) > 10.0);
            CHECK(movement_of(*left, Side::Right) < 6.0);
        }
    }
}

TEST_CASE("solving is repeatable to the last bit") {
    for (const auto& [id, exercise] : all_exercises()) {
        support::Findings findings;
        const auto once = solve(exercise, request_for(Side::Right, 1620), findings);
        const auto twice = solve(exercise, request_for(Side::Right, 1620), findings);
        INFO(id << '\n' << listing(findings));
        REQUIRE(once);
        REQUIRE(twice);
        for (std::size_t p = 0; p < once->poses.size(); ++p) {
            for (std::size_t i = 0; i < kLandmarks; ++i) {
                CHECK(once->poses[p].body.points[i].x == twice->poses[p].body.points[i].x);
                CHECK(once->poses[p].body.points[i].y == twice->poses[p].body.points[i].y);
            }
        }
    }
}

TEST_CASE("every start position can be taken") {
    for (const std::string& word : start_words()) {
        const std::string text = "region: ankle\nfamily: none\nposition: " + word +
                                 "\nweight_bearing: none\ndose_kind: mobility\nposes:\n  - {}\n";
        for (const double stature : {1500.0, 1700.0, 1950.0}) {
            support::Findings findings;
            const auto exercise = read_text(text, findings);
            REQUIRE(exercise);
            const auto solution = solve(*exercise, request_for(Side::Right, stature), findings);
            INFO(word << ' ' << stature << '\n' << listing(findings));
            CHECK(solution);
        }
    }
}

TEST_CASE("what is wrong in a file is found at its place") {
    const std::string head = kHead;
    const std::vector<std::pair<std::string, std::string>> rows{
        {head + "poses:\n  - work ankel: 10\n", "7:5 unknown joint \"ankel\" [figure-word]\n"},
        {head + "poses:\n  - work knee: 170\n", "7:16 knee flexion of 170 degrees is outside the "
                                                "normal range, which ends at 150 [figure-range]\n"},
        {head + "poses:\n  - work knee: {extension: 20}\n",
         "7:28 knee extension of 20 degrees is outside the normal range, which ends at 0 "
         "[figure-range]\n"},
        {head + "poses:\n  - knee: 10\n", "7:5 \"knee\" does not say which side [figure-side]\n"},
        {head + "poses:\n  - contacts: [work foot on moon]\n",
         "7:16 unknown place \"moon\" [figure-word]\n"},
        {head + "poses:\n  - contacts: [both hand on wall]\n",
         "7:16 there is no wall for this contact [figure-prop]\n"},
        {head + "props: {sofa: {place: front}}\nposes:\n  - {}\n",
         "6:9 unknown prop \"sofa\" [figure-word]\n"},
        {head + "poses:\n  - work hip: 20\n",
         "7:15 the hip moves in more than one way, but only \"20\" is given [figure-movement]\n"},
        {head + "poses: []\n",
         "6:8 poses should be a list of 1 to 6, found a list [figure-poses]\n"},
        {head + "poses:\n  - panel: false\n", "7:5 no pose has a picture [figure-poses]\n"},
        {head + "props: {chair: {place: front, gap: -3}}\nposes:\n  - {}\n",
         "6:36 gap is outside 0 to 1.5 [figure-range]\n"},
        {head + "props: {chair: {place: front, height_cm: 0}}\nposes:\n  - {}\n",
         "6:42 height_cm is outside 1 to 250 [figure-range]\n"},
        {head + "props: {chair: {place: nowhere}}\nposes:\n  - {}\n",
         "6:24 unknown place of a prop \"nowhere\" [figure-word]\n"},
        {head + "poses:\n  - detail: {part: work ankle, radius: 0}\n",
         "7:40 the detail's radius is outside 0.02 to 0.5 of stature [figure-range]\n"},
        {head + "poses:\n  - arrow: work tail\n",
         "7:12 unknown point of the body \"work tail\" [figure-word]\n"},
        {head + "poses:\n  - press: {part: work heel, towards: heaven}\n",
         "7:39 unknown direction \"heaven\" [figure-word]\n"},
        {head + "poses:\n  - release: [both seat]\n",
         "7:15 \"both seat\" has a side, but there is only one of it [figure-side]\n"},
        {head + "band: {from: work forefoot, anchor: front, start_stretch: -1}\nposes:\n  - {}\n",
         "6:59 start_stretch is outside 0.02 to 1 [figure-range]\n"},
        {head + "band: {from: work forefoot, anchor: front, strands: 100000000000}\n"
                "poses:\n  - {}\n",
         "6:53 strands is outside 1 to 4 [figure-range]\n"},
        {head + "band: {from: work nose, anchor: front}\nposes:\n  - {}\n",
         "6:14 unknown place for a band \"work nose\" [figure-word]\n"},
        {head + "band: {from: work forefoot}\nposes:\n  - {}\n",
         "6:7 the band needs either \"to\" or \"anchor\" for its other end [figure-band]\n"},
        {head + "band: {from: work forefoot, to: work forefoot}\nposes:\n  - {}\n",
         "6:33 the band does not run between two places of the body [figure-band]\n"},
        {head + "band: {from: both hand, to: work forefoot}\nposes:\n  - {}\n",
         "6:29 the band does not run between two places of the body [figure-band]\n"},
    };
    for (const auto& [text, expected] : rows) {
        support::Findings findings;
        CHECK_FALSE(read_text(text, findings));
        CHECK(listing(findings) == expected);
    }
    for (const char* number : {".nan", ".inf", "1e300", "-1e300", "nan", "0x10"}) {
        support::Findings findings;
        INFO(number);
        CHECK_FALSE(read_text(head + "poses:\n  - work knee: " + number + "\n", findings));
        CHECK(findings.has_errors());
        CHECK(findings.all().front().span.line == 7);
    }
    support::Findings several;
    CHECK_FALSE(read_text(
        "position: flying\ndose_kind: x\nposes:\n  - wrok knee: 1\n  - trunk: {flexion: 99}\n",
        several));
    CHECK(several.size() >= 6);
}

TEST_CASE("a contact out of reach is named with its miss") {
    support::Findings far;
    const auto reach = read_text(
        std::string(kHead) +
            "props:\n  chair: {place: front, gap: 1.4}\n  wall: {place: behind, gap: 0.1}\n"
            "poses:\n  - contacts: [both hand on chair-back, back on wall]\n",
        far);
    REQUIRE(reach);
    CHECK_FALSE(solve(*reach, request_for(Side::Left, 1700), far));
    const std::string text = listing(far);
    INFO(text);
    CHECK(text.find("10:16 the contact left hand on chair-back is missed by") != std::string::npos);
    CHECK(text.find("mm at a stature of 170 cm [figure-contact]") != std::string::npos);

    support::Findings slid;
    const auto walks =
        read_text(std::string(kHead) + "props: {wall: {place: front, gap: 1.0}}\nposes:\n  - {}\n"
                                       "  - contacts: [both hand on wall]\n",
                  slid);
    REQUIRE(walks);
    CHECK_FALSE(solve(*walks, request_for(Side::Right, 1700), slid));
    CHECK(slid.has_errors());
}

TEST_CASE("a patient's measures out of bounds are refused") {
    support::Findings findings;
    const auto exercise = read_text(std::string(kHead) + "poses:\n  - {}\n", findings);
    REQUIRE(exercise);
    for (const double stature : {0.0, -5.0, 999.0, 2301.0, 1e12, std::nan("")}) {
        support::Findings own;
        CHECK_FALSE(solve(*exercise, request_for(Side::Right, stature), own));
        CHECK(own.has_errors());
    }
}

TEST_CASE("things that move with the body stay with it") {
    const std::string head = kHead;
    support::Findings findings;
    const auto lifts = read_text(head + "props: {weight: {place: work-hand}}\nposes:\n  - {}\n"
                                        "  - work shoulder: {flexion: 80}\n",
                                 findings);
    REQUIRE(lifts);
    const auto held = solve(*lifts, request_for(Side::Left, 1700), findings);
    REQUIRE(held);
    CHECK(held->scene.props.empty());
    for (const Panel& panel : held->scene.panels) {
        REQUIRE(panel.props.size() == 1);
        const Point3& hand = panel.body.at(Landmark::KnuckleL);
        const Point3& at = panel.props.front().at;
        CHECK(std::hypot(at.x - hand.x, at.y - hand.y, at.z - hand.z) < 30.0);
    }

    // The ball touches the calf: its middle is a radius and the flesh away from the shank.
    for (const auto& [id, exercise] : all_exercises()) {
        if (id != "bridge-feet-on-ball") {
            continue;
        }
        const auto rolls = solve(exercise, request_for(Side::Right, 1700), findings);
        REQUIRE(rolls);
        for (const Panel& panel : rolls->scene.panels) {
            REQUIRE(panel.props.size() == 1);
            const Prop& ball = panel.props.front();
            const Point3& knee = panel.body.at(Landmark::KneeR);
            const Point3& ankle = panel.body.at(Landmark::AnkleR);
            const double length = std::hypot(ankle.x - knee.x, ankle.y - knee.y);
            const double across = ((ball.at.x - knee.x) * (ankle.y - knee.y) -
                                   (ball.at.y - knee.y) * (ankle.x - knee.x)) /
                                  length;
            CHECK(std::abs(across) == Approx(ball.height / 2 + 0.027 * 1700).margin(1.0));
            CHECK(ball.at.x > knee.x);
            CHECK(ball.at.x < ankle.x);
            CHECK(ball.at.y == ball.height / 2);
        }
    }

    // A strap runs from hand to sole to hand, and has no force.
    const auto pulls = read_text(
        head + "strap: {from: both hand, round: work forefoot}\nposes:\n  - {}\n", findings);
    REQUIRE(pulls);
    const auto strapped = solve(*pulls, request_for(Side::Right, 1700), findings);
    REQUIRE(strapped);
    CHECK(strapped->scene.panels.front().bands.front().points.size() == 3);
    CHECK(strapped->poses.front().bands.empty());

    support::Findings wrong;
    CHECK_FALSE(read_text(head + "strap: {from: both hand, round: work nose}\nposes:\n"
                                 "  - press: {part: head}\n",
                          wrong));
    CHECK(wrong.size() == 2);
}
