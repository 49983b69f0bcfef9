// SPDX-License-Identifier: MIT
// The booklet as a patient and a clinician must find it: parts in order, nothing missing, missing
// data told.
#include "content/compose.h"

#include <catch2/catch.hpp>

#include "tests/unit/content/bench.h"
#include "tests/unit/content/walk.h"

using namespace tickleaf;
using namespace tickleaf::content;
using namespace tickleaf::content::test;

namespace {

Bench& bench() {
    static Bench shared;
    return shared;
}

support::Findings composing(const Recipe& recipe, const std::string& tag) {
    support::Findings findings;
    const auto planned = bench().plan(recipe.text());
    const auto language = bench().language(tag);
    const bool made = bench().compose(planned, *language, findings).has_value();
    CHECK(made != findings.has_errors());
    return findings;
}

const support::Finding* finding(const support::Findings& findings, const std::string& id) {
    for (const support::Finding& one : findings.all()) {
        if (one.id == id) {
            return &one;
        }
    }
    return nullptr;
}

std::string texts_of(const Booklet& booklet, Part::Kind kind) {
    const Part* found = part(booklet, kind);
    REQUIRE(found != nullptr);
    return joined(all_words(found->blocks));
}

const Table& first_table(const Booklet& booklet, Table::Role role) {
    for (const Table* table : all<Table>(booklet)) {
        if (table->role == role) {
            return *table;
        }
    }
    throw std::runtime_error("no table of this role");
}

} // namespace

TEST_CASE("the demo prescription makes a whole booklet in both languages") {
    const auto text = testing::SourceTree().read_data("templates/starters/ankle-sprain.yaml");
    REQUIRE(text);
    const auto planned = bench().plan(*text);
    for (const std::string tag : {"en", "es"}) {
        INFO(tag);
        const Booklet booklet = bench().booklet(planned, tag);
        CHECK(booklet.language == tag);
        CHECK(booklet.author ==
              (tag == "en" ? "T. Adeyemi, physiotherapist" : "T. Adeyemi, fisioterapeuta"));
        CHECK(booklet.date == "2026-03-02");
        CHECK(booklet.digits.size() == 10);
        CHECK(contains(booklet.page_pattern, "{0}"));
        CHECK(contains(booklet.page_pattern, "{1}"));
        std::vector<Part::Kind> kinds;
        for (const Part& one : booklet.parts) {
            kinds.push_back(one.kind);
        }
        CHECK(kinds == std::vector<Part::Kind>{Part::Kind::Cover, Part::Kind::Contents,
                                               Part::Kind::Safety, Part::Kind::Stage,
                                               Part::Kind::Stage, Part::Kind::Stage,
                                               Part::Kind::Logbook, Part::Kind::Contact});
        CHECK(all<Figure>(booklet).size() == 9);
        CHECK(all<StageBar>(booklet).size() == 1);
        CHECK_FALSE(all_strings(booklet).empty());
        CHECK(contains(dump(booklet), "\"part\": \"safety\""));
    }
}

TEST_CASE("the cover says for whom, by whom, when and how to reach them") {
    Recipe recipe;
    recipe.more = "starts: 2026-03-02\nreview: 2026-03-16\nproblem: {en: Sore calf}\n";
    const Booklet booklet = bench().booklet(bench().plan(recipe.text()), "en");
    const std::string cover = texts_of(booklet, Part::Kind::Cover);
    for (const char* text : {"Ana P.", "R. Oduya, physiotherapist", "Hilltop Clinic",
                             "+44 1632 960555", "Sore calf", "2\u00A0March\u00A02026",
                             "16\u00A0March\u00A02026", "It does not replace their advice."}) {
        INFO(text);
        CHECK(contains(cover, text));
    }
}

TEST_CASE("without dates there are no date rows, and days are numbered") {
    const Booklet booklet = bench().booklet(bench().plan(Recipe{}.text()), "en");
    CHECK_FALSE(booklet.date);
    CHECK_FALSE(contains(texts_of(booklet, Part::Kind::Cover), "Next visit"));
    const Table* week = nullptr;
    for (const Table* table : all<Table>(booklet)) {
        if (table->role == Table::Role::Log && !table->show_caption) {
            week = table;
            break;
        }
    }
    REQUIRE(week != nullptr);
    REQUIRE(week->rows.front().cells.size() == 8);
    CHECK(week->rows.front().cells.at(1).words.text == "Day 1");
    CHECK(week->rows.front().cells.at(7).words.text == "Day 7");
}

TEST_CASE("a clinician, a phone or an emergency number that is missing stops the booklet") {
    auto planned = bench().plan(Recipe{}.text());
    planned.rx.clinic.clinician = {};
    planned.rx.clinic.phone.value.clear();
    planned.rx.clinic.emergency.value.clear();
    support::Findings findings;
    const auto english = bench().language("en");
    CHECK_FALSE(bench().compose(planned, *english, findings));
    CHECK(std::count_if(findings.all().begin(), findings.all().end(),
                        [](const auto& one) { return one.id == "contact-missing"; }) == 3);
}

TEST_CASE("a side that is missing stops the booklet and names the exercise") {
    auto planned = bench().plan(Recipe{}.text());
    planned.schedule.stages.at(0).exercises.at(0).side = support::Side::None;
    support::Findings findings;
    const auto english = bench().language("en");
    CHECK_FALSE(bench().compose(planned, *english, findings));
    REQUIRE(finding(findings, "side-missing") != nullptr);
    CHECK(contains(finding(findings, "side-missing")->message, "calf-raise-one-leg"));
}

TEST_CASE("a note without the booklet's language is an error at its line") {
    Recipe recipe;
    recipe.exercises = "      - do: calf-raise-one-leg\n"
                       "        dose: 3 x 10\n"
                       "        note: {en: Slowly.}\n";
    CHECK_FALSE(composing(recipe, "en").has_errors());
    const support::Findings findings = composing(recipe, "es");
    const support::Finding* missing = finding(findings, "text-missing");
    REQUIRE(missing != nullptr);
    CHECK(contains(missing->message, "calf-raise-one-leg"));
    CHECK(contains(missing->message, "\"es\""));
    CHECK(missing->span.line > 0);
}

TEST_CASE("who made the plan and what the band is called stand in the patient's language") {
    Recipe recipe;
    recipe.clinician = "{en: \"R. Oduya, physiotherapist\", es: \"R. Oduya, fisioterapeuta\"}";
    recipe.more = "home:\n"
                  "  equipment:\n"
                  "    - band: {name: light, title: {en: soft, es: suave}, rest_length: 120 cm,\n"
                  "             force_at_double_length: 22 N}\n";
    recipe.exercises = "      - {do: ankle-turn-out-band, dose: 3 x 10, band: light}\n";
    const auto planned = bench().plan(recipe.text());
    const Booklet booklet = bench().booklet(planned, "es");
    CHECK(booklet.author == "R. Oduya, fisioterapeuta");
    for (const Part::Kind kind : {Part::Kind::Cover, Part::Kind::Contact}) {
        CHECK(contains(texts_of(booklet, kind), "fisioterapeuta"));
    }
    CHECK(contains(texts_of(booklet, Part::Kind::Stage), "(suave)"));
    std::string all_said;
    for (const std::string& said : all_strings(booklet)) {
        all_said += said + '\n';
    }
    for (const char* english : {"physiotherapist", "soft", "light"}) {
        INFO(english);
        CHECK_FALSE(contains(all_said, english));
    }
    // In Polish both are missing: once each, however often they would be printed.
    const auto findings = composing(recipe, "pl").sorted();
    CHECK(std::count_if(findings.begin(), findings.end(),
                        [](const auto& one) { return one.id == "text-missing"; }) == 2);
}

TEST_CASE("an unknown criterion is an error at its line") {
    Recipe recipe;
    recipe.stage_more = "    move_on_when: [can-fly]\n";
    const support::Findings findings = composing(recipe, "en");
    REQUIRE(finding(findings, "criterion-unknown") != nullptr);
    CHECK(finding(findings, "criterion-unknown")->span.line > 0);
}

TEST_CASE("a stage without criteria says that the clinician decides") {
    const Booklet booklet = bench().booklet(bench().plan(Recipe{}.text()), "en");
    CHECK(contains(texts_of(booklet, Part::Kind::Stage), "Your clinician tells you when"));
    CHECK(all<TickList>(booklet).empty());
}

TEST_CASE("the number in a criterion's key is the number that is read") {
    Recipe recipe;
    recipe.stage_more =
        "    move_on_when: [pain-at-most-2-next-morning, stands-one-leg-30-seconds]\n";
    const Booklet booklet = bench().booklet(bench().plan(recipe.text()), "en");
    REQUIRE_FALSE(all<TickList>(booklet).empty());
    const auto& items = all<TickList>(booklet).front()->items;
    REQUIRE(items.size() == 2);
    CHECK(contains(items.at(0).text, " 2 "));
    CHECK(contains(items.at(1).text, "right leg for 30 seconds"));
}

TEST_CASE("unreviewed safety texts say so in both languages, on the cover and the safety page") {
    const auto planned = bench().plan(Recipe{}.text());
    const std::string english = "No qualified translator has checked the safety words yet.";
    const Booklet spanish = bench().booklet(planned, "es");
    for (const Part::Kind kind : {Part::Kind::Cover, Part::Kind::Safety}) {
        const std::string texts = texts_of(spanish, kind);
        CHECK(contains(texts, english));
        CHECK(contains(texts, "Ningún traductor cualificado"));
    }
    const Booklet source = bench().booklet(planned, "en");
    CHECK_FALSE(contains(joined(all_words(source)), "qualified translator"));
    // The English of the notice stands in the code too; here it is held against the catalog.
    const auto language = bench().language("en");
    support::Findings findings;
    CHECK(language->message("notice.draft", {}, findings).text == english);
}

TEST_CASE("a booklet in two languages has both for every text of the catalog") {
    Recipe recipe;
    recipe.stage_more = "    move_on_when: [walks-without-limp]\n";
    const Booklet booklet = bench().booklet(bench().plan(recipe.text()), "es", "en");
    CHECK(booklet.second_language == "en");
    int checked = 0;
    for (const Words* words : all_words(booklet)) {
        if (words->key.empty() || words->language == "en") {
            continue;
        }
        INFO(words->key);
        REQUIRE(words->second);
        CHECK(words->second->language == "en");
        CHECK_FALSE(words->second->empty());
        ++checked;
    }
    CHECK(checked > 100);
}

TEST_CASE("a tempo is said in named phases, in the order in which they are done") {
    Recipe recipe;
    recipe.exercises = "      - {do: calf-raise-one-leg, dose: 3 x 10, tempo: 1-0-3}\n";
    const auto planned = bench().plan(recipe.text());
    CHECK(contains(joined(all_words(bench().booklet(planned, "en"))),
                   "Speed: lift for 1\u00A0second, then lower for 3\u00A0seconds."));
    CHECK(contains(joined(all_words(bench().booklet(planned, "es"))),
                   "Ritmo: suba en 1\u00A0segundo, luego baje en 3\u00A0segundos."));
}

TEST_CASE("the ladder starts low in words") {
    Recipe recipe;
    recipe.exercises = "      - {do: ankle-press-out, dose: 5 x 45 s, begin: 15 s}\n";
    const auto planned = bench().plan(recipe.text());
    const Booklet made = bench().booklet(planned, "en");
    const Table* rungs = nullptr;
    for (const Table* table : all<Table>(made)) {
        if (table->rows.front().cells.back().words.key == "ladder.times") {
            rungs = table;
        }
    }
    REQUIRE(rungs != nullptr);
    REQUIRE(rungs->rows.size() > 2);
    auto row_text = [](const Row& row) {
        return row.cells.at(1).words.text + ", " + row.cells.at(2).words.text;
    };
    // Five holds of 45 s are 225 s, the same as fifteen of 15 s (the published isometric regimen of
    // five holds of 45 s; the split is arithmetic).
    CHECK(row_text(rungs->rows.at(1)) == "15\u00A0seconds, 15");
    CHECK(row_text(rungs->rows.back()) == "45\u00A0seconds, 5");
    CHECK(contains(joined(all_words(made)), "Build up to 45\u00A0seconds."));
}

TEST_CASE("the side stands in words at the exercise, its picture and its boxes") {
    const Booklet booklet = bench().booklet(bench().plan(Recipe{}.text()), "en");
    const Figure& figure = *all<Figure>(booklet).front();
    CHECK(contains(figure.alternative.text, "right side"));
    CHECK(contains(figure.caption.text, "right side"));
    CHECK(contains(first_table(booklet, Table::Role::Plan).rows.at(1).cells.at(1).words.text,
                   "right side"));
    REQUIRE(figure.drawing);
    CHECK_FALSE(figure.drawing->shapes.empty());
}

TEST_CASE("rest days say rest, exercise days have boxes and room for pain") {
    const Booklet booklet = bench().booklet(bench().plan(Recipe{}.text()), "en");
    std::vector<const Table*> weeks;
    for (const Table* table : all<Table>(booklet)) {
        if (table->role == Table::Role::Log && !table->show_caption) {
            weeks.push_back(table);
        }
    }
    REQUIRE(weeks.size() == 2);
    for (const Table* week : weeks) {
        REQUIRE(week->rows.size() == 7); // header, one exercise, three for pain, effort, total
        int due = 0;
        for (std::size_t day = 1; day < 8; ++day) {
            const Cell& cell = week->rows.at(1).cells.at(day);
            due += cell.tick_boxes > 0 ? 1 : 0;
            CHECK((cell.tick_boxes == 3 || cell.words.text == "rest"));
            CHECK(static_cast<int>(cell.tick_labels.size()) == cell.tick_boxes);
            for (std::size_t row = 2; row < 6; ++row) {
                CHECK(week->rows.at(row).cells.at(day).write_in == (cell.tick_boxes > 0));
            }
        }
        CHECK(due == 3);
        // Three days of three sets, for the clinic to count against.
        CHECK(contains(week->rows.back().cells.at(0).words.text, "out of 9"));
        CHECK(week->rows.back().cells.at(1).write_in);
    }
}

TEST_CASE("an exercise with a band asks to check the band, others do not") {
    Recipe recipe;
    recipe.more = "home: {equipment: [chair, {band: {name: soft, rest_length: 120 cm, "
                  "force_at_double_length: 20 N}}]}\n";
    recipe.exercises = "      - {do: ankle-turn-out-band, dose: 3 x 10, band: soft}\n";
    const std::string with = joined(all_words(bench().booklet(bench().plan(recipe.text()), "en")));
    CHECK(contains(texts_of(bench().booklet(bench().plan(recipe.text()), "en"), Part::Kind::Stage),
                   "Check the band before each use."));
    CHECK(contains(with, "your elastic band (soft)"));
    // How long the band is in the first picture: measured along the line that is drawn.
    const auto planned = bench().plan(recipe.text());
    const auto& points = planned.solutions.at(0).at(0).scene.panels.front().bands.front().points;
    double length = 0.0;
    for (std::size_t i = 1; i < points.size(); ++i) {
        length += std::hypot(points[i].x - points[i - 1].x, points[i].y - points[i - 1].y,
                             points[i].z - points[i - 1].z);
    }
    CHECK(contains(with, "Start with about " + std::to_string(std::lround(length / 10.0)) +
                             " centimetres of band from one leg to the other."));
    const std::string without =
        joined(all_words(bench().booklet(bench().plan(Recipe{}.text()), "en")));
    CHECK_FALSE(contains(without, "band"));
}
