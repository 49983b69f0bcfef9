// SPDX-License-Identifier: MIT
// Hands, flat and closed; weights in a fist; bows about a joint; the rail beside the table.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "draw/draw.h"
#include "draw/palette.h"
#include "draw/part.h"
#include "draw/props.h"
#include "hand_made.h"

namespace draw = tickleaf::draw;
namespace page = tickleaf::page;
namespace figure = tickleaf::figure;
using draw::Box;
using figure::Prop;
using figure::View;
using tickleaf::draw_test::heel_raise;
using tickleaf::support::Side;

namespace {

constexpr double kStature = 1700.0;

/// A hand that hangs with its thumb to the front: the palm looks to the middle of the body.
draw::Hand hanging(bool right, double flexion) {
    const double z = right ? 250.0 : -250.0;
    return {{0, 800, z}, {0, 705, z}, {0, 616, z}, {54, 701, z}, flexion, right};
}

draw::Part drawn(const draw::Hand& hand, View view, double scale) {
    draw::Part part;
    draw::shape_hand(part, hand, kStature, draw::Camera(view, Side::Right, scale));
    return part;
}

Box box_of(const draw::Part& part) {
    Box box;
    for (const draw::Piece& piece : part.outline) {
        box.add(draw::extent(piece));
    }
    return box;
}

std::size_t subpaths(const page::Path& path) {
    return static_cast<std::size_t>(
        std::count_if(path.begin(), path.end(), [](const page::PathStep& step) {
            return step.kind == page::PathStep::Kind::Move;
        }));
}

} // namespace

TEST_CASE("fingers flex to the palm, of the right hand and of the left") {
    // From the front the body's right is on the left of the paper.
    for (const bool right : {true, false}) {
        const double medial = right ? 1.0 : -1.0;
        const Box flat = box_of(drawn(hanging(right, 0), View::Front, 0.1));
        const Box fist = box_of(drawn(hanging(right, 85), View::Front, 0.1));
        const double middle = right ? -25.0 : 25.0;
        const auto palm_edge = [&](const Box& box) {
            return ((medial > 0 ? box.right : box.left) - middle) * medial;
        };
        const auto back_edge = [&](const Box& box) {
            return (middle - (medial > 0 ? box.left : box.right)) * medial;
        };
        CHECK(palm_edge(fist) > palm_edge(flat) + 2.0);
        CHECK(back_edge(fist) == Approx(back_edge(flat)).margin(1.0));
        CHECK(fist.height() < flat.height() - 3.0);
    }
}

TEST_CASE("a hand a little bent is as long as a flat one, within its curve") {
    const Box flat = box_of(drawn(hanging(true, 0), View::Side, 0.1));
    const Box bent = box_of(drawn(hanging(true, 5), View::Side, 0.1));
    CHECK(bent.height() == Approx(flat.height()).margin(0.6));
    CHECK(bent.width() == Approx(flat.width()).margin(1.5));
}

TEST_CASE(
    "fingers are told apart in a close-up alone, from the back of a fist, not from its edge") {
    CHECK(drawn(hanging(true, 0), View::Side, 0.08).lines.empty());
    // Three gaps, along two bones each.
    CHECK(subpaths(drawn(hanging(true, 0), View::Side, 0.15).lines) == 6);
    CHECK(drawn(hanging(true, 0), View::Front, 0.15).lines.empty());
    // Of a fist the second bones look to the palm, and the first to the floor.
    CHECK(drawn(hanging(true, 90), View::Side, 0.15).lines.empty());
    CHECK(subpaths(drawn(hanging(true, 60), View::Side, 0.15).lines) == 3);
}

TEST_CASE("a weight is a bar behind the fist and an end on each side of it") {
    Prop weight;
    weight.kind = Prop::Kind::Weight;
    weight.at = {0, 700, 200};
    weight.width = 180;
    weight.height = 100;
    const auto front =
        draw::prop_parts(weight, draw::Camera(View::Front, Side::Right, 0.1), kStature);
    REQUIRE(front.size() == 3);
    const Box bar = box_of(front[0]);
    for (std::size_t i = 1; i < 3; ++i) {
        CHECK(front[i].tone == draw::Tone::Heavy);
        CHECK(front[i].lift == 0.0);
        CHECK(front[0].lift < -10.0);
        CHECK(box_of(front[i]).height() == Approx(10.0).margin(0.3));
        CHECK(box_of(front[i]).height() > 2.0 * bar.height());
        CHECK(box_of(front[i]).width() < 0.3 * bar.width());
    }
    CHECK(bar.width() == Approx(18.0));
    // Seen from its face an end would hide the hand.
    for (const auto& part :
         draw::prop_parts(weight, draw::Camera(View::Side, Side::Right, 0.1), kStature)) {
        CHECK(part.lift < -10.0);
    }
}

TEST_CASE("a strap comes out of the fists and lies across the sole, with no white over the foot") {
    figure::Scene scene = heel_raise(View::Side);
    scene.panels.resize(1);
    scene.props.clear();
    figure::Panel& panel = scene.panels.front();
    const figure::Body& body = panel.body;
    const auto ball = [&](Side side) {
        return draw::between(body.at(side == Side::Left ? figure::Landmark::BallInnerL
                                                        : figure::Landmark::BallInnerR),
                             body.at(side == Side::Left ? figure::Landmark::BallOuterL
                                                        : figure::Landmark::BallOuterR),
                             0.5);
    };
    const figure::Point3 sole = ball(Side::Right);
    panel.bands = {{{body.at(figure::Landmark::KnuckleR), sole}, 900.0, false, false, true}};
    // By their widths: the white clears the way, the dark is the strap with its turn round the
    // foot.
    Box white;
    Box dark;
    double whitest = 0.0;
    for (const page::Shape& shape : draw::draw(scene, {}).shapes) {
        if (!shape.stroke || shape.fill) {
            continue;
        }
        const Box box = draw::extent(shape.placed());
        if (shape.stroke->colour == draw::kWhite && shape.stroke->width > 6.0) {
            white = box;
            whitest = shape.stroke->width;
        }
        if (shape.stroke->colour == draw::kInk && shape.stroke->width > 4.0) {
            dark = box;
        }
    }
    REQUIRE(whitest > 6.0);
    REQUIRE_FALSE(dark.is_empty());
    CHECK(dark.bottom > white.bottom + 4.0); // the strap reaches the sole, the white does not
    CHECK(dark.top < white.top - 4.0);       // nor does it cross the fist
}

TEST_CASE("an arrow about a joint is a bow round it, the way back outside") {
    figure::Scene scene = heel_raise();
    scene.panels.erase(scene.panels.begin());
    figure::Panel& panel = scene.panels.front();
    panel.ghost.reset();
    panel.repeats = false;
    panel.hold_seconds.reset();
    scene.props.clear();
    // A turn of a few degrees: a dot at its true length.
    const figure::Point3 about{100, 300, 90};
    panel.arrows = {{{{150, 300, 90}, {149, 306, 90}, {148, 312, 90}}, false, about}};
    const auto length_of_arrow = [](const page::Drawing& drawing) {
        double most = 0.0;
        for (const page::Shape& shape : drawing.shapes) {
            if (shape.stroke && shape.stroke->colour == draw::kArrow) {
                const Box box = draw::extent(shape.path);
                most = std::max(most, std::hypot(box.width(), box.height()));
            }
        }
        return most;
    };
    const page::Drawing once = draw::draw(scene, {});
    const double there = length_of_arrow(once);
    CHECK(there > 8.0);
    panel.arrows[0].path = {{148, 312, 90}, {149, 306, 90}, {150, 300, 90}};
    panel.arrows[0].is_return = true;
    CHECK(length_of_arrow(draw::draw(scene, {})) > there + 3.0);
    // The other way round, the bow runs the other way: anticlockwise on paper goes up on its right.
    const auto head_of = [](const page::Drawing& drawing) {
        for (const page::Shape& shape : drawing.shapes) {
            if (shape.fill == draw::kArrow && !shape.stroke) {
                return shape.placed();
            }
        }
        return page::Path{};
    };
    const page::Path up = head_of(once);
    panel.arrows = {{{{150, 300, 90}, {149, 294, 90}, {148, 288, 90}}, false, about}};
    const page::Path down = head_of(draw::draw(scene, {}));
    REQUIRE(up.size() >= 3);
    REQUIRE(down.size() >= 3);
    CHECK(up[2].to.y < (up[0].to.y + up[1].to.y) / 2.0 - 3.0);
    CHECK(down[2].to.y > (down[0].to.y + down[1].to.y) / 2.0 + 3.0);
}

TEST_CASE("a rail has posts on the floor and bars that hang above it, a table has neither bars") {
    Prop rail;
    rail.kind = Prop::Kind::Rail;
    rail.yaw_degrees = -90;
    rail.width = 1000;
    rail.depth = 40;
    rail.height = 1000;
    const draw::Camera camera(View::Side, Side::Right, 0.1);
    const auto parts = draw::prop_parts(rail, camera, kStature);
    REQUIRE(parts.size() == 1);
    const Box box = box_of(parts[0]);
    CHECK(box.top == Approx(-100.0).margin(0.1));
    CHECK(box.bottom == Approx(0.0).margin(0.1));
    CHECK(box.width() == Approx(100.0).margin(0.1));
    std::size_t posts = 0;
    std::size_t bars = 0;
    for (const auto& ring : draw::flattened(parts[0].outline.front().path)) {
        Box one;
        for (const page::Point p : ring) {
            one.add(p);
        }
        if (one.width() < 6.0 && one.height() > 50.0) {
            (one.bottom > -0.1 ? posts : bars) += 1;
        }
    }
    CHECK(posts == 2);
    CHECK(bars >= 3);
    CHECK(draw::is_furniture(Prop::Kind::Rail));
    rail.kind = Prop::Kind::Table;
    CHECK(subpaths(draw::prop_parts(rail, camera, kStature)[0].outline.front().path) <
          subpaths(parts[0].outline.front().path));
}
