// SPDX-License-Identifier: MIT
// One face of a font file, open and ready to shape with. Immutable, shared by threads.
// Units: font units. Errors: a reason why the face cannot be used; the caller makes the finding.
// Source: OpenType 1.9, OS/2 fsType (embedding permissions), hhea, head.
#pragma once

#include <array>
#include <memory>
#include <string>

#include <harfbuzz/hb.h>

#include "support/environment.h"
#include "text/font_table.h"

namespace tickleaf::text {

enum class FaceProblem { None, Missing, Damaged, MayNotBeEmbedded, NameKeyed, Cff2 };

struct HbDelete {
    void operator()(hb_blob_t* blob) const { hb_blob_destroy(blob); }
    void operator()(hb_face_t* face) const { hb_face_destroy(face); }
    void operator()(hb_font_t* font) const { hb_font_destroy(font); }
    void operator()(hb_buffer_t* buffer) const { hb_buffer_destroy(buffer); }
    void operator()(hb_set_t* set) const { hb_set_destroy(set); }
};
template <class T>
using HbHandle = std::unique_ptr<T, HbDelete>;

struct Face {
    std::unique_ptr<support::Bytes> bytes; ///< the mapped file; outlives the handles below
    HbHandle<hb_face_t> face;
    HbHandle<hb_font_t> filed; ///< as the file has it, scaled to units_per_em
    HbHandle<hb_font_t> font;  ///< to shape with: the same, or with advances mended
    double units_per_em = 1000.0;
    double ascent = 0.0;
    double descent = 0.0;   ///< positive
    double x_height = 0.0;  ///< 0 where the file does not say
    std::size_t serial = 0; ///< tells the faces of a table apart
    bool subsettable = true;
    std::uint32_t dotted_circle = 0; ///< glyph of U+25CC, 0 where there is none

    /// The glyph that cmap gives to a character, 0 where it gives none.
    std::uint32_t glyph(char32_t character) const;
};

struct OpenedFace {
    std::unique_ptr<const Face> face;
    FaceProblem problem = FaceProblem::None;
};

/// `mends` are glyphs whose advance the file has wrong; a name it does not have is passed over.
OpenedFace open_face(const support::Environment& environment, const std::string& path,
                     unsigned index, std::size_t serial,
                     const std::vector<GlyphAdvance>& mends = {});

} // namespace tickleaf::text
