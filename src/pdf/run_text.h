// SPDX-License-Identifier: MIT
// Which text each glyph of a run gives back when it is copied, and which words need their text said
// once for the whole word. Glyphs are in visual order, the text is logical. Rule: the characters of
// a cluster are spread over its glyphs in reading order, one each, the rest to the last; glyphs
// without a character get U+200B. Right to left, reading order is from the right, and a single
// glyph for lam and alef stands for the presentation form, because readers turn every character
// round. Left to right, a word in which a cluster of several glyphs was reordered, or has fewer
// characters than glyphs, gets its text as a whole (ActualText); right to left never (readers would
// reverse it). Bidi controls, U+00AD, U+2060 and U+FEFF are dropped: they are no text to copy.
// Source: measured with the common readers; ISO 32000-1:2008, 9.10 and 14.9.4; UAX #9, 2.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "page/document.h"

namespace tickleaf::pdf {

/// Glyphs [begin, end) whose text is `text`.
struct WordSpan {
    std::size_t begin = 0;
    std::size_t end = 0;
    std::u32string text;
};

struct RunText {
    /// One a glyph; empty where the glyph is not to be shown (it stands for a dropped control
    /// alone).
    std::vector<std::u32string> glyphs;
    std::vector<WordSpan> words; ///< in order, not overlapping
};

/// Glyphs in `forced` (one flag a glyph, or empty) make their word need its text as a whole.
RunText distribute_text(const page::GlyphRun& run, const std::vector<bool>& forced = {});

} // namespace tickleaf::pdf
