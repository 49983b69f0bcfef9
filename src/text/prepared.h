// SPDX-License-Identifier: MIT
// What stands behind a Paragraph: the text, its items, its glyphs and how far along the line each
// place is. Shapes: a Shaped does not depend on the type size or the document, never changes once
// made and is shared by threads; a Paragraph::Impl adds the size, the colour and the document's
// font numbers. Units: ems (fractions of the type size), measured from the paragraph's start, for
// every place in the UTF-16 text. Errors: none here; all were reported while preparing.
#pragma once

#include <cstdint>
#include <memory>
#include <span>
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

/// An item and its glyphs, glyph_begin to glyph_end of the paragraph's.
struct ShapedItem {
    Item item;
    double scale = 0.0;       ///< ems a font unit
    double bold_stroke = 0.0; ///< ems; 0 but where the regular outlines make the bold
    std::uint32_t glyph_begin = 0;
    std::uint32_t glyph_end = 0;
};

class WordCache;

struct Shaped {
    Collected collected;
    Bidi bidi; ///< refers to collected.text, so a Shaped never moves
    std::string language;
    hb_language_t shaping_language = nullptr;
    bool right_to_left = false;
    double line_height = 0.0;
    double closest_lines = 0.0;
    double ascent = 0.0; ///< of the main face, for lines without glyphs
    double descent = 0.0;
    std::vector<ShapedItem> items;
    std::vector<ShapedGlyph> glyphs;
    std::vector<double> positions;     ///< text.size() + 1
    std::vector<bool> safe;            ///< a line may begin here without shaping anew
    std::vector<std::uint32_t> places; ///< allowed line ends
    std::vector<BreakPoint> points;    ///< start, then one a place
    double natural_width = 0.0;
    double least_width = 0.0;
    unsigned extra_buffer_flags = 0;
    WordCache* words = nullptr; ///< of the Fonts that the faces are from

    std::uint32_t size() const { return static_cast<std::uint32_t>(collected.text.size()); }
    ShapeContext context(const ShapedItem& item, hb_buffer_t* buffer) const;
    /// Glyphs of [begin, end) of an item: those at hand, or in `anew`, shaped again where the ends
    /// ask for it.
    std::span<const ShapedGlyph> slice(const ShapedItem& item, std::uint32_t begin,
                                       std::uint32_t end, std::vector<ShapedGlyph>& anew) const;
    std::uint32_t next_safe(const ShapedItem& item, std::uint32_t place) const;
    std::uint32_t previous_safe(const ShapedItem& item, std::uint32_t place) const;
    BreakPoint point_at(std::uint32_t place) const;
    /// `place` moved before the spaces that hang at a line's end.
    std::uint32_t without_spaces(std::uint32_t begin, std::uint32_t place) const;
};

struct Paragraph::Impl {
    std::shared_ptr<const Fonts> fonts; ///< keeps the faces alive
    std::shared_ptr<const Shaped> shaped;
    Style style;
    std::vector<std::size_t> numbers; ///< GlyphRun::font of every item
};

/// Steps 1 and 2 and the widths of step 3.
std::unique_ptr<const Shaped> shape_paragraph(FontSet::Impl& fonts, const ParagraphSource& source,
                                              support::Findings& findings);

/// Step 4: the line [begin, end) of a paragraph, in visual order.
Line place_line(const Paragraph::Impl& paragraph, std::uint32_t begin, std::uint32_t end);

} // namespace tickleaf::text
