// SPDX-License-Identifier: MIT
// Tables that are wider than their column, made longer instead of smaller: labels and values, or
// some of the days of a log at a time. Nothing of the table is lost.
#pragma once

#include <cstddef>
#include <functional>

#include "content/booklet.h"
#include "layout/blocks.h"

namespace tickleaf::layout {

/// Columns of the widest row, spans counted.
std::size_t column_count(const content::Table& table);
/// A row of heads over rows with a cell for each, but for rows of a total.
bool is_plain_grid(const content::Table& block);
/// A head of labels over rows of values as labels and values, a little table for each row.
Measured as_facts(Kit& kit, const content::Table& block, const Context& context);
/// So many days of a log fit beside the names; 0 where not even one does.
std::size_t days_that_fit(const content::Table& block,
                          const std::function<bool(const content::Table&)>& fits);
/// A week that is wider than the page as several tables of at most so many of its days.
Measured by_days(Kit& kit, const content::Table& block, const Context& context, std::size_t most);

} // namespace tickleaf::layout
