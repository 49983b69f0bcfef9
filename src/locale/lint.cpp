// SPDX-License-Identifier: MIT
#include "locale/lint.h"

#include <map>
#include <optional>
#include <string>

#include "locale/catalog.h"
#include "locale/language_file.h"
#include "locale/lint_rules.h"
#include "locale/pattern.h"
#include "locale/phrases.h"

namespace tickleaf::locale {
namespace {

std::optional<Pattern> parse_quietly(const std::string& text) {
    PatternProblem ignored;
    return parse_pattern(text, ignored);
}

} // namespace

void lint_words(const std::string& key, const Entry& entry, const Bench& bench) {
    check_phrases(key, entry, bench);
    if (!entry.lacks.empty()) {
        return;
    }
    if (entry.text.find('\'') != std::string::npos) {
        bench.findings.error(entry.span, "message-apostrophe",
                             "text \"" + key + "\" has an ASCII apostrophe", "write ’ (U+2019)");
    }
    PatternProblem problem;
    const auto pattern = parse_pattern(entry.text, problem);
    if (!pattern) {
        bench.findings.error(entry.span, problem.id, "text \"" + key + "\": " + problem.message);
        return;
    }
    const Suspect suspect{key, entry, *pattern, bench.findings};
    check_literals(suspect);
    check_plurals(suspect, bench.formats);
    check_side(suspect, bench.language);
    check_script(suspect, bench.language.formats.locale);
    const Entry* english = bench.english.find(key);
    const auto source = english != nullptr ? parse_quietly(english->text) : std::nullopt;
    if (!source || bench.language.tag == kSourceTag) {
        return;
    }
    check_placeholders(suspect, *source);
    check_side_against_english(suspect, bench.language, *source, bench.english_language);
    check_length(suspect, *source);
    check_glossary(suspect, *source, bench);
    check_still_english(suspect, *source);
    check_numbers(suspect, *source);
    check_number_words(suspect, *source, bench);
}

namespace {

/// Whether the text has its place in English, and is made from the English that is there now.
void lint_source(const std::string& key, const Entry& entry, const Bench& bench) {
    const Entry* english = bench.english.find(key);
    if (english == nullptr) {
        bench.findings.error(entry.span, "text-unknown",
                             "text \"" + key + "\": is not in locales/en",
                             "remove it, or mend the key");
        return;
    }
    if (state_of(entry, english) == ReviewState::Stale) {
        bench.findings.warning(
            entry.span, "text-stale",
            "text \"" + key + "\" was made from another English text (" + entry.of + ")",
            "compare it with the English, then write of: " + source_hash(english->text));
    }
}

void lint_catalog(const Catalog& own, const Bench& bench) {
    for (const auto& [key, entry] : own.texts) {
        if (!entry.is_inherited) { // the phrase is looked at by itself
            lint_words(key, entry, bench);
            lint_source(key, entry, bench);
        }
    }
    for (const auto& [key, entry] : bench.english.texts) {
        const std::string phrase = only_phrase(entry.written);
        if (own.find(key) == nullptr && (phrase.empty() || own.find(phrase) != nullptr)) {
            bench.findings.error(entry.span, "text-missing",
                                 "text \"" + key + "\" is missing in " +
                                     bench.language.english_name,
                                 "add it to locales/" + bench.language.tag);
        }
    }
}

} // namespace

void lint(const support::Environment& environment, support::Sources& sources, std::string_view tag,
          support::Findings& findings) {
    const Reading reading{environment, sources, findings};
    const auto language = read_language_file(tag, reading);
    const auto english_language =
        tag == kSourceTag ? language : read_language_file(kSourceTag, reading);
    if (!language || !english_language) {
        return;
    }
    const Formats formats(language->formats);
    Catalog english = read_all_catalogs(kSourceTag, reading);
    Catalog own = english;
    if (tag == kSourceTag) {
        check_phrase_bank({*language, *english_language, english, own, formats, findings});
    } else {
        own = read_all_catalogs(tag, reading);
        inherit_phrases(own, english);
    }
    lint_catalog(own, {*language, *english_language, english, own, formats, findings});
    // The clinician's copy apart: a language has all of it or none.
    english = {};
    own = {};
    read_catalog(main_file(kSourceTag, kClinicianFile), reading, english);
    if (read_catalog(main_file(tag, kClinicianFile), reading, own)) {
        lint_catalog(own, {*language, *english_language, english, own, formats, findings});
    }
}

} // namespace tickleaf::locale
