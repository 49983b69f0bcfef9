// SPDX-License-Identifier: MIT
#include "pdf/round_shapes.h"

#include <algorithm>
#include <cmath>

namespace tickleaf::pdf {

namespace {

using Kind = page::PathStep::Kind;

/// Paths come with their coordinates rounded to tenths at most.
constexpr double kTolerance = 0.06;

bool is_near(page::Point a, page::Point b) {
    return std::abs(a.x - b.x) < kTolerance && std::abs(a.y - b.y) < kTolerance;
}

/// What a step does not use may hold anything.
bool is_near(const page::PathStep& p, const page::PathStep& q) {
    const bool same_controls = p.kind != Kind::Curve || (is_near(p.a, q.a) && is_near(p.b, q.b));
    return p.kind == q.kind && (p.kind == Kind::Close || is_near(p.to, q.to)) && same_controls;
}

bool is_near(const page::Path& a, const page::Path& b) {
    return std::equal(
        a.begin(), a.end(), b.begin(), b.end(),
        [](const page::PathStep& p, const page::PathStep& q) { return is_near(p, q); });
}

page::Stroke round_stroke(double width, page::Colour colour) {
    return {.width = width, .colour = colour, .dashes = {}, .cap = page::Stroke::Cap::Round};
}

std::optional<page::Shape> as_box(const page::Shape& shape) {
    const page::Path& path = shape.path;
    if (path.size() != 10 || path[1].kind != Kind::Line || path[2].kind != Kind::Curve) {
        return std::nullopt;
    }
    const double x = path[6].to.x;
    const double y = path[0].to.y;
    const double width = path[2].to.x - x;
    const double height = path[4].to.y - y;
    const double radius = path[0].to.x - x;
    const double inner_width = width - 2.0 * radius;
    const double inner_height = height - 2.0 * radius;
    if (inner_width <= 0.0 || inner_height <= 0.0 || radius <= 0.0 ||
        !is_near(path, page::rounded_rectangle(x, y, width, height, radius))) {
        return std::nullopt;
    }
    page::Shape made = shape;
    made.path = page::rectangle(x + radius, y + radius, inner_width, inner_height);
    made.stroke = round_stroke(2.0 * radius, *shape.fill);
    return made;
}

std::optional<page::Shape> as_dot(const page::Shape& shape) {
    const page::Path& path = shape.path;
    if (path.size() != 6 || path[1].kind != Kind::Curve || path[3].kind != Kind::Curve) {
        return std::nullopt;
    }
    const page::Point centre{path[1].to.x, path[0].to.y};
    const double radius = path[0].to.x - centre.x;
    if (radius <= 0.0 || !is_near(path, page::circle(centre, radius))) {
        return std::nullopt;
    }
    page::Shape made = shape;
    made.path = page::line(centre, centre);
    made.fill.reset();
    made.stroke = round_stroke(2.0 * radius, *shape.fill);
    return made;
}

} // namespace

std::optional<page::Shape> with_round_stroke(const page::Shape& shape) {
    if (!shape.fill || shape.stroke) {
        return std::nullopt;
    }
    const auto box = as_box(shape);
    return box ? box : as_dot(shape);
}

} // namespace tickleaf::pdf
