// SPDX-License-Identifier: MIT
#include "text/fonts.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <variant>

#include <harfbuzz/hb-ot.h>
#include <harfbuzz/hb-subset.h>

#include "text/font_set.h"

namespace tickleaf::text {

namespace {

/// Tables that a PDF reader does not use. With layout and cmap left in, glyphs that only they lead
/// to would come along, and large fonts can fail to subset at all (measured with HarfBuzz 6.0).
/// Without the variation tables a variable font is what it is shaped as: its default instance.
constexpr std::array<hb_tag_t, 22> kDropped = {
    HB_TAG('f', 'v', 'a', 'r'), HB_TAG('g', 'v', 'a', 'r'), HB_TAG('a', 'v', 'a', 'r'),
    HB_TAG('c', 'v', 'a', 'r'), HB_TAG('H', 'V', 'A', 'R'), HB_TAG('M', 'V', 'A', 'R'),
    HB_TAG('G', 'S', 'U', 'B'), HB_TAG('G', 'P', 'O', 'S'), HB_TAG('G', 'D', 'E', 'F'),
    HB_TAG('B', 'A', 'S', 'E'), HB_TAG('n', 'a', 'm', 'e'), HB_TAG('O', 'S', '/', '2'),
    HB_TAG('p', 'o', 's', 't'), HB_TAG('D', 'S', 'I', 'G'), HB_TAG('V', 'O', 'R', 'G'),
    HB_TAG('v', 'h', 'e', 'a'), HB_TAG('v', 'm', 't', 'x'), HB_TAG('g', 'a', 's', 'p'),
    HB_TAG('k', 'e', 'r', 'n'), HB_TAG('c', 'm', 'a', 'p'), HB_TAG('S', 'T', 'A', 'T'),
    HB_TAG('m', 'e', 't', 'a')};
constexpr hb_tag_t kCff = HB_TAG('C', 'F', 'F', ' ');

// ISO 32000-1, table 122: StemV is not in the font file; the usual values for text faces of these
// weights.
constexpr double kStemRegular = 80.0;
constexpr double kStemBold = 140.0;

struct InputDelete {
    void operator()(hb_subset_input_t* input) const { hb_subset_input_destroy(input); }
    void operator()(hb_subset_plan_t* plan) const { hb_subset_plan_destroy(plan); }
};
using Input = std::unique_ptr<hb_subset_input_t, InputDelete>;
using Plan = std::unique_ptr<hb_subset_plan_t, InputDelete>;

using GlyphIds = std::vector<std::uint32_t>;

/// Glyphs of every font, ascending.
std::vector<GlyphIds> used_glyphs(const page::Document& document, std::size_t fonts) {
    std::vector<GlyphIds> used(fonts);
    for (const page::Page& page : document.pages) {
        for (const page::Item& item : page.items) {
            const auto* run = std::get_if<page::GlyphRun>(&item.content);
            if (run == nullptr) {
                continue;
            }
            for (const page::Glyph& glyph : run->glyphs) {
                used.at(run->font).push_back(glyph.id);
            }
        }
    }
    for (GlyphIds& ids : used) {
        std::sort(ids.begin(), ids.end());
        ids.erase(std::unique(ids.begin(), ids.end()), ids.end());
    }
    return used;
}

std::vector<std::byte> bytes_of(hb_blob_t* blob) {
    unsigned length = 0;
    const void* data = hb_blob_get_data(blob, &length);
    const auto* first = static_cast<const std::byte*>(data);
    return {first, first + length};
}

HbHandle<hb_blob_t> table_of(hb_face_t* face, hb_tag_t tag) {
    return HbHandle<hb_blob_t>(hb_face_reference_table(face, tag));
}

double signed_at(hb_blob_t* table, unsigned offset) {
    unsigned length = 0;
    const char* data = hb_blob_get_data(table, &length);
    if (length < offset + 2) {
        return 0.0;
    }
    const auto high = static_cast<unsigned char>(data[offset]);
    const auto low = static_cast<unsigned char>(data[offset + 1]);
    return static_cast<double>(static_cast<std::int16_t>((high << 8) | low));
}

double metric(const Face& face, hb_ot_metrics_tag_t tag, double otherwise) {
    hb_position_t value = 0;
    return hb_ot_metrics_get_position(face.font.get(), tag, &value) != 0 ? value : otherwise;
}

std::string postscript_name(hb_face_t* face) {
    std::array<char, 128> name{};
    unsigned size = static_cast<unsigned>(name.size());
    hb_ot_name_get_utf8(face, HB_OT_NAME_ID_POSTSCRIPT_NAME, HB_LANGUAGE_INVALID, &size,
                        name.data());
    return size == 0 ? std::string("Font") : std::string(name.data());
}

/// What a font descriptor asks for. Source: OpenType 1.9, head (xMin at byte 36), OS/2, hhea.
void describe(const UsedFace& used, page::Font& font) {
    const Face& face = *used.face;
    font.postscript_name = postscript_name(face.face.get());
    font.units_per_em = face.units_per_em;
    font.ascent = face.ascent;
    font.descent = -face.descent;
    font.cap_height = metric(face, HB_OT_METRICS_TAG_CAP_HEIGHT, face.ascent);
    font.bold = used.weight == Weight::Bold;
    font.stem_v = font.bold ? kStemBold : kStemRegular;
    const auto head = table_of(face.face.get(), HB_TAG('h', 'e', 'a', 'd'));
    font.x_min = signed_at(head.get(), 36);
    font.y_min = signed_at(head.get(), 38);
    font.x_max = signed_at(head.get(), 40);
    font.y_max = signed_at(head.get(), 42);
}

Input make_input(const Face& face, const GlyphIds& ids) {
    Input input(hb_subset_input_create_or_fail());
    support::internal_error_if(!input, "out of memory while making a subset");
    hb_set_t* glyphs = hb_subset_input_glyph_set(input.get());
    if (face.subsettable) {
        for (const std::uint32_t id : ids) {
            hb_set_add(glyphs, id);
        }
    } else {
        hb_set_add_range(glyphs, 0, hb_face_get_glyph_count(face.face.get()) - 1);
    }
    hb_set_t* dropped = hb_subset_input_set(input.get(), HB_SUBSET_SETS_DROP_TABLE_TAG);
    for (const hb_tag_t tag : kDropped) {
        hb_set_add(dropped, tag);
    }
    // Hints are for coarse screens; on paper and in today's readers they only cost room.
    hb_subset_input_set_flags(input.get(),
                              HB_SUBSET_FLAGS_NO_HINTING | HB_SUBSET_FLAGS_DESUBROUTINIZE);
    return input;
}

/// Fills program and glyph numbers; false where HarfBuzz gives up on the file.
bool make_subset(const Face& face, const GlyphIds& ids, page::Font& font) {
    const Input input = make_input(face, ids);
    const Plan plan(hb_subset_plan_create_or_fail(face.face.get(), input.get()));
    if (!plan) {
        return false;
    }
    const HbHandle<hb_face_t> made(hb_subset_plan_execute_or_fail(plan.get()));
    if (!made) {
        return false;
    }
    const HbHandle<hb_blob_t> file(hb_face_reference_blob(made.get()));
    if (font.kind == page::Font::Kind::CffCid) {
        // The builder's face gives out no tables; the file it made does.
        const HbHandle<hb_face_t> reopened(hb_face_create(file.get(), 0));
        font.program = bytes_of(table_of(reopened.get(), kCff).get());
    } else {
        font.program = bytes_of(file.get());
    }
    const hb_map_t* numbers = hb_subset_plan_old_to_new_glyph_mapping(plan.get());
    for (const std::uint32_t id : ids) {
        // A CID-keyed CFF keeps its CIDs in the subset, and Noto's are its glyph ids.
        const std::uint32_t subset =
            font.kind == page::Font::Kind::CffCid ? id : hb_map_get(numbers, id);
        const auto advance = hb_font_get_glyph_h_advance(face.filed.get(), id);
        font.glyphs.push_back({id, subset, static_cast<double>(advance)});
    }
    return !font.program.empty();
}

} // namespace

void embed(FontSet& set, page::Document& document, support::Findings& findings) {
    const auto& fonts = set.impl().used;
    const auto glyphs = used_glyphs(document, fonts.size());
    document.fonts.clear();
    for (std::size_t i = 0; i < fonts.size(); ++i) {
        page::Font font;
        describe(fonts[i], font);
        unsigned cff_length = 0;
        const auto cff = table_of(fonts[i].face->face.get(), kCff);
        hb_blob_get_data(cff.get(), &cff_length);
        font.kind = cff_length > 0 ? page::Font::Kind::CffCid : page::Font::Kind::TrueType;
        if (!glyphs[i].empty() && !make_subset(*fonts[i].face, glyphs[i], font)) {
            findings.error({}, "font-subset",
                           "the font " + font.postscript_name +
                               " cannot be made smaller for embedding",
                           "reinstall its package");
        }
        document.fonts.push_back(std::move(font));
    }
}

} // namespace tickleaf::text
