// SPDX-License-Identifier: MIT
// Slabs that are measured on trial, as pages: how many, how good, and how many there must be.
#pragma once

#include <cstddef>
#include <vector>

#include "layout/blocks.h"
#include "layout/paginate.h"

namespace tickleaf::layout {

/// The slabs and the heads they repeat as page breaking needs them, without what is on them.
Flow bare_flow(const std::vector<Slab>& slabs, const Kit& kit);
Worth worth_now(const std::vector<Slab>& slabs, const Kit& kit);
std::size_t pages_of(const std::vector<Slab>& slabs, const Kit& kit);
/// Pages that no arrangement can do without.
std::size_t least_pages(const std::vector<Slab>& slabs, const Kit& kit);

} // namespace tickleaf::layout
