// SPDX-License-Identifier: MIT
// In which order the items of a page are painted: rules, frames and backgrounds first and in one
// sequence, tick boxes last, as every change between them and the text costs a few bytes, and so
// does every number of a sequence that does not follow the one before. Text, drawings and links
// keep the order of the page, which is the reading order, for programs that read page content as it
// comes. Nothing goes past what it would cover or be covered by. The reading order of the document
// is that of the structure tree (ISO 32000-1:2008, 14.8.2.3.1 page content order).
#pragma once

#include <cstddef>
#include <vector>

#include "page/document.h"

namespace tickleaf::pdf {

/// Indices of all items of the page.
std::vector<std::size_t> painting_order(const page::Page& page, const std::vector<page::Tag>& tags);

} // namespace tickleaf::pdf
