// SPDX-License-Identifier: MIT
// What the parts of a table share: its look, the edges of its columns, the boxes in its cells.
// Units: points.
#pragma once

#include <algorithm>
#include <vector>

#include "layout/blocks.h"
#include "layout/column_widths.h"

namespace tickleaf::layout {

/// Between a box and the lines of its cell: half of what is between two boxes, so that a row of
/// them runs on evenly over the lines.
inline const double kBoxPad = support::Length::from_mm(0.7).pt();

/// Three boxes and their cell's padding are a seventh of an A4 line less the names (common
/// practice).
inline const double kBoxGap = support::Length::from_mm(1.4).pt();

/// How a table of a role looks.
struct TableLook {
    double pad_x = 0.0;
    double pad_y = 0.0;
    double least_row = 0.0;
    bool grid = false; ///< lines between columns too
    double line = 0.6;
};

/// Everything the rows of one table share.
struct TableFrame {
    Kit* kit = nullptr;
    const content::Table* table = nullptr;
    Context context;
    TableLook look;
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

TableLook table_look(const Kit& kit, content::Table::Role role);
text::Style cell_style(const Kit& kit, const TableFrame& frame, const content::Row& row,
                       const content::Cell& cell);
/// Columns in which every cell under the head is a number.
std::vector<bool> numeric_columns(const content::Table& table);
/// Widths of the columns from what stands in them and what the table is for.
ColumnWidths widths_of(Kit& kit, const TableFrame& frame);

} // namespace tickleaf::layout
