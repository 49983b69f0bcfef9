// SPDX-License-Identifier: MIT
#include "layout/wide_table.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace tickleaf::layout {

namespace {

using content::Cell;
using content::Row;
using content::Table;

/// A name and one cell over all other columns.
bool is_total(const Row& row) {
    return row.cells.size() == 2 && row.cells[1].column_span > 1;
}

/// The first column and columns [first, last) of a table.
Table some_columns(const Table& block, std::size_t first, std::size_t last) {
    Table some = block;
    if (last < column_count(block)) {
        std::erase_if(some.rows, is_total); // it stands under the last of the tables
    }
    for (Row& row : some.rows) {
        if (is_total(row)) {
            row.cells[1].column_span = static_cast<int>(last - first);
            continue;
        }
        std::vector<Cell> cells{row.cells.front()};
        cells.insert(cells.end(), row.cells.begin() + static_cast<std::ptrdiff_t>(first),
                     row.cells.begin() + static_cast<std::ptrdiff_t>(last));
        row.cells = std::move(cells);
    }
    some.column_shares.clear();
    return some;
}

} // namespace

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

bool is_plain_grid(const Table& block) {
    const std::size_t columns = column_count(block);
    const auto plain = [](const Row& row) {
        return std::all_of(row.cells.begin(), row.cells.end(),
                           [](const Cell& cell) { return cell.column_span <= 1; });
    };
    return block.rows.size() > 1 && block.rows[0].header && !block.rows[1].header &&
           std::all_of(block.rows.begin(), block.rows.end(), [&](const Row& row) {
               return is_total(row) || (plain(row) && row.cells.size() == columns);
           });
}

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
        // What no page holds breaks as any table of facts does.
        const bool whole = total_height(one.slabs, -1.0) <= kit.page_height;
        for (std::size_t r = 0; r < one.slabs.size(); ++r) {
            if (r == 0) {
                one.slabs[r].before = i == 1 ? Break::Allowed : Break::Discouraged;
            } else if (whole) {
                one.slabs[r].before = Break::Forbidden;
            }
            one.slabs[r].space_before = r == 0 && i > 1 ? kit.gap(1.0) : 0.0;
            result.slabs.push_back(std::move(one.slabs[r]));
        }
    }
    return result;
}

std::size_t days_that_fit(const Table& block, const std::function<bool(const Table&)>& fits) {
    for (std::size_t days = column_count(block) - 1; days > 0; --days) {
        bool all = true;
        for (std::size_t first = 1; first < column_count(block); first += days) {
            const Table some =
                some_columns(block, first, std::min(first + days, column_count(block)));
            all = all && fits(some);
        }
        if (all) {
            return days;
        }
    }
    return 0;
}

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
        for (Slab& slab : one.slabs) {
            slab.log = nullptr; // of `some`, which ends here
        }
        result.before = one.before;
        result.after = one.after;
        std::move(one.slabs.begin(), one.slabs.end(), std::back_inserter(result.slabs));
    }
    return result;
}

} // namespace tickleaf::layout
