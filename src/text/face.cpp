// SPDX-License-Identifier: MIT
#include "text/face.h"

#include <cmath>
#include <map>
#include <span>

#include <harfbuzz/hb-ot.h>

#include "text/cff.h"

namespace tickleaf::text {

namespace {

// OS/2 version 3 and later, fsType: bits 0 to 3 are one licence level, 8 and 9 are restrictions
// beside it.
constexpr unsigned kFsTypeOffset = 8;
constexpr unsigned kRestrictedLicence = 0x0002;
constexpr unsigned kNoSubsetting = 0x0100;
constexpr unsigned kBitmapsOnly = 0x0200;
constexpr unsigned kLicenceLevels = 0x000F;

unsigned fs_type(hb_face_t* face) {
    const HbHandle<hb_blob_t> table(hb_face_reference_table(face, HB_TAG('O', 'S', '/', '2')));
    unsigned length = 0;
    const char* data = hb_blob_get_data(table.get(), &length);
    if (length < kFsTypeOffset + 2) {
        return 0;
    }
    const auto byte = [data](unsigned i) {
        return static_cast<unsigned>(static_cast<unsigned char>(data[i]));
    };
    return (byte(kFsTypeOffset) << 8) | byte(kFsTypeOffset + 1);
}

double metric(hb_font_t* font, hb_ot_metrics_tag_t tag) {
    hb_position_t value = 0;
    return hb_ot_metrics_get_position(font, tag, &value) != 0 ? static_cast<double>(value) : 0.0;
}

/// Outlines that a PDF of ours cannot hold (pdf/ embeds TrueType and CID-keyed CFF programs).
FaceProblem outline_problem(hb_face_t* face) {
    const HbHandle<hb_blob_t> cff2(hb_face_reference_table(face, HB_TAG('C', 'F', 'F', '2')));
    if (hb_blob_get_length(cff2.get()) > 0) {
        return FaceProblem::Cff2;
    }
    const HbHandle<hb_blob_t> cff(hb_face_reference_table(face, HB_TAG('C', 'F', 'F', ' ')));
    unsigned length = 0;
    const char* data = hb_blob_get_data(cff.get(), &length);
    return length == 0 || is_cid_keyed(std::as_bytes(std::span(data, length)))
               ? FaceProblem::None
               : FaceProblem::NameKeyed;
}

HbHandle<hb_face_t> make_face(std::span<const std::byte> view, unsigned index) {
    const void* start = view.data();
    const HbHandle<hb_blob_t> blob(hb_blob_create(static_cast<const char*>(start),
                                                  static_cast<unsigned>(view.size()),
                                                  HB_MEMORY_MODE_READONLY, nullptr, nullptr));
    HbHandle<hb_face_t> face(hb_face_create(blob.get(), index));
    hb_face_make_immutable(face.get());
    return face;
}

using Advances = std::map<hb_codepoint_t, hb_position_t>;

hb_position_t mended_advance(hb_font_t* font, void* data, hb_codepoint_t glyph, void*) {
    const auto& advances = *static_cast<const Advances*>(data);
    const auto found = advances.find(glyph);
    return found != advances.end() ? found->second
                                   : hb_font_get_glyph_h_advance(hb_font_get_parent(font), glyph);
}

/// Puts a font over the face's own that gives some glyphs another advance, before anything is
/// shaped with it: kerning and marks then come out as with a right file.
void mend_advances(Face& face, const std::vector<GlyphAdvance>& mends) {
    auto advances = std::make_unique<Advances>();
    for (const GlyphAdvance& mend : mends) {
        hb_codepoint_t glyph = 0;
        if (hb_font_get_glyph_from_name(face.filed.get(), mend.glyph.c_str(), -1, &glyph) != 0) {
            (*advances)[glyph] = mend.advance;
        }
    }
    if (advances->empty()) {
        return;
    }
    HbHandle<hb_font_t> over(hb_font_create_sub_font(face.filed.get()));
    hb_font_funcs_t* functions = hb_font_funcs_create();
    hb_font_funcs_set_glyph_h_advance_func(functions, mended_advance, nullptr, nullptr);
    hb_font_set_funcs(over.get(), functions, advances.release(),
                      [](void* data) { delete static_cast<Advances*>(data); });
    hb_font_funcs_destroy(functions);
    face.font = std::move(over);
}

void read_metrics(Face& face) {
    hb_font_t* font = face.font.get();
    face.ascent = metric(font, HB_OT_METRICS_TAG_HORIZONTAL_ASCENDER);
    face.descent = std::fabs(metric(font, HB_OT_METRICS_TAG_HORIZONTAL_DESCENDER));
    face.x_height = metric(font, HB_OT_METRICS_TAG_X_HEIGHT);
    face.dotted_circle = face.glyph(U'\u25CC');
}

} // namespace

std::uint32_t Face::glyph(char32_t character) const {
    hb_codepoint_t id = 0;
    return hb_font_get_nominal_glyph(font.get(), character, &id) != 0 ? id : 0;
}

OpenedFace open_face(const support::Environment& environment, const std::string& path,
                     unsigned index, std::size_t serial, const std::vector<GlyphAdvance>& mends) {
    auto bytes = environment.map_file(path);
    if (!bytes) {
        return {nullptr, FaceProblem::Missing};
    }
    auto opened = std::make_unique<Face>();
    opened->serial = serial;
    opened->bytes = std::move(bytes);
    const auto view = opened->bytes->view();
    opened->face = make_face(view, index);
    if (hb_face_get_glyph_count(opened->face.get()) == 0) {
        return {nullptr, FaceProblem::Damaged};
    }
    const unsigned permissions = fs_type(opened->face.get());
    if ((permissions & kLicenceLevels) == kRestrictedLicence || (permissions & kBitmapsOnly) != 0) {
        return {nullptr, FaceProblem::MayNotBeEmbedded};
    }
    const FaceProblem outlines = outline_problem(opened->face.get());
    if (outlines != FaceProblem::None) {
        return {nullptr, outlines};
    }
    opened->subsettable = (permissions & kNoSubsetting) == 0;
    opened->units_per_em = static_cast<double>(hb_face_get_upem(opened->face.get()));
    opened->filed.reset(hb_font_create(opened->face.get()));
    hb_ot_font_set_funcs(opened->filed.get());
    hb_font_make_immutable(opened->filed.get());
    opened->font.reset(hb_font_reference(opened->filed.get()));
    mend_advances(*opened, mends);
    hb_font_make_immutable(opened->font.get());
    read_metrics(*opened);
    return {std::move(opened), FaceProblem::None};
}

} // namespace tickleaf::text
