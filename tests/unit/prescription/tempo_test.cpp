// SPDX-License-Identifier: MIT
// Tempo in digits, text, map and list; start values.
#include <catch2/catch.hpp>

#include "prescription/dose_form.h"
#include "support/source.h"
#include "yaml/tree.h"

namespace {

using namespace tickleaf;
using namespace tickleaf::prescription;
using Phase = TempoPhase;

template <class Reader>
auto parse(const std::string& value, support::Findings& findings, Reader reader) {
    support::Sources sources;
    const int file = sources.add("rx.yaml", "v: " + value + "\n");
    const auto root = yaml::read(sources, file, findings);
    REQUIRE(root);
    return reader(root->entries.front().value, findings);
}

TempoStep step(Phase phase, int seconds, bool fast = false) {
    return {phase, {seconds}, fast};
}

} // namespace

TEST_CASE("digits are lift, hold, lower, rest in that order; words say their own order") {
    struct Row {
        std::string value;
        std::vector<TempoStep> steps;
    };
    const std::vector<Row> rows = {
        {"1-1-3", {step(Phase::Lift, 1), step(Phase::HoldTop, 1), step(Phase::Lower, 3)}},
        {"2-0-4", {step(Phase::Lift, 2), step(Phase::Lower, 4)}},
        {"3-1-2-5",
         {step(Phase::Lift, 3), step(Phase::HoldTop, 1), step(Phase::Lower, 2),
          step(Phase::Rest, 5)}},
        {"X-1-3", {step(Phase::Lift, 1, true), step(Phase::HoldTop, 1), step(Phase::Lower, 3)}},
        {"lift 1 s, hold 1 s, lower 3 s",
         {step(Phase::Lift, 1), step(Phase::HoldTop, 1), step(Phase::Lower, 3)}},
        {"lower 4, lift X", {step(Phase::Lower, 4), step(Phase::Lift, 1, true)}},
        {"{out: 2 s, hold: 1 s, back: slow}",
         {step(Phase::Out, 2), step(Phase::HoldEnd, 1), step(Phase::Back, 3)}},
        {"[lower: 3 s, rest: 1 s, lift: quick]",
         {step(Phase::Lower, 3), step(Phase::Rest, 1), step(Phase::Lift, 1)}},
        {"{lift: as fast as is safe, lower: 3}",
         {step(Phase::Lift, 1, true), step(Phase::Lower, 3)}},
    };
    for (const Row& row : rows) {
        INFO(row.value);
        support::Findings findings;
        const auto tempo = parse(row.value, findings, read_tempo);
        CHECK(findings.size() == 0);
        REQUIRE(tempo);
        CHECK(tempo->steps == row.steps);
        const auto again = parse(to_notation(*tempo), findings, read_tempo);
        REQUIRE(again);
        CHECK(again->steps == row.steps);
    }
}

TEST_CASE("mistakes in a tempo") {
    struct Row {
        std::string value;
        int column;
        std::string message;
    };
    const std::vector<Row> rows = {
        {"1-1", 7, "tempo \"1-1\": 2 phases are given, but three or four were expected"},
        {"3", 5, "tempo \"3\": 1 phase is given, but three or four were expected"},
        {"1-1-1-1-1", 12,
         "tempo \"1-1-1-1-1\": \"1\" is a fifth phase, but at most four were expected"},
        {"1--3", 6, "tempo \"1--3\": \"-\" stands where seconds are expected"},
        {"1-1-99", 8,
         "tempo phase \"99\": seconds of a phase are more than 60, the most this format takes"},
        {"0-1-3", 4, "tempo phase \"0\": a movement cannot take 0 seconds"},
        {"1 1 3", 6, "tempo \"1 1 3\": \"1\" stands where \"-\" is expected"},
        {"lift 1 s, hodl 1 s", 14,
         "tempo \"lift 1 s, hodl 1 s\": \"hodl\" is no phase of a repetition"},
        {"lift 1-2 s", 9,
         "tempo \"lift 1-2 s\": the seconds of a phase are a range, but one number was expected"},
        {"{hold: 2 s}", 4, "the tempo has no movement"},
        {"{lift: 2 s, back: 2 s}", 4, "the tempo mixes lift and lower with out and back"},
        {"[lift: 2 s, lower: 1 s, lift: 2 s]", 4, "the tempo has lift twice"},
        {"{lift: 2 min}", 13, "tempo phase \"2 min\": \"min\" is left over behind the seconds"},
    };
    for (const Row& row : rows) {
        INFO(row.value);
        support::Findings findings;
        CHECK_FALSE(parse(row.value, findings, read_tempo));
        REQUIRE(findings.size() == 1);
        CHECK(findings.all().front().message == row.message);
        CHECK(findings.all().front().span.column == row.column);
        CHECK(findings.all().front().id == "tempo-syntax");
        CHECK_FALSE(findings.all().front().hint.empty());
    }
}

TEST_CASE("start values are a time with its unit or a count") {
    support::Findings findings;
    const auto hold = parse("15 s", findings, read_begin);
    const auto minutes = parse("2 min", findings, read_begin);
    const auto count = parse("5", findings, read_begin);
    REQUIRE(findings.size() == 0);
    CHECK(std::get<support::Seconds>(hold->value).count == 15);
    CHECK(std::get<support::Seconds>(minutes->value).count == 120);
    CHECK(std::get<int>(count->value) == 5);
    for (const std::string bad : {"10-15 s", "0", "-5", "1.5", "low", "5 x", "[5]"}) {
        INFO(bad);
        support::Findings found;
        CHECK_FALSE(parse(bad, found, read_begin));
        CHECK(found.size() == 1);
        CHECK(found.all().front().id == "begin-syntax");
    }
}
