// SPDX-License-Identifier: MIT
// The single rules of lint(), one function each; see lint.h for what they ask.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "locale/catalog.h"
#include "locale/formats.h"
#include "locale/language_file.h"
#include "locale/number_words.h"
#include "locale/pattern.h"

namespace tickleaf::locale {

/// One text under lint, and where its faults go.
struct Suspect {
    const std::string& key;
    const Entry& entry;
    const Pattern& pattern;
    support::Findings& findings;
    void error(const char* id, const std::string& message, const std::string& hint = {}) const;
};

/// Everything the rules compare with.
struct Bench {
    const LanguageFile& language;
    const LanguageFile& english_language;
    const Catalog& english;
    const Catalog& own;
    const Formats& formats;
    support::Findings& findings;
    NumberWords number_words = locale::number_words(language);
    NumberWords english_number_words = locale::number_words(english_language);
};
/// All rules on what a text says, each fault at the entry's place. Not whether its English is still
/// the same.
void lint_words(const std::string& key, const Entry& entry, const Bench& bench);

/// The letters of a text with one side chosen ("" leaves all branches on side out), all plural
/// branches in a row. A U+FFFC stands for each value, so that words do not run together.
std::string flattened(const Pattern& pattern, const std::string& side);
/// How often any of the words stands in the text as a word of its own (anywhere in scripts without
/// spaces).
int count_words(const std::string& text, const std::vector<std::string>& words);

/// What a placeholder is used for. A value may be printed by one language and counted by another.
enum class Use { Printed, Selected };
/// Names used in a text, those of branches too.
std::map<std::string, Use> placeholders(const Pattern& pattern);

/// The phrases a text names are there, and are those that its English names.
void check_phrases(const std::string& key, const Entry& entry, const Bench& bench);
/// Of the English: every phrase is used, and safety texts use safety phrases.
void check_phrase_bank(const Bench& bench);
void check_placeholders(const Suspect& suspect, const Pattern& english);
void check_plurals(const Suspect& suspect, const Formats& formats);
void check_side(const Suspect& suspect, const LanguageFile& language);
void check_literals(const Suspect& suspect);
/// Every left branch that names the side in English names it in the translation too, and so on.
void check_side_against_english(const Suspect& suspect, const LanguageFile& language,
                                const Pattern& english, const LanguageFile& english_language);
void check_script(const Suspect& suspect, const std::string& locale_tag);

// Against the English, in lint_against.cpp.
/// Much shorter or longer than the English: something was left out or added.
void check_length(const Suspect& suspect, const Pattern& english);
/// A term of the glossary that the English has is said in one of its forms.
void check_glossary(const Suspect& suspect, const Pattern& english, const Bench& bench);
void check_still_english(const Suspect& suspect, const Pattern& english);
/// The numbers written out in digits are those of the English, whatever the digits.
void check_numbers(const Suspect& suspect, const Pattern& english);
void check_number_words(const Suspect& suspect, const Pattern& english, const Bench& bench);

} // namespace tickleaf::locale
