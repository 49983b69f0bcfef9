// SPDX-License-Identifier: MIT
// Step 2a: cuts a collected text into items of one bidi level, script and face.
// Shapes: items in logical order; characters that are not drawn lie between them.
// Errors: a character that no font covers is a finding, and belongs to no item.
// Source: UAX #9 (levels, by ICU); UAX #24 section 5 (common and inherited characters, paired
// brackets).
#pragma once

#include <cstdint>
#include <vector>

#include <unicode/ubidi.h>
#include <unicode/uscript.h>

#include "text/collect.h"
#include "text/font_set.h"

namespace tickleaf::text {

struct Item {
    std::uint32_t begin = 0; ///< in UTF-16 units of the paragraph
    std::uint32_t end = 0;
    UBiDiLevel level = 0;
    UScriptCode script = USCRIPT_LATIN;
    std::size_t family = 0; ///< in the font table
    const Face* face = nullptr;
    bool right_to_left() const { return (level & 1) != 0; }
};

struct ItemiseInput {
    const Collected& collected;
    const UBiDiLevel* levels; ///< one a UTF-16 unit
    const ParagraphSource& source;
};

std::vector<Item> itemise(FontSet::Impl& fonts, LanguageState& language, const ItemiseInput& input,
                          support::Findings& findings);

/// The script every UTF-16 unit is taken to belong to: its own, or that of its neighbours.
std::vector<UScriptCode> resolve_scripts(const std::u16string& text, const UBiDiLevel* levels,
                                         UBiDiLevel base, const LanguageInfo& language);
/// Scripts that are set with the same face and features, so that they need not be shaped apart.
bool shape_together(UScriptCode a, UScriptCode b);

} // namespace tickleaf::text
