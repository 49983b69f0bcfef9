// SPDX-License-Identifier: MIT
// Catalogs, review states, missing texts, durations and ranges. Hashes: FNV-1a 32 test vectors of
// the algorithm's published description (RFC draft eastlake-fnv, value from memory).
#include <catch2/catch.hpp>

#include <map>
#include <string>
#include <vector>

#include "environments.h"
#include "locale/language.h"

using namespace tickleaf::locale;
using tickleaf::locale::test::MemoryEnvironment;
using tickleaf::locale::test::TreeEnvironment;
using tickleaf::support::Findings;
using tickleaf::support::Seconds;
using tickleaf::support::Side;
using tickleaf::support::Sources;

namespace {

using Files = std::map<std::string, std::string>;

Files two_languages() {
    return {
        {"locales/README.md", "words"},
        {"locales/en/language.yaml", "format: 1\nname: English\nenglish_name: English\nlocale: "
                                     "en-GB\nlong_date: EEEE d MMMM y\n"
                                     "short_date: d MMM\nside_words: {left: left, right: right}\n"},
        {"locales/en/booklet.yaml",
         "format: 1\ntexts:\n  cover.title: Exercises\n  cover.old: New words\n"
         "  cover.only: \"{n, plural, one {# day} other {# days}}\"\n"
         "  tips.1: a\n  tips.2: b\n  tips.4: d\n"},
        {"locales/en/units.yaml", "format: 1\ntexts:\n  number.range: \"{low} to {high}\"\n"},
        {"locales/en/exercises/squat.yaml",
         "format: 1\ntexts:\n  name: Squat\n  safety: Hold on.\n"},
        {"locales/es/language.yaml",
         "format: 1\nname: Español\nenglish_name: Spanish\nlocale: es\nlong_date: EEEE d MMMM y\n"
         "short_date: d MMM\nside_words: {left: izquierdo, right: derecho}\n"},
        {"locales/es/booklet.yaml",
         "format: 1\ntexts:\n  cover.title: {text: Ejercicios, of: " + source_hash("Exercises") +
             ", state: reviewed, by: medical translator, on: 2026-02-01}\n  cover.old: {text: "
             "Palabras, of: " +
             source_hash("Old words") +
             ", state: reviewed, by: medical translator, on: 2026-02-01}\n"},
        {"locales/es/units.yaml",
         "format: 1\ntexts:\n  number.range: {text: \"{low} a {high}\", of: " +
             source_hash("{low} to {high}") + ", state: draft}\n"},
        {"locales/es/exercises/squat.yaml", "format: 1\ntexts:\n  name: {text: Sentadilla, of: " +
                                                source_hash("Squat") + ", state: draft}\n"},
    };
}

/// A language over files in memory, and what was found while loading it.
struct Loaded {
    explicit Loaded(Files files, const std::string& tag, Options options = {})
        : environment(std::move(files)),
          language(Language::load(environment, sources, tag, options, findings)) {}
    MemoryEnvironment environment;
    Sources sources;
    Findings findings;
    std::shared_ptr<Language> language;
    std::string told() const { return test::told(findings, sources); }
};

std::vector<std::string> faults_of(const std::string& path, const std::string& text) {
    Files files = two_languages();
    files[path] = text;
    const Loaded loaded(files, "es");
    return test::ids(loaded.findings);
}

} // namespace

TEST_CASE("source_hash is FNV-1a 32") {
    CHECK(source_hash("") == "811c9dc5");
    CHECK(source_hash("a") == "e40c292c");
    CHECK(source_hash("foobar") == "bf9cf968");
}

TEST_CASE("English first among the languages there are") {
    Files files = two_languages();
    files["locales/ar/language.yaml"] = "";
    files["locales/zz/booklet.yaml"] = "";
    CHECK(available(MemoryEnvironment(files)) == std::vector<std::string>{"en", "ar", "es"});
}

TEST_CASE("texts come with their review state") {
    Loaded es(two_languages(), "es");
    CHECK(es.told().empty());
    REQUIRE(es.language);
    CHECK(es.language->tag() == "es");
    CHECK(es.language->own_name() == "Español");
    CHECK_FALSE(es.language->right_to_left());
    const Message title = es.language->message("cover.title", {}, es.findings);
    CHECK(title.text == "Ejercicios");
    CHECK(title.state == ReviewState::Reviewed);
    CHECK(es.language->message("cover.old", {}, es.findings).state == ReviewState::Stale);
    CHECK(es.language
              ->message("number.range", {{"low", std::int64_t{1}}, {"high", std::int64_t{2}}},
                        es.findings)
              .state == ReviewState::Draft);
    Loaded en(two_languages(), "en");
    REQUIRE(en.language);
    CHECK(en.language->message("cover.title", {}, en.findings).state == ReviewState::Source);
    CHECK(en.findings.size() + es.findings.size() == 0);
}

TEST_CASE("a missing text is an error that names key and language") {
    Loaded es(two_languages(), "es");
    REQUIRE(es.language);
    CHECK(es.language->message("cover.only", {{"n", std::int64_t{3}}}, es.findings).text.empty());
    CHECK(test::ids(es.findings) == std::vector<std::string>{"text-missing"});
    CHECK(es.told().find("\"cover.only\" is missing in Spanish") != std::string::npos);
    CHECK(es.told().find("locales/en/booklet.yaml:5") != std::string::npos);
}

TEST_CASE("allowed to be missing, a text is the English, marked and unreviewed") {
    Loaded es(two_languages(), "es", Options{false, true});
    REQUIRE(es.language);
    const Message message =
        es.language->message("cover.only", {{"n", std::int64_t{3}}}, es.findings);
    CHECK(message.text == "[en] 3 days");
    CHECK(message.state == ReviewState::Draft);
    CHECK(es.told().empty());
    es.language->message("cover.nowhere", {}, es.findings);
    CHECK(test::ids(es.findings) == std::vector<std::string>{"text-missing"});
}

TEST_CASE("exercise texts are asked for with their exercise") {
    Loaded es(two_languages(), "es");
    REQUIRE(es.language);
    CHECK_FALSE(es.language->has("exercise.squat.name"));
    CHECK(es.language->load_exercise("squat", es.findings));
    CHECK(es.language->load_exercise("squat", es.findings));
    CHECK(es.language->message("exercise.squat.name", {}, es.findings).text == "Sentadilla");
    CHECK(es.told().empty());
    // Spanish lost the safety note: it is there to be asked for, so that its loss is found.
    CHECK(es.language->has("exercise.squat.safety"));
    es.language->message("exercise.squat.safety", {}, es.findings);
    CHECK(test::ids(es.findings) == std::vector<std::string>{"text-missing"});
}

TEST_CASE("an exercise without words, and a name that is no file name") {
    Loaded es(two_languages(), "es");
    REQUIRE(es.language);
    CHECK_FALSE(es.language->load_exercise("lunge", es.findings));
    CHECK_FALSE(es.language->load_exercise("../../en/booklet", es.findings));
    CHECK(es.findings.size() == 2);
    // Asked for again, what was wrong is told again: the first asker may have thrown it away.
    Findings again;
    CHECK_FALSE(es.language->load_exercise("lunge", again));
    CHECK(again.size() == 1);
}

TEST_CASE("numbered entries are counted in the English up to the first gap") {
    const Loaded es(two_languages(), "es");
    REQUIRE(es.language);
    CHECK(es.language->count("tips") == 2);
    CHECK(es.language->count("nothing") == 0);
}

TEST_CASE("an unknown language is told, with the nearest") {
    const Loaded it(two_languages(), "e");
    CHECK_FALSE(it.language);
    CHECK(test::ids(it.findings) == std::vector<std::string>{"language-unknown"});
    const Loaded path(two_languages(), "../locales/es");
    CHECK_FALSE(path.language);
}

TEST_CASE("faults of catalog files") {
    const std::string path = "locales/es/booklet.yaml";
    const std::string head = "format: 1\ntexts:\n  cover.title: ";
    using Ids = std::vector<std::string>;
    CHECK(faults_of(path, "format: 2\ntexts: {}\n") == Ids{"catalog-format"});
    CHECK(faults_of(path, "format: 1\ntexts: [a]\n") == Ids{"catalog-format"});
    CHECK(faults_of(path, head + "Ejercicios\n") == Ids{"wrong-type"});
    CHECK(faults_of(path, head + "{text: E, of: 12, state: draft}\n") == Ids{"catalog-hash"});
    CHECK(faults_of(path, head + "{text: E, of: 12345678, state: done}\n") == Ids{"catalog-state"});
    CHECK(faults_of(path, head + "{text: E, of: 12345678, state: reviewed, by: nurse}\n") ==
          Ids{"catalog-state"});
    CHECK(faults_of(path,
                    head + "{text: E, of: 12345678, state: reviewed, by: nurse, on: 1/2/26}\n") ==
          Ids{"catalog-state"});
    CHECK(faults_of(path, head + "{text: E, of: 12345678, state: draft, date: 2026}\n") ==
          Ids{"unknown-key"});
    CHECK(faults_of(path,
                    "format: 1\ntexts:\n  Cover Title: {text: E, of: 12345678, state: draft}\n") ==
          Ids{"catalog-key"});
    CHECK(faults_of(path,
                    "format: 1\ntexts:\n  number.range: {text: E, of: 12345678, state: draft}\n") ==
          Ids{"catalog-key"});
}

TEST_CASE("faults of language files") {
    const std::string path = "locales/es/language.yaml";
    const std::string good = two_languages().at(path);
    const auto with = [&](const std::string& from, const std::string& to) {
        std::string text = good;
        text.replace(text.find(from), from.size(), to);
        return faults_of(path, text);
    };
    using Ids = std::vector<std::string>;
    CHECK(with("locale: es", "locale: qq") == Ids{"language-locale"});
    CHECK(with("EEEE d", "EEEE k") == Ids{"language-date"});
    CHECK(with("short_date", "companion_calendar: mayan\nshort_date") == Ids{"language-calendar"});
    CHECK(with("short_date", "companion_calendar: persian\nshort_date") == Ids{"missing-key"});
    CHECK(with("left: izquierdo, ", "") == Ids{"language-side-words"});
    CHECK(with("name: Español\n", "") == Ids{"missing-key"});
}

TEST_CASE("a missing catalog of a language is an error") {
    Files files = two_languages();
    files.erase("locales/es/units.yaml");
    CHECK(test::ids(Loaded(files, "es").findings) == std::vector<std::string>{"text-missing"});
    CHECK(Loaded(files, "es", Options{false, true}).language);
}

TEST_CASE("coverage counts against English") {
    const MemoryEnvironment environment(two_languages());
    Sources sources;
    Findings findings;
    const Coverage es = coverage(environment, sources, "es", findings);
    CHECK(es.own_name == "Español");
    CHECK(es.all.texts == 9);
    CHECK(es.all.present == 4);
    CHECK(es.all.reviewed == 1);
    CHECK(es.all.stale == 1);
    const Coverage en = coverage(environment, sources, "en", findings);
    CHECK(en.all.present == en.all.texts);
    CHECK(en.all.stale == 0);
    CHECK(findings.size() == 0);
}

TEST_CASE("durations and ranges in words") {
    struct Row {
        std::int64_t low;
        std::int64_t high;
        std::string english;
        std::string spanish;
    };
    const std::vector<Row> rows = {
        {0, 0, "0\u00A0seconds", "0\u00A0segundos"},
        {1, 1, "1\u00A0second", "1\u00A0segundo"},
        {45, 45, "45\u00A0seconds", "45\u00A0segundos"},
        {60, 60, "1\u00A0minute", "1\u00A0minuto"},
        {90, 90, "1\u00A0minute 30\u00A0seconds", "1\u00A0minuto y 30\u00A0segundos"},
        {121, 121, "2\u00A0minutes 1\u00A0second", "2\u00A0minutos y 1\u00A0segundo"},
        {3600, 3600, "1\u00A0hour", "1\u00A0hora"},
        {4500, 4500, "1\u00A0hour 15\u00A0minutes", "1\u00A0hora y 15\u00A0minutos"},
        {7201, 7201, "2\u00A0hours 0\u00A0minutes 1\u00A0second",
         "2\u00A0horas, 0\u00A0minutos y 1\u00A0segundo"},
        {60, 90, "60 to 90\u00A0seconds", "60 a 90\u00A0segundos"},
        {0, 1, "0 to 1\u00A0second", "0 a 1\u00A0segundo"},
        {120, 180, "2 to 3\u00A0minutes", "2 a 3\u00A0minutos"},
        {60, 120, "1 to 2\u00A0minutes", "1 a 2\u00A0minutos"},
        {90, 180, "1\u00A0minute 30\u00A0seconds to 3\u00A0minutes",
         "1\u00A0minuto y 30\u00A0segundos a 3\u00A0minutos"},
    };
    const TreeEnvironment tree;
    Sources sources;
    Findings findings;
    for (const std::string tag : {"en", "es"}) {
        const auto language = Language::load(tree, sources, tag, {}, findings);
        REQUIRE(language);
        for (const Row& row : rows) {
            CHECK(language->duration_range({Seconds{row.low}, Seconds{row.high}}, findings) ==
                  (tag == "en" ? row.english : row.spanish));
        }
        CHECK(language->range({8, 12}, findings) ==
              (tag == "en" ? "8\u00A0to\u00A012" : "8\u00A0a\u00A012"));
        CHECK(language->range({5, 5}, findings) == "5");
    }
    CHECK(test::told(findings, sources).empty());
}

TEST_CASE("dates of the languages there are") {
    const TreeEnvironment tree;
    Sources sources;
    Findings findings;
    const auto en = Language::load(tree, sources, "en", {}, findings);
    const auto es = Language::load(tree, sources, "es", {}, findings);
    REQUIRE(en);
    REQUIRE(es);
    const std::chrono::year_month_day start(std::chrono::year(2026), std::chrono::month(3),
                                            std::chrono::day(2));
    CHECK(en->long_date(start) == "Monday, 2\u00A0March\u00A02026");
    CHECK(en->short_date(start) == "2 Mar");
    CHECK(en->weekday_short(start) == "Mon");
    CHECK(es->long_date(start) == "lunes, 2\u00A0de\u00A0marzo\u00A0de\u00A02026");
    CHECK(es->short_date(start) == "2\u00A0mar");
    CHECK(es->weekday_short(start) == "lun");
    CHECK(es->first_day_of_week() == 1);
}
