// SPDX-License-Identifier: MIT
// The words for 2 to 10, so that a translation that says another number than its English is found.
// One is left out: in most languages it is the article too. Shapes: all cardinal forms that ICU
// spells out, and what `number_words` of language.yaml adds (cases, duals, classifiers);
// `not_number_words` takes away what only looks like one. Source:
// the spellout rules of CLDR 42 as carried by ICU 72 (icu::RuleBasedNumberFormat). Cost: some
// milliseconds a language.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace tickleaf::locale {

struct LanguageFile;

inline constexpr std::size_t kSmallestNumberWord = 2;
inline constexpr std::size_t kLargestNumberWord = 10;
struct NumberWords {
    /// By number; those below kSmallestNumberWord are empty.
    std::array<std::vector<std::string>, kLargestNumberWord + 1> forms;
    std::vector<std::string> idioms; ///< hold a form and do not say the number
};
NumberWords number_words(const LanguageFile& language);
/// The numbers that stand in a text as words, from the smallest.
std::vector<std::int64_t> numbers_said(const std::string& text, const NumberWords& words);

} // namespace tickleaf::locale
