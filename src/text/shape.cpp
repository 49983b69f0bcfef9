// SPDX-License-Identifier: MIT
#include "text/shape.h"

#include <algorithm>
#include <array>
#include <string_view>

#include <unicode/uscript.h>

namespace tickleaf::text {

namespace {

hb_script_t shaping_script(UScriptCode script) {
    return hb_script_from_string(uscript_getShortName(script), -1);
}

void fill(hb_buffer_t* buffer, const ShapeContext& context, const Item& item, std::uint32_t begin,
          std::uint32_t end) {
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

/// Whether a language writes 4, 6 and 7 of U+06F0 to U+06F9 in the Urdu way.
bool writes_urdu_digits(hb_language_t language) {
    constexpr std::array<std::string_view, 4> kLanguages = {"ur", "ks", "sd", "pa"};
    const char* tag = hb_language_to_string(language);
    const std::string_view whole = tag == nullptr ? "" : tag;
    return std::find(kLanguages.begin(), kLanguages.end(), whole.substr(0, whole.find('-'))) !=
           kLanguages.end();
}

/// Noto Naskh Arabic (Debian 12) has the Urdu shapes of three digits under locl of every language,
/// and a Persian reader takes an Urdu 4 for a 3. So locl is off for these digits, and only for
/// them: it also brings the Persian decimal sign and quotation marks.
std::vector<hb_feature_t> plain_digits(const ShapeContext& context, std::uint32_t begin,
                                       std::uint32_t end) {
    std::vector<hb_feature_t> features;
    for (std::uint32_t i = begin; i < end; ++i) {
        const char16_t c = context.text[i];
        if ((c == u'\u06F4' || c == u'\u06F6' || c == u'\u06F7') &&
            !writes_urdu_digits(context.language)) {
            features.push_back({HB_TAG('l', 'o', 'c', 'l'), 0, i, i + 1});
        }
    }
    return features;
}

} // namespace

void shape(const ShapeContext& context, const Item& item, std::uint32_t begin, std::uint32_t end,
           std::vector<ShapedGlyph>& glyphs) {
    HbHandle<hb_buffer_t> own(context.buffer == nullptr ? hb_buffer_create() : nullptr);
    hb_buffer_t* buffer = own ? own.get() : context.buffer;
    fill(buffer, context, item, begin, end);
    const auto features = plain_digits(context, begin, end);
    hb_shape(context.face.font.get(), buffer, features.data(),
             static_cast<unsigned>(features.size()));
    unsigned count = 0;
    const hb_glyph_info_t* infos = hb_buffer_get_glyph_infos(buffer, &count);
    const hb_glyph_position_t* places = hb_buffer_get_glyph_positions(buffer, &count);
    glyphs.reserve(glyphs.size() + count);
    for (unsigned i = 0; i < count; ++i) {
        const bool unsafe =
            (hb_glyph_info_get_glyph_flags(&infos[i]) & HB_GLYPH_FLAG_UNSAFE_TO_BREAK) != 0;
        glyphs.push_back({infos[i].codepoint, infos[i].cluster, places[i].x_advance,
                          places[i].x_offset, places[i].y_offset, unsafe});
    }
}

} // namespace tickleaf::text
