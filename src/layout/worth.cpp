// SPDX-License-Identifier: MIT
#include "layout/worth.h"

#include <cmath>
#include <utility>

namespace tickleaf::layout {

namespace {

std::vector<Slab> bare(const std::vector<Slab>& slabs) {
    std::vector<Slab> result;
    result.reserve(slabs.size());
    for (const Slab& slab : slabs) {
        Slab outline;
        outline.extents = slab.extents;
        outline.space_before = slab.space_before;
        outline.before = slab.before;
        outline.repeat = slab.repeat;
        result.push_back(std::move(outline));
    }
    return result;
}

} // namespace

Flow bare_flow(const std::vector<Slab>& slabs, const Kit& kit) {
    return {bare(slabs), bare(kit.flow->heads)};
}

Worth worth_now(const std::vector<Slab>& slabs, const Kit& kit) {
    return worth_of(bare_flow(slabs, kit), kit.page_height);
}

std::size_t pages_of(const std::vector<Slab>& slabs, const Kit& kit) {
    return worth_now(slabs, kit).pages;
}

std::size_t least_pages(const std::vector<Slab>& slabs, const Kit& kit) {
    return static_cast<std::size_t>(std::ceil(total_height(slabs, -1.0) / kit.page_height));
}

} // namespace tickleaf::layout
