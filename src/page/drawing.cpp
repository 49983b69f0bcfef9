// SPDX-License-Identifier: MIT
#include "page/drawing.h"

#include <algorithm>
#include <cstddef>

namespace tickleaf::page {

namespace {

// Control distance of a cubic that follows a quarter circle of radius 1 (largest error 0.03 %).
constexpr double kQuarter = 0.5522847498307936;

PathStep move_to(Point to) {
    return {PathStep::Kind::Move, to, {}, {}};
}
PathStep line_to(Point to) {
    return {PathStep::Kind::Line, to, {}, {}};
}
PathStep curve_to(Point a, Point b, Point to) {
    return {PathStep::Kind::Curve, to, a, b};
}
PathStep close() {
    return {PathStep::Kind::Close, {}, {}, {}};
}

} // namespace

Path rectangle(double x, double y, double width, double height) {
    return polygon({{x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}});
}

Path rounded_rectangle(double x, double y, double width, double height, double radius) {
    const double r = std::clamp(radius, 0.0, std::min(width, height) / 2.0);
    if (r <= 0.0) {
        return rectangle(x, y, width, height);
    }
    const double c = r * (1.0 - kQuarter);
    const double right = x + width;
    const double bottom = y + height;
    return {move_to({x + r, y}),
            line_to({right - r, y}),
            curve_to({right - c, y}, {right, y + c}, {right, y + r}),
            line_to({right, bottom - r}),
            curve_to({right, bottom - c}, {right - c, bottom}, {right - r, bottom}),
            line_to({x + r, bottom}),
            curve_to({x + c, bottom}, {x, bottom - c}, {x, bottom - r}),
            line_to({x, y + r}),
            curve_to({x, y + c}, {x + c, y}, {x + r, y}),
            close()};
}

Path circle(Point centre, double radius) {
    const double k = radius * kQuarter;
    const auto [x, y] = centre;
    return {move_to({x + radius, y}),
            curve_to({x + radius, y + k}, {x + k, y + radius}, {x, y + radius}),
            curve_to({x - k, y + radius}, {x - radius, y + k}, {x - radius, y}),
            curve_to({x - radius, y - k}, {x - k, y - radius}, {x, y - radius}),
            curve_to({x + k, y - radius}, {x + radius, y - k}, {x + radius, y}),
            close()};
}

Path line(Point from, Point to) {
    return {move_to(from), line_to(to)};
}

Path polygon(const std::vector<Point>& corners) {
    Path path;
    if (corners.empty()) {
        return path;
    }
    path.reserve(corners.size() + 1);
    path.push_back(move_to(corners.front()));
    for (std::size_t i = 1; i < corners.size(); ++i) {
        path.push_back(line_to(corners[i]));
    }
    path.push_back(close());
    return path;
}

Path transformed(const Path& path, double factor, Point offset) {
    const auto moved = [&](Point p) {
        return Point{p.x * factor + offset.x, p.y * factor + offset.y};
    };
    Path result;
    result.reserve(path.size());
    for (const PathStep& step : path) {
        result.push_back({step.kind, moved(step.to), moved(step.a), moved(step.b)});
    }
    return result;
}

Path Shape::placed() const {
    return transformed(path, 1.0, offset);
}

} // namespace tickleaf::page
