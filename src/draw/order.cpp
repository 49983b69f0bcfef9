// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

#include "draw/part.h"

namespace tickleaf::draw {

namespace {

struct Nearest {
    double gap = 1e9; ///< between the axes
    double s = 0.0;   ///< share of the first axis
    double t = 0.0;
};

double share_nearest(Point p, Point a, Point b) {
    const Point d = b - a;
    const double l = dot(d, d);
    return l > 1e-12 ? std::clamp(dot(p - a, d) / l, 0.0, 1.0) : 0.0;
}

void consider(Nearest& best, const Part& a, const Part& b, double s, double t) {
    const Point p = between(a.from.flat(), a.to.flat(), s);
    const Point q = between(b.from.flat(), b.to.flat(), t);
    const double gap = length(p - q);
    if (gap < best.gap) {
        best = {gap, s, t};
    }
}

// Where two axes come nearest on paper: a crossing, or at an end of one of them.
Nearest nearest(const Part& a, const Part& b) {
    Nearest best;
    const Point a0 = a.from.flat();
    const Point b0 = b.from.flat();
    const Point u = a.to.flat() - a0;
    const Point v = b.to.flat() - b0;
    const double across = u.x * v.y - u.y * v.x;
    if (std::abs(across) > 1e-9) {
        const Point w = b0 - a0;
        const double s = (w.x * v.y - w.y * v.x) / across;
        const double t = (w.x * u.y - w.y * u.x) / across;
        if (s >= 0.0 && s <= 1.0 && t >= 0.0 && t <= 1.0) {
            return {0.0, s, t};
        }
    }
    for (const double end : {0.0, 1.0}) {
        consider(best, a, b, end, share_nearest(between(a0, a.to.flat(), end), b0, b.to.flat()));
        consider(best, a, b, share_nearest(between(b0, b.to.flat(), end), a0, a.to.flat()), end);
    }
    return best;
}

double depth_at(const Part& part, double t) {
    return part.from.depth + (part.to.depth - part.from.depth) * t + part.lift;
}

double mean_depth(const Part& part) {
    return depth_at(part, 0.5);
}

// Positive: `a` is nearer where the two overlap; 0: they do not overlap, or join.
double nearer(const Part& a, const Part& b) {
    const Nearest n = nearest(a, b);
    const double ra = a.from_radius + (a.to_radius - a.from_radius) * n.s;
    const double rb = b.from_radius + (b.to_radius - b.from_radius) * n.t;
    if (n.gap > ra + rb + 1.0) {
        return 0.0;
    }
    return depth_at(a, n.s) - depth_at(b, n.t);
}

} // namespace

std::vector<Part> in_paint_order(std::vector<Part> parts) {
    const std::size_t n = parts.size();
    std::vector<std::vector<std::size_t>> before(n); // what must be painted first
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = i + 1; j < n; ++j) {
            if (parts[i].chain == parts[j].chain && parts[i].chain != Chain::Thing) {
                continue;
            }
            const double difference = nearer(parts[i], parts[j]);
            if (std::abs(difference) > 1e-6) {
                before[difference > 0.0 ? i : j].push_back(difference > 0.0 ? j : i);
            }
        }
    }
    std::vector<bool> done(n, false);
    std::vector<Part> ordered;
    ordered.reserve(n);
    Chain last = Chain::Trunk;
    while (ordered.size() < n) {
        // Of the parts that hide nothing unpainted, first the rest of the same limb, then the
        // farthest. Where parts overlap in a ring nothing is free: then the farthest of all.
        std::size_t best = n;
        std::pair<int, double> best_key{};
        for (std::size_t i = 0; i < n; ++i) {
            if (done[i]) {
                continue;
            }
            const bool waits = std::any_of(before[i].begin(), before[i].end(),
                                           [&](std::size_t j) { return !done[j]; });
            const int rank = waits ? 2 : (parts[i].chain == last && !ordered.empty() ? 0 : 1);
            const std::pair<int, double> key{rank, mean_depth(parts[i])};
            if (best == n || key < best_key) {
                best = i;
                best_key = key;
            }
        }
        done[best] = true;
        last = parts[best].chain;
        ordered.push_back(std::move(parts[best]));
    }
    return ordered;
}

} // namespace tickleaf::draw
