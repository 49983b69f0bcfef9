// SPDX-License-Identifier: MIT
// Centre of mass and base of support.
// Units: mm. The margin is the distance of the centre of mass, seen from above, to the nearest edge
// of the hull of the supporting points; negative outside. Source: segment masses and centres,
// Winter 2009 table 4.1 (Dempster 1955 via Miller and Nelson 1973).
#pragma once

#include <vector>

#include "figure/body.h"

namespace tickleaf::figure {

/// Share of the body's mass that a landmark stands for.
struct MassPoint {
    Landmark landmark{};
    double share = 0.0;
};

/// Masses as a weighted sum of landmarks; the shares add up to 1.
const std::vector<MassPoint>& mass_points();
Point3 centre_of_mass(const Body& body);

/// An edge of the hull, seen from above, and how far a point lies inside it.
struct HullEdge {
    Landmark from{};
    double normal_x = 0.0; ///< unit normal that points inwards
    double normal_z = 0.0;
    double inside = 0.0; ///< mm of the point inside this edge
};

/// Edges of the convex hull of the landmarks as seen from above, with the distance of `point`
/// inside each.
std::vector<HullEdge> hull_edges(const Body& body, const std::vector<Landmark>& support,
                                 const Point3& point);
double balance_margin(const Body& body, const std::vector<Landmark>& support, const Point3& point);

} // namespace tickleaf::figure
