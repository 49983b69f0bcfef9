// SPDX-License-Identifier: MIT
// Each rule of the catalog lint, with a text that breaks it and one that does not.
#include <catch2/catch.hpp>

#include <map>
#include <string>
#include <vector>

#include "environments.h"
#include "locale/language.h"
#include "locale/lint.h"

using namespace tickleaf::locale;
using tickleaf::locale::test::MemoryEnvironment;
using tickleaf::support::Findings;
using tickleaf::support::Sources;

namespace {

using Ids = std::vector<std::string>;

const std::map<std::string, std::string>& language_files() {
    static const std::string head = "format: 1\nlong_date: d MMMM y\nshort_date: d MMM\n";
    static const std::map<std::string, std::string> files = {
        {"en", head + "name: English\nenglish_name: English\nlocale: en-GB\nside_words: {left: "
                      "left, right: right}\n"},
        {"es", head + "name: Español\nenglish_name: Spanish\nlocale: es\n"
                      "side_words: {left: [izquierdo, izquierda], right: [derecho, derecha]}\n"},
        {"pl", head + "name: polski\nenglish_name: Polish\nlocale: pl\nside_words: {left: lewa, "
                      "right: prawa}\n"},
        {"fr", head + "name: français\nenglish_name: French\nlocale: fr\nside_words: {left: "
                      "gauche, right: droite}\n"},
        {"uk", head + "name: українська\nenglish_name: Ukrainian\nlocale: uk\nside_words: {left: "
                      "ліва, right: права}\n"},
        {"zh",
         head +
             "name: 中文\nenglish_name: Chinese\nlocale: zh\nside_words: {left: 左, right: 右}\n"},
        {"ja", head + "name: 日本語\nenglish_name: Japanese\nlocale: ja\nside_words: {left: 左, "
                      "right: 右}\n"},
    };
    return files;
}

/// Rules that one English text and its translation break.
Ids lint_pair(const std::string& tag, const std::string& english, const std::string& other) {
    std::map<std::string, std::string> files = {
        {"locales/en/language.yaml", language_files().at("en")},
        {"locales/en/booklet.yaml", "format: 1\ntexts:\n  a.text: \"" + english + "\"\n"},
    };
    if (tag != "en") {
        files["locales/" + tag + "/language.yaml"] = language_files().at(tag);
        files["locales/" + tag + "/booklet.yaml"] = "format: 1\ntexts:\n  a.text: {text: \"" +
                                                    other + "\", of: " + source_hash(english) +
                                                    ", state: draft}\n";
    }
    const MemoryEnvironment environment(files);
    Sources sources;
    Findings findings;
    lint(environment, sources, tag, findings);
    CAPTURE(test::told(findings, sources));
    for (const auto& finding : findings.all()) {
        CHECK(finding.span.line == 3);
        CHECK(finding.message.find("a.text") != std::string::npos);
    }
    return test::ids(findings);
}

Ids lint_english(const std::string& english) {
    return lint_pair("en", english, "");
}

} // namespace

TEST_CASE("lint of single texts") {
    const std::vector<std::pair<std::string, Ids>> rows = {
        {"Good morning", {}},
        {"{n, plural, one {# set} other {# sets}}", {}},
        {"{n, plural, one {set} other {sets}}", {}},
        {"{n, plural, =1 {one set} one {# set} other {# sets}}", {}},
        {"It's {n}", {"message-apostrophe"}},
        {"{n", {"message-syntax"}},
        {"{n, plural, one {# set}}", {"message-other"}},
        {"{n, number}", {"message-format"}},
        {"{n, plural, other {# sets}}", {"message-plural"}},
        {"{n, plural, one {# set} few {# sets} other {# sets}}", {"message-plural"}},
        {"{n, plural, one {# set} other {sets}}", {"message-number"}},
        {"No # here", {"message-syntax"}},
        {"a \u200Eb", {"message-syntax"}},
        {"Greek α", {"message-script"}},
        {"Сирилиц", {"message-script"}},
        {"", {"message-syntax"}},
        {"Lift your left foot", {"message-side"}},
        {"Left", {"message-side"}},
        {"leftover bright", {}},
        {"{side, select, left {left} right {right} other {}} foot", {}},
        {"{side, select, left {right} right {left} other {}} foot",
         {"message-side", "message-side"}},
        {"{side, select, left {left} other {}} foot", {"message-side"}},
        {"{side, select, left {left} right {right} other {left}} foot", {"message-side"}},
        {"{side, select, left {left} right {right} other {left and right}} foot", {}},
        {"{side, select, left {left} right {right} middle {x} other {}} foot", {"message-side"}},
        {"{n, plural, one {{side, select, left {left} right {right} other {a}} #} other {#}}", {}},
    };
    for (const auto& [text, expected] : rows) {
        CAPTURE(text);
        CHECK(lint_english(text) == expected);
    }
}

TEST_CASE("lint of translations") {
    struct Row {
        std::string tag;
        std::string english;
        std::string other;
        Ids expected;
    };
    const std::string sets = "{n, plural, one {# set} other {# sets}}";
    const std::string foot = "your {side, select, left {left } right {right } other {}}foot";
    const std::vector<Row> rows = {
        {"es", "Week {n}", "Semana {n}", {}},
        {"es", "Week {n}", "Semana", {"message-placeholder"}},
        {"es", "Week {n}", "Semana {m}", {"message-placeholder", "message-placeholder"}},
        {"es", "Week {n}", "Semana {n, select, a {b} other {c}}", {"message-placeholder"}},
        {"es", sets, "{n, plural, one {# serie} other {# series}}", {}},
        {"es", sets, "{n, plural, one {# serie} many {# de series} other {# series}}", {}},
        {"es", sets, "{n, plural, other {# series}}", {"message-plural"}},
        {"fr", sets, "{n, plural, one {# série} other {# séries}}", {}},
        // In French "one" serves 0 and 1, so it must print the number.
        {"fr", sets, "{n, plural, one {une série} other {# séries}}", {"message-number"}},
        {"pl",
         sets,
         "{n, plural, one {# seria} other {# serii}}",
         {"message-plural", "message-plural"}},
        {"pl", sets, "{n, plural, one {# seria} few {# serie} many {# serii} other {# serii}}", {}},
        {"es", foot, "el pie{side, select, left { izquierdo} right { derecho} other {}}", {}},
        {"es",
         foot,
         "el pie{side, select, left { derecho} right { izquierdo} other {}}",
         {"message-side", "message-side"}},
        {"es",
         foot,
         "el pie{side, select, left {} right {} other {}}",
         {"message-side", "message-side"}},
        {"es", foot, "el pie izquierdo", {"message-placeholder", "message-side"}},
        {"es", "Stand straight", "De pie, a la derecha", {"message-side"}},
        {"es", foot, "el PIE{side, select, left { IZQUIERDO} right { DERECHO} other {}}", {}},
        {"uk", "Leg", "Нога", {}},
        {"uk", "Leg", "Leg", {"message-script"}},
        {"uk", "PDF file", "файл PDF", {}},
        {"uk", "Leg", "Νoга", {"message-script"}}, // Greek capital nu
        {"zh", foot, "{side, select, left {左} right {右} other {}}脚", {}},
        {"zh", foot, "抬起左脚{side, select, left {左} right {右} other {}}", {"message-side"}},
        {"ja", "Lift the foot", "あしをアゲル足", {}},
    };
    for (const Row& row : rows) {
        CAPTURE(row.tag, row.other);
        CHECK(lint_pair(row.tag, row.english, row.other) == row.expected);
    }
}

TEST_CASE("lint compares the two catalogs") {
    const MemoryEnvironment environment({
        {"locales/en/language.yaml", language_files().at("en")},
        {"locales/en/booklet.yaml", "format: 1\ntexts:\n  a.text: One\n  b.text: Two\n"},
        {"locales/en/exercises/squat.yaml", "format: 1\ntexts:\n  name: Squat\n"},
        {"locales/es/language.yaml", language_files().at("es")},
        {"locales/es/booklet.yaml",
         "format: 1\ntexts:\n  a.text: {text: Uno, of: 00000000, state: draft}\n"
         "  c.text: {text: Tres, of: 00000000, state: draft}\n"},
    });
    Sources sources;
    Findings findings;
    lint(environment, sources, "es", findings);
    const std::string told = test::told(findings, sources);
    CAPTURE(told);
    CHECK(findings.size() == 4);
    CHECK(told.find("locales/es/booklet.yaml:3") != std::string::npos);
    CHECK(told.find("warning: text \"a.text\" was made from another English text") !=
          std::string::npos);
    CHECK(told.find("write of: " + source_hash("One")) != std::string::npos);
    CHECK(told.find("\"c.text\": is not in locales/en") != std::string::npos);
    CHECK(told.find("\"b.text\" is missing in Spanish") != std::string::npos);
    CHECK(told.find("\"exercise.squat.name\" is missing in Spanish") != std::string::npos);
}
