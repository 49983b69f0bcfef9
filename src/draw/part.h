// SPDX-License-Identifier: MIT
// The pieces a panel is painted from: limb segments, trunk, head, held things, each with an outline
// on paper, an axis with depth for the painter's order, and a tone. Units: points; y down, floor at
// y = 0 for level views.
#pragma once

#include <vector>

#include "draw/camera.h"
#include "draw/outline.h"
#include "figure/scene.h"

namespace tickleaf::draw {

/// How a part is painted.
enum class Tone { Near, Far, Working, WorkingFar, Thing, Heavy };

/// Parts of one chain join without a seam.
enum class Chain { Trunk, Head, ArmL, ArmR, LegL, LegR, Thing };

struct Part {
    figure::Segment segment = figure::Segment::Trunk;
    Chain chain = Chain::Trunk;
    Tone tone = Tone::Near;
    Spot from{};
    Spot to{};
    double from_radius = 0.0;
    double to_radius = 0.0;
    double lift = 0.0;          ///< added to depth, so that ties fall the natural way
    std::vector<Piece> outline; ///< pieces that unite
    Path halo;                  ///< white round it; empty: the outline widened
    std::vector<Point> hatched; ///< convex area for the working pattern; empty: none
    double lean = 0.6;          ///< of its lines; left and right lean apart, as in a mirror
    Point across{};             ///< of a foot: half its breadth at the ball, on paper
    Path lines;                 ///< white lines on top, such as the sole or the face

    Capsule capsule() const { return {from.flat(), to.flat(), from_radius, to_radius}; }
};

/// Radii and offsets of the drawn body as shares of stature: our own drawing proportions.
std::vector<Part> body_parts(const figure::Body& body, const figure::Scene& scene,
                             const Camera& camera);
/// Back to front: the nearer of two parts that overlap is painted later.
std::vector<Part> in_paint_order(std::vector<Part> parts);

/// A hand in the room; its fingers' flexion in degrees.
struct Hand {
    Point3 wrist{};
    Point3 knuckle{};
    Point3 fingertip{}; ///< with the hand flat
    Point3 thumb{};
    double flexion = 0.0;
    bool is_right = true;
};
/// Outline of a hand, and the lines between its fingers where it is drawn large; in hand.cpp.
void shape_hand(Part& part, const Hand& hand, double stature, const Camera& camera);

/// Trunk and head, in torso.cpp.
Part trunk_part(const figure::Body& body, const Camera& camera);
Part head_part(const figure::Body& body, const Camera& camera);

} // namespace tickleaf::draw
