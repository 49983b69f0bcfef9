// SPDX-License-Identifier: MIT
#include "layout/lay_out.h"

#include <algorithm>
#include <utility>

#include "layout/blocks.h"
#include "layout/paginate.h"
#include "layout/place.h"
#include "layout/typesetter.h"

namespace tickleaf::layout {

namespace {

using content::Booklet;
using page::Tag;
using Kind = content::Part::Kind;

constexpr page::Colour kWhite{255, 255, 255};

/// The booklet's parts that the template asks for, in its order.
std::vector<const content::Part*> chosen_parts(const Booklet& booklet,
                                               const PageTemplate& page_template) {
    std::vector<const content::Part*> parts;
    for (const Kind kind : page_template.parts) {
        for (const content::Part& part : booklet.parts) {
            if (part.kind == kind) {
                parts.push_back(&part);
            }
        }
    }
    return parts;
}

bool is_title(const content::Block& block) {
    if (const auto* heading = std::get_if<content::Heading>(&block.value)) {
        return heading->level == 1;
    }
    return std::holds_alternative<content::Paragraph>(block.value);
}

/// Title and lead of the cover on a panel of the accent colour.
std::vector<Slab> cover(Kit& kit, const content::Part& part, const Context& context) {
    std::size_t count = 0;
    while (count < part.blocks.size() && is_title(part.blocks[count])) {
        ++count;
    }
    const auto middle = part.blocks.begin() + static_cast<std::ptrdiff_t>(count);
    Context inside = context;
    const double pad = kit.gap(1.6);
    inside.width -= pad * 2.0;
    inside.text = kWhite;
    inside.muted = kWhite;
    inside.on_accent = true;
    inside.rigid = true;
    std::vector<Slab> slabs;
    std::vector<Slab> title = measure_blocks(kit, {part.blocks.begin(), middle}, inside);
    if (!title.empty()) {
        Slab words = stack(std::move(title));
        shift(words, pad, pad * 1.4);
        Slab panel;
        panel.where = words.where;
        panel.span = words.span;
        const double height = words.height() + pad * 2.6;
        Placement at;
        at.width = context.width;
        add_shape(panel,
                  filled(page::rounded_rectangle(0, 0, context.width, height, kit.em(0.7)),
                         kit.page->accent),
                  at);
        append(panel, std::move(words));
        panel.extents = {Extent{height, 0.0}};
        slabs.push_back(std::move(panel));
    }
    std::vector<Slab> rest = measure_blocks(kit, {middle, part.blocks.end()}, context);
    if (!rest.empty() && !slabs.empty()) {
        rest.front().space_before = std::max(rest.front().space_before, kit.gap(1.6));
    }
    std::move(rest.begin(), rest.end(), std::back_inserter(slabs));
    return slabs;
}

std::vector<Slab> part_slabs(Kit& kit, const content::Part& part, const Context& context) {
    return part.kind == Kind::Cover ? cover(kit, part, context)
                                    : measure_blocks(kit, part.blocks, context);
}

/// These are taken in at a glance, so everything in them stands closer if that brings them on one
/// page.
bool wants_one_page(Kind kind) {
    return kind == Kind::Cover || kind == Kind::Safety;
}

std::vector<Slab> fitted_slabs(Kit& kit, const content::Part& part, const Context& context) {
    if (wants_one_page(part.kind)) {
        const Trial trial(kit);
        for (int level = 0; level <= kTightest; ++level) {
            tighten(kit, level);
            std::vector<Slab> slabs = part_slabs(kit, part, context);
            tighten(kit, 0);
            if (total_height(slabs, 0.0) <= kit.page_height) {
                return slabs;
            }
            trial.undo(kit);
        }
    }
    return part_slabs(kit, part, context);
}

/// These are looked up by leafing through, so they start a page whatever the headings say.
bool starts_page(Kind kind) {
    return kind == Kind::Stage || kind == Kind::Logbook || kind == Kind::ClinicianCopy;
}

void add_part(Kit& kit, const content::Part& part, std::size_t index, bool after_cover) {
    Context context;
    context.width =
        kit.page->paper.width.pt() - kit.page->margin_inner.pt() - kit.page->margin_outer.pt();
    context.tag = kit.tag(Tag::Role::Sect, 0, part.title.empty() ? nullptr : &part.title);
    context.text = kit.page->text;
    context.muted = kit.page->muted;
    std::vector<Slab> slabs = fitted_slabs(kit, part, context);
    if (slabs.empty()) {
        return;
    }
    Slab& first = slabs.front();
    first.before = index == 0                              ? Break::Allowed
                   : starts_page(part.kind) || after_cover ? Break::Forced
                                                           : first.before;
    first.space_before = std::max(first.space_before, kit.em(1.6));
    if (!part.title.empty()) {
        first.outline.insert(first.outline.begin(), {part.title.text, 1, 0, 0.0});
    }
    for (Slab& slab : slabs) {
        slab.part = index;
        kit.flow->slabs.push_back(std::move(slab));
    }
}

std::string stage_number(const content::Part& part, const Booklet& booklet) {
    // The number a reader sees in the stage's own heading.
    for (const content::Block& block : part.blocks) {
        const auto* heading = std::get_if<content::Heading>(&block.value);
        if (heading != nullptr && heading->level == 1 && !heading->badge.empty()) {
            return heading->badge;
        }
    }
    std::string number;
    for (const char digit : std::to_string(part.stage + 1)) {
        const auto index = static_cast<std::size_t>(digit - '0');
        number += index < booklet.digits.size() ? booklet.digits[index] : std::string(1, digit);
    }
    return number;
}

std::vector<PartLook> looks_of(const std::vector<const content::Part*>& parts,
                               const Booklet& booklet) {
    std::size_t stages = 1;
    for (const content::Part* part : parts) {
        stages = part->kind == Kind::Stage ? std::max(stages, part->stage + 1) : stages;
    }
    std::vector<PartLook> looks;
    for (const content::Part* part : parts) {
        PartLook look;
        look.running_head = part->kind != Kind::Cover;
        if (part->kind == Kind::Stage) {
            look.tab = stage_number(*part, booklet);
            look.tab_slot = part->stage;
            look.tab_slots = stages;
        }
        looks.push_back(std::move(look));
    }
    return looks;
}

page::Document frame_of(const Booklet& booklet) {
    page::Document document;
    document.title = booklet.title.text;
    document.author = booklet.author;
    document.subject = booklet.subject;
    document.language = booklet.language;
    document.right_to_left = booklet.right_to_left;
    document.date = booklet.date;
    Tag root;
    root.role = Tag::Role::Document;
    root.language = booklet.language;
    document.tags.push_back(std::move(root));
    return document;
}

} // namespace

std::optional<page::Document> lay_out(const Booklet& booklet, const PageTemplate& page_template,
                                      text::FontSet& fonts, support::Findings& findings) {
    page::Document document = frame_of(booklet);
    Typesetter typesetter(page_template, fonts, findings);
    Flow flow;
    Kit kit;
    kit.page = &page_template;
    kit.booklet = &booklet;
    kit.type = &typesetter;
    kit.tags = &document.tags;
    kit.flow = &flow;
    kit.page_height = page_template.paper.height.pt() - page_template.margin_top.pt() -
                      page_template.margin_bottom.pt();
    const std::vector<const content::Part*> parts = chosen_parts(booklet, page_template);
    for (std::size_t i = 0; i < parts.size(); ++i) {
        add_part(kit, *parts[i], i, i > 0 && parts[i - 1]->kind == Kind::Cover);
    }
    for (support::Finding& finding : kit.said) {
        findings.add(std::move(finding));
    }
    if (flow.slabs.empty()) {
        findings.error({}, "layout-empty",
                       "the booklet has nothing to print with template \"" + page_template.name +
                           "\"");
        return std::nullopt;
    }
    const std::vector<PageCut> cuts = paginate(flow, kit.page_height, findings);
    if (cuts.size() > kMaxPages) {
        findings.error({}, "layout-pages",
                       "the booklet has " + std::to_string(cuts.size()) + " pages; at most " +
                           std::to_string(kMaxPages) + " can be made");
        return std::nullopt;
    }
    place_pages(kit, cuts, looks_of(parts, booklet), document);
    return document;
}

} // namespace tickleaf::layout
