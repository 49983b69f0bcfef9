// SPDX-License-Identifier: MIT
#include "layout/place.h"

#include <algorithm>
#include <map>
#include <utility>

namespace tickleaf::layout {

namespace {

using page::Item;
using page::Point;
using support::Length;
using text::Weight;

constexpr page::Colour kWhite{255, 255, 255};

/// Where logical coordinates of a page lie on paper.
struct Sheet {
    double width = 0.0;
    double height = 0.0;
    double start = 0.0; ///< margin at the reading start
    bool inner_at_start = true;
    bool mirrored = false;

    double left(double x, double item_width) const {
        return mirrored ? width - start - x - item_width : start + x;
    }
};

struct Spot {
    double top = 0.0; ///< of the slab on the page
    double flex = 0.0;
    bool pagination = false;
};

page::GlyphRun scaled(page::GlyphRun run, double factor) {
    run.size *= factor;
    run.origin.x *= factor;
    run.origin.y *= factor;
    for (page::Glyph& glyph : run.glyphs) {
        glyph.advance *= factor;
        glyph.x_offset *= factor;
        glyph.y_offset *= factor;
    }
    return run;
}

void put_line(page::Page& page, text::Line line, Point at, const Fragment& fragment,
              const Spot& spot) {
    for (page::GlyphRun& run : line.runs) {
        run.origin.x += at.x;
        run.origin.y += at.y;
        page.items.push_back({std::move(run), fragment.tag, spot.pagination});
    }
}

void put_drawing(page::Page& page, const DrawingPart& part, Point at, double scale,
                 const Fragment& fragment, const Spot& spot) {
    page.items.push_back(
        {page::PlacedDrawing{part.drawing, at, scale}, fragment.tag, spot.pagination});
    for (std::size_t i = 0; i < part.labels.size(); ++i) {
        const page::Label& label = part.drawing->labels[i];
        const text::Line& line = part.labels[i];
        const double share = label.anchor == page::Label::Anchor::Middle ? 0.5
                             : label.anchor == page::Label::Anchor::End  ? 1.0
                                                                         : 0.0;
        text::Line moved = line;
        for (page::GlyphRun& run : moved.runs) {
            run = scaled(std::move(run), scale);
        }
        const Point corner{at.x + (label.at.x - share * line.width) * scale,
                           at.y + label.at.y * scale};
        put_line(page, std::move(moved), corner, fragment, spot);
    }
}

void put_fragment(page::Page& page, const Sheet& sheet, Fragment&& fragment, const Spot& spot) {
    const double y = spot.top + fragment.y.at(spot.flex);
    if (auto* text = std::get_if<TextPart>(&fragment.part)) {
        put_line(page, std::move(text->line), {sheet.left(fragment.x, fragment.width), y}, fragment,
                 spot);
    } else if (auto* shape = std::get_if<ShapePart>(&fragment.part)) {
        shape->shape.path =
            page::transformed(shape->shape.path, 1.0, {sheet.left(fragment.x, fragment.width), y});
        page.items.push_back({std::move(shape->shape), fragment.tag, spot.pagination});
    } else if (const auto* drawing = std::get_if<DrawingPart>(&fragment.part)) {
        const double factor = drawing->flexible ? 1.0 + kFlexShare * spot.flex : 1.0;
        const double width = fragment.width * factor;
        const double x = fragment.x + (fragment.width - width) / 2.0;
        put_drawing(page, *drawing, {sheet.left(x, width), y}, drawing->scale * factor, fragment,
                    spot);
    } else if (auto* way = std::get_if<LinkPart>(&fragment.part)) {
        way->link.x = sheet.left(fragment.x, fragment.width);
        way->link.y = y;
        way->link.width = fragment.width;
        page.items.push_back({std::move(way->link), fragment.tag, spot.pagination});
    } else if (auto* picture = std::get_if<PicturePart>(&fragment.part)) {
        page.items.push_back({page::PlacedPicture{std::move(picture->picture),
                                                  {sheet.left(fragment.x, fragment.width), y},
                                                  fragment.width,
                                                  picture->height},
                              fragment.tag, spot.pagination});
    }
}

void put_slab(page::Page& page, const Sheet& sheet, Slab&& slab, const Spot& spot) {
    for (Fragment& fragment : slab.fragments) {
        put_fragment(page, sheet, std::move(fragment), spot);
    }
}

/// Pages that are bound lie opposite each other: the inner margin of every other page is at the end
/// of its lines.
Sheet sheet_of(const Kit& kit, std::size_t index) {
    Sheet sheet;
    sheet.width = kit.page->paper.width.pt();
    sheet.height = kit.page->paper.height.pt();
    sheet.inner_at_start = !kit.page->fold_on || index % 2 == 0;
    sheet.start = (sheet.inner_at_start ? kit.page->margin_inner : kit.page->margin_outer).pt();
    sheet.mirrored = kit.booklet->right_to_left;
    return sheet;
}

/// Where headings stand, by their anchors.
struct Target {
    std::size_t page = 0;
    double y = 0.0;
};
using Targets = std::map<std::size_t, Target>;

/// The tops of a page's slabs, from the paper's top.
std::vector<double> slab_tops(const Kit& kit, const PageCut& cut) {
    std::vector<double> tops;
    double y = kit.page->margin_top.pt();
    for (std::size_t i = cut.first; i < cut.last; ++i) {
        const Slab& slab = kit.flow->slabs[i];
        if (i > cut.first) {
            y += slab.space(cut.flex) + slab.stretch * cut.stretch;
        } else if (slab.repeat != kNone) {
            y += kit.flow->heads[slab.repeat].height();
        }
        tops.push_back(y);
        y += slab.height(cut.flex);
    }
    return tops;
}

Targets targets_of(const Kit& kit, const std::vector<PageCut>& cuts) {
    Targets targets;
    for (std::size_t page = 0; page < cuts.size(); ++page) {
        const std::vector<double> tops = slab_tops(kit, cuts[page]);
        for (std::size_t i = cuts[page].first; i < cuts[page].last; ++i) {
            for (const std::size_t anchor : kit.flow->slabs[i].anchors) {
                targets[anchor] = {page, tops[i - cuts[page].first]};
            }
        }
    }
    return targets;
}

const Target& target_of(const Targets& targets, std::size_t anchor) {
    const auto found = targets.find(anchor);
    support::internal_error_if(found == targets.end(),
                               "the contents name a heading that is on no page");
    return found->second;
}

std::string filled_pattern(std::string pattern, const std::string& number,
                           const std::string& total) {
    const std::string holes[] = {content::kPageHole, "{1}"};
    const std::string* values[] = {&number, &total};
    for (std::size_t i = 0; i < 2; ++i) {
        const auto at = pattern.find(holes[i]);
        if (at != std::string::npos) {
            pattern.replace(at, holes[i].size(), *values[i]);
        }
    }
    return pattern;
}

double text_width(const Sheet& sheet, const Kit& kit) {
    return sheet.width - kit.page->margin_inner.pt() - kit.page->margin_outer.pt();
}

void put_running_head(Kit& kit, page::Page& page, const Sheet& sheet) {
    const double width = text_width(sheet, kit);
    const text::Style style = kit.style(kit.page->small_size, Weight::Regular, kit.page->muted);
    content::Words words = kit.booklet->running_head;
    words.second = nullptr;
    TextBox box = kit.type->set(words, style, width);
    if (box.lines.size() > 1) {
        box.lines.resize(1);
    }
    Slab slab;
    Placement at;
    at.width = width;
    const double high = box.height();
    place_lines(slab, std::move(box), at);
    at.y = high + 2.0;
    add_shape(slab, outlined(page::line({0, 0}, {width, 0}), kit.page->rule, 0.5), at);
    const double room = kit.page->margin_top.pt();
    put_slab(page, sheet, std::move(slab), {std::max(room - high - 16.0, room * 0.25), 0.0, true});
}

void put_page_number(Kit& kit, page::Page& page, const Sheet& sheet, std::size_t number,
                     std::size_t total) {
    const double width = text_width(sheet, kit);
    content::Words words;
    words.language = kit.booklet->language;
    words.text = filled_pattern(kit.booklet->page_pattern, in_digits(*kit.booklet, number),
                                in_digits(*kit.booklet, total));
    TextBox box = kit.type->set(
        words, kit.style(kit.page->small_size, Weight::Regular, kit.page->muted), width);
    Slab slab;
    Placement at;
    at.width = width;
    at.align = sheet.inner_at_start ? Align::End : Align::Start;
    const double high = box.height();
    place_lines(slab, std::move(box), at);
    const double room = kit.page->margin_bottom.pt();
    put_slab(page, sheet, std::move(slab),
             {sheet.height - room + std::max(0.0, (room - high) * 0.45), 0.0, true});
}

/// The stage number on the outer edge, one step lower for each stage, so that a thumb finds it.
void put_tab(Kit& kit, page::Page& page, const Sheet& sheet, const PartLook& look) {
    const double width = std::min(Length::from_mm(12).pt(), kit.page->margin_outer.pt() * 0.62);
    const double slot =
        std::min(Length::from_mm(26).pt(), kit.page_height / static_cast<double>(look.tab_slots));
    const double height = std::min(Length::from_mm(20).pt(), slot * 0.9);
    const double edge = sheet.inner_at_start ? sheet.width - sheet.start : width - sheet.start;
    Slab slab;
    Placement at;
    at.x = edge - width;
    at.width = width;
    // Round at the inner corners only: the other half lies beyond the paper's edge and is not
    // drawn.
    page::Shape tab = filled(page::rectangle(0, 0, width, height), kit.page->accent);
    add_shape(slab, std::move(tab), at);
    content::Words words;
    words.text = look.tab;
    words.language = kit.booklet->language;
    TextBox box = kit.type->set(words, kit.style(kit.page->heading_sizes[1], Weight::Bold, kWhite),
                                width * 2.0);
    // Off the middle, away from the edge that many printers leave white.
    at.width = width * 0.72;
    at.x = edge - width * (sheet.inner_at_start ? 1.0 : 0.72);
    at.y = (height - box.height()) / 2.0;
    at.align = Align::Centre;
    place_lines(slab, std::move(box), at);
    const double top = kit.page->margin_top.pt() + slot * static_cast<double>(look.tab_slot);
    put_slab(page, sheet, std::move(slab), {top, 0.0, true});
}

/// Sets the numbers of pages that were kept free.
void fill_in(Kit& kit, Slab& slab, const Targets& targets) {
    for (Fragment& fragment : slab.fragments) {
        if (const auto* number = std::get_if<PageNumberPart>(&fragment.part)) {
            content::Words words;
            words.language = kit.booklet->language;
            words.text =
                page_number_text(*kit.booklet, target_of(targets, number->anchor).page + 1);
            TextBox box = kit.type->set(words, number->style, fragment.width);
            fragment.x += fragment.width - box.width();
            fragment.width = box.width();
            fragment.y.fixed += box.baseline;
            fragment.part = TextPart{std::move(box.lines.front())};
        } else if (auto* way = std::get_if<LinkPart>(&fragment.part)) {
            const Target& target = target_of(targets, way->anchor);
            way->link.page = target.page;
            way->link.target_y = target.y;
            way->link.description = filled_pattern(std::move(way->link.description),
                                                   in_digits(*kit.booklet, target.page + 1), {});
        }
    }
}

void put_slabs(Kit& kit, page::Page& page, const Sheet& sheet, const PageCut& cut,
               const Targets& targets, page::Document& document) {
    const std::vector<double> tops = slab_tops(kit, cut);
    for (std::size_t i = cut.first; i < cut.last; ++i) {
        Slab& slab = kit.flow->slabs[i];
        if (i == cut.first && slab.repeat != kNone) {
            Slab head = kit.flow->heads[slab.repeat];
            put_slab(page, sheet, std::move(head), {kit.page->margin_top.pt(), 0.0, true});
        }
        const double y = tops[i - cut.first];
        for (page::OutlineEntry& entry : slab.outline) {
            entry.page = document.pages.size();
            entry.y = y;
            document.outline.push_back(std::move(entry));
        }
        fill_in(kit, slab, targets);
        put_slab(page, sheet, std::move(slab), {y, cut.flex, false});
    }
}

} // namespace

void place_pages(Kit& kit, const std::vector<PageCut>& cuts, const std::vector<PartLook>& looks,
                 page::Document& document) {
    document.pages.reserve(cuts.size());
    const Targets targets = targets_of(kit, cuts);
    for (const PageCut& cut : cuts) {
        const Sheet sheet = sheet_of(kit, document.pages.size());
        page::Page page;
        page.width = sheet.width;
        page.height = sheet.height;
        const PartLook& look = looks.at(kit.flow->slabs[cut.first].part);
        if (look.running_head && !kit.booklet->running_head.empty()) {
            put_running_head(kit, page, sheet);
        }
        if (!look.tab.empty()) {
            put_tab(kit, page, sheet, look);
        }
        put_slabs(kit, page, sheet, cut, targets, document);
        if (!kit.booklet->page_pattern.empty()) {
            put_page_number(kit, page, sheet, document.pages.size() + 1, cuts.size());
        }
        document.pages.push_back(std::move(page));
    }
}

} // namespace tickleaf::layout
