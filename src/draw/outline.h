// SPDX-License-Identifier: MIT
// Outlines on paper: tapered limbs, hulls, smooth closed and open curves, hatching, boxes.
// Shapes: every closed outline runs the same way round, so that outlines put into one path unite
// when filled. Units: points, y down.
#pragma once

#include <algorithm>
#include <vector>

#include "page/drawing.h"

namespace tickleaf::draw {

using page::Path;
using page::Point;

inline Point operator+(Point a, Point b) {
    return {a.x + b.x, a.y + b.y};
}
inline Point operator-(Point a, Point b) {
    return {a.x - b.x, a.y - b.y};
}
inline Point operator*(Point a, double factor) {
    return {a.x * factor, a.y * factor};
}
double length(Point a);
inline double dot(Point a, Point b) {
    return a.x * b.x + a.y * b.y;
}
/// Length 1, or to the right where the vector has no direction.
Point unit(Point a);
/// Turned by a quarter.
Point normal(Point a);
inline Point between(Point a, Point b, double t) {
    return a + (b - a) * t;
}

struct Box {
    double left = 1e9;
    double top = 1e9;
    double right = -1e9;
    double bottom = -1e9;
    bool is_empty() const { return left > right; }
    double width() const { return is_empty() ? 0.0 : right - left; }
    double height() const { return is_empty() ? 0.0 : bottom - top; }
    void add(Point p, double margin = 0.0);
    void add(const Box& other);
};

/// Box of what a path covers (curves sampled), without its stroke.
Box extent(const Path& path);

/// A closed path and how far its paint reaches beyond it all round. Rounded by the pen rather than
/// by curves, a limb is three points.
struct Piece {
    Path path;
    double round = 0.0;
};
/// Box of what a piece covers.
Box extent(const Piece& piece);

/// A limb: a round end at `from` and at `to`, of two radii.
struct Capsule {
    Point from{};
    Point to{};
    double from_radius = 0.0;
    double to_radius = 0.0;
};
/// Its wide end is a little flatter than half a circle.
Piece tapered(const Capsule& c);
/// The border of a piece as plain closed paths that unite, for where it must be cut.
std::vector<std::vector<Point>> borders(const Piece& piece);
/// The flat-ended part of a capsule between two shares of its axis.
Path flat_capsule(const Capsule& c, double start, double end, double extra_radius);
/// How far a point is outside a capsule; negative inside.
double distance(Point p, const Capsule& c);
/// Whether a point may be within `reach` of a capsule: a quick test before distance().
inline bool may_touch(Point p, const Capsule& c, double reach) {
    const double r = std::max(c.from_radius, c.to_radius) + reach;
    return p.x > std::min(c.from.x, c.to.x) - r && p.x < std::max(c.from.x, c.to.x) + r &&
           p.y > std::min(c.from.y, c.to.y) - r && p.y < std::max(c.from.y, c.to.y) + r;
}

/// Corners of the smallest convex outline round the points; those that stand out by less than
/// `least` points are left out.
std::vector<Point> hull(std::vector<Point> points, double least = 0.01);
/// A closed path with straight sides, its corners given in any sense of turning.
Path closed_polygon(std::vector<Point> corners);
/// Smooth curves through points (Catmull-Rom).
Path smooth_closed(const std::vector<Point>& points);
Path smooth_open(const std::vector<Point>& points);
/// Points of a path flattened, one list a subpath.
std::vector<std::vector<Point>> flattened(const Path& path, int steps = 4);
/// The part of a convex polygon or polyline inside a circle.
std::vector<Point> clipped_to_circle(std::vector<Point> polygon, Point centre, double radius);
std::vector<std::vector<Point>> line_in_circle(const std::vector<Point>& line, Point centre,
                                               double radius);
/// Lines across a convex outline, `spacing` apart, at right angles to `along` and leaning by a
/// share of it; the other sign of `lean` is what a mirror shows.
Path hatching(const std::vector<Point>& outline, Point along, double spacing, double lean);
void append(Path& path, const Path& more);
Path polyline(const std::vector<Point>& points);
/// Evenly spaced points along a polyline.
std::vector<Point> resampled(const std::vector<Point>& line, std::size_t count);
double length(const std::vector<Point>& line);
Path moved(const Path& path, Point by);

} // namespace tickleaf::draw
