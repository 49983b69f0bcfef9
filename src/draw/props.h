// SPDX-License-Identifier: MIT
// Furniture and held things: each kind as a few boxes, discs or rods in the room, seen by the
// camera. Units: millimetres in, points out.
#pragma once

#include <vector>

#include <vector>

#include "draw/camera.h"
#include "draw/part.h"
#include "figure/scene.h"

namespace tickleaf::draw {

/// Furniture stands behind the body; held things are painted by depth among its parts.
bool is_furniture(figure::Prop::Kind kind);
/// A prop as a part of tone Thing, a weight as three: its ends stand on both sides of a fist. Walls
/// and doors reach no higher than `top` millimetres.
std::vector<Part> prop_parts(const figure::Prop& prop, const Camera& camera, double top);

} // namespace tickleaf::draw
