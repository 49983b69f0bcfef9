// SPDX-License-Identifier: MIT
// Collects painted shapes, joins neighbours of the same paint, and knows the box they cover.
// Units: points, y down. Fills use the nonzero rule (all outlines of draw/outline.h turn the same
// way).
#pragma once

#include <vector>

#include "draw/outline.h"
#include "draw/part.h"
#include "page/drawing.h"

namespace tickleaf::draw {

class Canvas {
  public:
    void fill(const Path& path, page::Colour colour);
    /// Filled, and widened all round by `extra` points of the same colour.
    void fill_wider(const Path& path, page::Colour colour, double extra);
    void stroke(const Path& path, page::Stroke stroke);
    void label(page::Label label, double width);
    const Box& box() const { return box_; }
    void grow(const Box& box) { box_.add(box); }
    std::vector<page::Shape> shapes;
    std::vector<page::Label> labels;

  private:
    Box box_;
};

page::Stroke pen(page::Colour colour, double width);
/// Width on paper of a short text, without its font: generous, so that it never leaves the drawing.
double text_width(const std::string& text, double height);

/// The parts in their order, each limb with its halo, tone and pattern.
void paint_parts(Canvas& canvas, const std::vector<Part>& ordered);
/// One pale silhouette.
void paint_ghost(Canvas& canvas, const std::vector<Part>& parts);

} // namespace tickleaf::draw
