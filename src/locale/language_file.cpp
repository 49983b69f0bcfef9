// SPDX-License-Identifier: MIT
#include "locale/language_file.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <utility>

#include "locale/number_words.h"
#include "yaml/reader.h"
#include "yaml/tree.h"

namespace tickleaf::locale {
namespace {

using yaml::MapReader;

constexpr std::array<std::string_view, 3> kCompanions = {"buddhist", "islamic-umalqura", "persian"};

std::string text_of(MapReader& map, std::string_view key) {
    const auto text = map.required_text(key);
    return text ? text->value : std::string();
}

void read_locale(MapReader& map, LanguageFile& file, support::Findings& findings) {
    const auto locale = map.required_text("locale");
    if (!locale) {
        return;
    }
    file.formats.locale = locale->value;
    if (!is_known_locale(locale->value)) {
        findings.error(
            locale->span, "language-locale",
            "\"" + locale->value +
                "\" is not a locale that ICU knows; expected one such as es or ar-u-nu-latn");
    }
}

/// Letters a date pattern may use; others would print nothing.
void check_pattern(const support::Located<std::string>& pattern, support::Findings& findings) {
    bool quoted = false;
    for (const char c : pattern.value) {
        quoted = c == '\'' ? !quoted : quoted;
        const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
        if (letter && !quoted && std::string_view("EcdMLyG").find(c) == std::string_view::npos) {
            findings.error(pattern.span, "language-date",
                           "date pattern \"" + pattern.value + "\" has the letter " +
                               std::string(1, c) + ", expected E c d M L y or G",
                           "put words into quotes, as in d 'de' MMMM");
            return;
        }
    }
}

std::string read_pattern(MapReader& map, std::string_view key, support::Findings& findings) {
    const auto pattern = map.required_text(key);
    if (!pattern) {
        return {};
    }
    check_pattern(*pattern, findings);
    return pattern->value;
}

void read_companion(MapReader& map, LanguageFile& file, support::Findings& findings) {
    const auto calendar = map.optional_text("companion_calendar");
    if (!calendar) {
        return;
    }
    if (std::find(kCompanions.begin(), kCompanions.end(), calendar->value) == kCompanions.end()) {
        findings.error(calendar->span, "language-calendar",
                       "companion calendar is \"" + calendar->value +
                           "\", expected buddhist, islamic-umalqura or persian");
        return;
    }
    file.formats.companion_calendar = calendar->value;
    file.formats.companion_date = read_pattern(map, "companion_date", findings);
}

std::vector<std::string> words_of(MapReader& map, std::string_view key) {
    std::vector<std::string> out;
    for (auto& word : map.optional_texts(key)) {
        out.push_back(std::move(word.value));
    }
    return out;
}

void read_side_words(MapReader& map, LanguageFile& file, support::Findings& findings) {
    const yaml::Node* node = map.required_node("side_words");
    if (node == nullptr) {
        return;
    }
    MapReader sides(*node, "the side words", findings);
    if (sides.is_map()) {
        file.left_words = words_of(sides, "left");
        file.right_words = words_of(sides, "right");
        sides.finish();
    }
    if (file.left_words.empty() || file.right_words.empty()) {
        findings.error(node->span, "language-side-words",
                       "side words need a list for left and one for right");
    }
}

void read_glossary(MapReader& map, LanguageFile& file, support::Findings& findings) {
    const yaml::Node* node = map.optional_node("glossary");
    if (node == nullptr) {
        return;
    }
    MapReader terms(*node, "the glossary", findings);
    if (!terms.is_map()) {
        return;
    }
    for (const yaml::Entry& entry : node->entries) {
        Term term{entry.key.value, words_of(terms, entry.key.value)};
        if (term.forms.empty()) {
            findings.error(entry.key.span, "language-glossary",
                           "term \"" + term.key + "\" has no forms, expected a list of words");
        }
        file.glossary.push_back(std::move(term));
    }
    terms.finish();
}

void read_number_words(MapReader& map, LanguageFile& file, support::Findings& findings) {
    const yaml::Node* node = map.optional_node("number_words");
    if (node == nullptr) {
        return;
    }
    MapReader numbers(*node, "the number words", findings);
    if (!numbers.is_map()) {
        return;
    }
    for (const yaml::Entry& entry : node->entries) {
        std::size_t n = 0;
        const std::string& key = entry.key.value;
        const auto [end, error] = std::from_chars(key.data(), key.data() + key.size(), n);
        auto forms = words_of(numbers, key);
        if (error != std::errc() || end != key.data() + key.size() || n < kSmallestNumberWord ||
            n > kLargestNumberWord) {
            findings.error(entry.key.span, "language-number-words",
                           "number words for \"" + key + "\", expected a number from 2 to 10");
        } else {
            file.number_words[n] = std::move(forms);
        }
    }
    numbers.finish();
}

} // namespace

std::optional<LanguageFile> read_language_file(std::string_view tag, const Reading& reading) {
    const CatalogFile file = main_file(tag, "language");
    std::optional<std::string> bytes;
    if (is_plain_name(tag)) {
        bytes = reading.environment.read_data(file.path);
    }
    if (!bytes) {
        const auto known = available(reading.environment);
        const std::string near = support::closest(tag, known);
        reading.findings.error({}, "language-unknown",
                               "there is no language \"" + std::string(tag) + "\" in locales/",
                               near.empty() ? "tickleaf list languages shows what there is"
                                            : "did you mean \"" + near + "\"?");
        return std::nullopt;
    }
    const int source = reading.sources.add(file.path, std::move(*bytes));
    const std::size_t before = reading.findings.size();
    const auto root = yaml::read(reading.sources, source, reading.findings);
    if (!root) {
        return std::nullopt;
    }
    MapReader map(*root, "the language", reading.findings);
    LanguageFile out;
    out.tag = tag;
    out.span = map.span();
    const auto format = map.required_integer("format");
    if (format && format->value != 1) {
        reading.findings.error(format->span, "catalog-format",
                               "this language has format " + std::to_string(format->value) +
                                   ", expected 1");
    }
    out.name = text_of(map, "name");
    out.english_name = text_of(map, "english_name");
    read_locale(map, out, reading.findings);
    out.formats.long_date = read_pattern(map, "long_date", reading.findings);
    out.formats.short_date = read_pattern(map, "short_date", reading.findings);
    read_companion(map, out, reading.findings);
    read_side_words(map, out, reading.findings);
    read_glossary(map, out, reading.findings);
    read_number_words(map, out, reading.findings);
    out.not_number_words = words_of(map, "not_number_words");
    map.finish();
    // A language with faults is not used: half a locale would print wrong dates or digits.
    return reading.findings.size() == before ? std::optional<LanguageFile>(std::move(out))
                                             : std::nullopt;
}

} // namespace tickleaf::locale
