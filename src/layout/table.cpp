// SPDX-License-Identifier: MIT
// Tables of facts, plans and logs: a slab a row, heads that repeat, boxes to tick as vectors.
#include "layout/blocks.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "layout/column_widths.h"

namespace tickleaf::layout {

namespace {

using content::Cell;
using content::Row;
using content::Table;
using page::Tag;
using text::Weight;

/// How a table of a role looks.
struct Look {
    double pad_x = 0.0;
    double pad_y = 0.0;
    double least_row = 0.0;
    bool grid = false; ///< lines between columns too
    double line = 0.6;
};

/// Everything the rows of one table share.
struct Frame {
    Kit* kit = nullptr;
    const Table* table = nullptr;
    Context context;
    Look look;
    std::vector<double> left;  ///< of each column, and the right end of the last
    std::vector<bool> numeric; ///< columns whose head stands over its numbers
    bool stacked = false;      ///< cells of a row one under the other
    std::size_t tag = 0;

    bool is_numeric(std::size_t column) const { return column < numeric.size() && numeric[column]; }
    double width(std::size_t column, std::size_t span) const {
        const std::size_t end = std::min(column + span, left.size() - 1);
        return left[end] - left[std::min(column, end)];
    }
};

Look look_of(const Kit& kit, Table::Role role) {
    Look look;
    const bool log = role == Table::Role::Log;
    look.pad_x = kit.em(log ? 0.22 : 0.55);
    look.pad_y = kit.gap(log ? 0.2 : 0.38);
    look.least_row = log ? kit.page->writing_row.pt() : 0.0;
    look.grid = role != Table::Role::Facts;
    return look;
}

text::Style cell_style(const Kit& kit, const Frame& frame, const Row& row, const Cell& cell) {
    const bool log = frame.table->role == Table::Role::Log;
    const bool label = row.header || (cell.header && frame.table->role == Table::Role::Facts);
    const double size =
        log && (row.header || cell.header) ? kit.page->small_size : kit.page->body_size;
    const Weight weight = row.header || cell.header || cell.strong ? Weight::Bold : Weight::Regular;
    const bool quiet = label && !row.header;
    return kit.style(size, weight, quiet ? frame.context.muted : frame.context.text);
}

double box_gap(const Kit& kit) {
    // Boxes stand at least 1.4 mm apart: three and their cell's padding are a seventh of an A4 line
    // less the names (common practice).
    return std::max(support::Length::from_mm(1.4).pt(), kit.em(0.3));
}

ColumnWish wish_of(Kit& kit, const Frame& frame, const Row& row, const Cell& cell) {
    ColumnWish wish;
    const double pad = frame.look.pad_x * 2.0;
    if (!cell.words.empty()) {
        const text::Style style = cell_style(kit, frame, row, cell);
        wish.least = least_width(kit, cell.words, style) + pad;
        wish.natural = natural_width(kit, cell.words, style) + pad;
    }
    if (cell.numeric) {
        wish.least = wish.natural; // "4 to 5" stays on one line
    }
    if (row.header && frame.table->role == Table::Role::Plan && !cell.words.empty()) {
        // A head of several words takes two lines sooner than it takes room from what it heads.
        wish.natural = width_in_lines(kit, cell.words, cell_style(kit, frame, row, cell), 2) + pad;
    }
    if (row.header && frame.table->role == Table::Role::Log) {
        wish.natural = wish.least; // a day's name takes two lines, its boxes one
    }
    if (cell.tick_boxes > 0) {
        const double side = kit.page->tick_box.pt();
        const double row_of = std::min(cell.tick_boxes, 3);
        wish.least = std::max(wish.least, side + pad);
        wish.natural = std::max(wish.natural, row_of * (side + box_gap(kit)) - box_gap(kit) + pad);
    }
    if (cell.write_in) {
        wish.least = std::max(wish.least, kit.em(1.6));
        wish.natural = std::max(wish.natural, kit.em(2.5));
    }
    // Floating sums must not make a word that just fits break.
    wish.least += wish.least > 0.0 ? 0.01 : 0.0;
    wish.natural = std::max(wish.natural + 0.01, wish.least);
    return wish;
}

std::size_t column_count(const Table& table) {
    std::size_t count = 0;
    for (const Row& row : table.rows) {
        std::size_t here = 0;
        for (const Cell& cell : row.cells) {
            here += static_cast<std::size_t>(std::max(1, cell.column_span));
        }
        count = std::max(count, here);
    }
    return count;
}

std::vector<ColumnWish> wishes_of(Kit& kit, const Frame& frame) {
    std::vector<ColumnWish> wishes(column_count(*frame.table));
    for (const Row& row : frame.table->rows) {
        std::size_t column = 0;
        for (const Cell& cell : row.cells) {
            if (cell.column_span <= 1 && column < wishes.size()) {
                const ColumnWish wish = wish_of(kit, frame, row, cell);
                wishes[column].least = std::max(wishes[column].least, wish.least);
                wishes[column].natural = std::max(wishes[column].natural, wish.natural);
            }
            column += static_cast<std::size_t>(std::max(1, cell.column_span));
        }
    }
    return wishes;
}

/// Day columns of a log share their width evenly; a table of facts gives the rest to what is said.
void even_out(const Table& table, std::vector<ColumnWish>& wishes, double width) {
    if (wishes.size() < 2) {
        return;
    }
    if (table.role == Table::Role::Facts) {
        wishes.front().natural =
            std::max(wishes.front().least, std::min(wishes.front().natural, width * 0.34));
        double others = 0.0;
        for (std::size_t i = 0; i + 1 < wishes.size(); ++i) {
            others += wishes[i].natural;
        }
        wishes.back().natural = std::max(wishes.back().natural, width - others);
    } else if (table.role == Table::Role::Log) {
        ColumnWish widest;
        for (std::size_t i = 1; i < wishes.size(); ++i) {
            widest.least = std::max(widest.least, wishes[i].least);
            widest.natural = std::max(widest.natural, wishes[i].natural);
        }
        // A day is as wide as three boxes in a row wherever the names leave that much.
        const double others = static_cast<double>(wishes.size() - 1);
        const double names = wishes.front().least;
        if (names + widest.least * others <= width) {
            const double day = std::min(widest.natural, (width - names) / others);
            const double first =
                std::clamp(width - day * others, names, std::max(names, wishes.front().natural));
            wishes.front() = {first, first};
            std::fill(wishes.begin() + 1, wishes.end(), ColumnWish{day, (width - first) / others});
        }
    }
}

/// Columns in which every cell under the head is a number.
std::vector<bool> numeric_columns(const Table& table) {
    std::vector<bool> numeric(column_count(table), false);
    std::vector<bool> other(numeric.size(), false);
    for (const Row& row : table.rows) {
        std::size_t column = 0;
        for (const Cell& cell : row.cells) {
            if (!row.header && column < numeric.size()) {
                numeric[column] = numeric[column] || cell.numeric;
                other[column] = other[column] || !cell.numeric;
            }
            column += static_cast<std::size_t>(std::max(1, cell.column_span));
        }
    }
    for (std::size_t i = 0; i < numeric.size(); ++i) {
        numeric[i] = numeric[i] && !other[i];
    }
    return numeric;
}

ColumnWidths widths_of(Kit& kit, const Frame& frame) {
    std::vector<ColumnWish> wishes = wishes_of(kit, frame);
    even_out(*frame.table, wishes, frame.context.width);
    return column_widths(wishes, frame.table->column_shares, frame.context.width);
}

void place_columns(Kit& kit, Frame& frame) {
    const ColumnWidths found = widths_of(kit, frame);
    if (!found.fits) {
        kit.say(support::Severity::Warning, frame.table->caption.span, "layout-table-wide",
                "table \"" + frame.table->caption.text +
                    "\" is wider than its column; long words in it are broken",
                "use shorter words or fewer columns");
    }
    frame.numeric = numeric_columns(*frame.table);
    frame.left.push_back(0.0);
    for (const double width : found.widths) {
        frame.left.push_back(frame.left.back() + width);
    }
}

double add_tick_boxes(Frame& frame, Slab& slab, const Cell& cell, Placement at) {
    Kit& kit = *frame.kit;
    const double side = kit.page->tick_box.pt();
    const double step = side + box_gap(kit);
    const int fit = std::max(1, static_cast<int>((at.width + box_gap(kit) + 0.01) / step));
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
        const double row_width = step * in_row - box_gap(kit);
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
    return step * rows - box_gap(kit);
}

Tag::Scope scope_of(const Row& row, const Cell& cell) {
    return row.header ? Tag::Scope::Column : cell.header ? Tag::Scope::Row : Tag::Scope::None;
}

/// A cell and the column it begins in.
struct Place {
    const Row* row = nullptr;
    std::size_t column = 0;
};

double add_cell(Frame& frame, Slab& slab, const Cell& cell, Place place, Placement at) {
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
        at.y += height + (height > 0.0 ? kit.em(0.2) : 0.0);
        height += (height > 0.0 ? kit.em(0.2) : 0.0) + add_tick_boxes(frame, slab, cell, at);
    }
    return height;
}

void add_line(Slab& slab, page::Path path, const Frame& frame, Placement at) {
    add_shape(slab, outlined(std::move(path), frame.kit->page->rule, frame.look.line), at);
}

/// Background and lines of a row, put before its content.
void add_frame(Slab& slab, const Frame& frame, const Row& row, bool top) {
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

Slab measure_row(Frame& frame, const Row& row, bool top) {
    Kit& kit = *frame.kit;
    Slab slab;
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
        const double used = add_cell(frame, slab, cell, {&row, column}, at);
        height = frame.stacked ? height + used : std::max(height, used);
        writing = writing || cell.write_in;
        column += span;
    }
    height += frame.look.pad_y * 2.0;
    if (writing && !row.header) {
        height = std::max(height, std::max(frame.look.least_row, kit.page->writing_row.pt()));
    }
    slab.extents = {Extent{height, 0.0}};
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

void add_rows(Frame& frame, Measured& result) {
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
    for (std::size_t i = 0; i < rows.size(); ++i) {
        // A head never stands alone, and no single row is left on either page.
        const bool edge = i <= whole || i < headers + 2 || i + 1 >= rows.size();
        const bool first = i == 0 && result.slabs.empty();
        rows[i].before = first ? Break::Allowed : edge ? Break::Kept : Break::Discouraged;
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

/// A head of labels over rows of values as labels and values, a little table for each row.
Measured as_facts(Kit& kit, const Table& block, const Context& context) {
    Measured result;
    result.before = kit.em(0.4);
    result.after = kit.em(1.0);
    const Row& labels = block.rows.front();
    for (std::size_t i = 1; i < block.rows.size(); ++i) {
        Table facts;
        facts.role = Table::Role::Facts;
        facts.caption = block.caption;
        for (std::size_t c = 0; c < block.rows[i].cells.size(); ++c) {
            Cell value = block.rows[i].cells[c];
            value.strong = value.strong || value.header;
            value.header = false;
            value.numeric = false;
            facts.rows.push_back(Row{{labels.cells[c], std::move(value)}, false});
        }
        Measured one = measure(kit, facts, context);
        for (std::size_t r = 0; r < one.slabs.size(); ++r) {
            one.slabs[r].before = r > 0    ? Break::Forbidden
                                  : i == 1 ? Break::Allowed
                                           : Break::Discouraged;
            one.slabs[r].space_before = r == 0 && i > 1 ? kit.gap(1.0) : 0.0;
            result.slabs.push_back(std::move(one.slabs[r]));
        }
    }
    return result;
}

bool is_plain_grid(const Table& block) {
    const auto plain = [](const Row& row) {
        return std::all_of(row.cells.begin(), row.cells.end(),
                           [](const Cell& cell) { return cell.column_span <= 1; });
    };
    const std::size_t columns = column_count(block);
    return block.rows.size() > 1 && block.rows[0].header && !block.rows[1].header &&
           std::all_of(block.rows.begin(), block.rows.end(),
                       [&](const Row& row) { return plain(row) && row.cells.size() == columns; });
}

/// The first column and columns [first, last) of a table.
Table some_columns(const Table& block, std::size_t first, std::size_t last) {
    Table some = block;
    for (Row& row : some.rows) {
        std::vector<Cell> cells{row.cells.front()};
        cells.insert(cells.end(), row.cells.begin() + static_cast<std::ptrdiff_t>(first),
                     row.cells.begin() + static_cast<std::ptrdiff_t>(last));
        row.cells = std::move(cells);
    }
    some.column_shares.clear();
    return some;
}

/// So many days of a log fit beside the names; 0 where not even one does.
std::size_t days_that_fit(Kit& kit, Frame frame, const Table& block) {
    for (std::size_t days = column_count(block) - 1; days > 0; --days) {
        bool all = true;
        for (std::size_t first = 1; first < column_count(block); first += days) {
            const Table some =
                some_columns(block, first, std::min(first + days, column_count(block)));
            frame.table = &some;
            all = all && widths_of(kit, frame).fits;
        }
        if (all) {
            return days;
        }
    }
    return 0;
}

/// A week that is wider than the page as several tables of some of its days.
Measured by_days(Kit& kit, const Table& block, const Context& context, std::size_t most) {
    const std::size_t days = column_count(block) - 1;
    const std::size_t tables = (days + most - 1) / most;
    const std::size_t each = (days + tables - 1) / tables;
    Measured result;
    for (std::size_t first = 1; first <= days; first += each) {
        Table some = some_columns(block, first, std::min(first + each, days + 1));
        some.show_caption = block.show_caption && first == 1;
        Measured one = measure(kit, some, context);
        one.slabs.front().space_before = first > 1 ? kit.em(0.9) : 0.0;
        one.slabs.front().before = Break::Allowed;
        result.before = one.before;
        result.after = one.after;
        std::move(one.slabs.begin(), one.slabs.end(), std::back_inserter(result.slabs));
    }
    return result;
}

} // namespace

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
    Frame frame;
    frame.kit = &kit;
    frame.table = &block;
    frame.context = context;
    frame.look = look_of(kit, block.role);
    if (!widths_of(kit, frame).fits) {
        const bool log = block.role == Table::Role::Log;
        const std::size_t days = log && is_plain_grid(block) ? days_that_fit(kit, frame, block) : 0;
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
        place_columns(kit, frame);
    }
    add_rows(frame, result);
    return result;
}

} // namespace tickleaf::layout
