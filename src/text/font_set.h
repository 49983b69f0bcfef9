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

struct Shaped;
class WordCache;

/// What was shaped before in this process, by language, weight, direction and text. A booklet says
/// the same things again and again, and a batch says them in every booklet. What comes out does not
/// depend on what is in here.
class ShapedCache {
  public:
    std::shared_ptr<const Shaped> find(const std::string& key);
    void add(const std::string& key, std::shared_ptr<const Shaped> shaped);
    void clear();

  private:
    /// Some 8 MB of paragraphs. When `young` is full it becomes `old`, and what was not asked for
    /// since the last time is forgotten.
    static constexpr std::size_t kMostBytes = std::size_t{128} << 10;
    void keep(const std::string& key, std::shared_ptr<const Shaped> shaped);

    std::mutex mutex_;
    std::map<std::string, std::shared_ptr<const Shaped>> young_;
    std::map<std::string, std::shared_ptr<const Shaped>> old_;
    std::size_t bytes_ = 0; ///< of the keys in young_
};

struct Fonts::Impl {
    /// One face, opened when it is first asked for.
    struct Slot {
        std::once_flag once;
        OpenedFace opened;
    };

    const support::Environment* environment = nullptr;
    FontTable table;
    std::unique_ptr<Slot[]> slots; ///< two a family: regular, bold
    mutable ShapedCache cache;
    std::unique_ptr<WordCache> words;

    Impl();
    ~Impl();

    /// For benchmarks: what is left of what was shaped before.
    enum class Remembered { Nothing, Words };
    void forget(Remembered left) const;

    const OpenedFace& open(std::size_t family, Weight weight) const;
    /// The weight in which a family can be set.
    Weight usable_weight(std::size_t family, Weight weight) const;
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
};

struct FontSet::Impl {
    static constexpr std::size_t kUnused = static_cast<std::size_t>(-1);

    std::shared_ptr<const Fonts> fonts;
    std::vector<UsedFace> used;       ///< index is GlyphRun::font
    std::vector<std::size_t> numbers; ///< by family * 2 + weight: index into `used`
    HbHandle<hb_buffer_t> buffer;
    std::map<std::string, LanguageState, std::less<>> languages;
    unsigned extra_buffer_flags = 0; ///< tests set HB_BUFFER_FLAG_VERIFY

    const Fonts::Impl& shared() const { return fonts->impl(); }
    LanguageState& language(std::string_view tag);
    /// A face, or nullptr where its file cannot be used (reported once).
    const Face* face(std::size_t family, Weight weight, support::Findings& findings);
    /// Number of a face that can be used; a new one where the document has not used it yet.
    std::size_t number(std::size_t family, Weight weight);
    bool covers(const Face& face, char32_t character);

  private:
    struct Known {
        char32_t character = 0;
        const Face* face = nullptr;
        bool covered = false;
    };
    static constexpr std::size_t kKnown = 2048;
    std::vector<std::size_t> reported_; ///< families whose file was reported
    std::vector<Known> known_ = std::vector<Known>(kKnown);
};

} // namespace tickleaf::text
