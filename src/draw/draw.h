// SPDX-License-Identifier: MIT
// Scene to Drawing in the house style, and Drawing or Page to SVG and PNG (cairo here only).
// Units: points; the drawing's natural size is as if printed at scale 1.
// Labels of PNG and PDF are set in cairo's one "sans-serif", which has no Arabic or Indic digits
// and shapes nothing: `tickleaf draw` writes 1, 2, 3 alone. In a booklet layout/ sets the labels.
// Style: reads at 35 mm wide and in a bad photocopy; the working limb told by weight and pattern as
// well as tone; every tone used has at least 3:1 contrast on white where it carries meaning
// (WCAG 2.x 1.4.11).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "figure/scene.h"
#include "page/document.h"
#include "page/drawing.h"

namespace tickleaf::draw {

struct Options {
    std::vector<std::string>
        panel_numbers;     ///< "1", "2"... in the reader's digits; own digits where empty
    std::string hold_text; ///< such as "45 s" beside the clock mark; empty for the bare number
    bool panels_right_to_left =
        false;                  ///< order of panels on the page; the bodies are never mirrored
    double panel_width = 150.0; ///< points, of one panel at natural size
};

page::Drawing draw(const figure::Scene& scene, const Options& options);

/// Byte-stable SVG 1.1.
std::string to_svg(const page::Drawing& drawing);
/// PNG bytes at so many pixels a point; white background.
std::string to_png(const page::Drawing& drawing, double pixels_per_point);
/// Grid of titled drawings over as many pages as needed, for the contact sheet.
struct SheetEntry {
    std::string title;
    page::Drawing drawing;
};
page::Drawing contact_sheet(const std::vector<SheetEntry>& entries, int columns);
/// One-page PDF of a drawing through cairo (for `tickleaf draw --format pdf` only).
std::string to_pdf(const page::Drawing& drawing);

} // namespace tickleaf::draw
