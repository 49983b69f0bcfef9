// SPDX-License-Identifier: MIT
// The contents: a line for each part and each exercise, with dots that lead to the page's number.
// The number's place is kept free here and filled when pages are known (place.cpp), so that nothing
// is laid out twice.
#include "layout/blocks.h"

#include <algorithm>
#include <utility>

namespace tickleaf::layout {

namespace {

using content::Contents;
using page::Tag;
using text::Weight;

/// An exercise stands under its stage.
constexpr double kIndent = 1.2;
/// Room is kept for a number of three digits; one of four reaches into the dots.
constexpr std::size_t kWidestNumber = 999;
/// Between the words, the dots and the number.
constexpr double kDotsGap = 0.5;
/// Of a page's height: a list that leaves room for its heading is kept together.
constexpr double kOnePageShare = 0.85;
/// Space before a line, and what more of it a page that is not full takes.
struct Spacing {
    double before;
    double stretch;
};
constexpr Spacing kPartSpacing{0.8, 1.1};
constexpr Spacing kExerciseSpacing{0.35, 0.4};

/// The elements that entries hang below: an exercise's in a list inside its stage's entry.
struct Tree {
    std::size_t list = 0;
    std::size_t item = page::kArtifact;       ///< of the last entry of level 1
    std::size_t inner_list = page::kArtifact; ///< below it
};

std::size_t entry_link(Kit& kit, Tree& tree, const Contents::Entry& entry) {
    std::size_t item = 0;
    if (entry.level == 1 || tree.item == page::kArtifact) {
        item = kit.tag(Tag::Role::TOCI, tree.list);
        tree.item = item;
        tree.inner_list = page::kArtifact;
    } else {
        if (tree.inner_list == page::kArtifact) {
            tree.inner_list = kit.tag(Tag::Role::TOC, tree.item);
        }
        item = kit.tag(Tag::Role::TOCI, tree.inner_list);
    }
    return kit.tag(Tag::Role::Link, kit.tag(Tag::Role::Reference, item), &entry.words);
}

/// Where the parts of a line lie, from the reading start.
struct Columns {
    double badge = 0.0;  ///< width of the widest number of an exercise, with the space behind it
    double number = 0.0; ///< width kept free for a page's number
};

Columns columns_of(Kit& kit, const Contents& block) {
    const text::Style bold = kit.style(kit.page->body_size, Weight::Bold, kit.page->text);
    content::Words words;
    words.language = kit.booklet->language;
    Columns columns;
    for (const Contents::Entry& entry : block.entries) {
        words.text = entry.badge;
        if (!words.text.empty()) {
            columns.badge = std::max(columns.badge, natural_width(kit, words, bold));
        }
    }
    columns.badge += kit.em(0.6);
    words.text = page_number_text(*kit.booklet, kWidestNumber);
    columns.number = natural_width(kit, words, bold);
    return columns;
}

void add_badge(Kit& kit, Slab& slab, const Contents::Entry& entry, Placement at) {
    content::Words number = entry.words;
    number.second = nullptr;
    // A space behind it, which is not seen: else number and name would be read as one word.
    number.text = entry.badge + "\u00A0";
    place_lines(slab,
                kit.type->set(number,
                              kit.style(kit.page->body_size, Weight::Bold, kit.page->accent),
                              at.width * 2.0),
                at);
}

/// Dots from the end of the words to the number, on the line's baseline.
void add_dots(Kit& kit, Slab& slab, double from, double to, double baseline) {
    const double gap = kit.em(kDotsGap);
    if (to - from < gap * 3.0) {
        return;
    }
    Placement at;
    at.x = from + gap;
    at.y = baseline;
    at.width = to - from - gap * 2.0;
    page::Shape dots;
    dots.path = page::line({0, 0}, {at.width, 0});
    page::Stroke stroke;
    stroke.width = 1.1;
    stroke.colour = kit.page->rule;
    stroke.dashes = {0.0, 4.0};
    dots.stroke = std::move(stroke);
    add_shape(slab, std::move(dots), at);
}

template <class Part>
void add_part(Slab& slab, Part part, const Placement& at) {
    Fragment fragment;
    fragment.x = at.x;
    fragment.width = at.width;
    fragment.y.fixed = at.y;
    fragment.tag = at.tag;
    fragment.part = std::move(part);
    slab.fragments.push_back(std::move(fragment));
}

Slab entry_slab(Kit& kit, const Contents::Entry& entry, const Columns& columns, std::size_t link,
                const Context& context) {
    const bool top = entry.level == 1;
    const text::Style style =
        kit.style(kit.page->body_size, top ? Weight::Bold : Weight::Regular, context.text);
    const double number_at = context.width - columns.number;
    Slab slab;
    TextRequest request{&entry.words, style, context.muted, Tag::Role::Span, {}};
    request.at.tag = link;
    if (!top) {
        request.at.x = kit.em(kIndent);
        request.at.width = columns.badge;
        add_badge(kit, slab, entry, request.at);
        request.at.x += columns.badge;
    }
    request.at.width = number_at - request.at.x - kit.em(kDotsGap);
    const TextBox box = kit.type->set(entry.words, style, request.at.width);
    const double last_line = box.height() - box.leading;
    const double height = add_words(kit, slab, request);
    Placement at;
    at.x = number_at;
    at.y = last_line;
    at.width = columns.number;
    at.tag = link;
    add_part(slab, PageNumberPart{entry.anchor, style}, at);
    if (!kit.page->fold_on) { // printed, and its pages stand in another order
        at.x = 0.0;
        at.y = 0.0;
        at.width = context.width;
        LinkPart way{entry.anchor, {}};
        way.link.height = height;
        way.link.description = entry.link;
        add_part(slab, std::move(way), at);
    }
    add_dots(kit, slab, request.at.x + box.lines.back().width, number_at, last_line + box.baseline);
    slab.extents = {Extent{height, 0.0}};
    return slab;
}

} // namespace

Measured measure(Kit& kit, const Contents& block, const Context& context) {
    Measured result;
    result.after = kit.em(1.0);
    const Columns columns = columns_of(kit, block);
    Tree tree;
    tree.list = kit.tag(Tag::Role::TOC, context.tag);
    bool after_part = false;
    for (const Contents::Entry& entry : block.entries) {
        const Spacing& spacing = entry.level == 1 ? kPartSpacing : kExerciseSpacing;
        Slab slab = entry_slab(kit, entry, columns, entry_link(kit, tree, entry), context);
        slab.space_before = kit.gap(spacing.before);
        slab.stretch = kit.em(spacing.stretch);
        slab.before = after_part && entry.level > 1 ? Break::Kept : Break::Discouraged;
        after_part = entry.level == 1;
        result.slabs.push_back(std::move(slab));
    }
    if (total_height(result.slabs, 0.0) < kit.page_height * kOnePageShare) {
        for (std::size_t i = 1; i < result.slabs.size(); ++i) {
            result.slabs[i].before = Break::Forbidden;
        }
    }
    return result;
}

} // namespace tickleaf::layout
