// SPDX-License-Identifier: MIT
#include "draw/props.h"

#include <algorithm>
#include <cmath>

#include "support/angle.h"

namespace tickleaf::draw {

namespace {

using figure::Prop;
using Kind = figure::Prop::Kind;
using support::Angle;

// Sizes of our own drawing of furniture, millimetres.
constexpr double kLeg = 38.0;
constexpr double kBoard = 42.0;
constexpr double kBackDepth = 30.0;
constexpr double kRail = 44.0;    // thick enough to hold
constexpr double kRailEnd = 60.0; // beyond the posts
constexpr double kBar = 14.0;

// Builds the outline of one prop in its own axes: x to its front, y up from its base, z to its
// right.
class Builder {
  public:
    Builder(const Prop& prop, const Camera& camera)
        : at_(prop.at),
          sine_(support::sine(Angle::from_degrees(prop.yaw_degrees))),
          cosine_(support::cosine(Angle::from_degrees(prop.yaw_degrees))),
          camera_(camera) {}

    Spot see(double x, double y, double z) const {
        return camera_.see(
            {at_.x + x * cosine_ + z * sine_, at_.y + y, at_.z - x * sine_ + z * cosine_});
    }

    void box(Point3 low, Point3 high) {
        std::vector<Point> corners;
        for (const double x : {low.x, high.x}) {
            for (const double y : {low.y, high.y}) {
                for (const double z : {low.z, high.z}) {
                    corners.push_back(see(x, y, z).flat());
                }
            }
        }
        add(page::polygon(hull(corners)));
    }

    // A rod or roll along its own z.
    void roll(double y, double z_from, double z_to, double radius) {
        std::vector<Point> points;
        for (const double z : {z_from, z_to}) {
            for (int i = 0; i < 16; ++i) {
                const Angle angle = Angle::from_degrees(22.5 * i);
                points.push_back(
                    see(radius * support::cosine(angle), y + radius * support::sine(angle), z)
                        .flat());
            }
        }
        add(page::polygon(hull(points)));
    }

    Path outline;

  private:
    // Legs that stand behind one another are one on paper.
    void add(const Path& path) {
        const bool known = std::search(outline.begin(), outline.end(), path.begin(), path.end(),
                                       [](const page::PathStep& a, const page::PathStep& b) {
                                           return a.kind == b.kind && length(a.to - b.to) < 0.05;
                                       }) != outline.end();
        if (!known) {
            append(outline, path);
        }
    }

    Point3 at_;
    double sine_;
    double cosine_;
    const Camera& camera_;
};

void chair(Builder& b, const Prop& p) {
    const double w = p.width / 2.0;
    const double d = p.depth / 2.0;
    const double back = p.back_height > p.height ? p.back_height : p.height * 2.0;
    b.box({-d, p.height - kBoard, -w}, {d, p.height, w});
    for (const double x : {-d, d - kLeg}) {
        for (const double z : {-w, w - kLeg}) {
            b.box({x, 0.0, z}, {x + kLeg, p.height - kBoard, z + kLeg});
        }
    }
    for (const double z : {-w, w - kLeg}) {
        b.box({-d, p.height, z}, {-d + kBackDepth, back, z + kLeg});
    }
    b.box({-d, back - 170.0, -w}, {-d + kBackDepth, back, w});
}

void table(Builder& b, const Prop& p) {
    const double w = p.width / 2.0;
    const double d = p.depth / 2.0;
    b.box({-d, p.height - kBoard, -w}, {d, p.height, w});
    for (const double x : {-d + 30.0, d - kLeg - 30.0}) {
        for (const double z : {-w + 30.0, w - kLeg - 30.0}) {
            b.box({x, 0.0, z}, {x + kLeg, p.height - kBoard, z + kLeg});
        }
    }
}

// Posts with thin bars between them, as at a stair: a table has none.
void rail(Builder& b, const Prop& p) {
    const double w = p.width / 2.0;
    const double y = p.height - kRail / 2.0;
    b.roll(y - 0.88 * (p.height - kRail), -w + kRailEnd, w - kRailEnd, kBar / 2.0);
    const int bars = std::max(2, static_cast<int>(std::lround((p.width - 2.0 * kRailEnd) / 150.0)));
    for (int i = 0; i <= bars; ++i) {
        const bool post = i == 0 || i == bars;
        const double z = -w + kRailEnd + (p.width - 2.0 * kRailEnd) * i / bars;
        const double half = (post ? kRail : kBar) / 2.0;
        b.box({-half, post ? 0.0 : 0.12 * p.height, z - half}, {half, y, z + half});
    }
    b.roll(y, -w, w, kRail / 2.0);
}

Part weight_part(Builder b, double from, double to, double radius, const Camera& camera) {
    Part part;
    part.chain = Chain::Thing;
    part.tone = Tone::Heavy;
    b.roll(0.0, from, to, radius);
    part.from = b.see(0.0, 0.0, from);
    part.to = b.see(0.0, 0.0, to);
    part.from_radius = radius * camera.scale();
    part.to_radius = part.from_radius;
    part.outline = {{std::move(b.outline), 0.0}};
    return part;
}

// A bar with two ends. What would hide the fist lies behind it: the bar, and an end that is seen
// from its face.
std::vector<Part> weight_parts(const Prop& p, const Camera& camera) {
    const Builder b(p, camera);
    const double r = std::max(p.height, 60.0) / 2.0;
    const double half = std::max(p.width, 140.0) / 2.0;
    std::vector<Part> parts{weight_part(b, -half, half, r * 0.35, camera),
                            weight_part(b, -half, -half * 0.6, r, camera),
                            weight_part(b, half * 0.6, half, r, camera)};
    const bool from_its_end =
        length(b.see(0.0, 0.0, half).flat() - b.see(0.0, 0.0, 0.0).flat()) < r * camera.scale();
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (i == 0 || from_its_end) {
            parts[i].lift = -2.0 * half * camera.scale();
        }
    }
    return parts;
}

void block(Builder& b, const Prop& p, double height) {
    b.box({-p.depth / 2.0, 0.0, -p.width / 2.0}, {p.depth / 2.0, height, p.width / 2.0});
}

} // namespace

bool is_furniture(Kind kind) {
    switch (kind) {
    case Kind::Chair:
    case Kind::Step:
    case Kind::Wall:
    case Kind::Table:
    case Kind::Rail:
    case Kind::Door:
        return true;
    case Kind::Bolster:
    case Kind::Ball:
    case Kind::Cushion:
    case Kind::Towel:
    case Kind::Stick:
    case Kind::Weight:
        return false;
    }
    return true;
}

std::vector<Part> prop_parts(const Prop& prop, const Camera& camera, double top) {
    if (prop.kind == Kind::Weight) {
        return weight_parts(prop, camera);
    }
    Builder b(prop, camera);
    Part part;
    part.chain = Chain::Thing;
    part.tone = Tone::Thing;
    double axis_height = prop.height / 2.0;
    switch (prop.kind) {
    case Kind::Chair:
        chair(b, prop);
        break;
    case Kind::Table:
        table(b, prop);
        break;
    case Kind::Rail:
        rail(b, prop);
        break;
    case Kind::Step:
    case Kind::Cushion:
        block(b, prop, prop.height);
        break;
    case Kind::Wall:
    case Kind::Door:
        block(b, prop, std::min(prop.height > 0.0 ? prop.height : top, top));
        break;
    case Kind::Ball:
        b.outline = page::circle(camera.see(prop.at).flat(), prop.height / 2.0 * camera.scale());
        axis_height = 0.0;
        break;
    case Kind::Bolster:
    case Kind::Towel:
    case Kind::Stick:
        b.roll(prop.height / 2.0, -prop.width / 2.0, prop.width / 2.0, prop.height / 2.0);
        break;
    case Kind::Weight:
        break;
    }
    const double half = prop.kind == Kind::Ball ? 0.0 : prop.width / 2.0;
    part.from = b.see(0.0, axis_height, -half);
    part.to = b.see(0.0, axis_height, half);
    part.from_radius = prop.height / 2.0 * camera.scale();
    part.to_radius = part.from_radius;
    part.outline = {{std::move(b.outline), 0.0}};
    return {std::move(part)};
}

} // namespace tickleaf::draw
