// SPDX-License-Identifier: MIT
// The phrase bank: put in, trusted, stale, missing, going in a circle; and what repeats in the
// catalogs of the project is in it.
#include <catch2/catch.hpp>

#include <map>
#include <set>
#include <string>
#include <vector>

#include "environments.h"
#include "locale/catalog.h"
#include "locale/language.h"
#include "locale/lint.h"
#include "locale/phrases.h"

using namespace tickleaf::locale;
using tickleaf::locale::test::MemoryEnvironment;
using tickleaf::locale::test::TreeEnvironment;
using tickleaf::support::Findings;
using tickleaf::support::Side;
using tickleaf::support::Sources;

namespace {

using Files = std::map<std::string, std::string>;
using Ids = std::vector<std::string>;

constexpr const char* kReviewed = "reviewed, by: translator, on: 2026-02-01";

std::string line(const std::string& key, const std::string& text, const std::string& english,
                 const std::string& state = "draft") {
    return "  " + key + ": {text: \"" + text + "\", of: " + source_hash(english) +
           ", state: " + state + "}\n";
}

/// Two languages with a phrase, a text that is the phrase, and one that has it among others.
Files shelf(const std::string& phrase_state = "draft", const std::string& text_state = "draft") {
    const std::string head = "format: 1\nlong_date: d MMMM y\nshort_date: d MMM\n";
    const std::string texts = "format: 1\ntexts:\n";
    return {
        {"locales/en/language.yaml", head + "name: English\nenglish_name: English\nlocale: en-GB\n"
                                            "side_words: {left: left, right: right}\n"},
        {"locales/pl/language.yaml", head + "name: polski\nenglish_name: Polish\nlocale: pl\n"
                                            "side_words: {left: lewa, right: prawa}\n"},
        {"locales/en/phrases.yaml", texts + "  sit: \"Sit.\"\n"
                                            "  leg: \"{side, select, left {left} right {right} "
                                            "other {one}} leg.\"\n"},
        {"locales/pl/phrases.yaml",
         texts + line("sit", "Siad.", "Sit.", phrase_state) +
             line("leg", "{side, select, left {lewa} right {prawa} other {jedna}} noga.",
                  "{side, select, left {left} right {right} other {one}} leg.", phrase_state)},
        {"locales/en/booklet.yaml",
         texts + "  a.whole: \"{phrase.leg}\"\n  a.both: \"{phrase.sit} Rest. {phrase.leg}\"\n"},
        {"locales/pl/booklet.yaml",
         texts + line("a.both", "{phrase.sit} Przerwa. {phrase.leg}",
                      "Sit. Rest. {side, select, left {left} right {right} other {one}} leg.",
                      text_state)},
        {"locales/en/units.yaml", texts.substr(0, texts.size() - 1) + " {}\n"},
        {"locales/pl/units.yaml", texts.substr(0, texts.size() - 1) + " {}\n"},
    };
}

struct Said {
    Message message;
    std::string told;
};

Said say(const Files& files, const std::string& tag, const std::string& key, Options options = {}) {
    const MemoryEnvironment environment(files);
    Sources sources;
    Findings findings;
    const auto language = Language::load(environment, sources, tag, options, findings);
    Said said;
    if (language) {
        said.message = language->message(key, {{"side", Side::Left}}, findings);
    }
    said.told = test::told(findings, sources);
    return said;
}

std::string lint_told(const Files& files, const std::string& tag) {
    const MemoryEnvironment environment(files);
    Sources sources;
    Findings findings;
    lint(environment, sources, tag, findings);
    return test::told(findings, sources);
}

void replace(std::string& text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    text.replace(at, from.size(), to);
}

} // namespace

TEST_CASE("phrases named in a text") {
    CHECK(phrases_in("{phrase.a.b-1} x {phrase.c}{phrase.a.b-1}") ==
          Ids{"phrase.a.b-1", "phrase.c", "phrase.a.b-1"});
    // A placeholder, a branch, an open brace, a space: no phrase.
    CHECK(phrases_in("{phrase} {n, plural, other {phrase.a}x} {phrase.b {phrase. c}").empty() ==
          false);
    CHECK(phrases_in("{phrase} {phrase.b {phrase. c}").empty());
    CHECK(only_phrase("{phrase.a}") == "phrase.a");
    CHECK(only_phrase("{phrase.a} ") == "");
    CHECK(only_phrase("{phrase.a}{phrase.b}") == "");
}

TEST_CASE("phrases are put in, with the side") {
    CHECK(say(shelf(), "en", "a.whole").message.text == "left leg.");
    CHECK(say(shelf(), "en", "a.both").message.text == "Sit. Rest. left leg.");
    CHECK(say(shelf(), "pl", "a.both").message.text == "Siad. Przerwa. lewa noga.");
    // No line in Polish, and none needed.
    CHECK(say(shelf(), "pl", "a.whole").message.text == "lewa noga.");
    CHECK(lint_told(shelf(), "en") == "");
    CHECK(lint_told(shelf(), "pl") == "");
    // A phrase in a phrase.
    Files files = shelf();
    replace(files["locales/en/phrases.yaml"], "Sit.", "Sit. {phrase.leg}");
    CHECK(say(files, "en", "a.both").message.text == "Sit. left leg. Rest. left leg.");
}

TEST_CASE("a text is trusted no further than its phrases") {
    const auto state = [](const Files& files, const std::string& key) {
        return say(files, "pl", key).message.state;
    };
    CHECK(state(shelf("draft", "draft"), "a.both") == ReviewState::Draft);
    CHECK(state(shelf("draft", kReviewed), "a.both") == ReviewState::Draft);
    CHECK(state(shelf(kReviewed, "draft"), "a.both") == ReviewState::Draft);
    CHECK(state(shelf(kReviewed, kReviewed), "a.both") == ReviewState::Reviewed);
    CHECK(state(shelf("draft"), "a.whole") == ReviewState::Draft);
    CHECK(state(shelf(kReviewed), "a.whole") == ReviewState::Reviewed);
    CHECK(say(shelf(kReviewed), "en", "a.both").message.state == ReviewState::Source);
    // Who changes a phrase of the English makes every text with it stale.
    Files changed = shelf(kReviewed, kReviewed);
    replace(changed["locales/en/phrases.yaml"], "} leg.", "} leg!");
    CHECK(state(changed, "a.both") == ReviewState::Stale);
    CHECK(state(changed, "a.whole") == ReviewState::Stale);
    const std::string told = lint_told(changed, "pl");
    CAPTURE(told);
    CHECK(told.find("locales/pl/phrases.yaml:4:15: warning: text \"phrase.leg\" was made from") !=
          std::string::npos);
    CHECK(told.find("locales/pl/booklet.yaml:3:18: warning: text \"a.both\" was made from") !=
          std::string::npos);
}

TEST_CASE("coverage counts texts that are a phrase by the phrase") {
    const auto count = [](const Files& files) {
        const MemoryEnvironment environment(files);
        Sources sources;
        Findings findings;
        return coverage(environment, sources, "pl", findings).all;
    };
    CHECK(count(shelf()).texts == 4);
    CHECK(count(shelf()).present == 4);
    CHECK(count(shelf(kReviewed)).reviewed == 3);
    CHECK(count(shelf(kReviewed, kReviewed)).reviewed == 4);
    Files without = shelf();
    without["locales/pl/phrases.yaml"] = "format: 1\ntexts: {}\n";
    CHECK(count(without).present == 0);
}

TEST_CASE("a phrase that is missing is a missing text") {
    Files files = shelf();
    files.erase("locales/pl/phrases.yaml");
    for (const char* key : {"a.whole", "a.both"}) {
        const Said said = say(files, "pl", key);
        CAPTURE(key, said.told);
        CHECK(said.message.text.empty());
        CHECK(said.told.find("error: text \"" + std::string(key) + "\" is missing in Polish") !=
              std::string::npos);
        Options options;
        options.allow_missing = true;
        const Said english = say(files, "pl", key, options);
        CHECK(english.told == "");
        CHECK(english.message.is_source);
        CHECK(english.message.text.find("[en] ") != std::string::npos);
        CHECK(english.message.text.find("left leg.") != std::string::npos);
    }
    const std::string told = lint_told(files, "pl");
    CHECK(told.find("text \"phrase.leg\" is missing in Polish") != std::string::npos);
    CHECK(told.find("a.whole") == std::string::npos); // told once
}

TEST_CASE("faults of phrases have file, line and key") {
    struct Row {
        std::string file, from, to, tag, expected;
    };
    const Row rows[] = {
        {"locales/en/phrases.yaml", "Sit.", "Sit. {phrase.sit}", "en",
         "locales/en/phrases.yaml:3:8: error: text \"phrase.sit\": the phrases go in a circle: "
         "phrase.sit, phrase.sit [phrase-circle]"},
        {"locales/en/booklet.yaml", "{phrase.sit}", "{phrase.sitt}", "en",
         "locales/en/booklet.yaml:4:11: error: text \"a.both\" names \"phrase.sitt\""},
        {"locales/pl/booklet.yaml", "{phrase.sit}", "{phrase.sitt}", "pl",
         "locales/pl/booklet.yaml:3:18: error: text \"a.both\" names \"phrase.sitt\", which is "
         "not in locales/en/phrases.yaml [phrase-unknown]"},
        {"locales/pl/booklet.yaml", "{phrase.sit}", "Siad.", "pl",
         "locales/pl/booklet.yaml:3:18: note: text \"a.both\" writes out \"phrase.sit\" "
         "[phrase-written-out]"},
        {"locales/pl/phrases.yaml", "Siad.", "Siad. {phrase.leg}", "pl",
         "locales/pl/phrases.yaml:3:15: error: text \"phrase.sit\" names \"phrase.leg\", and its "
         "English does not [phrase-other]"},
        {"locales/en/booklet.yaml", "{phrase.sit} ", "", "en",
         "locales/en/phrases.yaml:3:8: error: text \"phrase.sit\": no text names this phrase "
         "[phrase-unused]"},
        {"locales/en/booklet.yaml", "a.both", "safety.both", "en",
         "locales/en/booklet.yaml:4:16: error: text \"safety.both\" is safety text and names "
         "\"phrase.sit\" [phrase-safety]"},
        {"locales/pl/booklet.yaml", "{phrase.sit}", "{ phrase.sit}", "pl", "[message-syntax]"},
    };
    for (const Row& row : rows) {
        Files files = shelf();
        replace(files[row.file], row.from, row.to);
        const std::string told = lint_told(files, row.tag);
        CAPTURE(row.to, told);
        CHECK(told.find(row.expected) != std::string::npos);
    }
    // Two phrases that need each other.
    Files files = shelf();
    replace(files["locales/en/phrases.yaml"], "Sit.", "{phrase.leg}");
    replace(files["locales/en/phrases.yaml"], " leg.", " leg. {phrase.sit}");
    const std::string told = lint_told(files, "en");
    CAPTURE(told);
    CHECK(told.find("phrase.leg, phrase.sit, phrase.leg [phrase-circle]") != std::string::npos);
    CHECK(say(files, "en", "a.whole").message.text.empty());
    CHECK(say(files, "en", "a.whole").told.find("[phrase-circle]") != std::string::npos);
}

namespace {

/// Sentences of a text as it is written; braces keep together what they hold.
std::vector<std::string> sentences(const std::string& text) {
    std::vector<std::string> out(1);
    int depth = 0;
    for (const char c : text) {
        depth += c == '{' ? 1 : (c == '}' ? -1 : 0);
        if (!out.back().empty() || c != ' ') {
            out.back() += c;
        }
        if (depth == 0 && (c == '.' || c == '?' || c == '!')) {
            out.emplace_back();
        }
    }
    return out;
}

} // namespace

TEST_CASE("what repeats word for word in the exercises is in the phrase bank") {
    // "It" is a foot here and a forearm there; up and down is said of toes and of heels.
    const std::set<std::string> exempt = {
        "Bring it back slowly and with control.", "Rest your fingertips on it.",
        "Go all the way up and all the way down, without rushing."};
    const TreeEnvironment tree;
    Sources sources;
    Findings findings;
    const Catalog english = read_all_catalogs("en", {tree, sources, findings});
    std::map<std::string, std::string> first;
    int phrases = 0;
    for (const auto& [key, entry] : english.texts) {
        phrases += key.starts_with(kPhrasePrefix) ? 1 : 0;
        if (!key.starts_with("exercise.")) {
            continue;
        }
        for (const std::string& sentence : sentences(entry.written)) {
            if (sentence.empty() || sentence.front() == '{' || exempt.contains(sentence)) {
                continue; // a phrase, or a sentence that begins with a choice
            }
            const auto [known, is_new] = first.emplace(sentence, key);
            CAPTURE(sentence, key, known->second);
            CHECK(is_new);
        }
    }
    CHECK(phrases >= 80);
    CHECK(test::told(findings, sources) == "");
}
