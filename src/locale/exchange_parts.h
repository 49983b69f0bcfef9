// SPDX-License-Identifier: MIT
// What export and import share: which catalog files there are, how keys and contexts go together,
// and what a new language begins with. Used by exchange only.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "locale/catalog.h"
#include "locale/language_file.h"

namespace tickleaf::locale {

/// One catalog file of the English with its keys in file order.
struct Sheet {
    std::string name; ///< "booklet", "exercises/step-up": how contexts begin, and the path
    std::string prefix;
    std::vector<std::string> keys; ///< local
};
/// All catalogs of a language, the clinician's copy too where it has one.
Catalog read_exchanged(std::string_view tag, const Reading& reading);
std::vector<Sheet> english_sheets(const Catalog& english, const Reading& reading);
std::string path_of(std::string_view tag, const Sheet& sheet);
std::string context_of(const Sheet& sheet, std::string_view local_key);

/// language.yaml of a language that has none yet, as far as CLDR knows it: names, date patterns; no
/// side words. Nothing where ICU does not know the tag.
std::optional<LanguageFile> new_language(std::string_view tag);

inline constexpr std::string_view kLanguageSheet = "language";
/// The texts of language.yaml that are translated like others: own name, side words, glossary,
/// number words.
struct LanguageText {
    std::string key; ///< "name", "side_words.left", "glossary.pain", "number_words.2"
    std::string english;
    std::string own;
    std::string explanation;
    bool is_optional = false; ///< may stay empty
};
/// Takes the translation of such a text into `own`.
void set_language_text(LanguageFile& own, const std::string& key, const std::string& translation);
std::vector<LanguageText> language_texts(const LanguageFile& own, const LanguageFile& english);
/// "left, lefts" to its words.
std::vector<std::string> split_words(std::string_view text);
/// What stands for an English text of which only the hash is known.
std::string unknown_source(std::string_view hash);
/// The hash of a "#| msgid": of the text, or the one that stands for it.
std::string hash_of_previous(std::string_view previous);

inline constexpr std::string_view kFormatField = "X-Tickleaf-Format";
inline constexpr std::string_view kLanguageField = "X-Tickleaf-Language";
inline constexpr std::string_view kFormat = "1";

} // namespace tickleaf::locale
