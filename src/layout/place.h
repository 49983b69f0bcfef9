// SPDX-License-Identifier: MIT
// Cut pages to finished pages: logical coordinates become places on paper, mirrored whole for
// languages written from right to left; drawings keep their sides. Adds running heads, page numbers
// and thumb tabs. Units: points.
#pragma once

#include <string>
#include <vector>

#include "layout/blocks.h"
#include "layout/paginate.h"

namespace tickleaf::layout {

/// What a part of the flow needs on its pages.
struct PartLook {
    bool running_head = true;
    std::string tab;          ///< stage number at the outer edge; empty for none
    std::size_t tab_slot = 0; ///< how far down the edge
    std::size_t tab_slots = 1;
};

/// Moves the slabs' content into document.pages and fills document.outline.
void place_pages(Kit& kit, const std::vector<PageCut>& cuts, const std::vector<PartLook>& looks,
                 page::Document& document);

} // namespace tickleaf::layout
