// SPDX-License-Identifier: MIT
// The demo in every language of locales/: laid out whole, without an error and without a text that
// touches another, and the same programme as the starter that the patient of the README gets.
#include <catch2/catch.hpp>

#include <filesystem>
#include <set>
#include <variant>

#include <nlohmann/json.hpp>

#include "layout/verify.h"
#include "locale/language.h"
#include "prescription/prescription.h"
#include "way.h"

using namespace tickleaf;
using tests::Way;

namespace {

const std::string kRoot = TICKLEAF_ROOT;
const std::string kStarter = kRoot + "/templates/starters/ankle-sprain.yaml";
const std::string kEveryLanguage = kRoot + "/tests/booklet/cases/ankle-sprain-all-languages.yaml";

/// The texts of other languages than the starter's taken out, wherever texts stand by language.
void keep_starter_languages(nlohmann::json& json) {
    if (json.is_object() && json.contains("en") && json.contains("es")) {
        json = {{"en", json["en"]}, {"es", json["es"]}};
        return;
    }
    for (auto& child : json) {
        if (child.is_structured()) {
            keep_starter_languages(child);
        }
    }
}

/// Stretches of ASCII letters.
std::vector<std::string> latin_words(const std::string& text) {
    std::vector<std::string> words(1);
    for (const char c : text) {
        if ((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z')) {
            words.back() += c;
        } else if (!words.back().empty()) {
            words.emplace_back();
        }
    }
    if (words.back().empty()) {
        words.pop_back();
    }
    return words;
}

} // namespace

TEST_CASE("the demo of all languages is the starter's programme") {
    Way way;
    auto all = nlohmann::json::parse(prescription::dump(way.plan(kEveryLanguage).prescription));
    const auto starter = nlohmann::json::parse(prescription::dump(way.plan(kStarter).prescription));
    CHECK(all != starter);
    keep_starter_languages(all);
    CHECK(all == starter);
}

TEST_CASE("the demo is laid out in every language") {
    Way way;
    const auto plan = way.plan(kEveryLanguage);
    const auto page_template = tests::standard(way);
    const auto languages = locale::available(way.disk);
    CHECK(languages.size() == 13);
    for (const auto& language : languages) {
        workspace::Choice choice;
        choice.language = language;
        const auto booklet = way.workspace.booklet(plan, choice, way.findings);
        INFO(language << '\n' << way.said());
        REQUIRE(booklet);
        const auto document = way.workspace.document(*booklet, choice, way.findings);
        REQUIRE(document);
        auto faults = layout::verify(*document, page_template);
        if (language == "ur") {
            // The sloping hand needs nearly twice the height of a line; its longest exercises go
            // on on a second page, under their name. Nothing else is allowed to it.
            std::erase_if(faults, [](const layout::Fault& fault) {
                return fault.kind == layout::Fault::Kind::SplitGroup;
            });
        }
        CHECK(layout::to_text(faults) == "");
    }
    for (const auto& finding : way.findings.sorted()) {
        INFO(support::to_text(finding, way.sources));
        CHECK(finding.id == "layout-group-split");
        CHECK(finding.severity == support::Severity::Note);
    }
}

TEST_CASE("in a language of another script, nothing but names is left in Latin letters") {
    // What people and clinics are called, and the draft notice, which stands in English on purpose
    // and is marked as English.
    const std::set<std::string> names = {"Rosa",   "M", "Riverside", "Community",
                                         "Clinic", "T", "Adeyemi"};
    Way way;
    const auto plan = way.plan(kEveryLanguage);
    for (const std::string language : {"uk", "ar", "ur", "fa", "hi", "bn", "zh-Hans"}) {
        workspace::Choice choice;
        choice.language = language;
        const auto booklet = way.workspace.booklet(plan, choice, way.findings);
        REQUIRE(booklet);
        const auto document = way.workspace.document(*booklet, choice, way.findings);
        REQUIRE(document);
        std::set<std::string> left;
        std::size_t read = 0;
        for (const auto& page : document->pages) {
            for (const auto& item : page.items) {
                const auto* run = std::get_if<page::GlyphRun>(&item.content);
                if (run == nullptr || run->language == "en") {
                    continue;
                }
                read += run->text.size();
                for (const std::string& word : latin_words(run->text)) {
                    if (!names.contains(word)) {
                        left.insert(word);
                    }
                }
            }
        }
        INFO(language);
        CHECK(read > 10000);
        CHECK(left == std::set<std::string>{});
    }
}

TEST_CASE("every starter is made in its patient's languages without a word") {
    for (const auto& entry : std::filesystem::directory_iterator(kRoot + "/templates/starters")) {
        Way way;
        const auto plan = way.plan(entry.path().string());
        for (const auto& language : plan.prescription.patient.languages) {
            workspace::Choice choice;
            choice.language = language.value;
            const auto booklet = way.workspace.booklet(plan, choice, way.findings);
            REQUIRE(booklet);
            const auto document = way.workspace.document(*booklet, choice, way.findings);
            REQUIRE(document);
            INFO(entry.path().string() << ' ' << language.value);
            CHECK(layout::to_text(layout::verify(*document, tests::standard(way))) == "");
        }
        CHECK(way.said() == "");
    }
}
