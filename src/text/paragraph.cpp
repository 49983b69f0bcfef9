// SPDX-License-Identifier: MIT
#include "text/paragraph.h"

#include <algorithm>
#include <limits>

#include "text/breaks.h"
#include "text/prepared.h"

namespace tickleaf::text {

namespace {

/// Widths that are equal but for rounding.
constexpr double kTolerance = 1e-4;

class Preparer {
  public:
    Preparer(FontSet::Impl& fonts, const ParagraphSource& source, support::Findings& findings)
        : fonts_(fonts),
          source_(source),
          findings_(findings),
          language_(fonts.language(source.language)),
          out_(std::make_unique<Paragraph::Impl>()) {}
    std::unique_ptr<Paragraph::Impl> run();

  private:
    void set_main_face();
    void find_levels();
    void make_items();
    void shape_items();
    void report_broken_cluster(const PreparedItem& item);
    void find_positions();
    void find_points();

    FontSet::Impl& fonts_;
    const ParagraphSource& source_;
    support::Findings& findings_;
    LanguageState& language_;
    std::unique_ptr<Paragraph::Impl> out_;
};

void Preparer::set_main_face() {
    const std::size_t family = fonts_.shared().main_family(language_.info);
    const double size = source_.style.size;
    out_->line_height = fonts_.shared().table.families[family].line_height * size;
    if (const auto number = fonts_.number(family, source_.style.weight, findings_)) {
        const Face& face = *fonts_.used[*number].face;
        out_->ascent = face.ascent * size / face.units_per_em;
        out_->descent = face.descent * size / face.units_per_em;
    }
}

void Preparer::find_levels() {
    UErrorCode status = U_ZERO_ERROR;
    out_->bidi.reset(ubidi_open());
    const UBiDiLevel base = source_.right_to_left ? 1 : 0;
    ubidi_setPara(out_->bidi.get(), out_->collected.text.data(), static_cast<int32_t>(out_->size()),
                  base, nullptr, &status);
    support::internal_error_if(U_FAILURE(status) != 0, "ICU cannot work out directions");
}

void Preparer::make_items() {
    if (out_->size() == 0) {
        return;
    }
    UErrorCode status = U_ZERO_ERROR;
    const UBiDiLevel* levels = ubidi_getLevels(out_->bidi.get(), &status);
    support::internal_error_if(U_FAILURE(status) != 0, "ICU cannot give bidi levels");
    const auto items = itemise(fonts_, language_, {out_->collected, levels, source_}, findings_);
    for (const Item& item : items) {
        const UsedFace& used = fonts_.used[item.font];
        const double scale = source_.style.size / used.face->units_per_em;
        out_->items.push_back({item, used.face, scale, 0, 0});
        out_->line_height = std::max(out_->line_height, used.line_height * source_.style.size);
    }
}

/// HarfBuzz shows a dotted circle where signs of a script do not make a syllable.
void Preparer::report_broken_cluster(const PreparedItem& item) {
    const std::uint32_t circle = item.face->dotted_circle;
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

void Preparer::shape_items() {
    out_->glyphs.reserve(out_->size());
    for (PreparedItem& prepared : out_->items) {
        prepared.glyph_begin = static_cast<std::uint32_t>(out_->glyphs.size());
        shape(out_->context(prepared, fonts_.buffer.get()), prepared.item, prepared.item.begin,
              prepared.item.end, out_->glyphs);
        prepared.glyph_end = static_cast<std::uint32_t>(out_->glyphs.size());
        report_broken_cluster(prepared);
    }
}

void Preparer::find_positions() {
    auto& positions = out_->positions;
    positions.assign(out_->size() + 1, 0.0);
    out_->safe.assign(out_->size() + 1, true);
    for (const PreparedItem& prepared : out_->items) {
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

void Preparer::find_points() {
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
        impl.least_width = std::max(impl.least_width, point.end - impl.points.back().start);
        impl.natural_width = std::max(impl.natural_width, point.end - part_start);
        part_start = point.hard ? point.start : part_start;
        impl.points.push_back(point);
    }
}

std::unique_ptr<Paragraph::Impl> Preparer::run() {
    out_->fonts = fonts_.fonts;
    out_->language = language_.info.tag;
    out_->shaping_language = language_.shaping;
    out_->style = source_.style;
    out_->right_to_left = source_.right_to_left;
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

/// Points with, in every part that is wider than the line, the borders of its graphemes.
struct Candidates {
    std::vector<BreakPoint> points;
    std::vector<std::uint32_t> places; ///< place of every point
};

Candidates candidates(const Paragraph::Impl& impl, double width) {
    Candidates result{{impl.points.front()}, {0}};
    LanguageState scratch;
    std::uint32_t begin = 0;
    for (std::size_t i = 0; i < impl.places.size(); ++i) {
        const std::uint32_t place = impl.places[i];
        const BreakPoint& point = impl.points[i + 1];
        if (point.end - impl.points[i].start > width + kTolerance) {
            const std::uint32_t end = impl.without_spaces(begin, place);
            for (const std::uint32_t inner : graphemes(scratch, impl.collected.text, begin, end)) {
                BreakPoint emergency = impl.point_at(inner);
                emergency.emergency = true;
                result.points.push_back(emergency);
                result.places.push_back(inner);
            }
        }
        result.points.push_back(point);
        result.places.push_back(place);
        begin = place;
    }
    return result;
}

} // namespace

Paragraph::Paragraph() = default;
Paragraph::~Paragraph() = default;
Paragraph::Paragraph(Paragraph&&) noexcept = default;
Paragraph& Paragraph::operator=(Paragraph&&) noexcept = default;

double Paragraph::natural_width() const {
    return impl_ ? impl_->natural_width : 0.0;
}
double Paragraph::least_width() const {
    return impl_ ? impl_->least_width : 0.0;
}
double Paragraph::line_height() const {
    return impl_ ? impl_->line_height : 0.0;
}
bool Paragraph::right_to_left() const {
    return impl_ && impl_->right_to_left;
}

std::vector<Line> Paragraph::lines(const BreakOptions& options) const {
    std::vector<Line> lines;
    if (!impl_ || impl_->size() == 0) {
        return lines;
    }
    const LineWidths widths{options.width - options.first_indent, options.width};
    const Candidates chosen = candidates(*impl_, std::min(widths.first, widths.rest));
    std::uint32_t begin = 0;
    for (const std::size_t end : break_lines(chosen.points, widths)) {
        lines.push_back(place_line(*impl_, begin, chosen.places[end]));
        begin = chosen.places[end];
    }
    return lines;
}

Paragraph prepare(FontSet& fonts, const ParagraphSource& source, support::Findings& findings) {
    Paragraph paragraph;
    paragraph.impl_ = Preparer(fonts.impl(), source, findings).run();
    return paragraph;
}

} // namespace tickleaf::text
