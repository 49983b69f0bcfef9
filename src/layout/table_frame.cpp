// SPDX-License-Identifier: MIT
// How wide the columns of a table are: facts leave the rest to what is said, the days of a log are
// alike, heads of a plan stay short.
#include "layout/table_frame.h"

#include <algorithm>
#include <limits>
#include <utility>

#include "layout/wide_table.h"

namespace tickleaf::layout {

using content::Cell;
using content::Row;
using content::Table;
using text::Weight;

TableLook table_look(const Kit& kit, Table::Role role) {
    TableLook look;
    const bool log = role == Table::Role::Log;
    // A page smaller than clear print (12 pt) is a clinician's, at a desk.
    const bool dense = log || role == Table::Role::Sheet || kit.page->body_size < 12.0;
    look.pad_x = kit.em(log ? 0.22 : dense ? 0.45 : 0.55);
    look.pad_y = kit.gap(dense ? 0.2 : 0.38);
    look.least_row = log ? kit.page->writing_row.pt() : 0.0;
    look.grid = role != Table::Role::Facts;
    return look;
}

text::Style cell_style(const Kit& kit, const TableFrame& frame, const Row& row, const Cell& cell) {
    const bool log = frame.table->role == Table::Role::Log;
    const bool label = row.header || (cell.header && frame.table->role == Table::Role::Facts);
    const double size =
        log && (row.header || cell.header) ? kit.page->small_size : kit.page->body_size;
    const Weight weight = row.header || cell.header || cell.strong ? Weight::Bold : Weight::Regular;
    const bool quiet = label && !row.header;
    return kit.style(size, weight, quiet ? frame.context.muted : frame.context.text);
}

namespace {

ColumnWish wish_of(Kit& kit, const TableFrame& frame, const Row& row, const Cell& cell) {
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
        wish.least = std::max(wish.least, side + kBoxPad * 2.0);
        wish.natural = std::max(wish.natural, row_of * (side + kBoxGap) - kBoxGap + kBoxPad * 2.0);
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

std::vector<ColumnWish> wishes_of(Kit& kit, const TableFrame& frame) {
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

/// A table of facts gives the rest of the width to what is said.
void widen_values(std::vector<ColumnWish>& wishes, double width) {
    wishes.front().natural =
        std::max(wishes.front().least, std::min(wishes.front().natural, width * 0.34));
    double others = 0.0;
    for (std::size_t i = 0; i + 1 < wishes.size(); ++i) {
        others += wishes[i].natural;
    }
    wishes.back().natural = std::max(wishes.back().natural, width - others);
}

/// Height of a log whose days hold so many boxes in a row beside names so wide.
double log_height(Kit& kit, const TableFrame& frame, double names, int boxes) {
    const double side = kit.page->tick_box.pt();
    double height = 0.0;
    for (const Row& row : frame.table->rows) {
        int most = 0;
        for (const Cell& cell : row.cells) {
            most = std::max(most, cell.tick_boxes);
        }
        const int lines = (most + boxes - 1) / boxes;
        const double ticks = lines * (side + kBoxGap) - kBoxGap;
        const Cell& name = row.cells.front();
        double words = 0.0;
        for (const content::Words* w = &name.words; w != nullptr && !row.header;
             w = w->second.get()) {
            words +=
                kit.type->set(*w, cell_style(kit, frame, row, name), names - frame.look.pad_x * 2.0)
                    .height();
        }
        height += std::max({ticks, words, frame.look.least_row});
    }
    return height;
}

/// The days of a log are equally wide: as many boxes in a row as leaves the names their room, fewer
/// only where that makes the table lower by a fiftieth.
void share_days(Kit& kit, const TableFrame& frame, std::vector<ColumnWish>& wishes) {
    constexpr int kMostInRow = 3;
    constexpr double kWorthFewer = 0.98; // all sets in one row are counted at a glance
    const double width = frame.context.width;
    ColumnWish widest;
    int most = 1;
    for (std::size_t i = 1; i < wishes.size(); ++i) {
        widest.least = std::max(widest.least, wishes[i].least);
    }
    for (const Row& row : frame.table->rows) {
        for (const Cell& cell : row.cells) {
            most = std::max(most, cell.tick_boxes);
        }
    }
    const double days = static_cast<double>(wishes.size() - 1);
    const double names = wishes.front().least;
    if (names + widest.least * days > width) {
        return;
    }
    double best = 0.0;
    double lowest = std::numeric_limits<double>::infinity();
    for (int boxes = std::min(kMostInRow, most); boxes >= 1; --boxes) {
        const double row =
            boxes * (kit.page->tick_box.pt() + kBoxGap) - kBoxGap + kBoxPad * 2.0 + 0.01;
        const double day = std::max(widest.least, row);
        if (width - day * days < names) {
            continue;
        }
        const double height = log_height(kit, frame, width - day * days, boxes);
        if (height < lowest * kWorthFewer) {
            lowest = height;
            best = day;
        }
    }
    if (best > 0.0) {
        // No wider than the names ask for: the rest goes to the pen.
        const double first =
            std::clamp(width - best * days, names, std::max(names, wishes.front().natural));
        const double day = (width - first) / days;
        wishes.front() = {first, first};
        std::fill(wishes.begin() + 1, wishes.end(), ColumnWish{day, day});
    }
}

/// Heads of a plan take two lines at most where the longest of its cells can spare the room.
void widen_heads(Kit& kit, const TableFrame& frame, std::vector<ColumnWish>& wishes) {
    constexpr double kMostTaken = 0.8;
    std::vector<ColumnWish> wider = wishes;
    double taken = 0.0;
    const Row& head = frame.table->rows.front();
    for (std::size_t i = 0; i < wider.size(); ++i) {
        if (head.header && i < head.cells.size() && !head.cells[i].words.empty()) {
            const text::Style style = cell_style(kit, frame, head, head.cells[i]);
            const double two_lines = width_in_lines(kit, head.cells[i].words, style, 2);
            wider[i].least = std::max(wider[i].least, two_lines + frame.look.pad_x * 2.0);
            wider[i].natural = std::max(wider[i].natural, wider[i].least);
        }
        taken += wider[i].least;
    }
    if (taken <= kMostTaken * frame.context.width) {
        wishes = std::move(wider);
    }
}

void even_out(Kit& kit, const TableFrame& frame, std::vector<ColumnWish>& wishes) {
    if (wishes.size() < 2) {
        return;
    }
    if (frame.table->role == Table::Role::Facts) {
        widen_values(wishes, frame.context.width);
    } else if (frame.table->role == Table::Role::Log) {
        share_days(kit, frame, wishes);
    } else if (frame.table->role == Table::Role::Plan) {
        widen_heads(kit, frame, wishes);
    }
}

} // namespace

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

ColumnWidths widths_of(Kit& kit, const TableFrame& frame) {
    std::vector<ColumnWish> wishes = wishes_of(kit, frame);
    even_out(kit, frame, wishes);
    return column_widths(wishes, frame.table->column_shares, frame.context.width);
}

} // namespace tickleaf::layout
