// SPDX-License-Identifier: MIT
// Keys of a pose that change what is shown, not how the body stands: where an arrow begins, what
// it turns about, how far the fingers are closed; and the rail, a prop to hold on to.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "every_exercise.h"

using namespace tickleaf;
using namespace tickleaf::figure;
using namespace tickleaf::figure_test;
using support::Side;
using L = Landmark;

namespace {

const std::string kHead =
    "region: hip\nfamily: hip\nposition: standing\nweight_bearing: both\ndose_kind: mobility\n";

Scene scene_of(const std::string& poses, Side side = Side::Right) {
    support::Findings findings;
    const auto exercise = read_text(kHead + poses, findings);
    INFO(listing(findings));
    REQUIRE(exercise);
    const auto solution = solve(*exercise, request_for(side, 1700), findings);
    INFO(listing(findings));
    REQUIRE(solution);
    return solution->scene;
}

std::string refusal(const std::string& poses) {
    support::Findings findings;
    CHECK_FALSE(read_text(kHead + poses, findings));
    return listing(findings);
}

double apart(const Point3& a, const Point3& b) {
    return std::hypot(a.x - b.x, a.y - b.y, a.z - b.z);
}

/// Three ways of the leg, the second without a picture.
std::string three_poses(const std::string& key) {
    return "poses:\n"
           "  - release: [work foot]\n"
           "    passing: true\n"
           "    work hip: {extension: 20}\n"
           "  - passing: true\n"
           "    panel: false\n" +
           key +
           "    work hip: {flexion: 10}\n"
           "  - passing: true\n"
           "    work hip: {flexion: 60}\n"
           "    arrow: work knee\n";
}

} // namespace

TEST_CASE("what begins without a picture is where the next arrow and pale picture begin") {
    const Scene plain = scene_of(three_poses(""));
    const Scene begun = scene_of(three_poses("    begins: true\n"));
    REQUIRE(plain.panels.size() == 2);
    REQUIRE(begun.panels.size() == 2);
    const Body& extended = plain.panels[0].body;
    REQUIRE(plain.panels[1].arrows.size() == 1);
    REQUIRE(begun.panels[1].arrows.size() == 1);
    REQUIRE(plain.panels[1].ghost);
    REQUIRE(begun.panels[1].ghost);
    // Without the key: from the last picture, where the hip is extended and the knee behind it.
    CHECK(apart(plain.panels[1].arrows[0].path.front(), extended.at(L::KneeR)) < 1e-9);
    CHECK(apart(plain.panels[1].ghost->at(L::KneeR), extended.at(L::KneeR)) < 1e-9);
    // With it: from the flexed hip that has no picture, the knee before it.
    const Point3& first = begun.panels[1].arrows[0].path.front();
    CHECK(first.x > begun.panels[1].body.at(L::HipR).x + 50.0);
    CHECK(apart(first, begun.panels[1].ghost->at(L::KneeR)) < 1e-9);
    CHECK(first.x < begun.panels[1].body.at(L::KneeR).x - 100.0);
    CHECK(apart(begun.panels[1].arrows[0].path.back(), begun.panels[1].body.at(L::KneeR)) < 1e-9);
    // Where the body stands is the same.
    CHECK(apart(plain.panels[1].body.at(L::KneeR), begun.panels[1].body.at(L::KneeR)) < 1e-9);
    CHECK(refusal(three_poses("    begins: knee\n")).find("12:") == 0);
}

TEST_CASE("an arrow about a joint is the way as that joint sees it") {
    // Hip and knee flexion together: the heel goes up with the knee, and turns about it.
    const std::string start = "poses:\n  - release: [work foot]\n    passing: true\n"
                              "  - passing: true\n    work hip: {flexion: 40}\n"
                              "    work knee: 70\n    arrow: work heel\n    return: true\n";
    for (const Side side : {Side::Right, Side::Left}) {
        const bool right = side == Side::Right;
        const Panel plain = scene_of(start, side).panels.back();
        const Panel turned = scene_of(start + "    about: work knee\n", side).panels.back();
        REQUIRE(plain.arrows.size() == 2);
        REQUIRE(turned.arrows.size() == 2);
        CHECK_FALSE(plain.arrows[0].about);
        const Point3 knee = turned.body.at(right ? L::KneeR : L::KneeL);
        const Point3 heel = turned.body.at(right ? L::HeelR : L::HeelL);
        for (const MovementArrow& arrow : turned.arrows) {
            REQUIRE(arrow.about);
            CHECK(apart(*arrow.about, knee) < 1e-9);
            for (const Point3& p : arrow.path) {
                CHECK(apart(p, knee) == Approx(apart(heel, knee)).margin(5.0));
            }
            // Knee flexion brings the heel behind the knee; seen from the knee it does nothing
            // else.
            const Point3& begin = arrow.is_return ? arrow.path.back() : arrow.path.front();
            const Point3& end = arrow.is_return ? arrow.path.front() : arrow.path.back();
            CHECK(apart(end, heel) < 1e-9);
            CHECK(end.x < begin.x - 100.0);
        }
        // The way in the room is another one.
        CHECK(apart(plain.arrows[0].path.front(), turned.arrows[0].path.front()) > 100.0);
        CHECK(apart(plain.arrows[0].path.back(), turned.arrows[0].path.back()) < 1e-9);
    }
    CHECK(refusal("poses:\n  - arrow: work toe\n    about: work tail\n") ==
          "8:12 unknown point of the body \"work tail\" [figure-word]\n");
}

TEST_CASE("a view of a pose is that of its picture alone") {
    const std::string poses = "poses:\n  - {}\n  - view: front\n  - work knee: 10\n";
    for (const Side side : {Side::Right, Side::Left}) {
        const Scene scene = scene_of("view: back\n" + poses, side);
        REQUIRE(scene.panels.size() == 3);
        CHECK(scene.view == View::Back);
        CHECK_FALSE(scene.panels[0].view);
        CHECK(scene.panels[1].view == View::Front);
        CHECK_FALSE(scene.panels[2].view);
    }
    CHECK(refusal("poses:\n  - view: inside\n") == "7:11 unknown view \"inside\" [figure-word]\n");
}

TEST_CASE("fingers are flexed as far as the file says, of the hand that it names") {
    const std::string poses = "poses:\n  - work fingers: 30\n  - other fingers: 60\n"
                              "  - both fingers: 0\n";
    using Fingers = std::array<double, 2>;
    const Scene right = scene_of(poses);
    REQUIRE(right.panels.size() == 3);
    CHECK(right.panels[0].body.fingers == Fingers{0, 30});
    CHECK(right.panels[1].body.fingers == Fingers{60, 30});
    CHECK(right.panels[1].ghost->fingers == Fingers{0, 30});
    CHECK(right.panels[2].body.fingers == Fingers{0, 0});
    const Scene left = scene_of(poses, Side::Left);
    CHECK(left.panels[0].body.fingers == Fingers{30, 0});
    CHECK(left.panels[1].body.fingers == Fingers{30, 60});
    for (const char* bad : {"91", "-1", ".nan", "1e300"}) {
        INFO(bad);
        CHECK(refusal(std::string("poses:\n  - work fingers: ") + bad + "\n").find("7:19 ") == 0);
    }
    CHECK(refusal("poses:\n  - fingers: 20\n").find("[figure-") != std::string::npos);
}

TEST_CASE("the hand that holds a thing is closed round it, and the thing is before its palm") {
    const std::string props = "props: {weight: {place: work-hand}}\n"
                              "poses:\n  - work forearm: 0\n  - work fingers: 10\n";
    for (const Side side : {Side::Right, Side::Left}) {
        const std::size_t works = side == Side::Right ? 1 : 0;
        const double medial = works == 1 ? -1.0 : 1.0;
        const Scene scene = scene_of(props, side);
        const Panel& panel = scene.panels.front();
        CHECK(panel.body.fingers[works] > 60.0);
        CHECK(panel.body.fingers[1 - works] == 0.0);
        CHECK(scene.panels.back().body.fingers[works] == 10.0);
        // A hanging forearm between pronation and supination: the palm looks to the middle.
        REQUIRE(panel.props.size() == 1);
        const Point3& knuckle = panel.body.at(works == 1 ? L::KnuckleR : L::KnuckleL);
        CHECK((panel.props[0].at.z - knuckle.z) * medial > 15.0);
    }
    const Scene both = scene_of("props: {stick: {place: both-hands}}\nposes:\n  - {}\n");
    CHECK(both.panels[0].body.fingers[0] > 60.0);
    CHECK(both.panels[0].body.fingers[1] > 60.0);
    const Scene strap =
        scene_of("strap: {from: both hand, round: work forefoot}\nposes:\n  - {}\n");
    CHECK(strap.panels[0].body.fingers[0] > 60.0);
    CHECK(strap.panels[0].body.fingers[1] > 60.0);
}

TEST_CASE("a hand on the weight in the other hand is under its end") {
    const Scene scene =
        scene_of("props: {weight: {place: work-hand}}\nposes:\n"
                 "  - work shoulder: {flexion: 20}\n    work elbow: 80\n    work forearm: 80\n"
                 "    contacts: [other hand on work weight]\n");
    const Panel& panel = scene.panels.front();
    const Point3& weight = panel.props.at(0).at;
    const Point3& helper = panel.body.at(L::KnuckleL);
    CHECK(helper.y < weight.y - 15.0);
    CHECK(apart(helper, weight) < 130.0);
    CHECK(apart(helper, panel.body.at(L::KnuckleR)) > 50.0); // beside the fist, not in it
    CHECK(refusal("poses:\n  - contacts: [other hand on work weight]\n") ==
          "7:16 there is no weight for this contact [figure-prop]\n");
}

TEST_CASE(
    "a rail stands beside the body at the height that the file says, and is held from above") {
    for (const Side side : {Side::Right, Side::Left}) {
        const double other = side == Side::Right ? -1.0 : 1.0;
        const Scene scene =
            scene_of("props: {rail: {place: other-side, gap: 0.17, along: -0.1, height_cm: 95}}\n"
                     "poses:\n  - contacts: [other hand on rail]\n",
                     side);
        REQUIRE(scene.props.size() == 1);
        const Prop& rail = scene.props.front();
        CHECK(rail.kind == Prop::Kind::Rail);
        CHECK(rail.height == 950.0);
        CHECK(rail.at.z * other == Approx(0.17 * 1700 + rail.depth / 2));
        CHECK(std::abs(rail.at.x) == Approx(0.1 * 1700));
        const Body& body = scene.panels.front().body;
        const bool left_holds = side == Side::Right;
        const Point3& knuckle = body.at(left_holds ? L::KnuckleL : L::KnuckleR);
        CHECK(knuckle.y == Approx(950.0 + 0.010 * 1700).margin(2.0));
        CHECK(std::abs(knuckle.z - rail.at.z) < 120.0);
        // The hand that does not hold hangs below it.
        CHECK(body.at(left_holds ? L::KnuckleR : L::KnuckleL).y < 850.0);
    }
    CHECK(refusal("poses:\n  - contacts: [other hand on rail]\n") ==
          "7:16 there is no rail for this contact [figure-prop]\n");
}
