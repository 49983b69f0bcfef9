// SPDX-License-Identifier: MIT
#include "support/angle.h"

#include <cmath>

namespace tickleaf::support {

double sine(Angle angle) {
    return std::sin(angle.radians());
}

double cosine(Angle angle) {
    return std::cos(angle.radians());
}

Angle arc_tangent(double y, double x) {
    return Angle::from_radians(std::atan2(y, x));
}

} // namespace tickleaf::support
