// SPDX-License-Identifier: MIT
// Drawings of every exercise of figures/, on both sides and from every view.
#include "draw/draw.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

#include "draw/palette.h"
#include "draw/part.h"
#include "draw/pixels.h"
#include "tests/unit/figure/every_exercise.h"

namespace draw = tickleaf::draw;
namespace page = tickleaf::page;
namespace figure = tickleaf::figure;
using figure::View;
using tickleaf::figure_test::all_exercises;
using tickleaf::figure_test::request_for;
using tickleaf::support::Findings;
using tickleaf::support::Side;

namespace {

constexpr View kViews[] = {View::Side, View::Front, View::Back, View::ThreeQuarter, View::Above};

figure::Scene scene_of(const figure::Exercise& exercise, Side side) {
    Findings findings;
    const auto solution = figure::solve(exercise, request_for(side, 1700), findings);
    REQUIRE(solution);
    return solution->scene;
}

/// The last picture without signs, arrows and close-ups, whose places are chosen by reading order.
figure::Scene bare(figure::Scene scene) {
    scene.panels.erase(scene.panels.begin(), scene.panels.end() - 1);
    figure::Panel& panel = scene.panels.front();
    panel.arrows.clear();
    panel.press_at.clear();
    panel.press_to.clear();
    panel.hold_seconds.reset();
    panel.push_seconds.reset();
    panel.repeats = false;
    scene.details.clear();
    return scene;
}

page::Drawing in_mirror(page::Drawing drawing) {
    for (page::Shape& shape : drawing.shapes) {
        shape.path = shape.placed();
        shape.offset = {};
        for (page::PathStep& step : shape.path) {
            for (page::Point* point : {&step.to, &step.a, &step.b}) {
                point->x = drawing.width - point->x;
            }
        }
    }
    return drawing;
}

/// Share of pixels that differ clearly.
double difference(const page::Drawing& a, const page::Drawing& b) {
    const draw::Pixels p = draw::read_png(draw::to_png(a, 1.0));
    const draw::Pixels q = draw::read_png(draw::to_png(b, 1.0));
    REQUIRE(p.width == q.width);
    REQUIRE(p.height == q.height);
    std::size_t different = 0;
    for (std::size_t i = 0; i < p.grey.size(); ++i) {
        different += std::abs(int{p.grey[i]} - int{q.grey[i]}) > 100 ? 1U : 0U;
    }
    return static_cast<double>(different) / static_cast<double>(p.grey.size());
}

} // namespace

TEST_CASE("every drawing stays inside its frame, from every view") {
    for (const auto& [id, exercise] : all_exercises()) {
        figure::Scene scene = scene_of(exercise, Side::Left);
        for (const View view : kViews) {
            INFO(id << " view " << static_cast<int>(view));
            scene.view = view;
            const page::Drawing drawing = draw::draw(scene, {});
            REQUIRE(drawing.width > 20.0);
            REQUIRE(drawing.height > 20.0);
            bool inside = true;
            for (const page::Shape& shape : drawing.shapes) {
                const double pen = shape.stroke ? shape.stroke->width / 2.0 : 0.0;
                const draw::Box box = draw::extent(draw::Piece{shape.placed(), pen});
                inside = inside && std::isfinite(box.left + box.right + box.top + box.bottom) &&
                         box.left >= -0.11 && box.top >= -0.11 &&
                         box.right <= drawing.width + 0.11 && box.bottom <= drawing.height + 0.11;
            }
            CHECK(inside);
        }
    }
}

TEST_CASE("the left drawing is the right one in a mirror, from every view") {
    for (const auto& [id, exercise] : all_exercises()) {
        figure::Scene right = bare(scene_of(exercise, Side::Right));
        figure::Scene left = bare(scene_of(exercise, Side::Left));
        for (const View view : kViews) {
            INFO(id << " view " << static_cast<int>(view));
            right.view = left.view = view;
            const page::Drawing a = draw::draw(right, {});
            const page::Drawing b = draw::draw(left, {});
            REQUIRE(a.width == Approx(b.width).margin(0.05));
            REQUIRE(a.height == Approx(b.height).margin(0.05));
            CHECK(difference(a, in_mirror(b)) < 0.004); // points are rounded to fifths
        }
    }
}

TEST_CASE("the way back stands beside the way there") {
    using draw::Point;
    for (const auto& [id, exercise] : all_exercises()) {
        for (const Side side : {Side::Left, Side::Right}) {
            figure::Scene scene = scene_of(exercise, side);
            for (std::size_t i = 0; i < scene.panels.size(); ++i) {
                const auto& arrows = scene.panels[i].arrows;
                const auto back = std::find_if(arrows.begin(), arrows.end(),
                                               [](const auto& arrow) { return arrow.is_return; });
                if (back == arrows.end()) {
                    continue;
                }
                INFO(id << " picture " << i + 1);
                figure::Scene one = scene;
                one.details.clear();
                one.panels = {scene.panels[i]};
                one.panels[0].arrows = {*(back - 1), *back};
                std::vector<Point> there;
                std::vector<Point> here;
                for (const page::Shape& shape : draw::draw(one, {}).shapes) {
                    if (shape.stroke && !shape.fill && shape.stroke->colour == draw::kArrow) {
                        auto& line = shape.stroke->dashes.empty() ? there : here;
                        line = draw::flattened(shape.placed(), 8).front();
                    }
                }
                REQUIRE_FALSE(there.empty());
                REQUIRE_FALSE(here.empty());
                const Point middle = here[here.size() / 2];
                double gap = 1e9;
                for (const Point p : there) {
                    gap = std::min(gap, std::hypot(p.x - middle.x, p.y - middle.y));
                }
                CHECK(gap < 30.0);
            }
        }
    }
}

TEST_CASE("what is marked as working is a limb of the prescribed side, in every view") {
    using draw::Chain;
    for (const auto& [id, exercise] : all_exercises()) {
        if (!exercise.facts().has_sides) {
            continue;
        }
        for (const Side side : {Side::Left, Side::Right}) {
            figure::Scene scene = scene_of(exercise, side);
            const bool both = std::any_of(scene.working.begin(), scene.working.end(),
                                          [](const auto& part) { return part.side == Side::Both; });
            for (const View view : kViews) {
                INFO(id << " view " << static_cast<int>(view));
                scene.view = view;
                const draw::Camera camera(view, scene.near_side, 0.07);
                std::size_t marked = 0;
                for (const draw::Part& part :
                     draw::body_parts(scene.panels.front().body, scene, camera)) {
                    if (part.tone != draw::Tone::Working && part.tone != draw::Tone::WorkingFar) {
                        continue;
                    }
                    ++marked;
                    const bool left = part.chain == Chain::ArmL || part.chain == Chain::LegL;
                    const bool right = part.chain == Chain::ArmR || part.chain == Chain::LegR;
                    CHECK((both || (!left && !right) || right == (side == Side::Right)));
                }
                CHECK(marked >= 1);
            }
        }
    }
}
