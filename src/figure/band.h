// SPDX-License-Identifier: MIT
// An elastic band along a movement: its length, stretch and force in every pose, and how it is set
// up so that it is never slack and never beyond its limit. Units: mm, N; stretch 1.0 is double the
// length at rest. Source: neo-Hookean rubber (Treloar 1975, value from memory), force relative to
// that at double length.
#pragma once

#include <optional>
#include <vector>

#include "figure/authored.h"
#include "figure/solve.h"

namespace tickleaf::figure {

/// Rubber curve f(e) = (1 + e) - (1 + e)^-2; 1.75 at e = 1; 0 where slack.
double rubber_curve(double stretch);
/// Newtons of one strand stretched by `stretch`, from its force at double length.
double band_force(double stretch, double force_at_double_newtons);

/// A band as it is set up for one body.
struct BandSetup {
    double setup_mm = 0.0; ///< distance to the anchor in the first pose, or length of the band
                           ///< between its two ends
    double rest_mm = 0.0;  ///< length at rest of the part that stretches
    std::optional<Point3> anchor;
};

/// Solves the set-up from all bodies of the movement. Errors: too short a band, stretched too far.
std::optional<BandSetup> set_up_band(const BandSpec& spec, const Request& request,
                                     const std::vector<Body>& movement,
                                     support::Findings& findings);
/// The lines of a band: one, or one from each hand; the first is the longest or as long.
std::vector<BandLine> band_lines(const BandSpec& spec, const BandSetup& setup, const Body& body);
BandResult band_result(const BandSpec& spec, const BandSetup& setup, const Body& body,
                       const Request& request);

} // namespace tickleaf::figure
