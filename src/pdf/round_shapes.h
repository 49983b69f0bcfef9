// SPDX-License-Identifier: MIT
// Filled shapes with round corners, said in fewer words: a line with round joins around a smaller
// rectangle, or a dot. They paint the same points as the curves that stand for them, and exactly.
// Units: those of the path. Source: ISO 32000-1:2008, 8.4.3.3-8.4.3.4 caps and joins.
#pragma once

#include <optional>

#include "page/drawing.h"

namespace tickleaf::pdf {

/// A shape with fill and no stroke whose path is page::rounded_rectangle or page::circle, as one
/// that is stroked with its own colour (and filled, if it is no dot); nothing for all others.
std::optional<page::Shape> with_round_stroke(const page::Shape& shape);

} // namespace tickleaf::pdf
