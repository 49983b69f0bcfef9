// SPDX-License-Identifier: MIT
// The pain line 0 to 10 with its three zones, and the stages as bars over the weeks.
#include "layout/blocks.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace tickleaf::layout {

namespace {

using page::Tag;
using text::Weight;

constexpr page::Colour kWhite{255, 255, 255};
constexpr int kCells = 11;
/// Words under a zone narrower than so many ems go one zone under the other.
constexpr double kNarrowestZone = 8.0;

/// One zone of the pain line: its cells, its words, its sign. Told apart by pattern, sign and word.
struct Zone {
    int first = 0;
    int last = 0; ///< one past the end
    const content::Words* word = nullptr;
    const content::Words* action = nullptr;
    double x = 0.0; ///< of the words under the line
    double width = 0.0;
};

std::array<Zone, 3> zones_of(const content::PainScale& block) {
    const int carry = std::clamp(block.carry_on_up_to + 1, 1, kCells - 2);
    const int ease = std::clamp(block.ease_off_up_to + 1, carry + 1, kCells - 1);
    return {{{0, carry, &block.carry_on, &block.carry_on_action, 0, 0},
             {carry, ease, &block.ease_off, &block.ease_off_action, 0, 0},
             {ease, kCells, &block.stop, &block.stop_action, 0, 0}}};
}

/// The words stand under their zone, but no zone's words get much less than a third of the line.
void place_zones(std::array<Zone, 3>& zones, double width, double gap) {
    double sum = 0.0;
    std::array<double, 3> shares{};
    for (std::size_t i = 0; i < zones.size(); ++i) {
        shares[i] = std::max(0.31, (zones[i].last - zones[i].first) / static_cast<double>(kCells));
        sum += shares[i];
    }
    double x = 0.0;
    for (std::size_t i = 0; i < zones.size(); ++i) {
        const double share = width * shares[i] / sum;
        zones[i].x = x;
        zones[i].width = share - (i < 2 ? gap : 0.0);
        x += share;
    }
}

Shapes zone_sign(std::size_t zone, double size, page::Colour dark) {
    return zone == 0   ? go_sign(size, dark)
           : zone == 1 ? caution_sign(size, dark)
                       : stop_sign(size, dark);
}

/// The strip under a zone's numbers: empty, hatched, full.
void add_strip(Kit& kit, Slab& slab, std::size_t zone, Placement at, double height) {
    const page::Colour ink = kit.page->text;
    const double width = at.width;
    if (zone == 1) {
        page::Stroke stroke;
        stroke.width = 1.6;
        stroke.colour = ink;
        add_shape(slab, hatching(width, height, kit.em(0.5), stroke), at);
    }
    if (zone == 2) {
        add_shape(slab, filled(page::rectangle(0, 0, width, height), ink), at);
    }
    add_shape(slab, outlined(page::rectangle(0.6, 0.6, width - 1.2, height - 1.2), ink, 1.2), at);
}

double add_line_of_numbers(Kit& kit, Slab& slab, const content::PainScale& block,
                           const std::array<Zone, 3>& zones, const Context& context,
                           std::size_t tag) {
    const double step = context.width / kCells;
    const double numbers = kit.em(1.7) + kit.gap(0.6);
    const double strip = kit.em(0.5) + kit.gap(0.45);
    for (std::size_t i = 0; i < zones.size(); ++i) {
        Placement at;
        at.tag = tag;
        at.x = step * zones[i].first + (i == 0 ? 0.0 : 1.5);
        at.width = step * (zones[i].last - zones[i].first) - (i == 0 ? 1.5 : i == 1 ? 3.0 : 1.5);
        add_shape(
            slab,
            outlined(page::rectangle(0.6, 0.6, at.width - 1.2, numbers - 0.6), kit.page->text, 1.2),
            at);
        at.y = numbers;
        add_strip(kit, slab, i, at, strip);
    }
    // Two digits fit their cell on the narrowest paper too.
    const double size = std::min(kit.page->heading_sizes[1], step * 0.72);
    const text::Style style = kit.style(size, Weight::Bold, context.text);
    for (int i = 0; i < kCells; ++i) {
        const auto index = static_cast<std::size_t>(i);
        content::Words words;
        words.text = index < block.numbers.size() ? block.numbers[index] : std::to_string(i);
        words.language = kit.booklet->language;
        TextBox box = kit.type->set(words, style, step * 2.0);
        Placement at;
        at.x = step * i;
        at.y = (numbers - box.height()) / 2.0;
        at.width = step;
        at.align = Align::Centre;
        at.tag = tag;
        place_lines(slab, std::move(box), at);
    }
    return numbers + strip;
}

/// Whether every word of the zones has room in a third of the line.
bool words_fit(Kit& kit, const std::array<Zone, 3>& zones, const Context& context) {
    const text::Style word = kit.style(kit.page->heading_sizes[2], Weight::Bold, context.text);
    const text::Style action = kit.style(kit.page->body_size, Weight::Regular, context.text);
    const double sign = kit.em(1.5) + kit.em(0.45);
    return std::all_of(zones.begin(), zones.end(), [&](const Zone& zone) {
        return least_width(kit, *zone.word, word) + sign <= zone.width &&
               least_width(kit, *zone.action, action) <= zone.width &&
               zone.width >= kit.em(kNarrowestZone);
    });
}

double add_zone_words(Kit& kit, Slab& slab, const Zone& zone, std::size_t index,
                      const Context& context, double y) {
    const double sign = kit.em(1.5);
    Placement mark;
    mark.x = zone.x;
    mark.y = y;
    mark.width = sign;
    add_shapes(slab, zone_sign(index, sign, kit.page->text), mark);
    TextRequest request;
    request.words = zone.word;
    request.style = kit.style(kit.page->heading_sizes[2], Weight::Bold, context.text);
    request.second_colour = context.muted;
    request.at.x = zone.x + sign + kit.em(0.45);
    request.at.y = y;
    request.at.width = zone.width - sign - kit.em(0.45);
    request.at.tag = context.tag;
    double height = zone.word->empty() ? 0.0 : add_words(kit, slab, request);
    height = std::max(height, sign) + kit.em(0.2);
    if (!zone.action->empty()) {
        request.words = zone.action;
        request.style = kit.style(kit.page->body_size, Weight::Regular, context.text);
        request.at.x = zone.x;
        request.at.width = zone.width;
        request.at.y = y + height;
        height += add_words(kit, slab, request);
    }
    return height;
}

/// Zones one under the other on a narrow page.
void add_zones_below(Kit& kit, std::array<Zone, 3>& zones, const Context& context,
                     Measured& result) {
    for (std::size_t i = 0; i < zones.size(); ++i) {
        zones[i].x = 0.0;
        zones[i].width = context.width;
        Slab slab;
        slab.extents = {Extent{add_zone_words(kit, slab, zones[i], i, context, 0.0), 0.0}};
        slab.before = Break::Kept;
        slab.space_before = kit.gap(i == 0 ? 0.7 : 0.4);
        result.slabs.push_back(std::move(slab));
    }
}

double weeks_of(const content::StageBar& block) {
    double weeks = 1.0;
    for (const content::StageBar::Stage& stage : block.stages) {
        weeks = std::max(weeks, stage.from_week + stage.weeks);
    }
    return weeks;
}

/// Name and time of a stage at the reading start, its bar over the weeks beside it.
struct BarColumns {
    double names = 0.0;
    double bars_x = 0.0;
    double bars = 0.0;
    double weeks = 1.0;
    std::size_t list = 0; ///< the stages are heard as a numbered list; the bars are decoration
};

Slab stage_row(Kit& kit, const content::StageBar::Stage& stage, const BarColumns& columns,
               const Context& context) {
    Slab slab;
    const double pad = kit.gap(0.45);
    TextRequest request;
    request.words = &stage.name;
    request.style = kit.style(kit.page->body_size, Weight::Bold, context.text);
    request.second_colour = context.muted;
    request.at.width = columns.names;
    request.at.y = pad;
    const std::size_t item = kit.tag(Tag::Role::LI, columns.list);
    const std::size_t label = stage.badge.empty() ? page::kArtifact : kit.tag(Tag::Role::Lbl, item);
    request.at.tag = kit.tag(Tag::Role::LBody, item);
    double height = stage.name.empty() ? 0.0 : add_words(kit, slab, request);
    if (!stage.when.empty()) {
        request.words = &stage.when;
        request.style = kit.style(kit.page->body_size, Weight::Regular, context.muted);
        request.at.y = pad + height;
        height += add_words(kit, slab, request);
    }
    height = std::max(height, kit.em(2.2)) + pad * 2.0;
    const double bar = kit.em(2.0);
    Placement at;
    at.x = columns.bars_x + columns.bars * stage.from_week / columns.weeks;
    at.width = std::max(columns.bars * stage.weeks / columns.weeks - 2.0, 6.0);
    at.y = (height - bar) / 2.0;
    add_shape(
        slab,
        filled(page::rounded_rectangle(0, 0, at.width, bar, std::min(kit.em(0.4), at.width / 2.0)),
               kit.page->accent),
        at);
    if (!stage.badge.empty()) {
        content::Words words = stage.name;
        words.text = stage.badge;
        words.second = nullptr;
        TextBox box = kit.type->set(
            words, kit.style(kit.page->heading_sizes[2], Weight::Bold, kWhite), columns.bars);
        at.y += (bar - box.height()) / 2.0;
        at.align = Align::Centre;
        at.tag = label;
        place_lines(slab, std::move(box), at);
    }
    slab.extents = {Extent{height, 0.0}};
    return slab;
}

/// Thin lines where weeks begin, behind the bars.
void add_week_lines(Kit& kit, Slab& slab, const BarColumns& columns) {
    const double height = slab.height();
    Slab under;
    const int weeks = std::min(52, static_cast<int>(std::ceil(columns.weeks)));
    for (int week = 0; week <= weeks; ++week) {
        Placement at;
        at.x = columns.bars_x + columns.bars * week / std::max(columns.weeks, 1.0) -
               (week == 0 ? 0.0 : 1.0);
        add_shape(under, outlined(page::line({0, 0}, {0, height}), kit.page->rule, 0.5), at);
    }
    append(under, std::move(slab));
    slab.fragments = std::move(under.fragments);
}

} // namespace

Measured measure(Kit& kit, const content::PainScale& block, const Context& context) {
    Measured result;
    result.before = kit.em(0.6);
    result.after = kit.em(1.1);
    std::array<Zone, 3> zones = zones_of(block);
    place_zones(zones, context.width, kit.em(1.0));
    Slab slab;
    const std::size_t figure = kit.tag(Tag::Role::Figure, context.tag, &block.alternative);
    kit.tags->at(figure).alternative = block.alternative.text;
    const double line = add_line_of_numbers(kit, slab, block, zones, context, figure);
    slab.where = first_words(block.carry_on.empty() ? block.alternative : block.carry_on);
    slab.span = block.alternative.span;
    // The stop signs come next, and both are looked for together.
    result.near_next = true;
    if (!words_fit(kit, zones, context)) {
        slab.extents = {Extent{line, 0.0}};
        result.slabs.push_back(std::move(slab));
        add_zones_below(kit, zones, context, result);
        return result;
    }
    double height = 0.0;
    for (std::size_t i = 0; i < zones.size(); ++i) {
        height =
            std::max(height, add_zone_words(kit, slab, zones[i], i, context, line + kit.gap(0.7)));
    }
    slab.extents = {Extent{line + kit.gap(0.7) + height, 0.0}};
    result.slabs.push_back(std::move(slab));
    return result;
}

Measured measure(Kit& kit, const content::StageBar& block, const Context& context) {
    Measured result;
    result.before = kit.em(0.4);
    result.after = kit.em(1.0);
    if (block.stages.empty()) {
        return result;
    }
    BarColumns columns;
    columns.weeks = weeks_of(block);
    columns.names = context.width * 0.4;
    columns.bars_x = columns.names + kit.em(1.0);
    columns.bars = context.width - columns.bars_x;
    columns.list = kit.tag(Tag::Role::L, context.tag);
    kit.tags->at(columns.list).numbered = true;
    for (std::size_t i = 0; i < block.stages.size(); ++i) {
        Slab slab = stage_row(kit, block.stages[i], columns, context);
        add_week_lines(kit, slab, columns);
        slab.before = i == 0 ? Break::Allowed : Break::Kept;
        result.slabs.push_back(std::move(slab));
    }
    return result;
}

} // namespace tickleaf::layout
