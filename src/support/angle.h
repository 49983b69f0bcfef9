// SPDX-License-Identifier: MIT
// Angles in degrees and the only place that calls sin, cos and atan2, so that results are the same
// everywhere.
#pragma once

namespace tickleaf::support {

/// An angle; anatomical angles are written in degrees everywhere outside this type.
class Angle {
  public:
    constexpr Angle() = default;
    static constexpr Angle from_degrees(double v) { return Angle(v * kPi / 180.0); }
    static constexpr Angle from_radians(double v) { return Angle(v); }
    constexpr double degrees() const { return radians_ * 180.0 / kPi; }
    constexpr double radians() const { return radians_; }
    static constexpr double kPi = 3.14159265358979323846;

  private:
    constexpr explicit Angle(double radians) : radians_(radians) {}
    double radians_ = 0.0;
};

double sine(Angle angle);
double cosine(Angle angle);
Angle arc_tangent(double y, double x);

} // namespace tickleaf::support
