// SPDX-License-Identifier: MIT
#include "locale/exchange_parts.h"

#include <algorithm>
#include <memory>

#include <unicode/datefmt.h>
#include <unicode/dtptngen.h>
#include <unicode/locid.h>
#include <unicode/smpdtfmt.h>
#include <unicode/unistr.h>

#include "locale/number_words.h"

namespace tickleaf::locale {
namespace {

constexpr std::string_view kGlossaryKey = "glossary.";
constexpr std::string_view kNumbersKey = "number_words.";
constexpr std::string_view kNotNumbersKey = "not_number_words";
constexpr std::string_view kUnknownBegin = "[earlier English, hash ";
constexpr std::string_view kUnknownEnd = "]";

std::string utf8(const icu::UnicodeString& text) {
    std::string out;
    text.toUTF8String(out);
    return out;
}

std::string joined(const std::vector<std::string>& words) {
    std::string out;
    for (const std::string& word : words) {
        out += (out.empty() ? "" : ", ") + word;
    }
    return out;
}

/// Keys of the English that begin with a prefix, in the order of their lines.
Sheet sheet_of(std::string name, std::string prefix, const Catalog& of_file) {
    Sheet sheet{std::move(name), std::move(prefix), {}};
    std::vector<std::pair<support::Span, std::string>> places;
    for (const auto& [key, entry] : of_file.texts) {
        places.emplace_back(entry.span, key.substr(sheet.prefix.size()));
    }
    std::sort(places.begin(), places.end());
    for (auto& [span, key] : places) {
        sheet.keys.push_back(std::move(key));
    }
    return sheet;
}

void add_number_texts(const LanguageFile& own, const LanguageFile& english,
                      std::vector<LanguageText>& out) {
    const NumberWords theirs = number_words(english);
    LanguageFile plain = own;
    plain.number_words.clear();
    const NumberWords known = number_words(plain);
    for (std::size_t n = kSmallestNumberWord; n <= kLargestNumberWord; ++n) {
        const auto mine = own.number_words.find(n);
        const std::string forms = joined(known.forms.at(n));
        out.push_back(
            {std::string(kNumbersKey) + std::to_string(n), joined(theirs.forms.at(n)),
             mine == own.number_words.end() ? "" : joined(mine->second),
             forms.empty()
                 ? "Every form of the word, with commas between; texts are searched for "
                   "it."
                 : "Forms besides " + forms + ", with commas between; texts are searched for them.",
             !forms.empty()});
    }
    out.push_back({std::string(kNotNumbersKey), "words that only look like a number",
                   joined(own.not_number_words),
                   "Words and idioms with one of these numbers in them that do not say the number, "
                   "with commas between; most languages need none.",
                   true});
}

} // namespace

Catalog read_exchanged(std::string_view tag, const Reading& reading) {
    Catalog catalog = read_all_catalogs(tag, reading);
    static_cast<void>(read_catalog(main_file(tag, kClinicianFile), reading, catalog));
    return catalog;
}

std::vector<Sheet> english_sheets(const Catalog& english, const Reading& reading) {
    std::vector<Sheet> sheets;
    const auto add = [&](std::string name, const CatalogFile& file) {
        Catalog own;
        support::Findings told_before; // by who read `english`
        if (read_catalog(file, {reading.environment, reading.sources, told_before}, own)) {
            // What the whole catalog refused is not exchanged either.
            std::erase_if(own.texts, [&](const auto& item) { return !english.find(item.first); });
            sheets.push_back(sheet_of(std::move(name), file.prefix, own));
        }
    };
    add("phrases", phrase_file(kSourceTag));
    add("booklet", main_file(kSourceTag, "booklet"));
    add("units", main_file(kSourceTag, "units"));
    add(std::string(kClinicianFile), main_file(kSourceTag, kClinicianFile));
    constexpr std::string_view kSuffix = ".yaml";
    for (const std::string& name : reading.environment.list_data("locales/en/exercises")) {
        if (name.ends_with(kSuffix)) {
            const std::string id = name.substr(0, name.size() - kSuffix.size());
            add("exercises/" + id, exercise_file(kSourceTag, id));
        }
    }
    return sheets;
}

std::string path_of(std::string_view tag, const Sheet& sheet) {
    return "locales/" + std::string(tag) + "/" + sheet.name + ".yaml";
}

std::string context_of(const Sheet& sheet, std::string_view local_key) {
    return sheet.name + "/" + std::string(local_key);
}

std::optional<LanguageFile> new_language(std::string_view tag) {
    if (!is_plain_name(tag) || !is_known_locale(tag)) {
        return std::nullopt;
    }
    UErrorCode code = U_ZERO_ERROR;
    icu::Locale locale = icu::Locale::forLanguageTag(std::string(tag), code);
    LanguageFile file;
    file.tag = tag;
    file.formats.locale = tag;
    icu::UnicodeString name;
    file.english_name = utf8(locale.getDisplayName(icu::Locale::getEnglish(), name));
    locale.setKeywordValue("calendar", "gregorian", code);
    const std::unique_ptr<icu::DateFormat> full(
        icu::DateFormat::createDateInstance(icu::DateFormat::kFull, locale));
    const std::unique_ptr<icu::DateTimePatternGenerator> generator(
        icu::DateTimePatternGenerator::createInstance(locale, code));
    const auto* simple = dynamic_cast<icu::SimpleDateFormat*>(full.get());
    if (U_FAILURE(code) || simple == nullptr) {
        return std::nullopt;
    }
    icu::UnicodeString pattern;
    file.formats.long_date = utf8(simple->toPattern(pattern));
    file.formats.short_date = utf8(generator->getBestPattern("dMMM", code));
    return U_FAILURE(code) ? std::nullopt : std::optional(std::move(file));
}

std::vector<LanguageText> language_texts(const LanguageFile& own, const LanguageFile& english) {
    std::vector<LanguageText> out = {
        {"name", english.name, own.name, "The language's name as its speakers write it."},
        {"side_words.left", joined(english.left_words), joined(own.left_words),
         "Every form of the word, with commas between; texts are searched for them."},
        {"side_words.right", joined(english.right_words), joined(own.right_words),
         "Every form of the word, with commas between; texts are searched for them."},
    };
    for (const Term& term : english.glossary) {
        const auto found = std::find_if(own.glossary.begin(), own.glossary.end(),
                                        [&term](const Term& mine) { return mine.key == term.key; });
        out.push_back({std::string(kGlossaryKey) + term.key, joined(term.forms),
                       found == own.glossary.end() ? "" : joined(found->forms),
                       "Glossary: the stem that all endings of your word share, more than one with "
                       "commas between. Every text whose English has the term must have one."});
    }
    add_number_texts(own, english, out);
    return out;
}

void set_language_text(LanguageFile& own, const std::string& key, const std::string& translation) {
    const auto words = split_words(translation);
    if (key == "name") {
        own.name = translation;
    } else if (key == "side_words.left") {
        own.left_words = words;
    } else if (key == "side_words.right") {
        own.right_words = words;
    } else if (key == kNotNumbersKey) {
        own.not_number_words = words;
    } else if (key.starts_with(kNumbersKey)) {
        own.number_words[std::stoul(key.substr(kNumbersKey.size()))] = words;
    } else {
        const std::string term = key.substr(kGlossaryKey.size());
        const auto found = std::find_if(own.glossary.begin(), own.glossary.end(),
                                        [&term](const Term& mine) { return mine.key == term; });
        if (found != own.glossary.end()) {
            found->forms = words;
        } else {
            own.glossary.push_back({term, words});
        }
    }
}

std::vector<std::string> split_words(std::string_view text) {
    std::vector<std::string> out;
    while (!text.empty()) {
        // The Arabic comma too: a translator's keyboard has no other.
        const std::size_t ascii = text.find(',');
        const std::size_t arabic = text.find("،");
        const std::size_t end = std::min({ascii, arabic, text.size()});
        std::string_view word = text.substr(0, end);
        while (!word.empty() && word.front() == ' ') {
            word.remove_prefix(1);
        }
        while (!word.empty() && word.back() == ' ') {
            word.remove_suffix(1);
        }
        if (!word.empty()) {
            out.emplace_back(word);
        }
        const std::size_t comma = end == arabic && end != ascii ? std::string_view("،").size() : 1;
        text.remove_prefix(std::min(end + comma, text.size()));
    }
    return out;
}

std::string unknown_source(std::string_view hash) {
    return std::string(kUnknownBegin) + std::string(hash) + std::string(kUnknownEnd);
}

std::string hash_of_previous(std::string_view previous) {
    const std::size_t around = kUnknownBegin.size() + kUnknownEnd.size();
    if (previous.starts_with(kUnknownBegin) && previous.ends_with(kUnknownEnd) &&
        previous.size() > around) {
        return std::string(previous.substr(kUnknownBegin.size(), previous.size() - around));
    }
    return source_hash(previous);
}

} // namespace tickleaf::locale
