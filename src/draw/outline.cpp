// SPDX-License-Identifier: MIT
#include "draw/outline.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>

#include "support/angle.h"

namespace tickleaf::draw {

namespace {

using page::PathStep;
using Kind = page::PathStep::Kind;

Point on_curve(Point p0, const PathStep& step, double t) {
    const double s = 1.0 - t;
    return p0 * (s * s * s) + step.a * (3.0 * s * s * t) + step.b * (3.0 * s * t * t) +
           step.to * (t * t * t);
}

// Unhatched rim of a hatched part, points.
constexpr double kEdge = 1.3;

double turn(Point a, Point b, Point c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

double area(const std::vector<Point>& p) {
    double sum = 0.0;
    for (std::size_t i = 0; i < p.size(); ++i) {
        const Point q = p[(i + 1) % p.size()];
        sum += p[i].x * q.y - p[i].y * q.x;
    }
    return sum;
}

// The two shares of a straight line that are inside a circle.
std::optional<std::pair<double, double>> inside_shares(Point a, Point b, Point centre, double r) {
    const Point d = b - a;
    const Point f = a - centre;
    const double qa = dot(d, d);
    const double qb = 2.0 * dot(f, d);
    const double root = qb * qb - 4.0 * qa * (dot(f, f) - r * r);
    if (qa < 1e-12 || root <= 0.0) {
        return std::nullopt;
    }
    const double s = std::sqrt(root);
    const double from = std::max(0.0, (-qb - s) / (2.0 * qa));
    const double to = std::min(1.0, (-qb + s) / (2.0 * qa));
    return from < to ? std::optional(std::pair(from, to)) : std::nullopt;
}

} // namespace

double length(Point a) {
    return std::sqrt(a.x * a.x + a.y * a.y);
}
Point unit(Point a) {
    const double l = length(a);
    return l > 1e-9 ? a * (1.0 / l) : Point{1.0, 0.0};
}
Point normal(Point a) {
    return {-a.y, a.x};
}

void Box::add(Point p, double margin) {
    left = std::min(left, p.x - margin);
    right = std::max(right, p.x + margin);
    top = std::min(top, p.y - margin);
    bottom = std::max(bottom, p.y + margin);
}

void Box::add(const Box& other) {
    if (!other.is_empty()) {
        add(Point{other.left, other.top});
        add(Point{other.right, other.bottom});
    }
}

Box extent(const Path& path) {
    Box box;
    Point at{};
    for (const PathStep& step : path) {
        if (step.kind == Kind::Close) {
            continue;
        }
        if (step.kind == Kind::Curve) {
            for (const double t : {0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875}) {
                box.add(on_curve(at, step, t));
            }
        }
        box.add(step.to);
        at = step.to;
    }
    return box;
}

Box extent(const Piece& piece) {
    Box box;
    const Box inner = extent(piece.path);
    if (!inner.is_empty()) {
        box.add(Point{inner.left, inner.top}, piece.round);
        box.add(Point{inner.right, inner.bottom}, piece.round);
    }
    return box;
}

Piece tapered(const Capsule& c) {
    const double round = std::min(c.from_radius, c.to_radius);
    const double wider = std::abs(c.from_radius - c.to_radius);
    const Point along = unit(c.to - c.from);
    const Point n = normal(along) * wider;
    // Moved out by this, the corners of the wide end lie nearest to the circle they stand for.
    const Point out = along * (0.4 * wider);
    if (wider < 0.05) {
        return {page::polygon({c.from, c.to}), round};
    }
    if (length(c.to - c.from) <= wider) { // seen from its end: one circle covers the other
        const Point at = c.from_radius > c.to_radius ? c.from : c.to;
        return {page::polygon({at, at}), round + wider};
    }
    if (c.from_radius > c.to_radius) {
        return {page::polygon({c.from - out + n, c.from - out - n, c.to}), round};
    }
    return {page::polygon({c.from, c.to + out - n, c.to + out + n}), round};
}

namespace {

constexpr std::size_t kSidesOfCircle = 16;

const std::array<Point, kSidesOfCircle>& circle_corners() {
    static const std::array<Point, kSidesOfCircle> corners = [] {
        std::array<Point, kSidesOfCircle> made;
        for (std::size_t i = 0; i < kSidesOfCircle; ++i) {
            const auto angle = support::Angle::from_degrees(360.0 * static_cast<double>(i) /
                                                            static_cast<double>(kSidesOfCircle));
            made[i] = {support::cosine(angle), support::sine(angle)};
        }
        return made;
    }();
    return corners;
}

void add_circle(std::vector<Point>& points, Point centre, double radius) {
    for (const Point corner : circle_corners()) {
        points.push_back(centre + corner * radius);
    }
}

bool is_convex(const std::vector<Point>& p) {
    for (std::size_t i = 0; i < p.size(); ++i) {
        if (turn(p[i], p[(i + 1) % p.size()], p[(i + 2) % p.size()]) < -1e-6) {
            return false;
        }
    }
    return true;
}

} // namespace

std::vector<std::vector<Point>> borders(const Piece& piece) {
    std::vector<std::vector<Point>> result;
    for (const std::vector<Point>& ring : flattened(piece.path, 8)) {
        const bool convex = is_convex(ring);
        if (!convex || piece.round <= 0.0) {
            result.push_back(ring);
        }
        if (piece.round <= 0.0) {
            continue;
        }
        std::vector<Point> whole;
        for (std::size_t i = 0; i < ring.size(); ++i) {
            add_circle(whole, ring[i], piece.round);
            if (!convex) { // side by side, each as wide as the pen
                std::vector<Point> side;
                add_circle(side, ring[i], piece.round);
                add_circle(side, ring[(i + 1) % ring.size()], piece.round);
                result.push_back(hull(std::move(side)));
            }
        }
        if (convex) {
            result.push_back(hull(std::move(whole)));
        }
    }
    return result;
}

Path flat_capsule(const Capsule& c, double start, double end, double extra_radius) {
    const Point n = normal(unit(c.to - c.from));
    const auto radius = [&](double t) {
        return c.from_radius + (c.to_radius - c.from_radius) * t + extra_radius;
    };
    const Point a = between(c.from, c.to, start);
    const Point b = between(c.from, c.to, end);
    return page::polygon(
        {a + n * radius(start), a - n * radius(start), b - n * radius(end), b + n * radius(end)});
}

double distance(Point p, const Capsule& c) {
    const Point d = c.to - c.from;
    const double l = dot(d, d);
    const double t = l > 1e-12 ? std::clamp(dot(p - c.from, d) / l, 0.0, 1.0) : 0.0;
    return length(p - between(c.from, c.to, t)) -
           (c.from_radius + (c.to_radius - c.from_radius) * t);
}

std::vector<Point> hull(std::vector<Point> points, double least) {
    std::sort(points.begin(), points.end(),
              [](Point a, Point b) { return a.x < b.x || (!(b.x < a.x) && a.y < b.y); });
    std::vector<Point> ring;
    ring.reserve(points.size() + 2);
    const auto is_flat = [least](Point a, Point b, Point c) {
        const double out = turn(a, b, c); // twice the area
        return out < 0.0 || out * out < 4.0 * least * least * dot(c - a, c - a);
    };
    const auto half = [&](auto begin, auto end) {
        const std::size_t keep = ring.size();
        for (auto it = begin; it != end; ++it) {
            // A corner that hardly stands out is not worth its bytes.
            while (ring.size() >= keep + 2 && is_flat(ring[ring.size() - 2], ring.back(), *it)) {
                ring.pop_back();
            }
            ring.push_back(*it);
        }
        ring.pop_back();
    };
    if (points.size() < 3) {
        return points;
    }
    half(points.begin(), points.end());
    half(points.rbegin(), points.rend());
    return ring;
}

Path closed_polygon(std::vector<Point> corners) {
    if (area(corners) < 0.0) { // one sense of turning for all outlines: that of tapered()
        std::reverse(corners.begin(), corners.end());
    }
    return page::polygon(corners);
}

Path smooth_closed(const std::vector<Point>& given) {
    std::vector<Point> p = given;
    if (area(p) < 0.0) {
        std::reverse(p.begin(), p.end());
    }
    const std::size_t n = p.size();
    Path path{{Kind::Move, p.front(), {}, {}}};
    for (std::size_t i = 0; i < n; ++i) {
        const Point a = p[i];
        const Point b = p[(i + 1) % n];
        path.push_back({Kind::Curve, b, a + (b - p[(i + n - 1) % n]) * (1.0 / 6.0),
                        b - (p[(i + 2) % n] - a) * (1.0 / 6.0)});
    }
    path.push_back({Kind::Close, {}, {}, {}});
    return path;
}

Path smooth_open(const std::vector<Point>& p) {
    Path path;
    if (p.size() < 3) {
        return polyline(p);
    }
    path.push_back({Kind::Move, p.front(), {}, {}});
    for (std::size_t i = 0; i + 1 < p.size(); ++i) {
        const Point before = i > 0 ? p[i - 1] : p[i];
        const Point after = i + 2 < p.size() ? p[i + 2] : p[i + 1];
        path.push_back({Kind::Curve, p[i + 1], p[i] + (p[i + 1] - before) * (1.0 / 6.0),
                        p[i + 1] - (after - p[i]) * (1.0 / 6.0)});
    }
    return path;
}

std::vector<std::vector<Point>> flattened(const Path& path, int steps) {
    std::vector<std::vector<Point>> result;
    for (const PathStep& step : path) {
        if (step.kind == Kind::Move || result.empty()) {
            result.emplace_back();
        }
        auto& line = result.back();
        if (step.kind == Kind::Curve && !line.empty()) {
            const Point from = line.back();
            for (int i = 1; i < steps; ++i) {
                line.push_back(on_curve(from, step, static_cast<double>(i) / steps));
            }
        }
        if (step.kind == Kind::Close) {
            continue;
        }
        line.push_back(step.to);
    }
    return result;
}

std::vector<Point> clipped_to_circle(std::vector<Point> polygon, Point centre, double radius) {
    std::vector<Point> edge;
    add_circle(edge, centre, radius);
    std::vector<Point> kept;
    for (std::size_t i = 0; i < edge.size() && !polygon.empty(); ++i) {
        const Point a = edge[i];
        const Point b = edge[(i + 1) % edge.size()];
        kept.clear();
        double sp = turn(a, b, polygon.back());
        for (std::size_t j = 0; j < polygon.size(); ++j) {
            const Point p = polygon[j > 0 ? j - 1 : polygon.size() - 1];
            const Point q = polygon[j];
            const double sq = turn(a, b, q);
            if ((sp >= 0.0) != (sq >= 0.0)) {
                kept.push_back(between(p, q, sp / (sp - sq)));
            }
            if (sq >= 0.0) {
                kept.push_back(q);
            }
            sp = sq;
        }
        polygon.swap(kept);
    }
    return polygon;
}

std::vector<std::vector<Point>> line_in_circle(const std::vector<Point>& line, Point centre,
                                               double radius) {
    std::vector<std::vector<Point>> runs;
    bool open = false;
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        const auto shares = inside_shares(line[i], line[i + 1], centre, radius);
        if (!shares) {
            open = false;
            continue;
        }
        if (!open || shares->first > 0.0) {
            runs.push_back({between(line[i], line[i + 1], shares->first)});
        }
        runs.back().push_back(between(line[i], line[i + 1], shares->second));
        open = shares->second >= 1.0;
    }
    return runs;
}

Path hatching(const std::vector<Point>& outline, Point along, double spacing, double lean) {
    const Point slanted = unit(normal(along) + along * lean);
    const Point step = normal(slanted);
    double low = 1e9;
    double high = -1e9;
    for (const Point p : outline) {
        low = std::min(low, dot(p, step));
        high = std::max(high, dot(p, step));
    }
    Path lines;
    const double count = std::floor((high - low) / spacing);
    const double first = low + ((high - low) - (count - 1.0) * spacing) / 2.0;
    for (double at = first; at < high - spacing * 0.2; at += spacing) {
        std::vector<Point> cuts;
        for (std::size_t i = 0; i < outline.size(); ++i) {
            const Point p = outline[i];
            const Point q = outline[(i + 1) % outline.size()];
            const double sp = dot(p, step) - at;
            const double sq = dot(q, step) - at;
            if ((sp >= 0.0) != (sq >= 0.0)) {
                cuts.push_back(between(p, q, sp / (sp - sq)));
            }
        }
        // The lines stop short of the edge, so that the limb keeps a firm contour.
        const double span = cuts.size() >= 2 ? length(cuts[1] - cuts[0]) : 0.0;
        if (span > 2.0 * kEdge + 0.6) {
            const double inset = kEdge / span;
            append(lines, page::line(between(cuts[0], cuts[1], inset),
                                     between(cuts[0], cuts[1], 1.0 - inset)));
        }
    }
    return lines;
}

void append(Path& path, const Path& more) {
    path.insert(path.end(), more.begin(), more.end());
}

Path polyline(const std::vector<Point>& points) {
    Path path = page::polygon(points);
    if (!path.empty()) {
        path.pop_back();
    }
    return path;
}

double length(const std::vector<Point>& line) {
    double sum = 0.0;
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        sum += length(line[i + 1] - line[i]);
    }
    return sum;
}

std::vector<Point> resampled(const std::vector<Point>& line, std::size_t count) {
    const double total = length(line);
    if (line.size() < 2 || total < 1e-9 || count < 2) {
        return line;
    }
    std::vector<Point> result{line.front()};
    const double step = total / static_cast<double>(count - 1);
    double walked = 0.0;
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        const double piece = length(line[i + 1] - line[i]);
        while (result.size() + 1 < count &&
               step * static_cast<double>(result.size()) <= walked + piece && piece > 0.0) {
            const double here = step * static_cast<double>(result.size()) - walked;
            result.push_back(between(line[i], line[i + 1], here / piece));
        }
        walked += piece;
    }
    result.push_back(line.back());
    return result;
}

Path moved(const Path& path, Point by) {
    return page::transformed(path, 1.0, by);
}

} // namespace tickleaf::draw
