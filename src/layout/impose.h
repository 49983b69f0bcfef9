// SPDX-License-Identifier: MIT
// Pages in reading order to sheets that are printed on both sides, laid into one another and folded
// once (saddle stitch). Works on any Document. Units: points. Source: the order of pages on sheets
// is arithmetic: the numbers on a side add up to n + 1, and each page stands once.
#pragma once

#include <cstddef>
#include <vector>

#include "layout/page_template.h"
#include "page/document.h"

namespace tickleaf::layout {

/// The pages on one side of a sheet, counted from 0, as they lie before the reader's eyes.
struct SheetSide {
    std::size_t left = 0;
    std::size_t right = 0;
    bool operator==(const SheetSide&) const = default;
};

/// Front and back of each sheet, the outermost first. `pages` is a multiple of four. Booklets that
/// are read from right to left are bound at the right.
std::vector<SheetSide> saddle_stitch(std::size_t pages, bool right_bound);

/// The sheets of a document whose pages are a multiple of four, on their broad side, to be turned
/// over their short edge. A dashed line shows the fold. Says nothing of accessibility: the order of
/// the pages in such a file is not that in which they are read.
page::Document impose(page::Document document, const Paper& sheet, page::Colour fold_line);

} // namespace tickleaf::layout
