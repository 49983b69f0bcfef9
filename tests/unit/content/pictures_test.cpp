// SPDX-License-Identifier: MIT
// The booklet for people who do not read: no step is left in words, the dose is in signs that count
// right, and everything that keeps the patient safe is still there in words.
#include <catch2/catch.hpp>

#include "content/dose_signs.h"
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

dose::PlannedExercise with_dose(prescription::SetContent set, support::Range<int> sets) {
    dose::PlannedExercise exercise;
    exercise.dose.content = std::move(set);
    exercise.dose.sets = sets;
    exercise.dose.per_day = {1, 1};
    exercise.days_per_week = {7, 7};
    return exercise;
}

struct Seen {
    int boxes = 0;  ///< squares of the size of a set, full lines
    int dashed = 0; ///< of these with a dashed line
    std::vector<std::string> numbers;
    std::vector<double> at; ///< where the numbers stand
};

/// Counts what is drawn by its shape alone.
Seen look(const page::Drawing& drawing) {
    Seen seen;
    for (const page::Shape& shape : drawing.shapes) {
        const page::Path path = shape.placed();
        if (path.size() == 5 && shape.stroke && !shape.fill) {
            const double width = path[1].to.x - path[0].to.x;
            seen.boxes += width > 12.0 && shape.stroke->dashes.empty() ? 1 : 0;
            seen.dashed += width > 12.0 && !shape.stroke->dashes.empty() ? 1 : 0;
        }
        for (const page::PathStep& step : path) {
            CHECK((step.kind == page::PathStep::Kind::Close ||
                   (step.to.x > -1.0 && step.to.x < drawing.width + 1.0)));
        }
    }
    for (const page::Label& label : drawing.labels) {
        seen.numbers.push_back(label.text);
        seen.at.push_back(label.at.x);
    }
    return seen;
}

/// What is printed on the pages of the stages, without what is read out for the drawings.
std::string printed_stages(Booklet booklet) {
    std::erase_if(booklet.parts, [](const Part& one) { return one.kind != Part::Kind::Stage; });
    std::string out;
    for (const std::string& text : all_strings(booklet)) {
        out += text + "\n";
    }
    return out;
}

Seen signs(const std::string& tag, const dose::PlannedExercise& exercise) {
    const auto language = bench().language(tag);
    support::Findings findings;
    Tongue tongue(*language, findings);
    const Seen seen = look(dose_signs(tongue, exercise));
    CHECK(findings.size() == 0);
    return seen;
}

} // namespace

TEST_CASE("signs say the dose: boxes for sets, numbers for repetitions and times") {
    using Numbers = std::vector<std::string>;
    const Seen plain = signs("en", with_dose(prescription::Repetitions{{8, 12}, false}, {3, 3}));
    CHECK(plain.boxes == 3);
    CHECK(plain.dashed == 0);
    CHECK(plain.numbers == Numbers{"8", "12"});
    CHECK(plain.at[0] < plain.at[1]);
    const Seen held = signs(
        "en", with_dose(prescription::Holds{{support::Seconds{45}, support::Seconds{45}}, 1, false},
                        {4, 5}));
    CHECK(held.boxes == 4);
    CHECK(held.dashed == 1);
    CHECK(held.numbers == Numbers{"45 s"});
    const Seen holds = signs(
        "en",
        with_dose(prescription::Holds{{support::Seconds{60}, support::Seconds{120}}, 5, false},
                  {1, 1}));
    CHECK(holds.numbers == Numbers{"5", "1", "2 min"});
    const Seen seconds = signs(
        "en", with_dose(prescription::Holds{{support::Seconds{60}, support::Seconds{90}}, 1, false},
                        {1, 1}));
    CHECK(seconds.numbers == Numbers{"60", "90 s"});
    // Many sets are a number beside one box.
    const Seen many = signs("en", with_dose(prescription::Repetitions{{5, 5}, false}, {8, 10}));
    CHECK(many.boxes == 1);
    CHECK(many.numbers == Numbers{"8", "10", "5"});
}

TEST_CASE("in a right-to-left language the low number still comes first, at the right") {
    const Seen seen = signs("ar", with_dose(prescription::Repetitions{{8, 12}, false}, {3, 3}));
    REQUIRE(seen.numbers.size() == 2);
    CHECK(seen.numbers == std::vector<std::string>{"٨", "١٢"});
    CHECK(seen.at[0] > seen.at[1]);
}

TEST_CASE("the booklet in pictures keeps safety in words and leaves the steps out") {
    const auto text = testing::SourceTree().read_data("templates/starters/ankle-sprain.yaml");
    REQUIRE(text);
    const auto planned = bench().plan(*text);
    for (const char* tag : {"en", "es"}) {
        const auto language = bench().language(tag);
        support::Findings findings;
        const auto words = bench().compose(planned, *language, findings);
        Material material;
        material.prescription = &planned.rx;
        material.schedule = &planned.schedule;
        material.exercises = &bench().exercises();
        material.solutions = planned.solutions;
        material.language = language.get();
        material.in_pictures = true;
        const auto pictures = compose(material, findings);
        REQUIRE(words);
        REQUIRE(pictures);
        CAPTURE(tag);
        CHECK(findings.size() == 0);
        // Safety, logbook and whom to call are the same, word by word.
        for (const Part::Kind kind :
             {Part::Kind::Safety, Part::Kind::Logbook, Part::Kind::Contact}) {
            const Part* one = part(*words, kind);
            const Part* other = part(*pictures, kind);
            REQUIRE(one != nullptr);
            REQUIRE(other != nullptr);
            CHECK(joined(all_words(one->blocks)) == joined(all_words(other->blocks)));
        }
        const std::string said = joined(all_words(*pictures));
        CHECK(contains(said, "+44 1632 960123"));
        CHECK(contains(said, "112"));
        int cautions = 0;
        int cautions_in_words = 0;
        for (const Callout* callout : all<Callout>(*pictures)) {
            cautions += callout->kind == Callout::Kind::Caution ? 1 : 0;
        }
        for (const Callout* callout : all<Callout>(*words)) {
            cautions_in_words += callout->kind == Callout::Kind::Caution ? 1 : 0;
        }
        CHECK(cautions == cautions_in_words);
        // Two figures an exercise, each with words for who cannot see it; no steps.
        std::size_t exercises = 0;
        for (const auto& stage : planned.schedule.stages) {
            exercises += stage.exercises.size();
        }
        const auto figures = all<Figure>(*pictures);
        CHECK(figures.size() == 2 * exercises);
        for (const Figure* figure : figures) {
            CHECK(figure->alternative.text.size() > 20);
        }
        const std::string step =
            tag[1] == 'n' ? "as if to push the wall" : "como para apartar la pared";
        CHECK(contains(printed_stages(*words), step));
        CHECK_FALSE(contains(printed_stages(*pictures), step));
    }
}
