// SPDX-License-Identifier: MIT
// Drawings and framed callouts.
#include "layout/blocks.h"

#include <algorithm>
#include <utility>

namespace tickleaf::layout {

namespace {

using page::Tag;
using text::Weight;
using Kind = content::Callout::Kind;

/// Drawings are made for one panel of 150 pt; more than this makes lines clumsy.
constexpr double kLargestScale = 1.7;

DrawingPart drawing_part(Kit& kit, const content::Figure& block, double scale, bool flexible) {
    DrawingPart part;
    part.drawing = block.drawing;
    part.scale = scale;
    part.flexible = flexible;
    for (const page::Label& label : block.drawing->labels) {
        content::Words words;
        words.text = label.text;
        words.language = kit.booklet->language;
        words.key = block.alternative.key;
        const text::Style style =
            kit.style(label.height, label.bold ? Weight::Bold : Weight::Regular, label.colour);
        const TextBox box = kit.type->set(words, style, 10'000.0);
        part.labels.push_back(box.lines.empty() ? text::Line{} : box.lines.front());
    }
    return part;
}

/// How a callout is framed. Warning and caution are told by sign, frame and word; never by colour.
struct Look {
    double frame = 0.0; ///< line width of the frame; none at 0
    double bar = 0.0;   ///< bar at the reading start
    bool tint = false;
    double sign = 0.0;      ///< size of the sign
    bool long_text = false; ///< runs on under the sign instead of beside it
};

Look look_of(const Kit& kit, Kind kind) {
    Look look;
    switch (kind) {
    case Kind::Warning:
        look.frame = 2.6;
        look.sign = kit.em(2.1);
        look.long_text = true;
        break;
    case Kind::Caution:
        look.frame = 1.3;
        look.sign = kit.em(1.9);
        break;
    case Kind::Notice:
        look.tint = true;
        look.sign = kit.em(1.5);
        break;
    case Kind::Tip:
        look.bar = kit.em(0.3);
        break;
    }
    return look;
}

Shapes sign_of(const Kit& kit, Kind kind, double size) {
    switch (kind) {
    case Kind::Warning:
        return stop_sign(size, kit.page->text);
    case Kind::Caution:
        return caution_sign(size, kit.page->text);
    case Kind::Notice:
        return notice_sign(size, kit.page->accent);
    case Kind::Tip:
        break;
    }
    return {};
}

struct Inside {
    double left = 0.0;
    double indent = 0.0; ///< of title and first paragraph, beside the sign
    double top = 0.0;
    double right = 0.0;
};

Inside inside_of(const Kit& kit, const Look& look) {
    Inside inside;
    const double pad = look.bar > 0.0 ? kit.em(0.7) : kit.em(0.85);
    const double sign = look.sign > 0.0 ? look.sign + kit.em(0.75) : 0.0;
    inside.left = look.bar + pad + (look.long_text ? 0.0 : sign);
    inside.indent = look.long_text ? sign : 0.0;
    inside.top = look.bar > 0.0 ? kit.em(0.1) : look.tint ? kit.gap(0.55) : kit.gap(0.75);
    inside.right = look.bar > 0.0 ? 0.0 : pad;
    return inside;
}

/// Title and blocks of a callout, in its own column. The head (title and first paragraph) keeps
/// `indent` free for the sign; what follows takes the whole width.
std::vector<Slab> callout_content(Kit& kit, const content::Callout& block, double indent,
                                  const Context& context) {
    std::vector<Slab> slabs;
    if (!block.title.empty()) {
        Slab title;
        TextRequest request;
        request.words = &block.title;
        request.style = kit.style(kit.page->heading_sizes[2], Weight::Bold, context.text);
        request.second_colour = context.muted;
        request.at.x = indent;
        request.at.width = context.width - indent;
        request.at.tag = context.tag;
        title.extents = {Extent{add_words(kit, title, request), 0.0}};
        slabs.push_back(std::move(title));
    }
    const bool has_lead =
        !block.blocks.empty() && std::holds_alternative<content::Paragraph>(block.blocks[0].value);
    const auto lead_end = block.blocks.begin() + (has_lead && indent > 0.0 ? 1 : 0);
    Context beside = context;
    beside.width -= indent;
    std::vector<Slab> rest = measure_blocks(kit, {block.blocks.begin(), lead_end}, beside);
    for (Slab& slab : rest) {
        shift(slab, indent, 0.0);
    }
    std::vector<Slab> under = measure_blocks(kit, {lead_end, block.blocks.end()}, context);
    if (!rest.empty() && !under.empty()) {
        under.front().space_before = std::max(under.front().space_before, kit.em(0.4));
    }
    std::move(under.begin(), under.end(), std::back_inserter(rest));
    if (!slabs.empty() && !rest.empty()) {
        rest.front().space_before = std::max(rest.front().space_before, kit.em(0.25));
        rest.front().before = Break::Kept;
    }
    std::move(rest.begin(), rest.end(), std::back_inserter(slabs));
    return slabs;
}

void add_callout_frame(Kit& kit, Slab& slab, const Look& look, Kind kind, double width) {
    const double height = slab.height();
    Slab under;
    Placement at;
    at.width = width;
    const double inset = look.frame / 2.0;
    const double radius = kit.em(0.45);
    if (look.tint) {
        add_shape(under,
                  filled(page::rounded_rectangle(0, 0, width, height, radius), kit.page->tint), at);
    }
    if (look.frame > 0.0) {
        add_shape(under,
                  outlined(page::rounded_rectangle(inset, inset, width - look.frame,
                                                   height - look.frame, radius),
                           kit.page->text, look.frame),
                  at);
    }
    if (look.bar > 0.0) {
        at.width = look.bar;
        add_shape(under, filled(page::rectangle(0, 0, look.bar, height), kit.page->accent), at);
    }
    if (look.sign > 0.0) {
        at.x = kit.em(0.85);
        at.y = std::min(kit.gap(0.8), std::max(kit.gap(0.3), (height - look.sign) / 2.0));
        at.width = look.sign;
        add_shapes(under, sign_of(kit, kind, look.sign), at);
    }
    append(under, std::move(slab));
    slab.fragments = std::move(under.fragments);
}

void warn_split(Kit& kit, const Slab& first) {
    kit.say(support::Severity::Warning, first.span, "layout-callout-split",
            "the framed text \"" + first.where +
                "\" is taller than a page and is split between its parts",
            "shorten it, or use a template with smaller type");
}

} // namespace

double figure_limit(const Kit& kit) {
    return kit.page->figure_height.pt() * kit.figure_share * kit.part_share;
}

Measured measure(Kit& kit, const content::Figure& block, const Context& context) {
    Measured result;
    if (block.drawing == nullptr || block.drawing->width <= 0.0 || block.drawing->height <= 0.0) {
        return result;
    }
    const double limit = figure_limit(kit);
    const bool flexible = !context.rigid;
    // At +15 % a drawing fills its column and no more.
    const double room = context.width / (flexible ? 1.0 + kFlexShare : 1.0);
    const double fit =
        std::min({room / block.drawing->width, limit / block.drawing->height, kLargestScale});
    Slab slab;
    Fragment fragment;
    fragment.tag = kit.tag(Tag::Role::Figure, context.tag, &block.alternative);
    kit.tags->at(fragment.tag).alternative = block.alternative.text;
    fragment.width = block.drawing->width * fit;
    fragment.x = (context.width - fragment.width) / 2.0;
    fragment.part = drawing_part(kit, block, fit, flexible);
    slab.fragments.push_back(std::move(fragment));
    Extent height{block.drawing->height * fit,
                  flexible ? block.drawing->height * fit * kFlexShare : 0.0};
    if (!block.caption.empty()) {
        Slab caption;
        TextRequest request;
        request.words = &block.caption;
        request.style = kit.style(kit.page->small_size, Weight::Regular, context.muted);
        request.second_colour = context.muted;
        request.at.width = context.width;
        request.at.y = kit.em(0.25);
        request.at.tag = context.tag;
        const double used = add_words(kit, caption, request);
        for (Fragment& line : caption.fragments) {
            line.y.fixed += height.fixed;
            line.y.flex += height.flex;
        }
        append(slab, std::move(caption));
        height.fixed += used + kit.em(0.25);
    }
    slab.extents = {height};
    slab.where = block.alternative.text;
    slab.span = block.alternative.span;
    result.slabs.push_back(std::move(slab));
    result.before = kit.em(0.3);
    result.after = kit.em(0.7);
    return result;
}

Measured measure(Kit& kit, const content::Callout& block, const Context& context) {
    Measured result;
    result.before = kit.em(0.7);
    result.after = kit.em(1.0);
    const Look look = look_of(kit, block.kind);
    const Inside inside = inside_of(kit, look);
    Context inner = context;
    inner.tag = kit.tag(Tag::Role::Div, context.tag);
    inner.width = context.width - inside.left - inside.right;
    inner.rigid = true;
    std::vector<Slab> slabs = callout_content(kit, block, inside.indent, inner);
    if (slabs.empty()) {
        return result;
    }
    const bool whole = total_height(slabs, 0.0) + inside.top * 2.0 <= kit.page_height;
    if (whole) {
        Slab one = stack(std::move(slabs));
        slabs.clear();
        slabs.push_back(std::move(one));
    } else {
        warn_split(kit, slabs.front());
    }
    for (std::size_t i = 0; i < slabs.size(); ++i) {
        Slab& slab = slabs[i];
        const double top = whole || i == 0 ? inside.top : i > 0 ? slab.space_before : 0.0;
        const double bottom = i + 1 == slabs.size() ? inside.top : 0.0;
        shift(slab, inside.left, top);
        const double height = std::max(slab.height() + top + bottom,
                                       i == 0 && look.sign > 0.0 ? look.sign + kit.em(1.6) : 0.0);
        slab.extents = {Extent{height, 0.0}};
        slab.space_before = 0.0;
        // Split over pages, each piece keeps a bar at its start; a frame would be cut open.
        Look piece = look;
        piece.bar = whole ? look.bar : kit.em(0.3);
        piece.frame = whole ? look.frame : 0.0;
        piece.sign = i == 0 ? look.sign : 0.0;
        add_callout_frame(kit, slab, piece, block.kind, context.width);
        result.slabs.push_back(std::move(slab));
    }
    return result;
}

} // namespace tickleaf::layout
