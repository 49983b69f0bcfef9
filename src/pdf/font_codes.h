// SPDX-License-Identifier: MIT
// The codes under which one font's glyphs are shown. A code stands for a glyph AND the text it
// gives back when copied, so the same glyph may have several codes (TrueType; the file's
// CIDToGIDMap leads back to the glyph). In CFF fonts the code is the subset's own id, so the first
// text wins. 0 is never used. Fonts of few glyphs write codes 20 to FF as one byte and 0100 to 1FFF
// as two; a character of ASCII or Latin-1 has its own value as its code where that is free, so that
// the same words in two fonts are the same bytes. All others write two bytes each, given out in the
// order of first use. A code and its number in the CIDFont are the same (one reader looks codes up
// by that number). Source: ISO 32000-1:2008, 9.7.5 CMaps, 9.7.6.2 code space ranges.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "page/document.h"

namespace tickleaf::pdf {

/// The first code of one and of two bytes in the short coding, and the last.
inline constexpr std::uint16_t kFirstOneByte = 0x20;
inline constexpr std::uint16_t kFirstTwoByte = 0x100;
inline constexpr std::uint16_t kLastTwoByte = 0x1FFF;

/// How a code stands in a string: big-endian, in `length` bytes.
struct WrittenCode {
    std::uint16_t value = 0;
    int length = 2;
};

class FontCodes {
  public:
    /// `font` must outlive this object.
    explicit FontCodes(const page::Font& font);

    struct Use {
        std::uint16_t code = 0;
        int width = 0;         ///< in 1/1000 of the type size, as the file's W says it
        bool same_text = true; ///< false where the code already stands for another text
    };
    /// Nothing where the font has no such glyph (or the codes are used up).
    std::optional<Use> use(std::uint32_t glyph, const std::u32string& text);

    struct Entry {
        std::uint16_t code = 0;
        std::uint32_t subset = 0;
        int width = 0;
        std::u32string text;
    };
    /// What was used, sorted by code.
    std::vector<Entry> entries() const;
    bool is_short() const { return short_; }
    WrittenCode written(std::uint16_t code) const;
    const page::Font& font() const { return *font_; }
    bool is_empty() const { return entries_.empty(); }

  private:
    static constexpr std::uint32_t kNone = 0xFFFFFFFFU;
    struct Slot {
        Entry entry;
        std::uint32_t next = kNone; ///< another entry of the same glyph
    };
    std::uint16_t free_code(const std::u32string& text);

    const page::Font* font_;
    bool short_ = false;
    std::vector<bool> taken_; ///< codes of one byte
    std::uint32_t next_ = 1;
    std::vector<std::uint32_t> first_; ///< by original glyph id: first slot
    std::vector<Slot> entries_;
};

} // namespace tickleaf::pdf
