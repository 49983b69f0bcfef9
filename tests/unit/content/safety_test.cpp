// SPDX-License-Identifier: MIT
// Laws over generated prescriptions: what keeps a patient safe is always there, numbers and sides
// are never wrong. The seed of a failing case is printed.
#include <catch2/catch.hpp>

#include <cctype>
#include <regex>

#include "tests/unit/content/bench.h"
#include "tests/unit/content/walk.h"

using namespace tickleaf;
using namespace tickleaf::content;
using namespace tickleaf::content::test;

namespace {

constexpr std::uint32_t kSeeds = 40;

Bench& bench() {
    static Bench shared;
    return shared;
}

struct Generated {
    Bench::Case planned;
    Booklet booklet;
};

Generated generated(std::uint32_t seed, const std::string& side, const std::string& tag) {
    Generator generator(seed, bench().exercises());
    auto planned = bench().plan(generator.prescription(side));
    Booklet booklet = bench().booklet(planned, tag);
    return {std::move(planned), std::move(booklet)};
}

std::string range_text(support::Range<int> range) {
    const std::string low = std::to_string(range.low);
    return range.is_single() ? low : low + " to " + std::to_string(range.high);
}

/// A dose cell by its label; empty where the table has none.
std::string cell(const Table& dose, const std::string& label) {
    const auto& labels = dose.rows.at(0).cells;
    for (std::size_t i = 0; i < labels.size(); ++i) {
        if (labels[i].words.text == label) {
            return plain(dose.rows.at(1).cells.at(i).words.text);
        }
    }
    return {};
}

std::string seconds_text(std::int64_t seconds) {
    return std::to_string(seconds) + (seconds == 1 ? " second" : " seconds");
}

void check_dose(const Table& table, const dose::PlannedExercise& planned) {
    const prescription::Dose& dose = planned.dose;
    CHECK(cell(table, "Sets") == range_text(dose.sets));
    CHECK(cell(table, "Times a day") == range_text(dose.per_day));
    CHECK(cell(table, "Days a week") == range_text(planned.days_per_week));
    if (dose.sets.high > 1) {
        CHECK(cell(table, "Rest between sets") == seconds_text(dose.rest.low.count));
    }
    if (const auto* set = std::get_if<prescription::Repetitions>(&dose.content)) {
        CHECK(cell(table, "Repetitions") == range_text(set->count));
    }
    if (const auto* set = std::get_if<prescription::Holds>(&dose.content)) {
        CHECK(cell(table, "Hold for") == seconds_text(set->length.low.count));
        CHECK(cell(table, "Holds in each set") ==
              (set->count > 1 ? std::to_string(set->count) : ""));
    }
}

} // namespace

TEST_CASE("safety texts are in every booklet") {
    const auto english = bench().language("en");
    support::Findings findings;
    std::vector<std::string> always;
    for (const char* prefix : {"safety.emergency", "safety.today", "safety.morning"}) {
        REQUIRE(english->count(prefix) >= 3);
        for (int i = 1; i <= english->count(prefix); ++i) {
            const std::string key = std::string(prefix) + "." + std::to_string(i);
            always.push_back(english->message(key, {}, findings).text);
        }
    }
    for (const char* key : {"safety.advice", "safety.stop_lead", "safety.stop_title"}) {
        always.push_back(english->message(key, {}, findings).text);
    }
    for (std::uint32_t seed = 0; seed < kSeeds; ++seed) {
        INFO("seed " << seed);
        const auto made = generated(seed, "right", "en");
        const std::string printed = [&] {
            std::string text;
            for (const std::string& string : all_strings(made.booklet)) {
                text += plain(string) + "\n";
            }
            return text;
        }();
        for (const std::string& text : always) {
            INFO(text);
            CHECK(contains(printed, text));
        }
        for (const Part::Kind kind : {Part::Kind::Cover, Part::Kind::Safety, Part::Kind::Contact}) {
            const Part* one = part(made.booklet, kind);
            REQUIRE(one != nullptr);
            const std::string texts = plain(joined(all_words(one->blocks)));
            CHECK(contains(texts, "+44 1632 960555"));
            if (kind != Part::Kind::Cover) {
                CHECK(contains(texts, "call 112"));
            }
            if (kind != Part::Kind::Safety) {
                CHECK(contains(texts, "R. Oduya"));
            }
        }
    }
}

TEST_CASE("the pain line has the prescription's thresholds, and its three zones meet") {
    for (std::uint32_t seed = 0; seed < kSeeds; ++seed) {
        INFO("seed " << seed);
        const auto made = generated(seed, "left", "en");
        const auto scales = all<PainScale>(part(made.booklet, Part::Kind::Safety)->blocks);
        REQUIRE(scales.size() == 1);
        const prescription::PainRule& rule = made.planned.rx.pain;
        const PainScale& scale = *scales.front();
        CHECK(scale.carry_on_up_to == rule.carry_on_up_to);
        CHECK(scale.ease_off_up_to == rule.ease_off_up_to);
        CHECK(scale.numbers.size() == 11);
        auto says = [](const Words& words, int low, int high) {
            return contains(plain(words.text), "Pain " + range_text({low, high}) + ":");
        };
        CHECK(says(scale.carry_on_action, 0, rule.carry_on_up_to));
        CHECK(says(scale.ease_off_action, rule.carry_on_up_to + 1, rule.ease_off_up_to));
        CHECK(says(scale.stop_action, rule.ease_off_up_to + 1, 10));
    }
}

TEST_CASE("no dose is written in a way that can be read backwards") {
    // check-values 10.4: these shapes print reversed inside right-to-left text (UAX #9).
    const std::regex ambiguous("[0-9] ?(\u00D7|x) ?[0-9]|[0-9](-|\u2013|\u2011)[0-9]");
    const std::regex unfinished("[{}]|  |\\bnull\\b");
    for (std::uint32_t seed = 0; seed < kSeeds; ++seed) {
        for (const std::string tag : {"en", "es"}) {
            INFO("seed " << seed << " " << tag);
            const auto made = generated(seed, "right", tag);
            for (const Words* words : all_words(made.booklet)) {
                INFO(words->text);
                CHECK_FALSE(std::regex_search(words->text, ambiguous));
                CHECK_FALSE(std::regex_search(words->text, unfinished));
            }
        }
    }
}

TEST_CASE("no list is longer than seven items") {
    // CDC Clear Communication Index, item 8 (Baur and Prue 2014).
    for (std::uint32_t seed = 0; seed < kSeeds; ++seed) {
        INFO("seed " << seed);
        const auto made = generated(seed, "both", "en");
        for (const List* list : all<List>(made.booklet)) {
            CHECK(list->items.size() <= 7);
            CHECK(list->items.size() >= 1);
            CHECK(list->numbers.size() == (list->numbered ? list->items.size() : 0));
        }
        for (const TickList* list : all<TickList>(made.booklet)) {
            CHECK(list->items.size() <= 7);
        }
    }
}

TEST_CASE("a programme for one side never says the other") {
    struct Row {
        const char* tag;
        const char* side;
        std::regex wrong;
        std::regex own;
    };
    const std::vector<Row> rows = {
        {"en", "left", std::regex("\\bright\\b", std::regex::icase), std::regex("\\bleft\\b")},
        {"en", "right", std::regex("\\bleft\\b", std::regex::icase), std::regex("\\bright\\b")},
        {"es", "left", std::regex("\\bderech", std::regex::icase), std::regex("\\bizquierd")},
        {"es", "right", std::regex("\\bizquierd", std::regex::icase), std::regex("\\bderech")},
    };
    for (const Row& row : rows) {
        for (std::uint32_t seed = 0; seed < kSeeds; ++seed) {
            INFO(row.tag << " " << row.side << " seed " << seed);
            const auto made = generated(seed, row.side, row.tag);
            bool has_sided = false;
            for (const auto& stage : made.planned.schedule.stages) {
                for (const auto& exercise : stage.exercises) {
                    has_sided = has_sided || exercise.side != support::Side::None;
                }
            }
            bool says_own = false;
            for (const Words* words : all_words(made.booklet)) {
                INFO(words->text);
                CHECK_FALSE(std::regex_search(words->text, row.wrong));
                says_own = says_own || std::regex_search(words->text, row.own);
            }
            CHECK((says_own || !has_sided));
        }
    }
}

TEST_CASE("doses in words and boxes to tick match the schedule") {
    for (std::uint32_t seed = 0; seed < kSeeds; ++seed) {
        INFO("seed " << seed);
        const auto made = generated(seed, "right", "en");
        std::size_t number = 0;
        for (const Part& one : made.booklet.parts) {
            if (one.kind != Part::Kind::Stage) {
                continue;
            }
            std::vector<const Group*> groups;
            for (const Group* group : all<Group>(one.blocks)) {
                if (!all<Figure>(group->blocks).empty()) {
                    groups.push_back(group);
                }
            }
            const auto& exercises = made.planned.schedule.stages.at(one.stage).exercises;
            REQUIRE(groups.size() == exercises.size());
            for (std::size_t i = 0; i < groups.size(); ++i) {
                CHECK(all<Heading>(groups[i]->blocks).front()->badge == std::to_string(++number));
                REQUIRE(all<Table>(groups[i]->blocks).size() >= 1);
                REQUIRE(all<Table>(groups[i]->blocks).front()->role == Table::Role::Dose);
                check_dose(*all<Table>(groups[i]->blocks).front(), exercises[i]);
            }
        }
        std::int64_t wanted = 0;
        for (const dose::PlannedDay& day : made.planned.schedule.days) {
            for (const std::size_t exercise : day.exercises) {
                const auto& dose =
                    made.planned.schedule.stages.at(day.stage).exercises.at(exercise).dose;
                wanted += std::int64_t{dose.sets.high} * dose.per_day.high;
            }
        }
        std::int64_t boxes = 0;
        for (const Table* table : all<Table>(part(made.booklet, Part::Kind::Logbook)->blocks)) {
            for (const Row& row : table->rows) {
                for (const Cell& one : row.cells) {
                    boxes += table->show_caption ? 0 : one.tick_boxes; // not the example
                }
            }
        }
        CHECK(boxes == wanted);
    }
}
