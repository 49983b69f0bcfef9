// SPDX-License-Identifier: MIT
// Quantities as types, so that a millimetre is never taken for a point nor a second for a minute.
// Units: named in each maker. Durations are whole seconds; ranges are inclusive at both ends.
// Source: 1 in = 25.4 mm = 72 pt (ISO 32000-1, 8.3.2.3 default user space).
#pragma once

#include <compare>
#include <cstdint>

namespace tickleaf::support {

/// A length on paper or in the world, kept in points.
class Length {
  public:
    constexpr Length() = default;
    static constexpr Length from_mm(double v) { return Length(v * 72.0 / 25.4); }
    static constexpr Length from_pt(double v) { return Length(v); }
    constexpr double mm() const { return points_ * 25.4 / 72.0; }
    constexpr double pt() const { return points_; }
    constexpr auto operator<=>(const Length&) const = default;

  private:
    constexpr explicit Length(double points) : points_(points) {}
    double points_ = 0.0;
};

/// A force.
class Force {
  public:
    constexpr Force() = default;
    static constexpr Force from_newtons(double v) { return Force(v); }
    constexpr double newtons() const { return newtons_; }
    constexpr auto operator<=>(const Force&) const = default;

  private:
    constexpr explicit Force(double newtons) : newtons_(newtons) {}
    double newtons_ = 0.0;
};

/// A whole number of seconds.
struct Seconds {
    std::int64_t count = 0;
    constexpr auto operator<=>(const Seconds&) const = default;
};

/// From `low` to `high`, both included; equal where the prescription names one value.
template <class T>
struct Range {
    T low{};
    T high{};
    constexpr bool is_single() const { return low == high; }
    constexpr bool operator==(const Range&) const = default;
};

} // namespace tickleaf::support
