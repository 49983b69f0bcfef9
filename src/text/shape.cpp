// SPDX-License-Identifier: MIT
#include "text/shape.h"

#include <unicode/uscript.h>

namespace tickleaf::text {

namespace {

hb_script_t shaping_script(UScriptCode script) {
    return hb_script_from_string(uscript_getShortName(script), -1);
}

void fill(const ShapeContext& context, const Item& item, std::uint32_t begin, std::uint32_t end) {
    hb_buffer_t* buffer = context.buffer;
    const auto length = static_cast<int>(context.text.size());
    hb_buffer_reset(buffer);
    // HarfBuzz wants uint16_t where ICU has char16_t; both are 16-bit units of the same string.
    const void* units = context.text.data();
    hb_buffer_add_utf16(buffer, static_cast<const std::uint16_t*>(units), length, begin,
                        static_cast<int>(end - begin));
    unsigned flags = context.extra_flags;
    flags |= begin == 0 ? unsigned{HB_BUFFER_FLAG_BOT} : 0U;
    flags |= end == context.text.size() ? unsigned{HB_BUFFER_FLAG_EOT} : 0U;
    hb_buffer_set_flags(buffer, static_cast<hb_buffer_flags_t>(flags));
    hb_buffer_set_direction(buffer, item.right_to_left() ? HB_DIRECTION_RTL : HB_DIRECTION_LTR);
    hb_buffer_set_script(buffer, shaping_script(item.script));
    hb_buffer_set_language(buffer, context.language);
}

} // namespace

void shape(const ShapeContext& context, const Item& item, std::uint32_t begin, std::uint32_t end,
           std::vector<ShapedGlyph>& glyphs) {
    fill(context, item, begin, end);
    hb_shape(context.face.font.get(), context.buffer, nullptr, 0);
    unsigned count = 0;
    const hb_glyph_info_t* infos = hb_buffer_get_glyph_infos(context.buffer, &count);
    const hb_glyph_position_t* places = hb_buffer_get_glyph_positions(context.buffer, &count);
    glyphs.reserve(glyphs.size() + count);
    for (unsigned i = 0; i < count; ++i) {
        const bool unsafe =
            (hb_glyph_info_get_glyph_flags(&infos[i]) & HB_GLYPH_FLAG_UNSAFE_TO_BREAK) != 0;
        glyphs.push_back({infos[i].codepoint, infos[i].cluster, places[i].x_advance,
                          places[i].x_offset, places[i].y_offset, unsafe});
    }
}

} // namespace tickleaf::text
