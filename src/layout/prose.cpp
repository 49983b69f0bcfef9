// SPDX-License-Identifier: MIT
// Headings, paragraphs, lists, lines to write on, boxes to tick.
#include "layout/blocks.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace tickleaf::layout {

namespace {

using page::Tag;
using text::Weight;

constexpr page::Colour kWhite{255, 255, 255};
/// A list item or paragraph of so many lines is moved as one.
constexpr std::size_t kWholeLines = 3;

Tag::Role heading_role(int level) {
    return level <= 1 ? Tag::Role::H1 : level == 2 ? Tag::Role::H2 : Tag::Role::H3;
}

struct HeadingLook {
    double size = 0.0;
    double badge = 0.0;
    page::Colour colour{};
    bool rule = false;
};

HeadingLook look_of(const Kit& kit, const content::Heading& block, const Context& context) {
    HeadingLook look;
    const auto step = static_cast<std::size_t>(std::clamp(block.level, 1, 3) - 1);
    look.size = kit.page->heading_sizes[step];
    look.badge = block.badge.empty() ? 0.0 : look.size * (step == 0 ? 1.75 : 1.5);
    look.colour = context.on_accent ? context.text : step == 1 ? kit.page->accent : context.text;
    look.rule = step == 0 && !context.on_accent;
    return look;
}

void add_badge(Kit& kit, Slab& slab, const content::Heading& block, const HeadingLook& look,
               std::size_t tag) {
    const double side = look.badge;
    Placement square;
    square.width = side;
    add_shape(slab,
              filled(page::rounded_rectangle(0, 0, side, side, side * 0.22), kit.page->accent),
              square);
    content::Words number = block.words;
    number.text = block.badge;
    number.second = nullptr;
    const text::Style style = kit.style(look.size, Weight::Bold, kWhite);
    const double width = kit.type->set(number, style, side * 2.0).width();
    // A space behind it, which is not seen: else number and name would be read as one word.
    number.text += "\u00A0";
    TextBox box = kit.type->set(number, style, side * 3.0);
    Placement at;
    // Centred on the square even where the number is wider than it.
    at.x = (side - width) / 2.0;
    at.y = (side - box.height()) / 2.0;
    at.width = box.width();
    at.tag = tag;
    place_lines(slab, std::move(box), at);
}

/// The lines of a text as slabs with at least two lines of it on either page.
std::vector<Slab> by_lines(TextBox box, Placement at) {
    std::vector<Slab> slabs;
    const std::size_t count = box.lines.size();
    const auto take = [&](std::size_t from, std::size_t to) {
        TextBox some;
        some.leading = box.leading;
        some.baseline = box.baseline;
        const auto first = box.lines.begin() + static_cast<std::ptrdiff_t>(from);
        const auto last = box.lines.begin() + static_cast<std::ptrdiff_t>(to);
        some.lines.assign(std::make_move_iterator(first), std::make_move_iterator(last));
        Slab slab;
        slab.extents = {Extent{some.height(), 0.0}};
        place_lines(slab, std::move(some), at);
        slab.before = from == 0 ? Break::Allowed : Break::Discouraged;
        slabs.push_back(std::move(slab));
    };
    if (count <= kWholeLines) {
        take(0, count);
        return slabs;
    }
    take(0, 2);
    for (std::size_t i = 2; i + 2 < count; ++i) {
        take(i, i + 1);
    }
    take(count - 2, count);
    return slabs;
}

std::vector<Slab> text_slabs(Kit& kit, const content::Words& words, text::Style style,
                             const Context& context, Placement at) {
    std::vector<Slab> all;
    const std::size_t parent = at.tag;
    for (const content::Words* w = &words; w != nullptr; w = w->second.get()) {
        if (w->empty()) {
            continue;
        }
        at.tag = kit.tag(Tag::Role::P, parent, w);
        std::vector<Slab> slabs = by_lines(kit.type->set(*w, style, at.width), at);
        slabs.front().where = first_words(*w);
        slabs.front().span = w->span;
        if (!all.empty()) {
            slabs.front().before = Break::Forbidden;
            slabs.front().space_before = kit.em(0.1);
        }
        std::move(slabs.begin(), slabs.end(), std::back_inserter(all));
        style.size = std::max(kit.page->small_size, style.size * 0.86);
        style.weight = Weight::Regular;
        style.colour = context.muted;
    }
    return all;
}

/// An item with a mark at the reading start: a number, a dot or a box to tick.
struct Item {
    const content::Words* words = nullptr;
    double indent = 0.0;
    double least_height = 0.0;
    double text_y = 0.0; ///< to bring the first line to the middle of a box
    std::size_t body_tag = 0;
};

std::vector<Slab> item_slabs(Kit& kit, const Item& item, Slab mark, const Context& context) {
    Placement at;
    at.x = item.indent;
    at.width = context.width - item.indent;
    at.tag = item.body_tag;
    const text::Style style = kit.style(kit.page->body_size, Weight::Regular, context.text);
    Slab probe;
    TextRequest request{item.words, style, context.muted, Tag::Role::Span, at};
    request.at.y = item.text_y;
    const std::size_t tags_before = kit.tags->size();
    const double height = item.text_y + add_words(kit, probe, request);
    mark.where = probe.where;
    mark.span = probe.span;
    if (height <= kit.page_height * 0.6) {
        append(mark, std::move(probe));
        mark.extents = {Extent{std::max(height, item.least_height), 0.0}};
        std::vector<Slab> one;
        one.push_back(std::move(mark));
        return one;
    }
    // Longer than most of a page: set again line by line, so that it can run on.
    kit.tags->resize(tags_before);
    std::vector<Slab> slabs = text_slabs(kit, *item.words, style, context, at);
    append(mark, std::move(slabs.front()));
    slabs.front().fragments = std::move(mark.fragments);
    return slabs;
}

double number_indent(Kit& kit, const content::List& block, const text::Style& style) {
    double widest = 0.0;
    for (const std::string& number : block.numbers) {
        content::Words words;
        words.text = number;
        words.language = kit.booklet->language;
        widest = std::max(widest, natural_width(kit, words, style));
    }
    return std::max(kit.em(1.7), widest + kit.em(0.8));
}

void join_items(Kit& kit, Measured& result, std::vector<Slab> item, double gap) {
    if (!result.slabs.empty()) {
        item.front().space_before = kit.em(gap);
        item.front().before = Break::Discouraged;
    }
    std::move(item.begin(), item.end(), std::back_inserter(result.slabs));
}

/// A list never leaves its first or its last item alone.
void keep_ends(Measured& list) {
    if (list.slabs.size() > 1) {
        list.slabs[1].before = Break::Kept;
        list.slabs.back().before = Break::Kept;
    }
}

} // namespace

Measured measure(Kit& kit, const content::Heading& block, const Context& context) {
    const HeadingLook look = look_of(kit, block, context);
    Slab slab;
    const std::size_t tag = kit.tag(heading_role(block.level), context.tag, &block.words);
    if (look.badge > 0.0) {
        add_badge(kit, slab, block, look, tag);
    }
    TextRequest request;
    request.words = &block.words;
    request.style = kit.style(look.size, Weight::Bold, look.colour);
    request.second_colour = context.muted;
    request.role = Tag::Role::Span;
    request.at.x = look.badge > 0.0 ? look.badge + kit.em(0.75) : 0.0;
    request.at.width = context.width - request.at.x;
    request.at.tag = tag;
    Slab words;
    const double text_height = add_words(kit, words, request);
    shift(words, 0.0, std::max(0.0, (look.badge - text_height) / 2.0));
    slab.where = words.where;
    slab.span = words.span;
    append(slab, std::move(words));
    double height = std::max(text_height, look.badge);
    if (look.rule) {
        height += kit.em(0.4);
        Placement at;
        at.y = height;
        at.width = context.width;
        add_shape(slab, filled(page::rectangle(0, 0, context.width, 1.6), kit.page->accent), at);
        height += 1.6;
    }
    slab.extents = {Extent{height, 0.0}};
    slab.before = block.starts_page ? Break::Forced : Break::Allowed;
    if (block.anchor > 0) {
        slab.anchors.push_back(block.anchor);
    }
    if (block.level == 2) {
        slab.outline.push_back(
            {block.badge.empty() ? block.words.text : block.badge + " " + block.words.text, 2, 0,
             0.0});
    }
    Measured result;
    result.before = block.level == 1 ? kit.em(1.6) : block.level == 2 ? kit.em(1.3) : kit.em(0.9);
    result.after = block.level == 1 ? kit.em(0.9) : block.level == 2 ? kit.em(0.5) : kit.em(0.25);
    result.keep_with_next = true;
    result.leads = block.level <= 2;
    slab.stretch = block.level == 2 ? kit.em(0.8) : 0.0;
    result.slabs.push_back(std::move(slab));
    return result;
}

Measured measure(Kit& kit, const content::Paragraph& block, const Context& context) {
    using Role = content::Paragraph::Role;
    const double size = block.role == Role::Lead    ? kit.page->lead_size
                        : block.role == Role::Small ? kit.page->small_size
                                                    : kit.page->body_size;
    const Weight weight = block.role == Role::Strong ? Weight::Bold : Weight::Regular;
    const page::Colour colour = block.role == Role::Small ? context.muted : context.text;
    Placement at;
    at.width = context.width;
    at.tag = context.tag;
    Measured result;
    result.slabs = text_slabs(kit, block.words, kit.style(size, weight, colour), context, at);
    result.after = kit.em(0.6);
    return result;
}

Measured measure(Kit& kit, const content::List& block, const Context& context) {
    Measured result;
    result.after = kit.em(0.8);
    const std::size_t list = kit.tag(Tag::Role::L, context.tag);
    kit.tags->at(list).numbered = block.numbered;
    const page::Colour mark_colour = context.on_accent ? context.text : kit.page->accent;
    const text::Style style = kit.style(kit.page->body_size, Weight::Bold, mark_colour);
    const double indent = block.numbered ? number_indent(kit, block, style) : kit.em(1.3);
    const double first_middle = kit.page->body_size * kit.page->line_spacing * 0.53;
    for (std::size_t i = 0; i < block.items.size(); ++i) {
        const std::size_t item = kit.tag(Tag::Role::LI, list);
        Slab mark;
        if (block.numbered && i < block.numbers.size()) {
            content::Words number = block.items[i];
            number.text = block.numbers[i];
            number.second = nullptr;
            Placement at;
            at.width = indent - kit.em(0.6);
            at.tag = kit.tag(Tag::Role::Lbl, item);
            place_lines(mark, kit.type->set(number, style, indent), at);
        } else {
            const double radius = kit.em(0.16);
            Placement at;
            at.x = kit.em(0.3);
            at.y = first_middle - radius;
            at.width = radius * 2.0;
            add_shape(mark, filled(page::circle({radius, radius}, radius), mark_colour), at);
        }
        Item entry;
        entry.words = &block.items[i];
        entry.indent = indent;
        entry.body_tag = kit.tag(Tag::Role::LBody, item, &block.items[i]);
        join_items(kit, result, item_slabs(kit, entry, std::move(mark), context), 0.3);
    }
    keep_ends(result);
    return result;
}

Measured measure(Kit& kit, const content::TickList& block, const Context& context) {
    Measured result;
    result.before = kit.em(0.2);
    result.after = kit.em(0.8);
    const std::size_t list = kit.tag(Tag::Role::L, context.tag);
    const double side = kit.page->tick_box.pt();
    for (const content::Words& words : block.items) {
        const std::size_t item = kit.tag(Tag::Role::LI, list);
        const std::size_t label = kit.tag(Tag::Role::Lbl, item);
        const std::size_t form = kit.tag(Tag::Role::Form, label);
        Slab mark;
        Placement at;
        at.width = side;
        at.tag = form;
        add_shape(mark,
                  outlined(page::rectangle(0.5, 0.5, side - 1.0, side - 1.0), context.text, 1.0),
                  at);
        Item entry;
        entry.words = &words;
        entry.indent = side + kit.em(0.7);
        entry.least_height = side;
        entry.text_y = std::max(0.0, (side - kit.page->body_size * kit.page->line_spacing) / 2.0);
        entry.body_tag = kit.tag(Tag::Role::LBody, item, &words);
        join_items(kit, result, item_slabs(kit, entry, std::move(mark), context), 0.45);
    }
    keep_ends(result);
    return result;
}

Measured measure(Kit& kit, const content::WritingLines& block, const Context& context) {
    Measured result;
    if (block.lines == 0 && kit.filling == 0) {
        return result;
    }
    result.before = kit.em(0.4);
    result.after = kit.em(0.9);
    Slab label;
    if (!block.label.empty()) {
        TextRequest request;
        request.words = &block.label;
        request.style = kit.style(kit.page->body_size, Weight::Bold, context.text);
        request.second_colour = context.muted;
        request.at.width = context.width;
        request.at.tag = context.tag;
        label.extents = {Extent{add_words(kit, label, request), 0.0}};
        result.slabs.push_back(std::move(label));
    }
    const double height = kit.page->writing_row.pt();
    const double room = kit.page_height - (result.slabs.empty() ? 0.0 : result.slabs[0].height());
    const int lines = block.lines > 0
                          ? block.lines
                          : kit.filling.value_or(std::max(1, static_cast<int>(room / height)));
    for (int i = 0; i < lines; ++i) {
        Slab row;
        Placement at;
        at.y = height - 0.7;
        at.width = context.width;
        add_shape(row, outlined(page::line({0, 0}, {context.width, 0}), kit.page->rule, 0.7), at);
        row.extents = {Extent{height, 0.0}};
        row.is_writing_line = !context.in_columns;
        row.before = i < 2 || i + 1 == lines ? Break::Forbidden : Break::Discouraged;
        if (result.slabs.empty()) {
            row.before = Break::Allowed;
        }
        result.slabs.push_back(std::move(row));
    }
    return result;
}

} // namespace tickleaf::layout
