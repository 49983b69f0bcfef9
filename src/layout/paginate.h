// SPDX-License-Identifier: MIT
// Slabs to pages by dynamic programming over the allowed breaks: fewest pages first, then evenly
// filled pages, drawings at their own size, breaks at good places. Units: points. Errors: a slab
// taller than a page is an error that names it; a kept run taller than a page is parted with a
// warning. Cost: linear in pages (each page looks back over at most one page of slabs).
#pragma once

#include <cstddef>
#include <vector>

#include "layout/slab.h"
#include "support/finding.h"

namespace tickleaf::layout {

/// Slabs [first, last) on one page, with the flex of its drawings and the share of the stretch
/// taken.
struct PageCut {
    std::size_t first = 0;
    std::size_t last = 0;
    double flex = 0.0;
    double stretch = 0.0;
};

inline constexpr std::size_t kMaxPages = 4000;

/// Height of slabs [first, last) on a page of their own: repeated head included, first space left
/// out.
double page_height(const Flow& flow, std::size_t first, std::size_t last, double k);

/// What a page less than a third full costs that does not end a part; a page costs twice as much.
inline constexpr double kThinCost = 500.0;

/// How well a flow breaks: its pages, and what is wrong with them (empty space, thin pages, breaks
/// at bad places) in the unit of kThinCost.
struct Worth {
    std::size_t pages = 0;
    double trouble = 0.0;
    double cost() const { return 2.0 * kThinCost * static_cast<double>(pages) + trouble; }
};
Worth worth_of(Flow flow, double height);

std::vector<PageCut> paginate(Flow& flow, double height, support::Findings& findings);

} // namespace tickleaf::layout
