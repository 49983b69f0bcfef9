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

void Trial::undo(Kit& kit) const {
    kit.tags->resize(tags_);
    kit.flow->heads.resize(heads_);
}

text::Style Kit::style(double size, text::Weight weight, page::Colour colour) const {
    text::Style style;
    style.size = size;
    style.weight = weight;
    style.colour = colour;
    return style;
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

double add_words(Kit& kit, Slab& slab, const TextRequest& request) {
    if (slab.where.empty()) {
        slab.where = request.words->key.empty() ? request.words->text : request.words->key;
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
        const TextBox box = kit.type->set(*words, style, at.width);
        place_lines(slab, box, at);
        height += box.height();
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
};

void join(std::vector<Slab>& all, Measured&& next, double& space_after, Wish& wish) {
    if (next.slabs.empty()) {
        return;
    }
    Slab& first = next.slabs.front();
    first.space_before = std::max(space_after, next.before);
    if (wish.keep && first.before != Break::Forced && first.before != Break::Forbidden) {
        first.before = Break::Kept;
    }
    if (wish.near && first.before == Break::Allowed) {
        first.before = Break::Discouraged;
    }
    std::move(next.slabs.begin(), next.slabs.end(), std::back_inserter(all));
    space_after = next.after;
    wish = {next.keep_with_next, next.near_next};
}

} // namespace

double natural_width(Kit& kit, const content::Words& words, const text::Style& style) {
    return widest(kit, words, style, [](const text::Paragraph& p) { return p.natural_width(); });
}

double least_width(Kit& kit, const content::Words& words, const text::Style& style) {
    return widest(kit, words, style, [](const text::Paragraph& p) { return p.least_width(); });
}

std::vector<Slab> measure_blocks(Kit& kit, const std::vector<content::Block>& blocks,
                                 const Context& context) {
    std::vector<Slab> all;
    double space_after = 0.0;
    Wish wish;
    bool forced = false;
    for (const content::Block& block : blocks) {
        if (std::holds_alternative<content::PageBreak>(block.value)) {
            forced = true;
            continue;
        }
        Measured measured = std::visit(
            [&](const auto& value) { return measure(kit, value, context); }, block.value);
        if (forced && !measured.slabs.empty()) {
            measured.slabs.front().before = Break::Forced;
            forced = false;
        }
        join(all, std::move(measured), space_after, wish);
    }
    return all;
}

namespace {

double least_height(const std::vector<Slab>& slabs) {
    double result = 0.0;
    for (std::size_t i = 0; i < slabs.size(); ++i) {
        result += slabs[i].height(-1.0) + (i == 0 ? 0.0 : slabs[i].space(-1.0));
    }
    return result;
}

/// A group whose drawing would drive it over the page gets a smaller drawing; one that no drawing
/// saves keeps the full one.
std::vector<Slab> on_a_page(Kit& kit, const content::Group& block, const Context& context) {
    constexpr double kShares[] = {1.0, 0.85, 0.7, 0.55, 0.4};
    const Trial trial(kit);
    for (const double share : kShares) {
        kit.figure_share = share;
        std::vector<Slab> slabs = measure_blocks(kit, block.blocks, context);
        kit.figure_share = 1.0;
        if (least_height(slabs) <= kit.page_height) {
            return slabs;
        }
        trial.undo(kit);
    }
    return measure_blocks(kit, block.blocks, context);
}

} // namespace

Measured measure(Kit& kit, const content::Group& block, const Context& context) {
    Context inner = context;
    inner.tag = kit.tag(Tag::Role::Div, context.tag);
    Measured result;
    result.slabs = on_a_page(kit, block, inner);
    result.before = kit.em(1.5);
    result.after = kit.em(1.5);
    if (result.slabs.empty()) {
        return result;
    }
    result.slabs.front().stretch = kit.em(1.5);
    if (least_height(result.slabs) <= kit.page_height) {
        for (std::size_t i = 1; i < result.slabs.size(); ++i) {
            result.slabs[i].before = Break::Forbidden;
        }
    } else {
        const Slab& first = result.slabs.front();
        kit.findings->warning(first.span, "layout-group-split",
                              "\"" + first.where + "\" is taller than a page of template \"" +
                                  kit.page->name + "\" and is split between its parts",
                              "shorten its notes, or use a template with smaller type");
    }
    return result;
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
