// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>

#include "draw/part.h"
#include "support/angle.h"

namespace tickleaf::draw {

namespace {

using figure::Body;
using figure::Landmark;
using support::Angle;

constexpr double kRound = 0.028; // of stature: of the trunk's corners

// One cross-section of the trunk: an ellipse square to the spine.
struct Level {
    Point3 centre{};
    Point3 lateral{};  ///< half axis to the body's right
    Point3 anterior{}; ///< half axis to the front
};

Point3 middle(const Body& body, Landmark a, Landmark b) {
    return between(body.at(a), body.at(b), 0.5);
}

// half_width, half_depth and forward are shares of stature.
Level level(const Body& body, Point3 centre, Point3 across, Point3 up, double half_width,
            double half_depth, double forward) {
    const double h = body.stature;
    const Point3 right = unit(across, {0.0, 0.0, 1.0});
    const Point3 front = unit(cross(unit(up, {0.0, 1.0, 0.0}), right), {1.0, 0.0, 0.0});
    return {centre + front * (forward * h), right * (half_width * h), front * (half_depth * h)};
}

std::array<Level, 6> levels(const Body& body) {
    const Point3 hips = body.at(Landmark::HipR) - body.at(Landmark::HipL);
    const Point3 girdle = body.at(Landmark::ShoulderR) - body.at(Landmark::ShoulderL);
    const Point3 pelvis = body.at(Landmark::Pelvis);
    const Point3 waist = body.at(Landmark::Waist);
    const Point3 chest = body.at(Landmark::Chest);
    const Point3 neck = body.at(Landmark::NeckBase);
    const Point3 shoulders = middle(body, Landmark::ShoulderL, Landmark::ShoulderR);
    const Point3 low = unit(waist - pelvis, {0.0, 1.0, 0.0});
    const Point3 high = unit(neck - chest, {0.0, 1.0, 0.0});
    const double half = std::sqrt(dot(girdle, girdle)) / 2.0 / body.stature;
    const Point3 under = pelvis - low * (0.035 * body.stature);
    const Point3 armpits = between(chest, shoulders, 0.62);
    return {level(body, under, hips, low, 0.060, 0.046, -0.010),
            level(body, pelvis + low * (0.012 * body.stature), hips, low, 0.084, 0.057, -0.004),
            level(body, between(waist, chest, 0.35), between(hips, girdle, 0.4), chest - waist,
                  0.066, 0.055, 0.006),
            level(body, armpits, girdle, high, std::max(0.078, half * 0.80), 0.066, 0.010),
            level(body, between(shoulders, neck, 0.15), girdle, high, half * 0.92, 0.046, 0.0),
            level(body, between(neck, body.at(Landmark::HeadBase), 0.15), girdle, high, 0.030,
                  0.027, 0.0)};
}

// Half width of a level at right angles to the spine as it lies on paper.
double half_width(const Level& l, Point across, const Camera& camera) {
    const double a = dot(camera.see(l.lateral).flat(), across);
    const double b = dot(camera.see(l.anterior).flat(), across);
    return std::sqrt(a * a + b * b);
}

// Corners drawn in by what the pen adds, in width and at both ends.
Piece rounded(const std::vector<Point>& left, const std::vector<Point>& right, double round) {
    const std::size_t n = left.size();
    std::vector<Point> ring(2 * n);
    for (std::size_t i = 0; i < n; ++i) {
        Point middle = between(left[i], right[i], 0.5);
        const Point across = (left[i] - right[i]) * 0.5;
        if (i == 0 || i + 1 == n) {
            const std::size_t next = i == 0 ? 1 : n - 2;
            middle = middle + unit(between(left[next], right[next], 0.5) - middle) * round;
        }
        const Point half = unit(across) * std::max(0.0, length(across) - round);
        ring[i] = middle + half;
        ring[2 * n - 1 - i] = middle - half;
    }
    return {closed_polygon(ring), round};
}

std::vector<Point> all_round(const std::array<Level, 6>& levels, const Camera& camera) {
    std::vector<Point> points;
    for (const Level& l : levels) {
        for (int i = 0; i < 12; ++i) {
            const Angle angle = Angle::from_degrees(30.0 * i);
            points.push_back(camera
                                 .see(l.centre + l.lateral * support::cosine(angle) +
                                      l.anterior * support::sine(angle))
                                 .flat());
        }
    }
    return points;
}

} // namespace

Part trunk_part(const Body& body, const Camera& camera) {
    Part part;
    part.segment = figure::Segment::Trunk;
    part.chain = Chain::Trunk;
    const double h = body.stature * camera.scale();
    part.from = camera.see(body.at(Landmark::Pelvis));
    part.to = camera.see(middle(body, Landmark::ShoulderL, Landmark::ShoulderR));
    part.from_radius = 0.062 * h;
    part.to_radius = 0.052 * h;
    const auto rings = levels(body);
    if (length(part.to.flat() - part.from.flat()) < 0.14 * h) {
        // Seen along the spine: the outline of everything.
        part.hatched = hull(all_round(rings, camera));
        part.outline = {{smooth_closed(part.hatched), 0.0}};
        return part;
    }
    std::vector<Point> centres;
    for (const Level& l : rings) {
        centres.push_back(camera.see(l.centre).flat());
    }
    std::vector<Point> left;
    std::vector<Point> right;
    for (std::size_t i = 0; i < rings.size(); ++i) {
        const Point before = centres.at(i > 0 ? i - 1 : i);
        const Point after = centres.at(i + 1 < rings.size() ? i + 1 : i);
        const Point across = normal(unit(after - before));
        const double half = half_width(rings.at(i), across, camera);
        left.push_back(centres.at(i) - across * half);
        right.push_back(centres.at(i) + across * half);
    }
    part.outline = {rounded(left, right, kRound * h)};
    part.hatched = {left[0], left[2], left[3], left[4], right[4], right[3], right[2], right[0]};
    return part;
}

namespace {

// A nose that stands out of the outline, as a wedge.
Path profile_nose(Point centre, Point forward, Point up, double r) {
    const Point root = centre + forward * (r * 0.90) + up * (r * 0.16);
    const Point tip = centre + forward * (r * 1.30) - up * (r * 0.20);
    const Point lip = centre + forward * (r * 0.84) - up * (r * 0.42);
    std::vector<Point> wedge = hull({root, tip, lip, centre});
    return page::polygon(wedge);
}

} // namespace

Part head_part(const Body& body, const Camera& camera) {
    Part part;
    part.segment = figure::Segment::Head;
    part.chain = Chain::Head;
    const double h = body.stature * camera.scale();
    const Point3 centre3 = body.at(Landmark::HeadCentre);
    const Point3 crown = unit(body.at(Landmark::Vertex) - body.at(Landmark::HeadBase), {0, 1, 0});
    const Point3 gaze = unit(body.at(Landmark::Nose) - centre3, {1, 0, 0});
    const Spot centre = camera.see(centre3);
    const Spot neck = camera.see(body.at(Landmark::NeckBase));
    part.from = neck;
    part.to = centre;
    part.from_radius = 0.026 * h;
    part.to_radius = 0.066 * h;
    const double r = 0.058 * h;
    const Point up_flat = camera.see(crown).flat() * (1.0 / camera.scale());
    const double tall = length(up_flat);
    const Point up = tall > 0.2 ? unit(up_flat) : Point{0.0, -1.0};
    // The skull is a little longer than wide.
    const Point longer = up * (r * 0.10 * std::min(1.0, tall));
    part.outline = {
        {page::polygon({centre.flat() - longer, centre.flat() + longer}), r},
        {page::polygon({neck.flat(), centre.flat()}), 0.0235 * h},
    };
    const Point forward_flat = camera.see(gaze).flat() * (1.0 / camera.scale());
    const double sideways = length(forward_flat);
    if (sideways > 0.35) {
        // The wedge follows the gaze; "up" on the face is the rest of the crown's direction.
        const Point forward = unit(forward_flat);
        Point brow = normal(forward);
        brow = dot(brow, up) < 0.0 ? brow * -1.0 : brow;
        part.outline.push_back(
            {profile_nose(centre.flat(), forward, brow, r * std::min(1.0, sideways + 0.1)), 0.0});
    }
    const double facing = dot(gaze, camera.toward());
    if (facing > 0.3) {
        // The turn of the face is shown by nose and mouth alone: eyes stare at this size.
        const Point shift = centre.flat() + forward_flat * r;
        const Point side = normal(up) * (r * 0.20 * facing);
        const Point mouth = shift - up * (r * 0.46);
        part.lines = page::line(shift + up * (r * 0.16), shift - up * (r * 0.16));
        append(part.lines, page::line(mouth - side, mouth + side));
    }
    part.hatched = hull(flattened(page::circle(centre.flat(), r)).front());
    return part;
}

} // namespace tickleaf::draw
