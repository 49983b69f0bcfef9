// SPDX-License-Identifier: MIT
// A pose that is met: its contacts, clear of floor and props, in balance. Units: mm and degrees.
#pragma once

#include "figure/optimise.h"

namespace tickleaf::figure {

inline constexpr double kMostMiss = 2.0;   ///< mm, of a contact or into a prop
inline constexpr double kMostSlide = 20.0; ///< mm between poses

/// How far each angle may stray where the file does not name it: stiff where a bend would be seen
/// as a movement.
std::array<double, kDofs> usual_sigma(double stature);

bool is_met(const Problem& problem, const Posture& posture);

/// The posture near `wish`. A body of one size may get stuck where all others pass: then the search
/// begins again from where it ended, from the pose `before`, and from bent limbs. Where nothing is
/// met the first try comes back, so that what is told of it does not depend on the others.
Posture settle(const Problem& problem, const Posture& wish, const Posture& before);

} // namespace tickleaf::figure
