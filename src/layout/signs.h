// SPDX-License-Identifier: MIT
// The signs of the booklet as vector shapes: stop octagon, caution triangle, carry-on circle, tick
// box, badge, hatching. Meaning is carried by shape, so that a black-and-white copy says the same.
// Units: points; each sign fills a square of the given size with its top left corner at the origin.
#pragma once

#include <vector>

#include "page/drawing.h"

namespace tickleaf::layout {

using Shapes = std::vector<page::Shape>;

page::Shape filled(page::Path path, page::Colour colour);
page::Shape outlined(page::Path path, page::Colour colour, double width);

/// Octagon filled with `dark`, and a white exclamation mark.
Shapes stop_sign(double size, page::Colour dark);
/// Triangle outlined in `dark`, and an exclamation mark.
Shapes caution_sign(double size, page::Colour dark);
/// Circle outlined in `dark`, and a check mark.
Shapes go_sign(double size, page::Colour dark);
/// Circle outlined in `dark`, and the letter i as shapes.
Shapes notice_sign(double size, page::Colour dark);
/// The pen stroke of a ticked box.
page::Shape tick_mark(double size, page::Colour dark);
/// Slanting lines of a rectangle, clipped by construction.
page::Shape hatching(double width, double height, double step, page::Stroke stroke);

} // namespace tickleaf::layout
