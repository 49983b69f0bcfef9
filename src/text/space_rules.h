// SPDX-License-Identifier: MIT
// Whether a face sets a word in the same way whatever words stand around it, so that words that
// were shaped before can be laid beside each other. Shapes: glyph ids of the file.
// Source: OpenType 1.9, chapter 2 (lookups see the glyphs of their coverage, backtrack and
// lookahead, and see through those that their flags ignore); GSUB types 1 and 3 see one glyph.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "text/face.h"

namespace tickleaf::text {

struct SpaceRules {
    /// No rule reaches over a space, but those that move one of `watchful` among the first `reach`
    /// glyphs of a word for what stands in the `reach` places before it.
    bool words_apart = false;
    std::vector<std::uint32_t> watchful; ///< ascending
    std::size_t reach = 0;
    bool is_watchful(std::uint32_t glyph) const;
};

/// Asks every lookup of the file; takes milliseconds where there are many.
SpaceRules read_space_rules(const Face& face);

} // namespace tickleaf::text
