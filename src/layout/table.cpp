// SPDX-License-Identifier: MIT
// Tables of facts, plans and logs: a slab a row, heads that repeat, boxes to tick as vectors.
#include "layout/blocks.h"

#include <algorithm>
#include <utility>

#include "layout/table_frame.h"
#include "layout/wide_table.h"

namespace tickleaf::layout {

namespace {

using content::Cell;
using content::Row;
using content::Table;
using page::Tag;
using text::Weight;

/// What messages call a table: its caption, or its first cell where a heading above is its name.
const content::Words& name_of(const Table& table) {
    const bool has_cell = !table.rows.empty() && !table.rows.front().cells.empty();
    return table.caption.empty() && has_cell ? table.rows.front().cells.front().words
                                             : table.caption;
}

void place_columns(Kit& kit, TableFrame& frame, const ColumnWidths& found) {
    if (!found.fits) {
        const content::Words& name = name_of(*frame.table);
        kit.say(support::Severity::Warning, name.span, "layout-table-wide",
                "table \"" + name.text + "\" is wider than its column; long words in it are broken",
                "use shorter words or fewer columns");
    }
    frame.numeric = numeric_columns(*frame.table);
    frame.left.push_back(0.0);
    for (const double width : found.widths) {
        frame.left.push_back(frame.left.back() + width);
    }
}

double add_tick_boxes(TableFrame& frame, Slab& slab, const Cell& cell, Placement at) {
    Kit& kit = *frame.kit;
    const double side = kit.page->tick_box.pt();
    const double step = side + kBoxGap;
    const int fit = std::max(1, static_cast<int>((at.width + kBoxGap + 0.01) / step));
    const int rows = (cell.tick_boxes + fit - 1) / fit;
    // Boxes that need a second row are shared out evenly over the rows.
    const int per_row = (cell.tick_boxes + rows - 1) / rows;
    for (int i = 0; i < cell.tick_boxes; ++i) {
        const std::size_t form = kit.tag(Tag::Role::Form, at.tag);
        const auto index = static_cast<std::size_t>(i);
        if (index < cell.tick_labels.size()) {
            kit.tags->at(form).alternative = cell.tick_labels[index].text;
        }
        Placement box;
        const int in_row = std::min(per_row, cell.tick_boxes - i / per_row * per_row);
        const double row_width = step * in_row - kBoxGap;
        box.x = at.x + std::max(0.0, (at.width - row_width) / 2.0) + step * (i % per_row);
        box.y = at.y + step * (i / per_row);
        box.width = side;
        box.tag = form;
        add_shape(
            slab,
            outlined(page::rectangle(0.5, 0.5, side - 1.0, side - 1.0), frame.context.text, 1.0),
            box);
        if (i < cell.ticked) {
            add_shape(slab, tick_mark(side, frame.context.text), box);
        }
    }
    return step * rows - kBoxGap;
}

Tag::Scope scope_of(const Row& row, const Cell& cell) {
    return row.header ? Tag::Scope::Column : cell.header ? Tag::Scope::Row : Tag::Scope::None;
}

/// A cell and the column it begins in.
struct Place {
    const Row* row = nullptr;
    std::size_t column = 0;
};

double add_cell(TableFrame& frame, Slab& slab, const Cell& cell, Place place, Placement at) {
    const Row& row = *place.row;
    const std::size_t column = place.column;
    Kit& kit = *frame.kit;
    const Tag::Scope scope = scope_of(row, cell);
    const std::size_t tag =
        kit.tag(scope == Tag::Scope::None ? Tag::Role::TD : Tag::Role::TH, at.tag, &cell.words);
    if (cell.words.empty()) {
        kit.tags->at(tag).language.clear();
    }
    kit.tags->at(tag).scope = scope;
    kit.tags->at(tag).column_span = std::max(1, cell.column_span);
    at.tag = tag;
    double height = 0.0;
    if (!cell.words.empty()) {
        TextRequest request;
        request.words = &cell.words;
        request.style = cell_style(kit, frame, row, cell);
        request.second_colour = frame.context.muted;
        request.role = Tag::Role::Span;
        request.at = at;
        const bool is_day = frame.table->role == Table::Role::Log && column > 0;
        request.at.align = is_day                     ? Align::Centre
                           : frame.is_numeric(column) ? Align::End
                                                      : Align::Start;
        height += add_words(kit, slab, request);
    }
    if (cell.tick_boxes > 0) {
        at.x += kBoxPad - frame.look.pad_x;
        at.width += (frame.look.pad_x - kBoxPad) * 2.0;
        at.y += height + (height > 0.0 ? kit.em(0.2) : 0.0);
        height += (height > 0.0 ? kit.em(0.2) : 0.0) + add_tick_boxes(frame, slab, cell, at);
    }
    return height;
}

void add_line(Slab& slab, page::Path path, const TableFrame& frame, Placement at) {
    add_shape(slab, outlined(std::move(path), frame.kit->page->rule, frame.look.line), at);
}

/// Background and lines of a row, put before its content.
void add_frame(Slab& slab, const TableFrame& frame, const Row& row, bool top) {
    const double width = frame.left.back();
    const double height = slab.extents.front().fixed;
    Slab under;
    Placement at;
    at.width = width;
    if (row.header) {
        add_shape(under, filled(page::rectangle(0, 0, width, height), frame.kit->page->tint), at);
    }
    if (top && frame.look.grid) {
        add_line(under, page::line({0, 0}, {width, 0}), frame, at);
    }
    at.y = height;
    add_line(under, page::line({0, 0}, {width, 0}), frame, at);
    at.y = 0.0;
    at.width = 0.0;
    std::size_t column = 0;
    for (std::size_t i = 0; frame.look.grid && i <= row.cells.size(); ++i) {
        at.x = frame.left[std::min(column, frame.left.size() - 1)];
        add_line(under, page::line({0, 0}, {0, height}), frame, at);
        column += i < row.cells.size()
                      ? static_cast<std::size_t>(std::max(1, row.cells[i].column_span))
                      : 0;
    }
    append(under, std::move(slab));
    slab.fragments = std::move(under.fragments);
}

/// What one cell put into its row.
struct Filled {
    std::size_t begin = 0; ///< fragments
    std::size_t end = 0;
    double height = 0.0;
};

/// Names, boxes and "rest" stand in the middle of their row.
void centre(Slab& slab, const Filled& cell, double height) {
    for (std::size_t i = cell.begin; i < cell.end; ++i) {
        slab.fragments[i].y.fixed += (height - cell.height) / 2.0;
    }
}

Slab measure_row(TableFrame& frame, const Row& row, bool top) {
    Kit& kit = *frame.kit;
    const bool in_log = frame.table->role == Table::Role::Log && !row.header;
    Slab slab;
    std::vector<Filled> filled;
    const std::size_t row_tag = kit.tag(Tag::Role::TR, frame.tag);
    std::size_t column = 0;
    double height = 0.0;
    bool writing = false;
    for (const Cell& cell : row.cells) {
        const auto span = static_cast<std::size_t>(std::max(1, cell.column_span));
        const std::size_t place = frame.stacked ? 0 : column;
        Placement at;
        at.x = frame.left[std::min(place, frame.left.size() - 1)] + frame.look.pad_x;
        at.y = frame.look.pad_y + (frame.stacked ? height : 0.0);
        at.width = frame.width(place, span) - frame.look.pad_x * 2.0;
        at.tag = row_tag;
        const std::size_t begin = slab.fragments.size();
        const double used = add_cell(frame, slab, cell, {&row, column}, at);
        if (in_log && !frame.stacked) {
            filled.push_back({begin, slab.fragments.size(), used});
        }
        height = frame.stacked ? height + used : std::max(height, used);
        writing = writing || cell.write_in;
        column += span;
    }
    height += frame.look.pad_y * 2.0;
    if (writing && !row.header) {
        height = std::max(height, std::max(frame.look.least_row, kit.page->writing_row.pt()));
    }
    for (const Filled& cell : filled) {
        centre(slab, cell, height - frame.look.pad_y * 2.0);
    }
    slab.extents = {Extent{height, 0.0}};
    slab.log = in_log ? frame.table : nullptr;
    add_frame(slab, frame, row, top);
    if (slab.where.empty()) {
        slab.where = frame.table->caption.text;
        slab.span = frame.table->caption.span;
    }
    return slab;
}

/// The head again, as decoration: its words were read out once.
std::size_t keep_head(Kit& kit, const std::vector<Slab>& rows, std::size_t headers) {
    std::vector<Slab> copy(rows.begin(), rows.begin() + static_cast<std::ptrdiff_t>(headers));
    Slab head = stack(std::move(copy));
    for (Fragment& fragment : head.fragments) {
        fragment.tag = page::kArtifact;
    }
    kit.flow->heads.push_back(std::move(head));
    return kit.flow->heads.size() - 1;
}

void add_rows(TableFrame& frame, Measured& result) {
    Kit& kit = *frame.kit;
    std::vector<Slab> rows;
    std::size_t headers = 0;
    for (const Row& row : frame.table->rows) {
        headers += row.header && headers == rows.size() ? 1u : 0u;
        rows.push_back(measure_row(frame, row, rows.empty()));
    }
    const std::size_t head =
        headers > 0 && headers < rows.size() ? keep_head(kit, rows, headers) : kNone;
    const std::size_t whole = rows.size() - headers <= 3 ? rows.size() : headers;
    // Facts that fill half a page leave a gap before them if nothing may part them: all of a few,
    // two neighbours of many.
    const auto are_tall = [&](std::size_t i) {
        constexpr double kTall = 0.4;
        const double kept = whole == rows.size() ? total_height(rows, 0.0)
                                                 : rows[i - 1].height(0.0) + rows[i].height(0.0);
        return frame.table->role == Table::Role::Facts && kept > kTall * kit.page_height;
    };
    for (std::size_t i = 0; i < rows.size(); ++i) {
        // A head never stands alone, and no single row is left on either page.
        // The first row under a band that names what follows stays with it.
        const bool under_band = i > 0 && frame.table->rows[i - 1].cells.size() == 1 &&
                                frame.table->rows[i - 1].cells.front().header;
        const bool edge = i <= whole || i < headers + 2 || i + 1 >= rows.size() || under_band;
        const bool first = i == 0 && result.slabs.empty();
        const bool sheet = frame.table->role == Table::Role::Sheet;
        rows[i].before = first                        ? Break::Allowed
                         : i > headers && are_tall(i) ? Break::Paid
                         : edge                       ? Break::Kept
                         : sheet                      ? Break::Allowed
                                                      : Break::Discouraged;
        rows[i].repeat = i > headers ? head : kNone;
        result.slabs.push_back(std::move(rows[i]));
    }
}

void add_caption(Kit& kit, const Table& block, const Context& context, std::size_t table,
                 Measured& result) {
    Slab caption;
    TextRequest request;
    request.words = &block.caption;
    request.style = kit.style(kit.page->body_size, Weight::Bold, context.text);
    request.second_colour = context.muted;
    request.role = Tag::Role::Caption;
    request.at.width = context.width;
    request.at.tag = table;
    const double height = add_words(kit, caption, request);
    caption.extents = {Extent{height + kit.em(0.3), 0.0}};
    result.slabs.push_back(std::move(caption));
}

/// A line between rows or days.
page::Path* rule_of(Fragment& fragment) {
    auto* shape = std::get_if<ShapePart>(&fragment.part);
    const bool is_rule = shape != nullptr && fragment.tag == page::kArtifact && !shape->shape.fill;
    return is_rule ? &shape->shape.path : nullptr;
}

} // namespace

void make_taller(Slab& row, double by) {
    const double height = row.height();
    for (Fragment& fragment : row.fragments) {
        page::Path* rule = rule_of(fragment);
        if (rule == nullptr) {
            fragment.y.fixed += by / 2.0;
        } else if (fragment.y.fixed >= height) {
            fragment.y.fixed += by;
        } else if (rule->back().to.y > 0.0) {
            rule->back().to.y += by;
        }
    }
    row.extents = {Extent{height + by, 0.0}};
}

Measured measure(Kit& kit, const content::Table& block, const Context& context) {
    if (block.role == Table::Role::Dose) {
        return measure_dose(kit, block, context);
    }
    Measured result;
    result.before = kit.em(0.4);
    result.after = kit.em(1.0);
    if (column_count(block) == 0) {
        return result;
    }
    TableFrame frame;
    frame.kit = &kit;
    frame.table = &block;
    frame.context = context;
    frame.look = table_look(kit, block.role);
    const ColumnWidths widths = widths_of(kit, frame);
    if (!widths.fits) {
        const bool log = block.role == Table::Role::Log;
        const auto fits = [&](const Table& some) {
            TableFrame narrower = frame;
            narrower.table = &some;
            return widths_of(kit, narrower).fits;
        };
        const std::size_t days = log && is_plain_grid(block) ? days_that_fit(block, fits) : 0;
        if (days > 0) {
            return by_days(kit, block, context, days);
        }
        if (!log && is_plain_grid(block)) {
            return as_facts(kit, block, context);
        }
        frame.stacked = block.role == Table::Role::Facts;
    }
    frame.tag = kit.tag(Tag::Role::Table, context.tag);
    if (block.show_caption && !block.caption.empty()) {
        add_caption(kit, block, context, frame.tag, result);
    } else {
        kit.tags->at(frame.tag).alternative = block.caption.text;
    }
    if (frame.stacked) {
        frame.left = {0.0, context.width};
    } else {
        place_columns(kit, frame, widths);
    }
    add_rows(frame, result);
    // What explains a plan stands under it, not on the page after it.
    result.near_next = block.role == Table::Role::Plan;
    return result;
}

} // namespace tickleaf::layout
