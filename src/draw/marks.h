// SPDX-License-Identifier: MIT
// Signs on a panel: movement and press arrows, bands with wraps, clock, loop, number badge.
// Units: points, y down.
#pragma once

#include <string>
#include <vector>

#include "draw/camera.h"
#include "draw/canvas.h"
#include "figure/scene.h"

namespace tickleaf::draw {

/// What a sign had better not cover.
using Occupied = std::vector<Capsule>;

/// The way back stays near the way there, which is `there`; the line of the arrow comes back.
std::vector<Point> paint_arrow(Canvas& canvas, const figure::MovementArrow& arrow,
                               const Camera& camera, const std::vector<Point>& there,
                               Occupied& occupied);
/// A short straight arrow against a bar: pressed, without movement.
void paint_press(Canvas& canvas, Point at, Point toward, const Occupied& occupied);
void paint_band(Canvas& canvas, const figure::BandLine& band, const Camera& camera,
                const std::vector<Part>& parts);

/// Signs with a place of their own; `at` is the middle of the left edge.
void paint_badge(Canvas& canvas, Point at, const std::string& number);
void paint_clock(Canvas& canvas, Point at, const std::string& text);
void paint_loop(Canvas& canvas, Point at);
inline constexpr double kSignHeight = 13.0;
double badge_width();
double clock_width(const std::string& text);

} // namespace tickleaf::draw
