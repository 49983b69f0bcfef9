// SPDX-License-Identifier: MIT
// Widths of table columns from what stands in them.
// Units: points. Errors: none here; `fits` says whether every column got its least width.
#pragma once

#include <vector>

namespace tickleaf::layout {

/// What a column asks for: the width below which words break inside, and that of its longest line.
struct ColumnWish {
    double least = 0.0;
    double natural = 0.0;
};

struct ColumnWidths {
    std::vector<double> widths;
    bool fits = true;
};

/// Shares the width out. Wished shares are kept where they leave each column its least width;
/// without shares a column gets its least width first and then what is left in proportion to what
/// it still lacks.
ColumnWidths column_widths(const std::vector<ColumnWish>& wishes, const std::vector<double>& shares,
                           double width);

} // namespace tickleaf::layout
