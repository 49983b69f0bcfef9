// SPDX-License-Identifier: MIT
// What stands behind a Paragraph: the text, its items, its glyphs and how far along the line each
// place is. Shapes: positions are points from the paragraph's start, for every place in the UTF-16
// text. Errors: none here; all were reported while preparing.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include <unicode/ubidi.h>

#include "text/break_lines.h"
#include "text/collect.h"
#include "text/font_set.h"
#include "text/itemise.h"
#include "text/paragraph.h"
#include "text/shape.h"

namespace tickleaf::text {

struct BidiDelete {
    void operator()(UBiDi* bidi) const { ubidi_close(bidi); }
};
using Bidi = std::unique_ptr<UBiDi, BidiDelete>;

/// An item with its face and its glyphs, glyph_begin to glyph_end of the paragraph's.
struct PreparedItem {
    Item item;
    const Face* face = nullptr;
    double scale = 0.0; ///< points a font unit
    std::uint32_t glyph_begin = 0;
    std::uint32_t glyph_end = 0;
};

struct Paragraph::Impl {
    std::shared_ptr<const Fonts> fonts; ///< keeps the faces alive
    Collected collected;
    Bidi bidi; ///< refers to collected.text, so an Impl never moves
    std::string language;
    hb_language_t shaping_language = nullptr;
    Style style;
    bool right_to_left = false;
    double line_height = 0.0;
    double ascent = 0.0; ///< of the main face, for lines without glyphs
    double descent = 0.0;
    std::vector<PreparedItem> items;
    std::vector<ShapedGlyph> glyphs;
    std::vector<double> positions;     ///< text.size() + 1
    std::vector<bool> safe;            ///< a line may begin here without shaping anew
    std::vector<std::uint32_t> places; ///< allowed line ends
    std::vector<BreakPoint> points;    ///< start, then one a place
    double natural_width = 0.0;
    double least_width = 0.0;
    unsigned extra_buffer_flags = 0;

    std::uint32_t size() const { return static_cast<std::uint32_t>(collected.text.size()); }
    ShapeContext context(const PreparedItem& item, hb_buffer_t* buffer) const;
    /// Glyphs of [begin, end) of an item, shaped anew where its ends ask for it.
    std::vector<ShapedGlyph> slice(const PreparedItem& item, std::uint32_t begin,
                                   std::uint32_t end) const;
    BreakPoint point_at(std::uint32_t place) const;
    /// `place` moved before the spaces that hang at a line's end.
    std::uint32_t without_spaces(std::uint32_t begin, std::uint32_t place) const;
};

/// Step 4: the line [begin, end) of a paragraph, in visual order.
Line place_line(const Paragraph::Impl& paragraph, std::uint32_t begin, std::uint32_t end);

} // namespace tickleaf::text
