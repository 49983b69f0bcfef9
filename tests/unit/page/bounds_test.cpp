// SPDX-License-Identifier: MIT
#include "page/bounds.h"

#include <catch2/catch.hpp>

using namespace tickleaf::page;

namespace {

void check(const std::optional<Box>& box, const Box& expected) {
    REQUIRE(box);
    CHECK(box->x0 == Approx(expected.x0));
    CHECK(box->y0 == Approx(expected.y0));
    CHECK(box->x1 == Approx(expected.x1));
    CHECK(box->y1 == Approx(expected.y1));
}

} // namespace

TEST_CASE("what stands on a page covers a rectangle") {
    GlyphRun run;
    run.size = 10.0;
    run.origin = {100.0, 200.0};
    run.glyphs.resize(2);
    run.glyphs[0].advance = 6.0;
    run.glyphs[1].advance = 5.0;
    check(bounds_of(run, {0.7, 0.2}), {100.0, 193.0, 111.0, 202.0});

    auto drawing = std::make_shared<Drawing>();
    drawing->width = 150.0;
    drawing->height = 100.0;
    check(bounds_of(PlacedDrawing{drawing, {10.0, 20.0}, 0.5}, {}), {10.0, 20.0, 85.0, 70.0});
    check(bounds_of(PlacedPicture{nullptr, {1.0, 2.0}, 3.0, 4.0}, {}), {1.0, 2.0, 4.0, 6.0});
}

TEST_CASE("a shape covers where it stands, with what its curves may reach") {
    Shape shape;
    shape.path = line({1.0, 5.0}, {4.0, 2.0});
    shape.offset = {10.0, 20.0};
    check(bounds_of(shape, {}), {11.0, 22.0, 14.0, 25.0});
    PathStep curve;
    curve.kind = PathStep::Kind::Curve;
    curve.a = {0.0, -3.0};
    curve.b = {9.0, 0.0};
    curve.to = {5.0, 5.0};
    shape.path.push_back(curve);
    check(bounds_of(shape, {}), {10.0, 17.0, 19.0, 25.0});
    CHECK_FALSE(bounds_of(Shape{}, {}));
    CHECK_FALSE(bounds_of(Link{}, {}));
}

TEST_CASE("rectangles that touch do not meet") {
    const Box one{0.0, 0.0, 10.0, 10.0};
    CHECK(one.meets({9.0, 9.0, 20.0, 20.0}));
    CHECK_FALSE(one.meets({10.0, 0.0, 20.0, 10.0}));
    CHECK_FALSE(one.meets({9.0, 9.0, 20.0, 20.0}, 1.5));
}
