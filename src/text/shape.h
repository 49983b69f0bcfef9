// SPDX-License-Identifier: MIT
// Step 2b: characters of one item to positioned glyphs, with the whole paragraph as context.
// Units: font units. Shapes: glyphs in visual order; `cluster` is a place in the paragraph's UTF-16
// text. Source: HarfBuzz manual, "Clusters" and hb_glyph_flags_t (unsafe to break).
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "text/face.h"
#include "text/itemise.h"

namespace tickleaf::text {

struct ShapedGlyph {
    std::uint32_t id = 0;
    std::uint32_t cluster = 0;
    std::int32_t advance = 0;
    std::int32_t x_offset = 0;
    std::int32_t y_offset = 0;
    bool unsafe = false; ///< a line cannot begin here without shaping anew
};

/// What shaping needs besides the item.
struct ShapeContext {
    const std::u16string& text;
    const Face& face;
    hb_language_t language;
    hb_buffer_t* buffer; ///< scratch; nullptr: one is made for the call
    unsigned extra_flags = 0;
};

/// Appends the glyphs of [begin, end) of an item.
void shape(const ShapeContext& context, const Item& item, std::uint32_t begin, std::uint32_t end,
           std::vector<ShapedGlyph>& glyphs);

} // namespace tickleaf::text
