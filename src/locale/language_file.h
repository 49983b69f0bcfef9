// SPDX-License-Identifier: MIT
// locales/LANG/language.yaml: the language itself, as its lead wrote it down.
// Errors: findings with position; nothing where the file is missing or not usable.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "locale/catalog.h"
#include "locale/formats.h"

namespace tickleaf::locale {

/// A word of the trade and the forms in which a text may say it: stems that all its endings share.
struct Term {
    std::string key;
    std::vector<std::string> forms; ///< as written
};

struct LanguageFile {
    std::string tag;
    std::string name; ///< as its speakers write it
    std::string english_name;
    FormatRules formats;
    std::vector<std::string> left_words; ///< every form, lower case
    std::vector<std::string> right_words;
    std::vector<Term> glossary; ///< in English the words that call for a term; in file order
    /// Forms of the words for 2 to 10 besides those that ICU knows; see number_words.h.
    std::map<std::size_t, std::vector<std::string>> number_words;
    std::vector<std::string> not_number_words; ///< words and idioms that look like one
    support::Span span{};
};

/// Reads the file of a tag. A tag without one is the finding "language-unknown".
std::optional<LanguageFile> read_language_file(std::string_view tag, const Reading& reading);

} // namespace tickleaf::locale
