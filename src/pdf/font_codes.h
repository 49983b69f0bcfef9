// SPDX-License-Identifier: MIT
// The two-byte codes under which one font's glyphs are shown. A code stands for a glyph AND the
// text it gives back when copied, so the same glyph may have several codes (TrueType; the file's
// CIDToGIDMap leads back to the glyph). In CFF fonts the code is the subset's own id, so the first
// text wins. Codes are given out in the order of first use; 0 is never used.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "page/document.h"

namespace tickleaf::pdf {

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
    const page::Font& font() const { return *font_; }
    bool is_empty() const { return entries_.empty(); }

  private:
    static constexpr std::uint32_t kNone = 0xFFFFFFFFU;
    struct Slot {
        Entry entry;
        std::uint32_t next = kNone; ///< another entry of the same glyph
    };
    const page::Font* font_;
    std::vector<std::uint32_t> first_; ///< by original glyph id: first slot
    std::vector<Slot> entries_;
};

} // namespace tickleaf::pdf
