// SPDX-License-Identifier: MIT
// Step 1 of a paragraph: UTF-8 in, one clean string out, with what must not be drawn marked and
// reported. Shapes: `text` is UTF-16 (what ICU and HarfBuzz want), `offsets` leads from its units
// back to bytes of `utf8`. Errors: ill-formed UTF-8, control characters, bidi embeddings and
// overrides, unmatched isolates, unassigned and private-use characters, marks without a base, too
// many marks, invisible characters without a use, direction marks and line ends inside a number,
// signs of a lost character: findings; the character is left out. Source: The Unicode Standard 15,
// 23.2 to 23.8 (controls, layout controls, private use); UAX #15 section 13 (at most 30 marks in a
// row, "stream-safe"); UAX #9 3.3.2 (X1 to X8).
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "support/finding.h"
#include "text/paragraph.h"

namespace tickleaf::text {

struct Collected {
    std::u16string text;
    std::vector<std::uint32_t> offsets; ///< byte offset of every unit of `text`, and the end
    std::string utf8;                   ///< line ends and tabs as spaces
    std::vector<std::uint32_t>
        hard_breaks;            ///< places in `text` where a line ends whatever its width
    bool has_invisible = false; ///< some characters are not drawn: see is_invisible()
};

Collected collect(const ParagraphSource& source, support::Findings& findings);

/// Characters that steer bidi or breaking and are neither shaped nor part of the output text:
/// isolates, direction marks, word joiner, zero width space, soft hyphen.
bool is_invisible(char32_t character);
/// Spaces that hang at the end of a line without taking room (UAX #14 class SP, and fixed-width
/// spaces of class BA).
bool is_breaking_space(char16_t unit);

/// "U+2610 BALLOT BOX".
std::string name_character(char32_t character);
/// " in WHERE", or nothing.
std::string in_place(const ParagraphSource& source);

} // namespace tickleaf::text
