// SPDX-License-Identifier: MIT
#include "page/bounds.h"

#include <limits>

namespace tickleaf::page {

namespace {

std::optional<Box> bounds_of(const Shape& shape) {
    constexpr double kFar = std::numeric_limits<double>::infinity();
    Box box{kFar, kFar, -kFar, -kFar};
    const auto take = [&](const Point& point) {
        const double x = point.x + shape.offset.x;
        const double y = point.y + shape.offset.y;
        box = box.joined({x, y, x, y});
    };
    for (const PathStep& step : shape.path) {
        if (step.kind == PathStep::Kind::Close) {
            continue;
        }
        take(step.to);
        if (step.kind == PathStep::Kind::Curve) {
            take(step.a);
            take(step.b);
        }
    }
    return box.x0 <= box.x1 ? std::optional(box) : std::nullopt;
}

Box rectangle(const Point& origin, double width, double height) {
    return {origin.x, origin.y, origin.x + width, origin.y + height};
}

} // namespace

std::optional<Box> bounds_of(const Content& content, const Reach& reach) {
    if (const auto* run = std::get_if<GlyphRun>(&content)) {
        return Box{run->origin.x, run->origin.y - run->size * reach.up,
                   run->origin.x + run->width(), run->origin.y + run->size * reach.down};
    }
    if (const auto* placed = std::get_if<PlacedDrawing>(&content)) {
        return rectangle(placed->origin, placed->drawing->width * placed->scale,
                         placed->drawing->height * placed->scale);
    }
    if (const auto* picture = std::get_if<PlacedPicture>(&content)) {
        return rectangle(picture->origin, picture->width, picture->height);
    }
    const auto* shape = std::get_if<Shape>(&content);
    return shape != nullptr ? bounds_of(*shape) : std::nullopt;
}

} // namespace tickleaf::page
