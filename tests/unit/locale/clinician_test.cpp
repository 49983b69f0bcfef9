// SPDX-License-Identifier: MIT
// The texts of the clinician's copy stand apart: no language but English need have them, and one
// that has them has them whole.
#include <catch2/catch.hpp>

#include "environments.h"
#include "locale/language.h"
#include "locale/lint.h"

using namespace tickleaf::locale;
using tickleaf::locale::test::MemoryEnvironment;
using tickleaf::support::Findings;
using tickleaf::support::Sources;

namespace {

std::map<std::string, std::string> files() {
    const std::string head = "format: 1\nlong_date: d MMMM y\nshort_date: d MMM\n";
    return {
        {"locales/en/language.yaml", head + "name: English\nenglish_name: English\nlocale: en-GB\n"
                                            "side_words: {left: left, right: right}\n"},
        {"locales/en/booklet.yaml", "format: 1\ntexts:\n  a.text: one\n"},
        {"locales/en/units.yaml", "format: 1\ntexts:\n  b.text: two\n"},
        {"locales/en/clinician.yaml",
         "format: 1\ntexts:\n  clinician.first: three\n  clinician.second: four\n"},
        {"locales/es/language.yaml", head + "name: Español\nenglish_name: Spanish\nlocale: es\n"
                                            "side_words: {left: izquierda, right: derecha}\n"},
        {"locales/es/booklet.yaml", "format: 1\ntexts:\n  a.text: {text: uno, of: " +
                                        source_hash("one") + ", state: draft}\n"},
        {"locales/es/units.yaml", "format: 1\ntexts:\n  b.text: {text: dos, of: " +
                                      source_hash("two") + ", state: draft}\n"},
    };
}

std::vector<std::string> lint_ids(const std::map<std::string, std::string>& all) {
    const MemoryEnvironment environment(all);
    Sources sources;
    Findings findings;
    lint(environment, sources, "es", findings);
    return test::ids(findings);
}

} // namespace

TEST_CASE("a language without the clinician's texts is complete") {
    const MemoryEnvironment environment(files());
    Sources sources;
    Findings findings;
    const Coverage spanish = coverage(environment, sources, "es", findings);
    CHECK(spanish.all.texts == 2);
    CHECK(spanish.all.present == 2);
    CHECK(lint_ids(files()).empty());
    const auto language = Language::load(environment, sources, "es", {}, findings);
    REQUIRE(language);
    CHECK(findings.size() == 0);
    CHECK_FALSE(language->has_clinician_texts());
    CHECK_FALSE(language->load_clinician_texts(findings));
    CHECK(test::ids(findings) == std::vector<std::string>{"text-missing"});
}

TEST_CASE("a language that has the clinician's texts must have them all") {
    auto all = files();
    all["locales/es/clinician.yaml"] =
        "format: 1\ntexts:\n  clinician.first: {text: tres, of: " + source_hash("three") +
        ", state: draft}\n";
    CHECK(lint_ids(all) == std::vector<std::string>{"text-missing"});
    all["locales/es/clinician.yaml"] +=
        "  clinician.second: {text: cuatro, of: 00000000, state: draft}\n";
    CHECK(lint_ids(all) == std::vector<std::string>{"text-stale"});

    const MemoryEnvironment environment(all);
    Sources sources;
    Findings findings;
    const auto language = Language::load(environment, sources, "es", {}, findings);
    REQUIRE(language);
    CHECK(language->has_clinician_texts());
    CHECK(language->load_clinician_texts(findings));
    CHECK(language->message("clinician.first", {}, findings).text == "tres");
    CHECK(findings.size() == 0);
    CHECK(coverage(environment, sources, "es", findings).all.texts == 2);
}
