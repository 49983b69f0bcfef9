// SPDX-License-Identifier: MIT
// The rectangles that things on a page cover.
// Units: points, axes of the page (y down). Shapes: of a curve its control points, which it never
// leaves; of a shape its path without the width of its line.
#pragma once

#include <algorithm>
#include <optional>

#include "page/document.h"

namespace tickleaf::page {

struct Box {
    double x0 = 0.0, y0 = 0.0, x1 = 0.0, y1 = 0.0;
    /// Whether they share more than a strip of the tolerance.
    bool meets(const Box& other, double tolerance = 0.0) const {
        return x0 + tolerance < other.x1 && other.x0 + tolerance < x1 &&
               y0 + tolerance < other.y1 && other.y0 + tolerance < y1;
    }
    /// The least that covers both.
    Box joined(const Box& other) const {
        return {std::min(x0, other.x0), std::min(y0, other.y0), std::max(x1, other.x1),
                std::max(y1, other.y1)};
    }
    Box grown(double by) const { return {x0 - by, y0 - by, x1 + by, y1 + by}; }
};

/// How far letters reach above and below their line, as shares of the type size.
struct Reach {
    double up = 0.8;
    double down = 0.2;
};

/// Nothing for links and shapes without a path.
std::optional<Box> bounds_of(const Content& content, const Reach& reach);

} // namespace tickleaf::page
