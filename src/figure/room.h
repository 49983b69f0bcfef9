// SPDX-License-Identifier: MIT
// The things in the room: where they stand, what is solid about them, and the surfaces a body can
// touch. Units: mm, axes as in body.h. Things stand square to the room, so that every face looks
// along an axis. Source: seat 450 mm, back rest top 880 mm, table 730 mm: common practice for
// household furniture.
#pragma once

#include <optional>
#include <vector>

#include "figure/authored.h"
#include "figure/optimise.h"

namespace tickleaf::figure {

/// A flat face that can be touched.
struct Surface {
    Axis axis = Axis::Y;
    double value = 0.0;
    double sign = 1.0; ///< the body is on this side of it
};

/// The props of an exercise for one stature.
std::vector<Prop> place_props(const Exercise::Impl& impl, double stature,
                              std::optional<double> step_height);
const Prop* find_prop(const std::vector<Prop>& props, Prop::Kind kind);
/// A prop in the hand as the body holds it.
Prop held_prop(const PropSpec& spec, const Body& body);
/// A ball rolled to where the calf of a leg lies on it.
Prop rolled_ball(const Prop& ball, const Body& body, std::size_t right);
/// A table whose leg, or a door whose face, is where a band is fixed.
Prop at_anchor(Prop::Kind kind, PropSite side, const Point3& anchor);
std::vector<Solid> solids_of(const Prop& prop);
/// The face of a prop for a place; the floor without a prop.
Surface surface_of(Place place, const std::vector<Prop>& props);
/// Where its front looks, and its own right.
Point3 front_of(const Prop& prop);
Point3 right_of(const Prop& prop);

} // namespace tickleaf::figure
