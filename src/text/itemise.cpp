// SPDX-License-Identifier: MIT
#include "text/itemise.h"

#include <algorithm>

#include <unicode/uchar.h>
#include <unicode/unorm2.h>

#include "text/utf16.h"

namespace tickleaf::text {

namespace {

/// A UTF-16 unit becomes at most four in NFD (UAX #15, table 9: U+1F82 and its like).
constexpr std::size_t kMostNormalisedGrowth = 4;

/// Characters that shaping makes nothing of, or that take the face of what they follow.
bool needs_no_glyph(char32_t c) {
    return u_hasBinaryProperty(static_cast<UChar32>(c), UCHAR_DEFAULT_IGNORABLE_CODE_POINT) != 0;
}

/// Whether a character is set in the same face as the one before it, whatever it is.
bool clings(char32_t c) {
    if (c < 0x300) {
        return false;
    }
    const std::uint32_t category = U_GET_GC_MASK(static_cast<UChar32>(c));
    // Letters are none of these (but Hangul fillers, which stand for themselves); the full question
    // is slow.
    return (category & U_GC_M_MASK) != 0 ||
           ((category & (U_GC_L_MASK | U_GC_N_MASK)) == 0 && needs_no_glyph(c));
}

/// Whether a face has a canonical spelling of the characters (e + acute for U+00E9 and the other
/// way round).
class Coverage {
  public:
    explicit Coverage(FontSet::Impl& fonts) : fonts_(fonts) {}
    bool covers(const Face& face, std::u16string_view text) const;

  private:
    bool covers_plainly(const Face& face, std::u16string_view text) const;
    FontSet::Impl& fonts_;
};

bool Coverage::covers_plainly(const Face& face, std::u16string_view text) const {
    for (std::size_t i = 0; i < text.size();) {
        const char32_t c = next_code_point(text, i);
        if (!fonts_.covers(face, c) && !needs_no_glyph(c)) {
            return false;
        }
    }
    return true;
}

bool Coverage::covers(const Face& face, std::u16string_view text) const {
    if (covers_plainly(face, text)) {
        return true;
    }
    UErrorCode status = U_ZERO_ERROR;
    for (const UNormalizer2* form :
         {unorm2_getNFCInstance(&status), unorm2_getNFDInstance(&status)}) {
        std::u16string other(text.size() * kMostNormalisedGrowth, u'\0');
        const int32_t size =
            unorm2_normalize(form, text.data(), static_cast<int32_t>(text.size()), other.data(),
                             static_cast<int32_t>(other.size()), &status);
        if (U_FAILURE(status) == 0 &&
            covers_plainly(face,
                           std::u16string_view(other).substr(0, static_cast<std::size_t>(size)))) {
            return true;
        }
    }
    return false;
}

class Itemiser {
  public:
    Itemiser(FontSet::Impl& fonts, LanguageState& language, const ItemiseInput& input,
             support::Findings& findings)
        : fonts_(fonts),
          language_(language),
          input_(input),
          findings_(findings),
          coverage_(fonts),
          text_(input.collected.text) {}
    std::vector<Item> run();

  private:
    struct Choice {
        std::size_t family;
        const Face* face;
    };

    const std::vector<std::size_t>& chain(UScriptCode script);
    std::optional<Choice> choose_font(std::uint32_t begin, std::uint32_t end, UScriptCode script);
    bool parts_number(std::uint32_t begin, std::uint32_t end, UScriptCode script) const;
    void report_uncovered(std::uint32_t begin, std::uint32_t end);
    void add(std::uint32_t begin, std::uint32_t end);
    std::uint32_t cluster_end(std::uint32_t begin) const;

    FontSet::Impl& fonts_;
    LanguageState& language_;
    const ItemiseInput& input_;
    support::Findings& findings_;
    Coverage coverage_;
    const std::u16string& text_;
    std::vector<UScriptCode> scripts_;
    UScriptCode chain_script_ = USCRIPT_INVALID_CODE;
    std::vector<std::size_t> chain_;
    std::vector<char32_t> reported_;
    bool some_file_unusable_ = false;
    std::vector<Item> items_;
};

/// The faces to ask for a script, best first.
const std::vector<std::size_t>& Itemiser::chain(UScriptCode script) {
    if (script == chain_script_) {
        return chain_;
    }
    chain_script_ = script;
    chain_.clear();
    const auto& shared = fonts_.shared();
    std::vector<std::size_t> families;
    if (const auto own = shared.family_of(language_.info, script)) {
        families.push_back(*own);
    }
    families.push_back(shared.main_family(language_.info));
    families.insert(families.end(), shared.table.fallback.begin(), shared.table.fallback.end());
    for (std::size_t i = 0; i < families.size(); ++i) {
        if (std::find(families.begin(), families.begin() + static_cast<std::ptrdiff_t>(i),
                      families[i]) == families.begin() + static_cast<std::ptrdiff_t>(i)) {
            chain_.push_back(families[i]);
        }
    }
    return chain_;
}

std::optional<Itemiser::Choice> Itemiser::choose_font(std::uint32_t begin, std::uint32_t end,
                                                      UScriptCode script) {
    const auto cluster = std::u16string_view(text_).substr(begin, end - begin);
    for (const std::size_t family : chain(script)) {
        const Face* face = fonts_.face(family, input_.source.style.weight, findings_);
        some_file_unusable_ = some_file_unusable_ || face == nullptr;
        if (face != nullptr && coverage_.covers(*face, cluster)) {
            return Choice{family, face};
        }
    }
    return std::nullopt;
}

/// A space between groups of a number, such as a telephone number, in a hand that goes from right
/// to left. Nastaliq's is so narrow that the groups would run together.
bool Itemiser::parts_number(std::uint32_t begin, std::uint32_t end, UScriptCode script) const {
    return end - begin == 1 && (text_[begin] == u' ' || text_[begin] == u'\u00A0') &&
           (input_.levels[begin] & 1) == 0 && uscript_isRightToLeft(script) != 0;
}

void Itemiser::report_uncovered(std::uint32_t begin, std::uint32_t end) {
    std::size_t place = begin;
    char32_t culprit = text_[begin];
    while (place < end) {
        const auto start = static_cast<std::uint32_t>(place);
        culprit = next_code_point(text_, place);
        if (!choose_font(start, static_cast<std::uint32_t>(place), scripts_[start])) {
            break;
        }
    }
    // Where a file of the chain is missing, that was reported; the character may well be in it.
    if (some_file_unusable_ ||
        std::find(reported_.begin(), reported_.end(), culprit) != reported_.end()) {
        return;
    }
    reported_.push_back(culprit);
    findings_.error(input_.source.span, "font-coverage",
                    "no font has " + name_character(culprit) + in_place(input_.source),
                    "write it in words or with another character");
}

/// A base and what clings to it: marks, joiners, variation selectors.
std::uint32_t Itemiser::cluster_end(std::uint32_t begin) const {
    std::size_t i = begin;
    next_code_point(text_, i);
    while (i < text_.size()) {
        std::size_t next = i;
        const char32_t c = next_code_point(text_, next);
        if (!clings(c) || is_invisible(c) || input_.levels[i] != input_.levels[begin]) {
            break;
        }
        i = next;
    }
    return static_cast<std::uint32_t>(i);
}

void Itemiser::add(std::uint32_t begin, std::uint32_t end) {
    const UScriptCode script =
        parts_number(begin, end, scripts_[begin]) ? USCRIPT_LATIN : scripts_[begin];
    const auto font = choose_font(begin, end, script);
    if (!font) {
        report_uncovered(begin, end);
        return;
    }
    const UBiDiLevel level = input_.levels[begin];
    if (!items_.empty()) {
        Item& last = items_.back();
        if (last.end == begin && last.level == level && shape_together(last.script, script) &&
            last.face == font->face) {
            last.end = end;
            return;
        }
    }
    items_.push_back({begin, end, level, script, font->family, font->face});
}

std::vector<Item> Itemiser::run() {
    scripts_ =
        resolve_scripts(text_, input_.levels, input_.source.right_to_left ? 1 : 0, language_.info);
    const auto length = static_cast<std::uint32_t>(text_.size());
    for (std::uint32_t i = 0; i < length;) {
        if (is_invisible(text_[i])) {
            ++i;
            continue;
        }
        const std::uint32_t end = cluster_end(i);
        add(i, end);
        i = end;
    }
    return std::move(items_);
}

} // namespace

std::vector<Item> itemise(FontSet::Impl& fonts, LanguageState& language, const ItemiseInput& input,
                          support::Findings& findings) {
    return Itemiser(fonts, language, input, findings).run();
}

} // namespace tickleaf::text
