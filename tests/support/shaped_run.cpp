// SPDX-License-Identifier: MIT
#include "tests/support/shaped_run.h"

#include <algorithm>
#include <set>
#include <stdexcept>

#include <hb-ot.h>
#include <hb-subset.h>

namespace tickleaf::testing {

struct TestFonts::Face {
    hb_face_t* face = nullptr;
    hb_font_t* font = nullptr;
    bool is_cff = false;
    double units() const { return hb_face_get_upem(face); }
};

namespace {

std::vector<std::byte> bytes_of(hb_blob_t* blob) {
    unsigned length = 0;
    const char* data = hb_blob_get_data(blob, &length);
    const auto* begin = reinterpret_cast<const std::byte*>(data);
    std::vector<std::byte> bytes(begin, begin + length);
    hb_blob_destroy(blob);
    return bytes;
}

/// Ends of clusters: the next larger start, or the end of the text.
void set_cluster_ends(page::GlyphRun& run) {
    std::set<std::uint32_t> starts;
    for (const page::Glyph& glyph : run.glyphs) {
        starts.insert(glyph.text_begin);
    }
    for (page::Glyph& glyph : run.glyphs) {
        const auto next = starts.upper_bound(glyph.text_begin);
        glyph.text_end = next == starts.end() ? static_cast<std::uint32_t>(run.text.size()) : *next;
    }
}

std::set<std::uint32_t> used_glyphs(const page::Document& document, std::size_t font) {
    std::set<std::uint32_t> used;
    for (const page::Page& page : document.pages) {
        for (const page::Item& item : page.items) {
            const auto* run = std::get_if<page::GlyphRun>(&item.content);
            if (run != nullptr && run->font == font) {
                for (const page::Glyph& glyph : run->glyphs) {
                    used.insert(glyph.id);
                }
            }
        }
    }
    return used;
}

void drop_unneeded_tables(hb_subset_input_t* input) {
    hb_set_t* drop = hb_subset_input_set(input, HB_SUBSET_SETS_DROP_TABLE_TAG);
    for (const char* tag : {"GSUB", "GPOS", "GDEF", "BASE", "name", "OS/2", "post", "DSIG", "VORG",
                            "vhea", "vmtx", "gasp", "kern", "cmap"}) {
        hb_set_add(drop, hb_tag_from_string(tag, -1));
    }
}

/// The subset's program: a bare CFF table, or a whole TrueType file.
std::vector<std::byte> program_of(hb_face_t* made, bool is_cff) {
    hb_blob_t* file = hb_face_reference_blob(made);
    if (!is_cff) {
        return bytes_of(file);
    }
    hb_face_t* reopened = hb_face_create(file, 0);
    hb_blob_destroy(file);
    std::vector<std::byte> bytes =
        bytes_of(hb_face_reference_table(reopened, hb_tag_from_string("CFF ", 4)));
    hb_face_destroy(reopened);
    return bytes;
}

} // namespace

TestFonts::~TestFonts() {
    for (Face* face : faces_) {
        hb_font_destroy(face->font);
        hb_face_destroy(face->face);
        delete face;
    }
}

bool TestFonts::add(const std::string& path, unsigned face_index) {
    hb_blob_t* blob = hb_blob_create_from_file_or_fail(path.c_str());
    if (blob == nullptr) {
        return false;
    }
    auto* face = new Face;
    face->face = hb_face_create(blob, face_index);
    hb_blob_destroy(blob);
    face->font = hb_font_create(face->face);
    hb_blob_t* cff = hb_face_reference_table(face->face, hb_tag_from_string("CFF ", 4));
    face->is_cff = hb_blob_get_length(cff) > 0;
    hb_blob_destroy(cff);
    faces_.push_back(face);
    return true;
}

page::GlyphRun TestFonts::shape(std::size_t font, const std::string& text,
                                const std::string& language, bool right_to_left,
                                double size) const {
    const Face& face = *faces_.at(font);
    page::GlyphRun run;
    run.font = font;
    run.size = size;
    run.text = text;
    run.language = language;
    run.right_to_left = right_to_left;
    hb_buffer_t* buffer = hb_buffer_create();
    hb_buffer_add_utf8(buffer, text.data(), static_cast<int>(text.size()), 0, -1);
    hb_buffer_guess_segment_properties(buffer);
    hb_buffer_set_direction(buffer, right_to_left ? HB_DIRECTION_RTL : HB_DIRECTION_LTR);
    hb_buffer_set_language(buffer, hb_language_from_string(language.c_str(), -1));
    hb_shape(face.font, buffer, nullptr, 0);
    unsigned count = 0;
    const hb_glyph_info_t* infos = hb_buffer_get_glyph_infos(buffer, &count);
    const hb_glyph_position_t* positions = hb_buffer_get_glyph_positions(buffer, &count);
    const double unit = size / face.units();
    for (unsigned i = 0; i < count; ++i) {
        run.glyphs.push_back(page::Glyph{infos[i].codepoint, positions[i].x_advance * unit,
                                         positions[i].x_offset * unit, positions[i].y_offset * unit,
                                         infos[i].cluster, 0});
    }
    hb_buffer_destroy(buffer);
    set_cluster_ends(run);
    return run;
}

page::Font TestFonts::whole(std::size_t font) const {
    const Face& face = *faces_.at(font);
    page::Font made;
    made.postscript_name = "TestFont" + std::to_string(font);
    made.kind = face.is_cff ? page::Font::Kind::CffCid : page::Font::Kind::TrueType;
    made.units_per_em = face.units();
    hb_font_extents_t extents{};
    hb_font_get_h_extents(face.font, &extents);
    made.ascent = extents.ascender;
    made.descent = extents.descender;
    made.cap_height = made.units_per_em * 0.7;
    made.y_min = extents.descender;
    made.y_max = extents.ascender;
    made.x_max = made.units_per_em;
    made.program = bytes_of(hb_face_reference_blob(face.face));
    for (unsigned id = 0; id < hb_face_get_glyph_count(face.face); ++id) {
        made.glyphs.push_back(
            {id, id, static_cast<double>(hb_font_get_glyph_h_advance(face.font, id))});
    }
    return made;
}

void TestFonts::embed(page::Document& document) const {
    document.fonts.clear();
    for (std::size_t i = 0; i < faces_.size(); ++i) {
        const Face& face = *faces_[i];
        page::Font font = whole(i);
        font.glyphs.clear();
        hb_subset_input_t* input = hb_subset_input_create_or_fail();
        const std::set<std::uint32_t> used = used_glyphs(document, i);
        for (const std::uint32_t id : used) {
            hb_set_add(hb_subset_input_glyph_set(input), id);
        }
        drop_unneeded_tables(input);
        hb_subset_plan_t* plan = hb_subset_plan_create_or_fail(face.face, input);
        hb_face_t* made = plan == nullptr ? nullptr : hb_subset_plan_execute_or_fail(plan);
        if (made == nullptr) {
            throw std::runtime_error("the test font cannot be subset");
        }
        font.program = program_of(made, face.is_cff);
        const hb_map_t* map = hb_subset_plan_old_to_new_glyph_mapping(plan);
        for (const std::uint32_t id : used) {
            const std::uint32_t subset = face.is_cff ? id : hb_map_get(map, id);
            font.glyphs.push_back(
                {id, subset, static_cast<double>(hb_font_get_glyph_h_advance(face.font, id))});
        }
        hb_face_destroy(made);
        hb_subset_plan_destroy(plan);
        hb_subset_input_destroy(input);
        document.fonts.push_back(std::move(font));
    }
}

} // namespace tickleaf::testing
