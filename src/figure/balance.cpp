// SPDX-License-Identifier: MIT
#include "figure/balance.h"

#include <algorithm>
#include <cmath>

#include "figure/skeleton.h"

namespace tickleaf::figure {
namespace {

struct SegmentMass {
    Landmark proximal;
    Landmark distal;
    double mass;
    double from_proximal;
};

constexpr SegmentMass kAxialMass[] = {
    {Landmark::HeadCentre, Landmark::HeadCentre, 0.081, 0.0}, // at the ear canal
    {Landmark::NeckBase, Landmark::Chest, 0.216, 0.82},
    {Landmark::Chest, Landmark::Waist, 0.139, 0.44},
    {Landmark::Waist, Landmark::Pelvis, 0.142, 0.105},
};

constexpr SegmentMass kLimbMass[] = {
    {Landmark::ShoulderL, Landmark::ElbowL, 0.028, 0.436},
    {Landmark::ElbowL, Landmark::WristL, 0.016, 0.430},
    {Landmark::WristL, Landmark::KnuckleL, 0.006, 0.506},
    {Landmark::HipL, Landmark::KneeL, 0.100, 0.433},
    {Landmark::KneeL, Landmark::AnkleL, 0.0465, 0.433},
    {Landmark::AnkleL, Landmark::BallInnerL, 0.00725, 0.5},
    {Landmark::AnkleL, Landmark::BallOuterL, 0.00725, 0.5},
};

std::vector<MassPoint> make_mass_points() {
    std::array<double, kLandmarks> share{};
    const auto add = [&share](const SegmentMass& segment, std::size_t right, bool paired) {
        const Landmark a = paired ? left_or_right(segment.proximal, right) : segment.proximal;
        const Landmark b = paired ? left_or_right(segment.distal, right) : segment.distal;
        share.at(static_cast<std::size_t>(a)) += segment.mass * (1.0 - segment.from_proximal);
        share.at(static_cast<std::size_t>(b)) += segment.mass * segment.from_proximal;
    };
    for (const SegmentMass& segment : kAxialMass) {
        add(segment, 0, false);
    }
    for (const SegmentMass& segment : kLimbMass) {
        add(segment, 0, true);
        add(segment, 1, true);
    }
    std::vector<MassPoint> points;
    for (std::size_t i = 0; i < kLandmarks; ++i) {
        if (share[i] > 0.0) {
            points.push_back({static_cast<Landmark>(i), share[i]});
        }
    }
    return points;
}

/// Twice the signed area of a triangle seen from above.
double area(const Point3& a, const Point3& b, const Point3& c) {
    return (b.x - a.x) * (c.z - a.z) - (b.z - a.z) * (c.x - a.x);
}

/// Andrew's monotone chain over x, then z.
std::vector<Landmark> convex_hull(const Body& body, std::vector<Landmark> points) {
    std::sort(points.begin(), points.end(), [&body](Landmark a, Landmark b) {
        const Point3& p = body.at(a);
        const Point3& q = body.at(b);
        return p.x != q.x ? p.x < q.x : (p.z != q.z ? p.z < q.z : a < b);
    });
    std::vector<Landmark> hull;
    if (points.size() < 3) {
        return points;
    }
    hull.reserve(points.size() + 2);
    for (int pass = 0; pass < 2; ++pass) {
        const std::size_t start = hull.size();
        for (const Landmark point : points) {
            while (hull.size() >= start + 2 && area(body.at(hull[hull.size() - 2]),
                                                    body.at(hull.back()), body.at(point)) <= 0.0) {
                hull.pop_back();
            }
            hull.push_back(point);
        }
        hull.pop_back();
        std::reverse(points.begin(), points.end());
    }
    return hull;
}

} // namespace

const std::vector<MassPoint>& mass_points() {
    static const std::vector<MassPoint> points = make_mass_points();
    return points;
}

Point3 centre_of_mass(const Body& body) {
    Point3 sum;
    for (const auto& [landmark, share] : mass_points()) {
        const Point3& p = body.at(landmark);
        sum.x += share * p.x;
        sum.y += share * p.y;
        sum.z += share * p.z;
    }
    return sum;
}

std::vector<HullEdge> hull_edges(const Body& body, const std::vector<Landmark>& support,
                                 const Point3& point) {
    std::vector<HullEdge> edges;
    const std::vector<Landmark> hull = convex_hull(body, support);
    edges.reserve(hull.size());
    for (std::size_t i = 0; i < hull.size(); ++i) {
        const Point3& a = body.at(hull[i]);
        const Point3& b = body.at(hull[(i + 1) % hull.size()]);
        const double length = std::hypot(b.x - a.x, b.z - a.z);
        if (length < 1e-9) {
            continue;
        }
        HullEdge edge{hull[i], -(b.z - a.z) / length, (b.x - a.x) / length, 0.0};
        edge.inside = edge.normal_x * (point.x - a.x) + edge.normal_z * (point.z - a.z);
        edges.push_back(edge);
    }
    return edges;
}

double balance_margin(const Body& body, const std::vector<Landmark>& support, const Point3& point) {
    const std::vector<HullEdge> edges = hull_edges(body, support, point);
    if (edges.size() < 3) {
        return -1e6;
    }
    double margin = edges.front().inside;
    for (const HullEdge& edge : edges) {
        margin = std::min(margin, edge.inside);
    }
    return margin;
}

} // namespace tickleaf::figure
