// SPDX-License-Identifier: MIT
// The other side: everything is solved with the right limb as the working one and mirrored about
// the median plane (z = 0) for the left, so that left is exactly right seen in a mirror.
#pragma once

#include "figure/solve.h"

namespace tickleaf::figure {

Landmark mirrored(Landmark landmark);
Point3 mirrored(const Point3& point);
Body mirrored(const Body& body);
/// A solution for the right limb as one for the left, names of sides included.
Solution mirrored(Solution solution);

} // namespace tickleaf::figure
