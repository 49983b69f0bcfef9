// SPDX-License-Identifier: MIT
// What a CFF table says of itself: whether its glyphs have character ids (CID-keyed) or names.
// A PDF shows a CID-keyed program by those ids; a name-keyed one would need another way of
// embedding, and drawn in this one it gives wrong glyphs or none.
// Errors: a table that is cut short counts as not CID-keyed.
// Source: Adobe Technical Note 5176, sections 4 to 9 (ROS must be there in a CIDFont).
#pragma once

#include <cstddef>
#include <span>

namespace tickleaf::text {

bool is_cid_keyed(std::span<const std::byte> cff);

} // namespace tickleaf::text
