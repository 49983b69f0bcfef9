// SPDX-License-Identifier: MIT
#include "text/itemise.h"

#include <algorithm>
#include <array>

#include <unicode/uchar.h>

#include "text/utf16.h"

namespace tickleaf::text {

namespace {

constexpr std::size_t kMostBrackets = 63; // as UAX #9 BD16 bounds its own stack

/// Follows the text and gives common characters the script of their neighbours.
class ScriptResolver {
  public:
    ScriptResolver(const LanguageInfo& language, UBiDiLevel base)
        : language_(language), base_(base), last_at_base_(first_at_base(language, base)) {}
    /// USCRIPT_COMMON while no character with a script was seen.
    UScriptCode next(UChar32 c, UBiDiLevel level);

  private:
    struct Bracket {
        UChar32 closing;
        UScriptCode script;
    };

    UScriptCode from_extensions(UChar32 c, UScriptCode own) const;
    UScriptCode neighbour(UChar32 c, UBiDiLevel level);

    static UScriptCode first_at_base(const LanguageInfo& language, UBiDiLevel base) {
        const UScriptCode script = language.scripts.front();
        const bool fits = (uscript_isRightToLeft(script) != 0) == ((base & 1) != 0);
        return fits ? script : USCRIPT_COMMON;
    }

    const LanguageInfo& language_;
    UBiDiLevel base_;
    UScriptCode last_ = USCRIPT_COMMON;
    UScriptCode last_at_base_; ///< of the sentence, not of what is quoted in it the other way round
    std::vector<Bracket> brackets_;
};

UScriptCode ScriptResolver::from_extensions(UChar32 c, UScriptCode own) const {
    if (c < 0xB7) {
        return own;
    }
    std::array<UScriptCode, 32> codes{};
    UErrorCode status = U_ZERO_ERROR;
    const int32_t count = uscript_getScriptExtensions(c, codes.data(), 32, &status);
    if (U_FAILURE(status) != 0 || count < 1 || codes[0] == own) {
        return own;
    }
    const auto first = codes.begin();
    const auto end = first + count;
    if (std::find(first, end, last_) != end) {
        return last_;
    }
    for (const UScriptCode script : language_.scripts) {
        if (std::find(first, end, script) != end) {
            return script;
        }
    }
    return codes[0];
}

UScriptCode ScriptResolver::neighbour(UChar32 c, UBiDiLevel level) {
    const auto type = u_getIntPropertyValue(c, UCHAR_BIDI_PAIRED_BRACKET_TYPE);
    if (type == U_BPT_CLOSE) {
        for (std::size_t i = brackets_.size(); i-- > 0;) {
            if (brackets_[i].closing == c) {
                const UScriptCode script = brackets_[i].script;
                brackets_.resize(i);
                return script;
            }
        }
    }
    // A full stop after a Latin name at the end of an Arabic sentence belongs to the sentence.
    const bool in_sentence = level == base_ && last_at_base_ != USCRIPT_COMMON;
    const UScriptCode script = in_sentence ? last_at_base_ : last_;
    if (type == U_BPT_OPEN && brackets_.size() < kMostBrackets) {
        brackets_.push_back({u_getBidiPairedBracket(c), script});
    }
    return script;
}

UScriptCode ScriptResolver::next(UChar32 c, UBiDiLevel level) {
    UErrorCode status = U_ZERO_ERROR;
    UScriptCode script = uscript_getScript(c, &status);
    if (script == USCRIPT_INHERITED) {
        return last_;
    }
    if (script == USCRIPT_COMMON) {
        script = from_extensions(c, script);
    }
    if (script == USCRIPT_COMMON || script == USCRIPT_UNKNOWN) {
        return neighbour(c, level);
    }
    last_ = script;
    if (level == base_) {
        last_at_base_ = script;
    }
    return script;
}

/// What leading common characters get: the script of the first character that has one.
UScriptCode first_script(const std::vector<UScriptCode>& scripts, const LanguageInfo& language) {
    const auto found = std::find_if(scripts.begin(), scripts.end(),
                                    [](UScriptCode s) { return s != USCRIPT_COMMON; });
    return found == scripts.end() ? language.scripts.front() : *found;
}

} // namespace

bool shape_together(UScriptCode a, UScriptCode b) {
    // Japanese and Korean mix these within a word (UAX #24 table 7 has them as Jpan and Kore).
    const auto is_east_asian = [](UScriptCode s) {
        return s == USCRIPT_HAN || s == USCRIPT_HIRAGANA || s == USCRIPT_KATAKANA ||
               s == USCRIPT_HANGUL || s == USCRIPT_BOPOMOFO;
    };
    return a == b || (is_east_asian(a) && is_east_asian(b));
}

std::vector<UScriptCode> resolve_scripts(const std::u16string& text, const UBiDiLevel* levels,
                                         UBiDiLevel base, const LanguageInfo& language) {
    std::vector<UScriptCode> scripts(text.size(), USCRIPT_COMMON);
    ScriptResolver resolver(language, base);
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t start = i;
        const auto c = static_cast<UChar32>(next_code_point(text, i));
        const UScriptCode script = resolver.next(c, levels[start]);
        std::fill_n(scripts.begin() + static_cast<std::ptrdiff_t>(start), i - start, script);
    }
    const UScriptCode first = first_script(scripts, language);
    std::replace(scripts.begin(), scripts.end(), USCRIPT_COMMON, first);
    return scripts;
}

} // namespace tickleaf::text
