// SPDX-License-Identifier: MIT
// The catalogs of the project: linted, complete, and the words of every exercise short and plain.
// Sentence length: at most 15 words (common practice of plain language for patients).
#include <catch2/catch.hpp>

#include <algorithm>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include <unicode/dtfmtsym.h>
#include <unicode/dtptngen.h>
#include <unicode/smpdtfmt.h>

#include "environments.h"
#include "locale/catalog.h"
#include "locale/language.h"
#include "locale/language_file.h"
#include "locale/lint.h"
#include "locale/pattern.h"

using namespace tickleaf::locale;
using tickleaf::locale::test::TreeEnvironment;
using tickleaf::support::Findings;
using tickleaf::support::Side;
using tickleaf::support::Sources;

namespace {

constexpr int kMostWords = 15;

std::vector<std::string> exercise_ids(const TreeEnvironment& tree, const std::string& folder) {
    std::vector<std::string> out;
    for (const std::string& name : tree.list_data(folder)) {
        if (name.ends_with(".yaml")) {
            out.push_back(name.substr(0, name.size() - 5));
        }
    }
    return out;
}

int longest_sentence(const std::string& text) {
    int longest = 0;
    int words = 0;
    bool in_word = false;
    for (const char c : text + " ") {
        if (c == ' ') {
            words += in_word ? 1 : 0;
            in_word = false;
        } else if (c == '.' || c == '?' || c == '!') {
            words += in_word ? 1 : 0;
            in_word = false;
            longest = std::max(longest, words);
            words = 0;
        } else {
            in_word = true;
        }
    }
    return std::max(longest, words);
}

bool reads_well(const std::string& text) {
    return text.find("  ") == std::string::npos && text.find(" .") == std::string::npos &&
           text.find(" ,") == std::string::npos && !text.empty() && text.front() != ' ' &&
           text.back() != ' ';
}

void check_exercise_text(const Language& language, const std::string& key, Findings& findings) {
    for (const Side side : {Side::Left, Side::Right, Side::Both, Side::None}) {
        const std::string text = language.message(key, {{"side", side}}, findings).text;
        CAPTURE(key, text);
        CHECK(reads_well(text));
        CHECK(longest_sentence(text) <= kMostWords);
        // Doses come from the prescription, never from these texts.
        CHECK(text.find_first_of("0123456789") == std::string::npos);
        const bool is_name = key.ends_with(".name");
        CHECK((text.back() == '.') == !is_name);
    }
}

/// A date is kept on one line by no-break spaces, which CLDR leaves to the page.
std::string with_plain_spaces(std::string pattern) {
    constexpr std::string_view kNoBreakSpace = "\u00A0";
    for (std::size_t at = 0; (at = pattern.find(kNoBreakSpace, at)) != std::string::npos;) {
        pattern.replace(at, kNoBreakSpace.size(), " ");
    }
    return pattern;
}

} // namespace

TEST_CASE("every catalog there is passes the lint") {
    const TreeEnvironment tree;
    const auto tags = available(tree);
    CHECK(std::find(tags.begin(), tags.end(), "es") != tags.end());
    for (const std::string& tag : tags) {
        Sources sources;
        Findings findings;
        lint(tree, sources, tag, findings);
        CAPTURE(tag);
        CHECK(test::told(findings, sources) == "");
    }
}

TEST_CASE("every exercise has its words in English and Spanish") {
    const TreeEnvironment tree;
    const auto worded = exercise_ids(tree, "locales/en/exercises");
    for (const std::string& id : exercise_ids(tree, "figures")) {
        CAPTURE(id);
        CHECK(std::find(worded.begin(), worded.end(), id) != worded.end());
    }
    CHECK(worded == exercise_ids(tree, "locales/es/exercises"));
    CHECK(worded.size() >= 8);
}

TEST_CASE("the words of every exercise are complete, short and without doses") {
    const TreeEnvironment tree;
    for (const std::string tag : {"en", "es"}) {
        Sources sources;
        Findings findings;
        const auto language = Language::load(tree, sources, tag, {}, findings);
        REQUIRE(language);
        for (const std::string& id : exercise_ids(tree, "locales/en/exercises")) {
            REQUIRE(language->load_exercise(id, findings));
            const std::string prefix = "exercise." + id;
            const int steps = language->count(prefix + ".step");
            CHECK(steps >= 3);
            CHECK(steps <= 5);
            CHECK(language->count(prefix + ".mistake") == 2);
            std::vector<std::string> keys = {"name", "purpose",   "setup",
                                             "feel", "mistake.1", "mistake.2"};
            for (int i = 1; i <= steps; ++i) {
                keys.push_back("step." + std::to_string(i));
            }
            if (language->has(prefix + ".safety")) {
                keys.push_back("safety");
            }
            for (const std::string& key : keys) {
                check_exercise_text(*language, prefix + "." + key, findings);
            }
        }
        CHECK(test::told(findings, sources) == "");
    }
}

TEST_CASE("only known keys stand in exercise files") {
    const TreeEnvironment tree;
    Sources sources;
    Findings findings;
    for (const std::string& id : exercise_ids(tree, "locales/en/exercises")) {
        Catalog catalog;
        REQUIRE(read_catalog(exercise_file("en", id), {tree, sources, findings}, catalog));
        for (const auto& [key, entry] : catalog.texts) {
            const std::string local = key.substr(("exercise." + id + ".").size());
            const bool numbered =
                local.size() > 2 && (local.starts_with("step.") || local.starts_with("mistake."));
            CAPTURE(key);
            CHECK((numbered || local == "name" || local == "purpose" || local == "setup" ||
                   local == "feel" || local == "safety"));
        }
    }
    CHECK(test::told(findings, sources) == "");
}

TEST_CASE("left and right words come from the side alone") {
    const TreeEnvironment tree;
    Sources sources;
    Findings findings;
    const auto en = Language::load(tree, sources, "en", {}, findings);
    const auto es = Language::load(tree, sources, "es", {}, findings);
    REQUIRE(en);
    REQUIRE(es);
    en->load_exercise("step-up", findings);
    es->load_exercise("step-up", findings);
    const auto said = [&](const Language& language, Side side) {
        return language.message("exercise.step-up.step.1", {{"side", side}}, findings).text;
    };
    CHECK(said(*en, Side::Left) == "Put your whole left foot on the step.");
    CHECK(said(*en, Side::Right) == "Put your whole right foot on the step.");
    CHECK(said(*en, Side::None) == "Put one whole foot on the step.");
    CHECK(said(*es, Side::Left) == "Ponga el pie izquierdo entero sobre el escalón.");
    CHECK(said(*es, Side::Right) == "Ponga el pie derecho entero sobre el escalón.");
    CHECK(said(*es, Side::Both) == "Ponga un pie entero sobre el escalón.");
    CHECK(test::told(findings, sources) == "");
}

// The patterns are written down in language.yaml; ICU 72 (CLDR 42) is asked here whether they are
// its own. Hindi and Bengali name the month of a short date in full (cut short, not every month is
// a word that a patient knows), and U+00A0 may tie the parts of a date.
TEST_CASE("date patterns are those of CLDR 42") {
    const TreeEnvironment tree;
    for (const std::string& tag : available(tree)) {
        Sources sources;
        Findings findings;
        const auto file = read_language_file(tag, {tree, sources, findings});
        REQUIRE(file);
        UErrorCode code = U_ZERO_ERROR;
        icu::Locale locale = icu::Locale::forLanguageTag(file->formats.locale, code);
        locale.setKeywordValue("calendar", "gregorian", code);
        const std::unique_ptr<icu::DateFormat> full(
            icu::DateFormat::createDateInstance(icu::DateFormat::kFull, locale));
        const std::unique_ptr<icu::DateTimePatternGenerator> generator(
            icu::DateTimePatternGenerator::createInstance(locale, code));
        REQUIRE(U_SUCCESS(code));
        std::string long_pattern;
        std::string short_pattern;
        icu::UnicodeString pattern;
        dynamic_cast<icu::SimpleDateFormat&>(*full).toPattern(pattern).toUTF8String(long_pattern);
        const bool in_full = tag == "hi" || tag == "bn";
        generator->getBestPattern(in_full ? "dMMMM" : "dMMM", code).toUTF8String(short_pattern);
        CAPTURE(tag);
        CHECK(with_plain_spaces(file->formats.long_date) == with_plain_spaces(long_pattern));
        CHECK(with_plain_spaces(file->formats.short_date) == with_plain_spaces(short_pattern));
    }
}

// Urdu's word for a week is its word for Saturday too. Names of days: CLDR 42, through ICU.
TEST_CASE("a week is not named like a day of the week") {
    const TreeEnvironment tree;
    for (const std::string& tag : available(tree)) {
        Sources sources;
        Findings findings;
        const auto file = read_language_file(tag, {tree, sources, findings});
        const auto language = Language::load(tree, sources, tag, {}, findings);
        REQUIRE(file);
        REQUIRE(language);
        UErrorCode code = U_ZERO_ERROR;
        const icu::DateFormatSymbols symbols(
            icu::Locale::forLanguageTag(file->formats.locale, code), code);
        REQUIRE(U_SUCCESS(code));
        std::set<std::string> days;
        for (const auto width : {icu::DateFormatSymbols::WIDE, icu::DateFormatSymbols::SHORT}) {
            std::int32_t count = 0;
            const icu::UnicodeString* names =
                symbols.getWeekdays(count, icu::DateFormatSymbols::STANDALONE, width);
            for (std::int32_t i = 1; i < count; ++i) {
                std::string name;
                days.insert(names[i].toUTF8String(name));
            }
        }
        for (const char* key : {"log.week", "ladder.week"}) {
            std::string text = language->message(key, {{"week", std::string("")}}, findings).text;
            // The number is isolated; what stands around it is compared.
            for (const char* mark : {"\u2068", "\u2069", " "}) {
                for (auto at = text.find(mark); at != std::string::npos; at = text.find(mark)) {
                    text.erase(at, std::string_view(mark).size());
                }
            }
            CAPTURE(tag, text);
            for (const std::string& day : days) {
                CHECK(text != day);
            }
        }
    }
}

TEST_CASE("a range stays on one line in every language") {
    const TreeEnvironment tree;
    for (const std::string& tag : available(tree)) {
        Sources sources;
        Findings findings;
        const auto language = Language::load(tree, sources, tag, {}, findings);
        REQUIRE(language);
        const std::string text = language->range({8, 12}, findings);
        CAPTURE(tag, text);
        CHECK(text.size() > 3);
        CHECK(text.find(' ') == std::string::npos);
    }
}
