// SPDX-License-Identifier: MIT
#include "layout/typesetter.h"

#include <algorithm>
#include <utility>

#include "support/number.h"

namespace tickleaf::layout {

namespace {

/// Lines are never set closer than this to save a page (large-print guides: at least 1.25).
constexpr double kClosest = 1.25;

std::string cache_key(const content::Words& words, const text::Style& style) {
    std::string key = support::fixed(style.size, 2);
    key += style.weight == text::Weight::Bold ? 'b' : 'r';
    key += static_cast<char>(style.colour.red);
    key += static_cast<char>(style.colour.green);
    key += static_cast<char>(style.colour.blue);
    key += words.language;
    key += '\n';
    key += words.text;
    return key;
}

} // namespace

double TextBox::width() const {
    double result = 0.0;
    for (const text::Line& line : lines) {
        result = std::max(result, line.width);
    }
    return result;
}

bool Typesetter::is_right_to_left(const std::string& language) {
    const auto found = directions_.find(language);
    if (found != directions_.end()) {
        return found->second;
    }
    return directions_.emplace(language, text::is_right_to_left(language)).first->second;
}

const text::Paragraph& Typesetter::paragraph(const content::Words& words,
                                             const text::Style& style) {
    std::string key = cache_key(words, style);
    const auto found = shaped_.find(key);
    if (found != shaped_.end()) {
        return found->second;
    }
    text::ParagraphSource source;
    source.text = words.text;
    source.language = words.language;
    source.right_to_left = is_right_to_left(words.language);
    source.style = style;
    source.where = words.key;
    source.span = words.span;
    return shaped_.emplace(std::move(key), text::prepare(*fonts_, source, *findings_))
        .first->second;
}

TextBox Typesetter::set(const content::Words& words, const text::Style& style, double width) {
    TextBox box;
    if (words.empty()) {
        return box;
    }
    const text::Paragraph& shaped = paragraph(words, style);
    box.lines = shaped.lines({std::max(width, 1.0), 0.0});
    double ascent = 0.0;
    double descent = 0.0;
    for (const text::Line& line : box.lines) {
        ascent = std::max(ascent, line.ascent);
        descent = std::max(descent, line.descent);
    }
    // Big type stands on few lines and needs less space between them (common practice).
    const double close = template_->line_spacing * line_share_;
    const double spacing = style.size > 1.4 * template_->body_size
                               ? 1.22
                               : std::max(close, std::min(template_->line_spacing, kClosest));
    box.leading = std::max(
        {style.size * spacing, shaped.line_height() * line_share_, shaped.closest_lines()});
    box.baseline = (box.leading - ascent - descent) / 2.0 + ascent;
    return box;
}

void place_lines(Slab& slab, TextBox box, const Placement& at) {
    for (std::size_t i = 0; i < box.lines.size(); ++i) {
        text::Line& line = box.lines[i];
        const double spare = at.width - line.width;
        Fragment fragment;
        fragment.x = at.x + (at.align == Align::End      ? spare
                             : at.align == Align::Centre ? spare / 2.0
                                                         : 0.0);
        fragment.width = line.width;
        fragment.y.fixed = at.y + box.baseline + box.leading * static_cast<double>(i);
        fragment.tag = at.tag;
        fragment.part = TextPart{std::move(line)};
        slab.fragments.push_back(std::move(fragment));
    }
}

} // namespace tickleaf::layout
