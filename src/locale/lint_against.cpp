// SPDX-License-Identifier: MIT
// A translation against the English it was made from: length, glossary, words left in English,
// numbers. Source: common practice: a text three times as long as its English, or a third of it,
// has something left out or added; Han texts were measured on the Chinese catalog.
#include "locale/lint_rules.h"

#include <algorithm>
#include <array>

#include <unicode/locid.h>
#include <unicode/uchar.h>
#include <unicode/unistr.h>
#include <unicode/uscript.h>

#include "support/utf8.h"

namespace tickleaf::locale {
namespace {

/// Below this length of the English one more word doubles a text; no ratio says anything.
constexpr std::size_t kShortest = 20;

struct Ratio {
    double low;
    double high;
};
constexpr Ratio kLetters{1.0 / 3.0, 3.0};
/// One Han character says what four or five letters say.
constexpr Ratio kHan{0.15, 1.0};

/// A text as one reader sees it: of every choice the branch "other".
void show(const Pattern& pattern, std::string& out) {
    for (const Piece& piece : pattern) {
        if (const auto* literal = std::get_if<Literal>(&piece.value)) {
            out += literal->text;
        } else if (const auto* choice = std::get_if<Choice>(&piece.value)) {
            for (const Branch& branch : choice->branches) {
                if (branch.selector == "other") {
                    show(branch.pieces, out);
                }
            }
        } else {
            out += "\uFFFC";
        }
    }
}

icu::UnicodeString lower(const std::string& text) {
    return icu::UnicodeString::fromUTF8(text).toLower(icu::Locale::getRoot());
}

bool is_written_in_han(const std::string& text) {
    const auto unicode = icu::UnicodeString::fromUTF8(text);
    for (std::int32_t i = 0; i < unicode.length(); i = unicode.moveIndex32(i, 1)) {
        UErrorCode code = U_ZERO_ERROR;
        if (uscript_getScript(unicode.char32At(i), &code) == USCRIPT_HAN) {
            return true;
        }
    }
    return false;
}

bool has_any(const icu::UnicodeString& text, const std::vector<std::string>& stems) {
    return std::any_of(stems.begin(), stems.end(),
                       [&text](const std::string& stem) { return text.indexOf(lower(stem)) >= 0; });
}

std::string listed(const std::vector<std::string>& words) {
    std::string out;
    for (const std::string& word : words) {
        out += (out.empty() ? "" : ", ") + word;
    }
    return out;
}

/// All branches of a text, whatever they hang on.
std::string everything(const Pattern& pattern) {
    std::string out;
    for (const char* side : {"", "left", "right", "other"}) {
        out += flattened(pattern, side) + ' ';
    }
    return out;
}

/// Runs of digits of any script, as numbers in their order of size.
std::vector<std::int64_t> numbers_in(const Pattern& pattern) {
    std::string shown;
    show(pattern, shown);
    const auto text = icu::UnicodeString::fromUTF8(shown);
    std::vector<std::int64_t> out;
    bool in_number = false;
    for (std::int32_t i = 0; i < text.length(); i = text.moveIndex32(i, 1)) {
        const std::int32_t digit = u_charDigitValue(text.char32At(i));
        if (digit < 0) {
            in_number = false;
            continue;
        }
        if (!in_number) {
            out.push_back(0);
        }
        in_number = true;
        out.back() = std::min<std::int64_t>(out.back() * 10 + digit, 1'000'000'000);
    }
    std::sort(out.begin(), out.end());
    return out;
}

std::string listed(const std::vector<std::int64_t>& numbers) {
    std::string out;
    for (const std::int64_t number : numbers) {
        out += (out.empty() ? "" : ", ") + std::to_string(number);
    }
    return out.empty() ? "none" : out;
}

} // namespace

void check_length(const Suspect& suspect, const Pattern& english) {
    std::string mine;
    std::string theirs;
    show(suspect.pattern, mine);
    show(english, theirs);
    const auto length = static_cast<double>(support::count_code_points(mine));
    const auto source = support::count_code_points(theirs);
    if (source < kShortest) {
        return;
    }
    const Ratio bounds = is_written_in_han(mine) ? kHan : kLetters;
    const double ratio = length / static_cast<double>(source);
    if (ratio < bounds.low || ratio > bounds.high) {
        suspect.error("text-length",
                      std::string("is much ") + (ratio < bounds.low ? "shorter" : "longer") +
                          " than the English: " + std::to_string(static_cast<int>(length)) +
                          " characters against " + std::to_string(source),
                      "say no less and no more than the English says");
    }
}

void check_glossary(const Suspect& suspect, const Pattern& english, const Bench& bench) {
    const std::string source = everything(english);
    const icu::UnicodeString text = lower(everything(suspect.pattern));
    for (const Term& wanted : bench.english_language.glossary) {
        if (count_words(source, wanted.forms) == 0) {
            continue;
        }
        for (const Term& term : bench.language.glossary) {
            if (term.key == wanted.key && !has_any(text, term.forms)) {
                suspect.error("text-glossary",
                              "the English speaks of \"" + term.key +
                                  "\", and none of its forms (" + listed(term.forms) + ") is here",
                              "use the word of the glossary in language.yaml, or add a form to it");
            }
        }
    }
}

void check_still_english(const Suspect& suspect, const Pattern& english) {
    // Words that no other language of the project writes.
    static const std::vector<std::string> kEnglish = {"the",  "your",  "you",  "and",
                                                      "with", "until", "keep", "feel"};
    const std::string mine = everything(suspect.pattern);
    std::string source;
    show(english, source);
    std::string shown;
    show(suspect.pattern, shown);
    const bool is_sentence = source.find(' ') != std::string::npos &&
                             std::count_if(source.begin(), source.end(), [](char c) {
                                 return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
                             }) > 6;
    const bool is_same =
        is_sentence && lower(shown) == lower(source) && source.find("\uFFFC") == std::string::npos;
    if (is_same || count_words(mine, kEnglish) > 0) {
        suspect.error("text-english", "is English, or has English words in it",
                      "translate the whole text");
    }
}

void check_numbers(const Suspect& suspect, const Pattern& english) {
    const auto mine = numbers_in(suspect.pattern);
    const auto theirs = numbers_in(english);
    if (mine != theirs) {
        suspect.error("text-number",
                      "has the numbers " + listed(mine) + ", the English " + listed(theirs));
    }
}

void check_number_words(const Suspect& suspect, const Pattern& english, const Bench& bench) {
    // What comes in two is "the two" in many languages, and then no number is said.
    static const std::vector<std::string> kPairs = {
        "both",   "each",   "double",   "the other", "feet",      "hands",  "arms", "legs",
        "knees",  "heels",  "hips",     "elbows",    "shoulders", "blades", "ears", "thighs",
        "calves", "ankles", "forearms", "shins",     "toes",      "sides",  "ends", "buttocks"};
    for (const char* side : {"left", "right", "other"}) {
        const std::string source = flattened(english, side);
        const auto theirs = numbers_said(source, bench.english_number_words);
        auto mine = numbers_said(flattened(suspect.pattern, side), bench.number_words);
        if (mine != theirs && !mine.empty() && mine.front() == 2 &&
            count_words(source, kPairs) > 0) {
            mine.erase(mine.begin());
        }
        if (mine != theirs) {
            suspect.error("text-number-word",
                          "has words for the numbers " + listed(mine) + ", the English " +
                              listed(theirs),
                          "say the number of the English, or add its form to number_words in "
                          "language.yaml");
            return;
        }
    }
}

} // namespace tickleaf::locale
