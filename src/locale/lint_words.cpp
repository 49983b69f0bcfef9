// SPDX-License-Identifier: MIT
// The rules on words: sides and scripts.
#include "locale/lint_rules.h"

#include <algorithm>
#include <array>
#include <set>
#include <utility>

#include <unicode/locid.h>
#include <unicode/uchar.h>
#include <unicode/unistr.h>
#include <unicode/uscript.h>

namespace tickleaf::locale {
namespace {

using Words = std::vector<std::string>;

bool is_side_choice(const Choice& choice) {
    return choice.kind == Choice::Kind::Select && choice.name == "side";
}

/// See flattened().
void flatten(const Pattern& pattern, const std::string& side, std::string& out) {
    for (const Piece& piece : pattern) {
        if (const auto* literal = std::get_if<Literal>(&piece.value)) {
            out += literal->text;
        } else if (const auto* choice = std::get_if<Choice>(&piece.value)) {
            for (const Branch& branch : choice->branches) {
                if (!is_side_choice(*choice)) {
                    out += ' ';
                    flatten(branch.pieces, side, out);
                } else if (branch.selector == side) {
                    flatten(branch.pieces, side, out);
                }
            }
        } else {
            out += "\uFFFC";
        }
    }
}

bool is_word_letter(UChar32 c) {
    return u_isalpha(c) || u_charType(c) == U_NON_SPACING_MARK ||
           u_charType(c) == U_COMBINING_SPACING_MARK;
}

/// Scripts that put no spaces between words: there a word is found anywhere.
bool runs_on(UChar32 c) {
    UErrorCode code = U_ZERO_ERROR;
    constexpr std::array kRunningOn = {USCRIPT_HAN,    USCRIPT_HIRAGANA, USCRIPT_KATAKANA,
                                       USCRIPT_THAI,   USCRIPT_LAO,      USCRIPT_KHMER,
                                       USCRIPT_MYANMAR};
    const UScriptCode script = uscript_getScript(c, &code);
    return std::find(kRunningOn.begin(), kRunningOn.end(), script) != kRunningOn.end();
}

int count_word(const icu::UnicodeString& text, const std::string& word) {
    const icu::UnicodeString wanted =
        icu::UnicodeString::fromUTF8(word).toLower(icu::Locale::getRoot());
    int count = 0;
    for (std::int32_t at = text.indexOf(wanted); at >= 0 && !wanted.isEmpty();
         at = text.indexOf(wanted, at + 1)) {
        const std::int32_t end = at + wanted.length();
        const bool open = at == 0 || !is_word_letter(text.char32At(text.moveIndex32(at, -1)));
        const bool close = end == text.length() || !is_word_letter(text.char32At(end));
        count += (open && close) || runs_on(wanted.char32At(0)) ? 1 : 0;
    }
    return count;
}

void check_side_branches(const Suspect& suspect, const Pattern& pattern) {
    for (const Piece& piece : pattern) {
        const auto* choice = std::get_if<Choice>(&piece.value);
        if (choice == nullptr) {
            continue;
        }
        std::set<std::string> selectors;
        for (const Branch& branch : choice->branches) {
            selectors.insert(branch.selector);
            check_side_branches(suspect, branch.pieces);
            if (is_side_choice(*choice) && branch.selector != "left" &&
                branch.selector != "right" && branch.selector != "both" &&
                branch.selector != "none" && branch.selector != "other") {
                suspect.error("message-side", "side has no value \"" + branch.selector +
                                                  "\", expected left, right, both, none or other");
            }
        }
        if (is_side_choice(*choice) &&
            (selectors.count("left") == 0 || selectors.count("right") == 0)) {
            suspect.error("message-side",
                          "the select on side has no branch for left, or none for right");
        }
    }
}

void forbid(const Suspect& suspect, const std::string& side, const Words& words, const char* name) {
    if (count_words(flattened(suspect.pattern, side), words) > 0) {
        suspect.error("message-side", "the branch for " + side + " holds a word for " + name);
    }
}

/// The scripts a language is written in: its likely one, and for Japanese and Korean those that go
/// with it.
std::set<UScriptCode> scripts_of(const std::string& tag) {
    UErrorCode code = U_ZERO_ERROR;
    icu::Locale locale = icu::Locale::forLanguageTag(tag, code);
    locale.addLikelySubtags(code);
    std::array<UScriptCode, 8> scripts{};
    const std::int32_t count = uscript_getCode(locale.getName(), scripts.data(),
                                               static_cast<std::int32_t>(scripts.size()), &code);
    return U_SUCCESS(code) ? std::set<UScriptCode>(scripts.begin(), scripts.begin() + count)
                           : std::set<UScriptCode>{};
}

std::string utf8(UChar32 c) {
    std::string out;
    icu::UnicodeString(c).toUTF8String(out);
    return out;
}

} // namespace

std::string flattened(const Pattern& pattern, const std::string& side) {
    std::string out;
    flatten(pattern, side, out);
    return out;
}

int count_words(const std::string& text, const std::vector<std::string>& words) {
    const icu::UnicodeString lower =
        icu::UnicodeString::fromUTF8(text).toLower(icu::Locale::getRoot());
    int count = 0;
    for (const std::string& word : words) {
        count += count_word(lower, word);
    }
    return count;
}

void check_side(const Suspect& suspect, const LanguageFile& language) {
    check_side_branches(suspect, suspect.pattern);
    const std::string outside = flattened(suspect.pattern, "");
    if (count_words(outside, language.left_words) + count_words(outside, language.right_words) >
        0) {
        suspect.error("message-side", "a word for left or right stands outside a select on side",
                      "write {side, select, left {...} right {...} other {...}}");
        return;
    }
    forbid(suspect, "left", language.right_words, "right");
    forbid(suspect, "right", language.left_words, "left");
    const std::string other = flattened(suspect.pattern, "other");
    if (count_words(other, language.left_words) != count_words(other, language.right_words)) {
        suspect.error("message-side",
                      "the branch \"other\" names one side; it serves both sides and none");
    }
}

void check_side_against_english(const Suspect& suspect, const LanguageFile& language,
                                const Pattern& english, const LanguageFile& english_language) {
    const auto named = [](const Pattern& pattern, const std::string& side, const LanguageFile& in) {
        const std::string text = flattened(pattern, side);
        return count_words(text, in.left_words) + count_words(text, in.right_words);
    };
    if (named(suspect.pattern, "", language) > 0) {
        return; // told by check_side
    }
    for (const char* side : {"left", "right"}) {
        const int mine = named(suspect.pattern, side, language);
        const int theirs = named(english, side, english_language);
        if ((mine == 0) != (theirs == 0)) {
            suspect.error("message-side", std::string("with side ") + side +
                                              " the English names the side " +
                                              std::to_string(theirs) + " times, this text " +
                                              std::to_string(mine) + " times");
        }
    }
}

void check_script(const Suspect& suspect, const std::string& locale_tag) {
    const std::set<UScriptCode> expected = scripts_of(locale_tag);
    const icu::UnicodeString text = icu::UnicodeString::fromUTF8(
        flattened(suspect.pattern, "") + flattened(suspect.pattern, "left") +
        flattened(suspect.pattern, "right") + flattened(suspect.pattern, "other"));
    bool any_letter = false;
    bool any_own = false;
    for (std::int32_t i = 0; i < text.length(); i = text.moveIndex32(i, 1)) {
        const UChar32 c = text.char32At(i);
        UErrorCode code = U_ZERO_ERROR;
        const UScriptCode script = uscript_getScript(c, &code);
        if (!u_isalpha(c) || script == USCRIPT_COMMON || script == USCRIPT_INHERITED) {
            continue;
        }
        any_letter = true;
        any_own = any_own || expected.count(script) > 0;
        // A few Latin letters (PDF, cm) are at home everywhere; any other stranger is a slip of the
        // keyboard.
        if (expected.count(script) == 0 && script != USCRIPT_LATIN) {
            suspect.error("message-script", "the letter \"" + utf8(c) + "\" is " +
                                                uscript_getName(script) +
                                                ", which the language is not written in");
            return;
        }
    }
    if (any_letter && !any_own) {
        suspect.error("message-script", "no letter of the text is in the script of the language");
    }
}

} // namespace tickleaf::locale
