// SPDX-License-Identifier: MIT
#include "text/prepared.h"

#include <algorithm>

#include "text/breaks.h"
#include "text/word_cache.h"

namespace tickleaf::text {

namespace {

class Shaper {
  public:
    Shaper(FontSet::Impl& fonts, const ParagraphSource& source, support::Findings& findings)
        : fonts_(fonts),
          source_(source),
          findings_(findings),
          language_(fonts.language(source.language)),
          out_(std::make_unique<Shaped>()) {}
    std::unique_ptr<Shaped> run();

  private:
    void take_heights(const Family& family);
    void set_main_face();
    void find_levels();
    void make_items();
    void shape_items();
    void report_broken_cluster(const ShapedItem& item);
    void find_positions();
    void find_points();

    FontSet::Impl& fonts_;
    const ParagraphSource& source_;
    support::Findings& findings_;
    LanguageState& language_;
    std::unique_ptr<Shaped> out_;
};

void Shaper::take_heights(const Family& family) {
    out_->line_height = std::max(out_->line_height, family.line_height);
    out_->closest_lines = std::max(out_->closest_lines, family.closest_lines);
}

void Shaper::set_main_face() {
    const std::size_t family = fonts_.shared().main_family(language_.info);
    take_heights(fonts_.shared().table.families[family]);
    if (const Face* face = fonts_.face(family, source_.style.weight, findings_)) {
        out_->ascent = face->ascent / face->units_per_em;
        out_->descent = face->descent / face->units_per_em;
    }
}

void Shaper::find_levels() {
    UErrorCode status = U_ZERO_ERROR;
    out_->bidi.reset(ubidi_open());
    const UBiDiLevel base = source_.right_to_left ? 1 : 0;
    ubidi_setPara(out_->bidi.get(), out_->collected.text.data(), static_cast<int32_t>(out_->size()),
                  base, nullptr, &status);
    support::internal_error_if(U_FAILURE(status) != 0, "ICU cannot work out directions");
}

void Shaper::make_items() {
    if (out_->size() == 0) {
        return;
    }
    UErrorCode status = U_ZERO_ERROR;
    const UBiDiLevel* levels = ubidi_getLevels(out_->bidi.get(), &status);
    support::internal_error_if(U_FAILURE(status) != 0, "ICU cannot give bidi levels");
    const auto items = itemise(fonts_, language_, {out_->collected, levels, source_}, findings_);
    for (const Item& item : items) {
        const Family& family = fonts_.shared().table.families[item.family];
        const bool bold = source_.style.weight == Weight::Bold;
        out_->items.push_back(
            {item, 1.0 / item.face->units_per_em, bold ? family.bold_stroke : 0.0, 0, 0});
        take_heights(family);
    }
}

/// HarfBuzz shows a dotted circle where signs of a script do not make a syllable.
void Shaper::report_broken_cluster(const ShapedItem& item) {
    const std::uint32_t circle = item.item.face->dotted_circle;
    for (std::uint32_t i = item.glyph_begin; circle != 0 && i < item.glyph_end; ++i) {
        const ShapedGlyph& glyph = out_->glyphs[i];
        if (glyph.id == circle && out_->collected.text.find(u'\u25CC') == std::u16string::npos) {
            findings_.error(source_.span, "text-broken-syllable",
                            name_character(out_->collected.text[glyph.cluster]) +
                                in_place(source_) + " makes no syllable with its neighbours",
                            "check the order of the signs");
            return;
        }
    }
}

void Shaper::shape_items() {
    out_->glyphs.reserve(out_->size());
    for (ShapedItem& prepared : out_->items) {
        prepared.glyph_begin = static_cast<std::uint32_t>(out_->glyphs.size());
        out_->words->shape_item(out_->context(prepared, fonts_.buffer.get()), prepared.item,
                                out_->glyphs);
        prepared.glyph_end = static_cast<std::uint32_t>(out_->glyphs.size());
        report_broken_cluster(prepared);
    }
}

void Shaper::find_positions() {
    auto& positions = out_->positions;
    positions.assign(out_->size() + 1, 0.0);
    out_->safe.assign(out_->size() + 1, true);
    for (const ShapedItem& prepared : out_->items) {
        for (std::uint32_t i = prepared.item.begin + 1; i < prepared.item.end; ++i) {
            out_->safe[i] = false;
        }
        for (std::uint32_t i = prepared.glyph_begin; i < prepared.glyph_end; ++i) {
            const ShapedGlyph& glyph = out_->glyphs[i];
            positions[glyph.cluster + 1] += glyph.advance * prepared.scale;
            if (!glyph.unsafe) {
                out_->safe[glyph.cluster] = true;
            }
        }
    }
    for (std::size_t i = 1; i < positions.size(); ++i) {
        positions[i] += positions[i - 1];
    }
}

void Shaper::find_points() {
    auto& impl = *out_;
    impl.places = impl.size() == 0 ? std::vector<std::uint32_t>()
                                   : allowed_breaks(language_, impl.collected.text);
    const auto& hard = impl.collected.hard_breaks;
    std::vector<std::uint32_t> all;
    std::set_union(impl.places.begin(), impl.places.end(), hard.begin(), hard.end(),
                   std::back_inserter(all));
    impl.places = std::move(all);
    impl.points.reserve(impl.places.size() + 1);
    impl.points.push_back({});
    double part_start = 0.0;
    for (const std::uint32_t place : impl.places) {
        BreakPoint point = impl.point_at(place);
        point.hard = std::binary_search(hard.begin(), hard.end(), place);
        point.number = parts_number(impl.collected.text, impl.without_spaces(0, place), place);
        impl.least_width = std::max(impl.least_width, point.end - impl.points.back().start);
        impl.natural_width = std::max(impl.natural_width, point.end - part_start);
        part_start = point.hard ? point.start : part_start;
        impl.points.push_back(point);
    }
}

std::unique_ptr<Shaped> Shaper::run() {
    out_->language = language_.info.tag;
    out_->shaping_language = language_.shaping;
    out_->right_to_left = source_.right_to_left;
    out_->words = fonts_.shared().words.get();
    out_->extra_buffer_flags = fonts_.extra_buffer_flags;
    out_->collected = collect(source_, findings_);
    set_main_face();
    find_levels();
    make_items();
    shape_items();
    find_positions();
    find_points();
    return std::move(out_);
}

} // namespace

std::unique_ptr<const Shaped> shape_paragraph(FontSet::Impl& fonts, const ParagraphSource& source,
                                              support::Findings& findings) {
    return Shaper(fonts, source, findings).run();
}

} // namespace tickleaf::text
