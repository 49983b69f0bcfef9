// SPDX-License-Identifier: MIT
#include "draw/camera.h"

#include <cmath>

#include "support/angle.h"

namespace tickleaf::draw {

namespace {

// A three-quarter view turns this far from the front and looks this far down.
constexpr double kTurn = 40.0;
constexpr double kTilt = 12.0;

Point3 direction_of(figure::View view, double side) {
    using support::Angle;
    switch (view) {
    case figure::View::Side:
        return {0.0, 0.0, side};
    case figure::View::Front:
        return {1.0, 0.0, 0.0};
    case figure::View::Back:
        return {-1.0, 0.0, 0.0};
    case figure::View::Above:
        return {0.0, 1.0, 0.0};
    case figure::View::ThreeQuarter:
        break;
    }
    const Angle turn = Angle::from_degrees(kTurn);
    const Angle tilt = Angle::from_degrees(kTilt);
    const double flat = support::cosine(tilt);
    return {flat * support::cosine(turn), support::sine(tilt), side * flat * support::sine(turn)};
}

} // namespace

Point3 operator+(Point3 a, Point3 b) {
    return {a.x + b.x, a.y + b.y, a.z + b.z};
}
Point3 operator-(Point3 a, Point3 b) {
    return {a.x - b.x, a.y - b.y, a.z - b.z};
}
Point3 operator*(Point3 a, double factor) {
    return {a.x * factor, a.y * factor, a.z * factor};
}
double dot(Point3 a, Point3 b) {
    return a.x * b.x + a.y * b.y + a.z * b.z;
}
Point3 cross(Point3 a, Point3 b) {
    return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
Point3 unit(Point3 a, Point3 otherwise) {
    const double length = std::sqrt(dot(a, a));
    return length > 1e-6 ? a * (1.0 / length) : otherwise;
}
Point3 between(Point3 a, Point3 b, double t) {
    return a + (b - a) * t;
}

Camera::Camera(figure::View view, support::Side near_side, double scale)
    : scale_(scale), view_(view) {
    const double side = near_side == support::Side::Left ? -1.0 : 1.0;
    toward_ = direction_of(view, side);
    level_ = view != figure::View::Above && view != figure::View::ThreeQuarter;
    // From above, the near side of the body is at the foot of the paper.
    right_ = view == figure::View::Above ? Point3{side, 0.0, 0.0}
                                         : unit(cross({0.0, 1.0, 0.0}, toward_), {1.0, 0.0, 0.0});
    up_ = cross(toward_, right_);
}

Spot Camera::see(Point3 p) const {
    return {dot(p, right_) * scale_, -dot(p, up_) * scale_, dot(p, toward_) * scale_};
}

} // namespace tickleaf::draw
