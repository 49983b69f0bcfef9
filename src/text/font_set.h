// SPDX-License-Identifier: MIT
// What stands behind Fonts and FontSet: the faces that are shared, and what one document keeps for
// itself. Shapes: a FontSet numbers the faces a document uses; these numbers are GlyphRun::font.
// Not shared by threads. Errors: a font file that is missing, damaged or may not be embedded is
// reported once a document.
#pragma once

#include <array>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <harfbuzz/hb.h>
#include <unicode/ubrk.h>
#include <unicode/uscript.h>

#include "text/face.h"
#include "text/font_table.h"
#include "text/fonts.h"
#include "text/language.h"

namespace tickleaf::text {

struct Fonts::Impl {
    /// One face, opened when it is first asked for.
    struct Slot {
        std::once_flag once;
        OpenedFace opened;
    };

    const support::Environment* environment = nullptr;
    FontTable table;
    std::unique_ptr<Slot[]> slots; ///< two a family: regular, bold

    const OpenedFace& open(std::size_t family, Weight weight) const;
    /// The family of the text's own script in a language, by language first and then by script.
    std::optional<std::size_t> family_of(const LanguageInfo& language, UScriptCode script) const;
    std::size_t main_family(const LanguageInfo& language) const;
};

struct UbrkDelete {
    void operator()(UBreakIterator* iterator) const { ubrk_close(iterator); }
};
using BreakIterator = std::unique_ptr<UBreakIterator, UbrkDelete>;

/// What a document knows of a language it uses.
struct LanguageState {
    LanguageInfo info;
    hb_language_t shaping = nullptr;
    BreakIterator lines;
    BreakIterator graphemes;
};

/// A face with the number a document gives it.
struct UsedFace {
    const Face* face = nullptr;
    std::size_t family = 0;
    Weight weight = Weight::Regular;
    double line_height = 1.3;
};

struct FontSet::Impl {
    static constexpr std::size_t kUnused = static_cast<std::size_t>(-1);
    static constexpr std::size_t kUnusable = static_cast<std::size_t>(-2);

    std::shared_ptr<const Fonts> fonts;
    std::vector<UsedFace> used;       ///< index is GlyphRun::font
    std::vector<std::size_t> numbers; ///< by family * 2 + weight: index into `used`
    HbHandle<hb_buffer_t> buffer;
    std::map<std::string, LanguageState, std::less<>> languages;
    unsigned extra_buffer_flags = 0; ///< tests set HB_BUFFER_FLAG_VERIFY

    const Fonts::Impl& shared() const { return fonts->impl(); }
    LanguageState& language(std::string_view tag);
    /// Number of a face, or nothing where it cannot be used (reported once).
    std::optional<std::size_t> number(std::size_t family, Weight weight,
                                      support::Findings& findings);
    bool covers(std::size_t number, char32_t character);

  private:
    struct Known {
        char32_t character = 0;
        std::size_t number = kUnused;
        bool covered = false;
    };
    static constexpr std::size_t kKnown = 2048;
    std::vector<Known> known_ = std::vector<Known>(kKnown);
};

} // namespace tickleaf::text
