// SPDX-License-Identifier: MIT
// A slab: the smallest thing the page breaker moves, measured once. A line of a paragraph, a row of
// a table, a whole callout, a row of columns. Shapes: fragments stand in reading order, in logical
// coordinates: x counts from the reading start (left in English, right in Arabic), y from the
// slab's top. Drawings may flex: every height and y is a line in the flex `k`, which runs from -1
// (drawings at 85 %) over 0 to +1 (drawings at 115 %). Units: points.
#pragma once

#include <algorithm>
#include <cstddef>
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "page/document.h"
#include "support/source.h"
#include "text/paragraph.h"

namespace tickleaf::content {
struct Table;
}

namespace tickleaf::layout {

/// The range in which a drawing may grow or shrink at k = +1 or -1.
inline constexpr double kFlexShare = 0.15;
/// The share of the space between blocks that a page may take away at k = -1.
inline constexpr double kSpaceShrink = 0.25;
inline constexpr std::size_t kNone = static_cast<std::size_t>(-1);

/// A length that depends on the flex.
struct Extent {
    double fixed = 0.0;
    double flex = 0.0;
    double at(double k) const { return fixed + k * flex; }
};

/// A line of text; the fragment's y is its baseline.
struct TextPart {
    text::Line line;
};
/// A shape relative to the fragment's left and top edge.
struct ShapePart {
    page::Shape shape;
};
/// A drawing; the fragment's width is that at k = 0. `labels` are the lines of drawing->labels.
struct DrawingPart {
    std::shared_ptr<const page::Drawing> drawing;
    double scale = 1.0;
    bool flexible = false;
    std::vector<text::Line> labels;
};
/// The number of the page on which a heading stands, set at the end of its line once pages are
/// known; the fragment's width is kept free for it, its y is the top of the line.
struct PageNumberPart {
    std::size_t anchor = 0;
    text::Style style;
};
/// A rectangle that leads to a heading.
struct LinkPart {
    std::size_t anchor = 0;
    page::Link link; ///< its height and description, with content::kPageHole for the number
};
/// A picture over the fragment's width.
struct PicturePart {
    std::shared_ptr<const page::Picture> picture;
    double height = 0.0;
};
using Part = std::variant<TextPart, ShapePart, DrawingPart, PageNumberPart, LinkPart, PicturePart>;

struct Fragment {
    Part part;
    double x = 0.0;     ///< from the reading start
    double width = 0.0; ///< for mirroring
    Extent y{};
    std::size_t tag = page::kArtifact;
};

/// Whether a page may begin with this slab. Paid: only where that saves a page or a thin one. Kept:
/// it follows a heading; parted only where a page cannot hold both.
enum class Break { Allowed, Discouraged, Paid, Kept, Forbidden, Forced };

struct Slab {
    std::vector<Fragment> fragments;
    std::vector<Extent> extents{Extent{}}; ///< the height is the greatest of them
    double space_before = 0.0;             ///< left out at the top of a page
    Break before = Break::Allowed;
    double stretch = 0.0;                ///< how much more space before it may get on a loose page
    std::size_t repeat = kNone;          ///< table head to set again where a page begins here
    std::size_t part = 0;                ///< index of the booklet's part, for thumb tabs
    const content::Table* log = nullptr; ///< of which it is a row to fill in
    bool is_writing_line = false;        ///< over the whole width
    std::vector<page::OutlineEntry> outline;
    std::vector<std::size_t> anchors; ///< of headings in it, see content::Heading
    std::string where;                ///< first words of the block, for findings
    support::Span span{};

    /// Space before at a flex: a full page takes some of it away, a loose one adds `stretch`.
    double space(double k) const { return space_before * (1.0 + kSpaceShrink * std::min(k, 0.0)); }
    double height(double k = 0.0) const {
        double result = 0.0;
        for (const Extent& extent : extents) {
            result = std::max(result, extent.at(k));
        }
        return result;
    }
};

/// All that pages are made from: the slabs in reading order and the table heads that repeat.
struct Flow {
    std::vector<Slab> slabs;
    std::vector<Slab> heads;
};

} // namespace tickleaf::layout
