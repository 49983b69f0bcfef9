// SPDX-License-Identifier: MIT
// The parts that only some page templates print: each carries by itself what keeps the patient
// safe.
#include <catch2/catch.hpp>

#include <algorithm>

#include "tests/unit/content/bench.h"
#include "tests/unit/content/walk.h"

using namespace tickleaf;
using namespace tickleaf::content;
using namespace tickleaf::content::test;

namespace {

Bench& bench() {
    static Bench one;
    return one;
}

std::string printed(const Booklet& booklet) {
    std::string text;
    for (const std::string& string : all_strings(booklet)) {
        text += plain(string) + "\n";
    }
    return text;
}

Booklet demo(Bench::Wish wish, const std::string& tag = "en") {
    static const auto planned = bench().plan(
        testing::SourceTree().read_data("templates/starters/ankle-sprain.yaml").value());
    support::Findings findings;
    const auto language = bench().language(tag);
    auto made = bench().compose(planned, *language, findings, nullptr, std::move(wish));
    INFO(bench().told(findings));
    REQUIRE(made);
    return std::move(*made);
}

std::vector<const Table*> weeks(const Booklet& booklet) {
    std::vector<const Table*> found;
    for (const Table* table : all<Table>(booklet)) {
        if (table->role == Table::Role::Log) {
            found.push_back(table);
        }
    }
    return found;
}

} // namespace

TEST_CASE("the sheet of a stage has its exercises with side and dose, and every stop sign") {
    const auto english = bench().language("en");
    support::Findings findings;
    for (std::size_t stage = 0; stage < 3; ++stage) {
        const Booklet booklet = demo({{Part::Kind::Sheet}, stage});
        REQUIRE(booklet.parts.size() == 1);
        CHECK(booklet.parts[0].stage == stage);
        CHECK(all<Figure>(booklet).size() == 3);
        CHECK(all<PainScale>(booklet).size() == 1);
        const std::string text = printed(booklet);
        for (const char* prefix : {"safety.emergency", "safety.today"}) {
            for (int i = 1; i <= english->count(prefix); ++i) {
                const std::string key = std::string(prefix) + "." + std::to_string(i);
                CHECK(contains(text, english->message(key, {}, findings).text));
            }
        }
        CHECK(contains(text, "call 112"));
        CHECK(contains(text, "+44 1632 960123"));
        CHECK(contains(text, "T. Adeyemi"));
        CHECK(contains(text, "It does not replace their advice."));
    }
    const std::string first = printed(demo({{Part::Kind::Sheet}, {}}));
    CHECK(contains(first, "Ankle press outwards: right side"));
    CHECK(contains(first, "Sets: 4 to 5, Hold for: 45 seconds"));
    // The exercise's own words of care, under its number.
    CHECK(contains(first, "2. Press against a wall or furniture that cannot slide or tip over."));
}

TEST_CASE("a refill has the weeks that the booklet's logbook does not reach") {
    // The demo has eight weeks, and a logbook for two.
    const Booklet rest = demo({{Part::Kind::Refill}, {}});
    CHECK(weeks(rest).size() == 6);
    CHECK(contains(printed(rest), "Week 3: 16 Mar to 22 Mar"));
    CHECK_FALSE(contains(printed(rest), "Week 2:"));
    const Booklet second = demo({{Part::Kind::Refill}, 1});
    CHECK(weeks(second).size() == 2);
    for (const Booklet* booklet : {&rest, &second}) {
        const std::string text = printed(*booklet);
        CHECK(all<PainScale>(*booklet).size() == 1);
        CHECK(contains(text, "call 112"));
        CHECK(contains(text, "+44 1632 960123"));
        CHECK(contains(text, "It does not replace their advice."));
    }
}

TEST_CASE("a spare week has no dates and belongs to the stage that needs it next") {
    const Booklet booklet = demo({{Part::Kind::SpareLog, Part::Kind::Notes}, {}});
    REQUIRE(weeks(booklet).size() == 1);
    const std::string text = printed(booklet);
    CHECK(contains(text, "Stage 2: Strengthen"));
    CHECK(contains(text, "Day 7"));
    CHECK_FALSE(contains(text, "Mar"));
    CHECK(all<WritingLines>(booklet).back()->lines == 0);
}

TEST_CASE("unreviewed safety texts say so on the sheet and the refill too") {
    for (const Part::Kind kind : {Part::Kind::Sheet, Part::Kind::Refill}) {
        const std::string text = printed(demo({{kind}, {}}, "es"));
        CHECK(contains(text, "No qualified translator has checked the safety words yet."));
    }
}

TEST_CASE("a stage that the prescription does not have is an error") {
    const auto planned = bench().plan(Recipe{}.text());
    support::Findings findings;
    const auto language = bench().language("en");
    CHECK_FALSE(bench().compose(planned, *language, findings, nullptr, {{Part::Kind::Sheet}, 4}));
    REQUIRE(findings.size() > 0);
    CHECK(findings.all().front().id == "unknown-stage");
}

TEST_CASE("the contents name every part and exercise once, by its own heading") {
    const Booklet booklet = demo({{}, {}});
    const auto contents = all<Contents>(booklet);
    REQUIRE(contents.size() == 1);
    std::size_t headings = 0;
    std::vector<std::size_t> anchors;
    for (const Heading* heading : all<Heading>(booklet)) {
        if (heading->anchor == 0) {
            continue;
        }
        ++headings;
        const auto& entries = contents.front()->entries;
        const auto found = std::find_if(entries.begin(), entries.end(), [&](const auto& entry) {
            return entry.anchor == heading->anchor;
        });
        REQUIRE(found != entries.end());
        CAPTURE(found->words.text);
        CHECK(contains(found->words.text, heading->words.text));
        CHECK(contains(found->link, kPageHole));
    }
    // Safety, three stages with nine exercises, logbook, contact.
    CHECK(headings == 15);
    CHECK(contents.front()->entries.size() == 15);
}

TEST_CASE("where little is to be looked up there are no contents") {
    const Booklet booklet = bench().booklet(bench().plan(Recipe{}.text()), "en");
    CHECK(part(booklet, Part::Kind::Contents) == nullptr);
    for (const Heading* heading : all<Heading>(booklet)) {
        CHECK(heading->anchor == 0);
    }
}
