// SPDX-License-Identifier: MIT
// Step 3a: where a line of this text may end.
// Shapes: places in the UTF-16 text, ascending, without 0 and with the end.
// Source: UAX #14 with CLDR's dictionaries, by ICU; and rules of our own that only take breaks
// away: numbers stay with their units and ranges whole (common practice; ISO 80000-1, 7.1.4 on the
// space in quantities), French high punctuation stays with its word (common practice), no
// hyphenation (RNIB clear print).
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "text/font_set.h"

namespace tickleaf::text {

/// What ICU allows, nothing else. `locale` is an ICU locale, with line break keywords.
std::vector<std::uint32_t> standard_breaks(BreakIterator& iterator, const std::string& locale,
                                           const std::u16string& text);
/// What we allow.
std::vector<std::uint32_t> allowed_breaks(LanguageState& language, const std::u16string& text);
/// Whether our own rules let a line end at `place`, where ICU would.
bool may_end_line(const std::u16string& text, std::uint32_t place);
/// Whether a line that ends at `place`, its last word at `word_end`, parts a number from the word
/// behind it. Allowed, but not liked: of two ways to set a text the other one reads better.
bool parts_number(const std::u16string& text, std::uint32_t word_end, std::uint32_t place);
/// Borders of grapheme clusters inside [begin, end), without its ends.
std::vector<std::uint32_t> graphemes(LanguageState& language, const std::u16string& text,
                                     std::uint32_t begin, std::uint32_t end);

} // namespace tickleaf::text
