// SPDX-License-Identifier: MIT
// The boxes of figures on their pages, for the BBox attribute.
// Units: points, PDF axes (y up). Source: ISO 32000-1:2008, 14.8.5.4.3, Table 344.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "page/document.h"

namespace tickleaf::pdf {

struct Box {
    double left = 0.0, bottom = 0.0, right = 0.0, top = 0.0;
};

/// One a tag: the box of a Figure that stands on one page, nothing for all other tags.
std::vector<std::optional<Box>> figure_boxes(const page::Document& document);

} // namespace tickleaf::pdf
