// SPDX-License-Identifier: MIT
#include "text/paragraph.h"

#include <algorithm>

#include "text/breaks.h"
#include "text/prepared.h"

namespace tickleaf::text {

namespace {

/// Widths that are equal but for rounding.
constexpr double kTolerance = 1e-4;

/// Points, with their places, among which there are the borders of graphemes in every part that is
/// wider than the line.
struct Candidates {
    std::vector<BreakPoint> points;
    std::vector<std::uint32_t> places;
};

Candidates with_emergencies(const Shaped& impl, double width) {
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

/// Where lines end, ascending.
std::vector<std::uint32_t> line_ends(const Shaped& impl, const LineWidths& widths) {
    const double least = std::min(widths.first, widths.rest);
    const BreakPoint& last = impl.points.back();
    if (impl.collected.hard_breaks.empty() && last.end <= least + kTolerance) {
        return {impl.places.back()};
    }
    std::vector<std::uint32_t> places;
    if (impl.least_width <= least + kTolerance) {
        for (const std::size_t end : break_lines(impl.points, widths)) {
            places.push_back(impl.places[end - 1]);
        }
        return places;
    }
    const Candidates chosen = with_emergencies(impl, least);
    for (const std::size_t end : break_lines(chosen.points, widths)) {
        places.push_back(chosen.places[end]);
    }
    return places;
}

/// Shaped before, or now. What was complained of is not kept, so that it is reported again.
std::shared_ptr<const Shaped> shape_or_recall(FontSet::Impl& fonts, const ParagraphSource& source,
                                              support::Findings& findings) {
    if (fonts.extra_buffer_flags != 0) {
        return shape_paragraph(fonts, source, findings);
    }
    std::string key(source.language);
    key += source.right_to_left ? '<' : '>';
    key += source.style.weight == Weight::Bold ? 'b' : 'r';
    key += source.text;
    ShapedCache& cache = fonts.shared().cache;
    if (auto known = cache.find(key)) {
        return known;
    }
    const std::size_t before = findings.size();
    std::shared_ptr<const Shaped> shaped = shape_paragraph(fonts, source, findings);
    if (findings.size() == before) {
        cache.add(key, shaped);
    }
    return shaped;
}

} // namespace

Paragraph::Paragraph() = default;
Paragraph::~Paragraph() = default;
Paragraph::Paragraph(Paragraph&&) noexcept = default;
Paragraph& Paragraph::operator=(Paragraph&&) noexcept = default;

double Paragraph::natural_width() const {
    return impl_ ? impl_->shaped->natural_width * impl_->style.size : 0.0;
}
double Paragraph::least_width() const {
    return impl_ ? impl_->shaped->least_width * impl_->style.size : 0.0;
}
double Paragraph::line_height() const {
    return impl_ ? impl_->shaped->line_height * impl_->style.size : 0.0;
}
double Paragraph::closest_lines() const {
    return impl_ ? impl_->shaped->closest_lines * impl_->style.size : 0.0;
}
bool Paragraph::right_to_left() const {
    return impl_ && impl_->shaped->right_to_left;
}

std::vector<Line> Paragraph::lines(const BreakOptions& options) const {
    std::vector<Line> lines;
    if (!impl_ || impl_->shaped->size() == 0) {
        return lines;
    }
    const double size = impl_->style.size;
    const LineWidths widths{(options.width - options.first_indent) / size, options.width / size};
    const std::vector<std::uint32_t> ends = line_ends(*impl_->shaped, widths);
    lines.reserve(ends.size());
    std::uint32_t begin = 0;
    for (const std::uint32_t end : ends) {
        lines.push_back(place_line(*impl_, begin, end));
        begin = end;
    }
    return lines;
}

Paragraph prepare(FontSet& fonts, const ParagraphSource& source, support::Findings& findings) {
    Paragraph paragraph;
    paragraph.impl_ = std::make_unique<Paragraph::Impl>();
    paragraph.impl_->fonts = fonts.impl().fonts;
    paragraph.impl_->style = source.style;
    paragraph.impl_->shaped = shape_or_recall(fonts.impl(), source, findings);
    for (const ShapedItem& shaped : paragraph.impl_->shaped->items) {
        paragraph.impl_->numbers.push_back(
            fonts.impl().number(shaped.item.family, source.style.weight));
    }
    return paragraph;
}

} // namespace tickleaf::text
