// SPDX-License-Identifier: MIT
#include "layout/blocks.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace tickleaf::layout {

using page::Tag;

std::size_t Kit::tag(Tag::Role role, std::size_t parent, const content::Words* words) {
    Tag made;
    made.role = role;
    made.parent = parent;
    if (words != nullptr && words->language != booklet->language) {
        made.language = words->language;
    }
    tags->push_back(std::move(made));
    return tags->size() - 1;
}

void tighten(Kit& kit, int level) {
    constexpr double kSpaces[] = {1.0, 0.75, 0.6, 0.5, 0.35};
    constexpr double kLines[] = {1.0, 1.0, 0.96, 0.925, 0.925};
    const int step = std::clamp(level, 0, kTightestSheet);
    kit.tightness = step;
    kit.space = kSpaces[step];
    kit.type->tighten(kLines[step]);
}

void Trial::undo(Kit& kit) const {
    kit.tags->resize(tags_);
    kit.flow->heads.resize(heads_);
    kit.said.resize(said_);
}

text::Style Kit::style(double size, text::Weight weight, page::Colour colour) const {
    text::Style style;
    style.size = size;
    style.weight = weight;
    style.colour = colour;
    return style;
}

void Kit::say(support::Severity severity, const support::Span& span, std::string id,
              std::string message, std::string hint) {
    said.push_back({severity, span, std::move(id), std::move(message), std::move(hint)});
}

void shift(Slab& slab, double x, double y) {
    for (Fragment& fragment : slab.fragments) {
        fragment.x += x;
        fragment.y.fixed += y;
    }
}

void append(Slab& slab, Slab&& other) {
    std::move(other.fragments.begin(), other.fragments.end(), std::back_inserter(slab.fragments));
    std::move(other.outline.begin(), other.outline.end(), std::back_inserter(slab.outline));
    slab.anchors.insert(slab.anchors.end(), other.anchors.begin(), other.anchors.end());
}

std::string in_digits(const content::Booklet& booklet, std::size_t number) {
    std::string result;
    for (const char digit : std::to_string(number)) {
        const auto index = static_cast<std::size_t>(digit - '0');
        result += index < booklet.digits.size() ? booklet.digits[index] : std::string(1, digit);
    }
    return result;
}

std::string page_number_text(const content::Booklet& booklet, std::size_t number) {
    return "\u00A0" + in_digits(booklet, number);
}

double total_height(const std::vector<Slab>& slabs, double k) {
    double result = 0.0;
    for (std::size_t i = 0; i < slabs.size(); ++i) {
        result += slabs[i].height(k) + (i == 0 ? 0.0 : slabs[i].space_before);
    }
    return result;
}

Slab stack(std::vector<Slab> slabs) {
    Slab result;
    Extent y{};
    for (std::size_t i = 0; i < slabs.size(); ++i) {
        Slab& slab = slabs[i];
        y.fixed += i == 0 ? 0.0 : slab.space_before;
        for (Fragment& fragment : slab.fragments) {
            fragment.y.fixed += y.fixed;
            fragment.y.flex += y.flex;
        }
        // A row of flexible columns has several extents; its height at rest stands for them.
        const bool simple = slab.extents.size() == 1;
        y.fixed += simple ? slab.extents.front().fixed : slab.height();
        y.flex += simple ? slab.extents.front().flex : 0.0;
        append(result, std::move(slab));
    }
    result.extents = {y};
    if (!slabs.empty()) {
        result.where = slabs.front().where;
        result.span = slabs.front().span;
    }
    return result;
}

void add_shape(Slab& slab, page::Shape shape, Placement at) {
    Fragment fragment;
    fragment.x = at.x;
    fragment.width = at.width;
    fragment.y.fixed = at.y;
    fragment.tag = at.tag;
    fragment.part = ShapePart{std::move(shape)};
    slab.fragments.push_back(std::move(fragment));
}

void add_shapes(Slab& slab, const Shapes& shapes, Placement at) {
    for (const page::Shape& shape : shapes) {
        add_shape(slab, shape, at);
    }
}

std::string first_words(const content::Words& words) {
    constexpr std::size_t kMost = 80;
    if (words.text.size() <= kMost) {
        return words.text;
    }
    const std::size_t space = words.text.rfind(' ', kMost);
    std::size_t end = space == std::string::npos || space == 0 ? kMost : space;
    const auto continues = [&](std::size_t i) {
        return (static_cast<unsigned char>(words.text[i]) & 0xC0u) == 0x80u;
    };
    while (end > 0 && continues(end)) {
        --end;
    }
    return words.text.substr(0, end) + "\u2026";
}

double add_words(Kit& kit, Slab& slab, const TextRequest& request) {
    if (slab.where.empty()) {
        slab.where = first_words(*request.words);
        slab.span = request.words->span;
    }
    const bool plain = request.role == Tag::Role::Span;
    double height = 0.0;
    const content::Words* words = request.words;
    text::Style style = request.style;
    for (bool first = true; words != nullptr; first = false, words = words->second.get()) {
        if (words->empty()) {
            continue;
        }
        Placement at = request.at;
        at.y += height;
        at.tag = plain && first ? request.at.tag : kit.tag(request.role, request.at.tag, words);
        TextBox box = kit.type->set(*words, style, at.width);
        height += box.height();
        place_lines(slab, std::move(box), at);
        // The second language: smaller and quieter, never under the small size.
        style.size = std::max(kit.page->small_size, request.style.size * 0.86);
        style.weight = text::Weight::Regular;
        style.colour = request.second_colour;
    }
    return height;
}

namespace {

template <class Measure>
double widest(Kit& kit, const content::Words& words, const text::Style& style,
              Measure measure_one) {
    double result = 0.0;
    for (const content::Words* w = &words; w != nullptr; w = w->second.get()) {
        if (!w->empty()) {
            result = std::max(result, measure_one(kit.type->paragraph(*w, style)));
        }
    }
    return result;
}

/// How a block wants what follows it to begin.
struct Wish {
    bool keep = false;
    bool near = false;
    bool leads = false;
};

/// A heading and a line or two under it do not stay behind: what follows them is kept, too.
constexpr double kFewLines = 4.2; // of the body size: a line in two languages

void keep(Slab& slab) {
    const bool free = slab.before != Break::Forced && slab.before != Break::Forbidden;
    slab.before = free ? Break::Kept : slab.before;
}

void join(const Kit& kit, std::vector<Slab>& all, Measured&& next, double& space_after,
          Wish& wish) {
    if (next.slabs.empty()) {
        return;
    }
    Slab& first = next.slabs.front();
    first.space_before = std::max(space_after, next.before) * kit.space;
    const bool few = wish.leads && total_height(next.slabs, 0.0) <= kit.em(kFewLines);
    for (std::size_t i = 0; wish.keep && i < (few ? next.slabs.size() : 1); ++i) {
        keep(next.slabs[i]);
    }
    if (wish.near && first.before == Break::Allowed) {
        first.before = Break::Discouraged;
    }
    std::move(next.slabs.begin(), next.slabs.end(), std::back_inserter(all));
    space_after = next.after;
    wish = {next.keep_with_next || few, next.near_next, next.leads};
}

} // namespace

double natural_width(Kit& kit, const content::Words& words, const text::Style& style) {
    return widest(kit, words, style, [](const text::Paragraph& p) { return p.natural_width(); });
}

double least_width(Kit& kit, const content::Words& words, const text::Style& style) {
    return widest(kit, words, style, [](const text::Paragraph& p) { return p.least_width(); });
}

double width_in_lines(Kit& kit, const content::Words& words, const text::Style& style,
                      std::size_t lines) {
    double result = 0.0;
    for (const content::Words* w = &words; w != nullptr; w = w->second.get()) {
        if (w->empty()) {
            continue;
        }
        const text::Paragraph& paragraph = kit.type->paragraph(*w, style);
        const double natural = paragraph.natural_width() + 0.01;
        double width =
            lines > 1 ? std::max(paragraph.least_width() + 0.01, natural / 2.0) : natural;
        while (width < natural && kit.type->set(*w, style, width).lines.size() > lines) {
            width = std::min(natural, width + natural / 20.0);
        }
        result = std::max(result, width);
    }
    return result;
}

namespace {

/// How many exercises stand side by side from here on; 0 where they do not.
std::size_t cells_from(const Kit& kit, const std::vector<content::Block>& blocks, std::size_t at) {
    std::size_t count = 0;
    while (kit.abreast > 1 && count < kit.abreast && at + count < blocks.size() &&
           is_cell(blocks[at + count])) {
        ++count;
    }
    return count;
}

} // namespace

std::vector<Slab> measure_blocks(Kit& kit, const std::vector<content::Block>& blocks,
                                 const Context& context) {
    std::vector<Slab> all;
    double space_after = 0.0;
    Wish wish;
    bool forced = false;
    for (std::size_t i = 0; i < blocks.size(); ++i) {
        const content::Block& block = blocks[i];
        if (std::holds_alternative<content::PageBreak>(block.value)) {
            forced = true;
            continue;
        }
        const std::size_t cells = cells_from(kit, blocks, i);
        Measured measured =
            cells > 0 ? measure_abreast(kit, &block, cells, context)
                      : std::visit([&](const auto& value) { return measure(kit, value, context); },
                                   block.value);
        i += cells > 0 ? cells - 1 : 0;
        if (forced && !measured.slabs.empty()) {
            measured.slabs.front().before = Break::Forced;
            forced = false;
        }
        join(kit, all, std::move(measured), space_after, wish);
    }
    return all;
}

Measured measure(Kit&, const content::PageBreak&, const Context&) {
    return {};
}

Measured measure(Kit& kit, const content::Divider&, const Context& context) {
    Measured result;
    Slab slab;
    page::Shape rule = outlined(page::line({0, 0}, {context.width, 0}), kit.page->rule, 0.6);
    Placement at;
    at.width = context.width;
    add_shape(slab, std::move(rule), at);
    slab.extents = {Extent{0.6, 0.0}};
    slab.before = Break::Forbidden;
    result.slabs.push_back(std::move(slab));
    result.before = kit.em(0.9);
    result.after = kit.em(0.9);
    return result;
}

} // namespace tickleaf::layout
