// SPDX-License-Identifier: MIT
// The compact notation and the map form: what reads, what it means, and where each mistake points.
#include <catch2/catch.hpp>

#include <random>

#include "prescription/dose_form.h"
#include "support/source.h"
#include "yaml/tree.h"

namespace {

using namespace tickleaf;
using namespace tickleaf::prescription;

struct Parsed {
    std::optional<Dose> dose;
    support::Findings findings;
};

/// Reads `key: VALUE` and hands the value to read_dose.
Parsed parse(const std::string& value) {
    Parsed result;
    support::Sources sources;
    const int file = sources.add("rx.yaml", "dose: " + value + "\n");
    const auto root = yaml::read(sources, file, result.findings);
    REQUIRE(root);
    REQUIRE(root->entries.size() == 1);
    result.dose = read_dose(root->entries.front().value, result.findings);
    return result;
}

bool same(const Dose& a, const Dose& b) {
    return a.sets == b.sets && a.content == b.content && a.rest == b.rest &&
           a.has_rest == b.has_rest && a.per_day == b.per_day && a.days_per_week == b.days_per_week;
}

support::Range<support::Seconds> seconds(std::int64_t low, std::int64_t high) {
    return {{low}, {high}};
}

struct Meaning {
    std::string compact;
    std::string map;
    Dose dose;
};

Dose dose(support::Range<int> sets, SetContent content) {
    Dose result;
    result.sets = sets;
    result.content = content;
    return result;
}

std::vector<Meaning> meanings() {
    Dose isometric = dose({4, 5}, Holds{seconds(45, 45), 1, false});
    isometric.rest = seconds(60, 60);
    isometric.has_rest = true;
    isometric.per_day = {2, 2};
    isometric.days_per_week = support::Range<int>{3, 3};
    Dose ranges = dose({3, 3}, Repetitions{{8, 12}, true});
    ranges.rest = seconds(60, 90);
    ranges.has_rest = true;
    ranges.per_day = {1, 2};
    ranges.days_per_week = support::Range<int>{3, 5};
    Dose minutes = dose({3, 3}, Repetitions{{10, 10}, false});
    minutes.rest = seconds(60, 120);
    minutes.has_rest = true;
    return {
        {"4-5 x 45 s, rest 60 s, 2/day, 3 days/week",
         "{sets: 4-5, hold: 45 s, rest: 60 s, per_day: 2, days_per_week: 3}", isometric},
        {"3 x 8-12 each side, rest 60-90 s, 1-2/day, 3-5 days/week",
         "{sets: 3, repetitions: 8-12, rest: 60-90 s, per_day: 1-2, days_per_week: 3-5, each_side: "
         "true}",
         ranges},
        {"3 x 10, rest 1-2 min", "{sets: 3, repetitions: 10, rest: 1-2 min}", minutes},
        {"10 min", "{time: 10 min}", dose({1, 1}, TimeSpent{seconds(600, 600)})},
        {"10-20 min", "{time: 10-20 min}", dose({1, 1}, TimeSpent{seconds(600, 1200)})},
        {"2 x time 5 min", "{sets: 2, time: 5 min}", dose({2, 2}, TimeSpent{seconds(300, 300)})},
        {"hold 30 s", "{hold: 30 s}", dose({1, 1}, Holds{seconds(30, 30), 1, false})},
        {"to fatigue at most 15", "{to_fatigue_at_most: 15}", dose({1, 1}, ToFatigue{15, false})},
        {"2 x to fatigue at most 20 each side",
         "{sets: 2, to_fatigue_at_most: 20, each_side: true}", dose({2, 2}, ToFatigue{20, true})},
        {"3 x 5 x 10 s", "{sets: 3, holds: 5, hold: 10 s}",
         dose({3, 3}, Holds{seconds(10, 10), 5, false})},
        {"3 x 5 x 10-15 s each side", "{sets: 3, holds: 5, hold: 10-15 s, each_side: true}",
         dose({3, 3}, Holds{seconds(10, 15), 5, true})},
        {"1 x 30", "{repetitions: 30}", dose({1, 1}, Repetitions{{30, 30}, false})},
    };
}

} // namespace

TEST_CASE("compact notation and map form mean the same dose") {
    for (const Meaning& row : meanings()) {
        INFO(row.compact << " | " << row.map);
        const Parsed compact = parse(row.compact);
        const Parsed map = parse(row.map);
        CHECK(compact.findings.size() == 0);
        CHECK(map.findings.size() == 0);
        REQUIRE(compact.dose);
        REQUIRE(map.dose);
        CHECK(same(*compact.dose, row.dose));
        CHECK(same(*map.dose, row.dose));
    }
}

TEST_CASE("spelling that clinicians vary reads the same") {
    const auto [first, second] = GENERATE(table<std::string, std::string>({
        {"3x10", "3 x 10"},
        {"3 X 10", "3 x 10"},
        {"3 \u00D7 8\u201312", "3 x 8-12"},
        {"3 x 8 - 12", "3 x 8-12"},
        {"5 x 45s, rest 2 minutes", "5 x 45 s, rest 2 min"},
        {"5 x 45 seconds, REST 120 sec", "5 x 45 s, rest 2 min"},
        {"\"3 x 10, 2 / day\"", "3 x 10, 2/day"},
        {"3 x 10, 1 day/week", "3 x 10, 1 days/week"},
    }));
    INFO(first);
    const Parsed a = parse(first);
    const Parsed b = parse(second);
    REQUIRE(a.dose);
    REQUIRE(b.dose);
    CHECK(same(*a.dose, *b.dose));
}

TEST_CASE("each mistake in a dose points at its column and says what was found") {
    // "dose: " takes six columns, so the first sign of the value stands in column 7.
    struct Row {
        std::string value;
        int column;
        std::string message;
        std::string hint; ///< part of it
    };
    const std::vector<Row> rows = {
        {"3 x", 10, "dose \"3 x\": repetitions are missing after \"x\"", "whole number"},
        {"x 10", 7, "dose \"x 10\": sets are missing after the start", "whole number"},
        {"0 x 10", 7, "dose \"0 x 10\": sets must be at least 1, not 0", "leave the exercise out"},
        {"3 x 0", 11, "dose \"3 x 0\": repetitions must be at least 1, not 0", ""},
        {"3 x 0 s", 11, "dose \"3 x 0 s\": the hold must be at least 1 s, not 0", ""},
        {"-3 x 10", 7, "dose \"-3 x 10\": sets cannot be negative, -3", "from 1 up"},
        {"3 x -10", 11, "dose \"3 x -10\": repetitions cannot be negative, -10", ""},
        {"3 x 12-8", 11, "dose \"3 x 12-8\": the range of repetitions runs from 12 down to 8",
         "write 8-12"},
        {"3 x 8-", 13, "dose \"3 x 8-\": repetitions are missing after \"-\"", ""},
        {"3 x 1000", 11,
         "dose \"3 x 1000\": repetitions are more than 200, the most this format takes",
         "extra digit"},
        {"3 x 99999999999999999999", 11,
         "dose \"3 x 99999999999999999999\": repetitions are more than 200, the most this format "
         "takes",
         ""},
        {"3 x 40 min", 11,
         "dose \"3 x 40 min\": the hold is more than 10 min, the most this format takes", ""},
        {"31 x 10", 7, "dose \"31 x 10\": sets are more than 30, the most this format takes", ""},
        {"30", 7, "dose \"30\": 30 could be repetitions or seconds",
         "write 1 x 30 for repetitions or 30 s"},
        {"3 x 1.5", 11,
         "dose \"3 x 1.5\": repetitions are 1.5, but only whole numbers can be counted", ""},
        {"30 s-1 min", 10, "dose \"30 s-1 min\": a unit stands inside the range of the time",
         "unit once"},
        {"3 x 30 s-1 min", 14,
         "dose \"3 x 30 s-1 min\": a unit stands inside the range of the hold", ""},
        {"3 x 2 min 30 s", 17, "dose \"3 x 2 min 30 s\": two units are mixed in the hold",
         "one number"},
        {"3 x 5-6 x 10 s", 11,
         "dose \"3 x 5-6 x 10 s\": the number of holds in a set is a range, but one number was "
         "expected",
         ""},
        {"3 x 5 x 10", 15, "dose \"3 x 5 x 10\": the hold is without a unit: 10 seconds or minutes",
         "write 10 s or 10 min"},
        {"3 x 10 rest 60 s", 14,
         "dose \"3 x 10 rest 60 s\": \"rest\" was not understood after \"10\"", "comma"},
        {"3 x 10, rest 60", 20,
         "dose \"3 x 10, rest 60\": the rest is without a unit: 60 seconds or minutes",
         "write 60 s or 60 min"},
        {"3 x 10, rset 60 s", 15,
         "dose \"3 x 10, rset 60 s\": \"rset\" stands where rest, times a day or days a week is "
         "expected",
         "did you mean \"rest\"?"},
        {"3 x 10, 8 days/week", 15,
         "dose \"3 x 10, 8 days/week\": days a week are more than 7, the most this "
         "format takes",
         ""},
        {"3 x 10, 3/week", 17,
         "dose \"3 x 10, 3/week\": \"week\" stands where \"/day\" is expected",
         "write 3 days/week"},
        {"3 x 10, 0/day", 15, "dose \"3 x 10, 0/day\": times a day must be at least 1, not 0", ""},
        {"3 x 10, 2/day, 3/day", 27, "dose \"3 x 10, 2/day, 3/day\": times a day is given twice",
         "keep one"},
        {"3 x 10,", 14,
         "dose \"3 x 10,\": the end stands where rest, times a day or days a week is expected",
         "remove the comma"},
        {"3 x 10 each leg", 19,
         "dose \"3 x 10 each leg\": \"leg\" stands where \"side\" is expected", "each side"},
        {"10 min each side", 14, "dose \"10 min each side\": time spent has no sides",
         "30 s each side"},
        {"to fatigue", 17, "dose \"to fatigue\": the end stands where \"at\" is expected",
         "at most 15"},
        {"3 x ten", 11, "dose \"3 x ten\": \"ten\" stands where repetitions are expected", ""},
        // Columns count code points: the multiplication sign is one.
        {"3 \u00D7 1000", 11,
         "dose \"3 \u00D7 1000\": repetitions are more than 200, the most this format takes", ""},
        // A quoted value starts behind its quote.
        {"\"3 x\"", 11, "dose \"3 x\": repetitions are missing after \"x\"", ""},
        {"[3, 10]", 7, "the dose is a list, but a text or a map was expected", "3 x 8-12"},
    };
    for (const Row& row : rows) {
        INFO(row.value);
        const Parsed parsed = parse(row.value);
        CHECK_FALSE(parsed.dose);
        REQUIRE(parsed.findings.size() == 1);
        const support::Finding& finding = parsed.findings.all().front();
        CHECK(finding.message == row.message);
        CHECK(finding.span.line == 1);
        CHECK(finding.span.column == row.column);
        CHECK(finding.id == "dose-syntax");
        CHECK(finding.hint.find(row.hint) != std::string::npos);
        CHECK_FALSE(finding.hint.empty());
    }
}

TEST_CASE("mistakes in the map form are found all at once") {
    struct Row {
        std::string value;
        std::vector<std::string> messages;
    };
    const std::vector<Row> rows = {
        {"{sets: 3, repetitions: 10, hold: 5 s}", {"the dose has both repetitions and a hold"}},
        {"{sets: 3, time: 5 min, hold: 5 s}", {"the dose says in two ways what a set is"}},
        {"{sets: 3}", {"the dose does not say what a set is"}},
        {"{sets: 3, holds: 5}", {"the holds have no length"}},
        {"{time: 5 min, each_side: true}", {"time spent has no sides"}},
        {"{sets: 0, repetitions: 12-8, rest: 60}",
         {"sets \"0\": sets must be at least 1, not 0",
          "the rest \"60\": the rest is without a unit: 60 seconds "
          "or minutes",
          "repetitions \"12-8\": the range of repetitions runs from 12 down to 8"}},
        {"{sets: 3, repetitions: 10, repititions: 10}", {"the dose has no key \"repititions\""}},
        {"{sets: 3, repetitions: 10, each_side: yes}",
         {"each_side is \"yes\", but true or false was expected"}},
        {"{sets: 3, repetitions: 10 s}",
         {"repetitions \"10 s\": \"s\" is left over behind repetitions"}},
        {"{sets: 3, holds: 2-3, hold: 5 s}",
         {"holds in a set are a range, 2-3, but one number was expected"}},
    };
    for (const Row& row : rows) {
        INFO(row.value);
        const Parsed parsed = parse(row.value);
        std::vector<std::string> messages;
        for (const support::Finding& finding : parsed.findings.all()) {
            messages.push_back(finding.message);
        }
        CHECK(messages == row.messages);
    }
}

TEST_CASE("one dose with two bad clauses gives two findings") {
    const Parsed parsed = parse("3 x 12-8, rest 0 s, 2/day, 9 days/week");
    REQUIRE(parsed.findings.size() == 3);
    CHECK(parsed.findings.all().at(0).span.column == 11);
    CHECK(parsed.findings.all().at(1).span.column == 22);
    CHECK(parsed.findings.all().at(2).span.column == 34);
}

namespace {

/// A dose drawn at random, with both of its spellings.
struct Drawn {
    std::string compact;
    std::string map;
};

class Draw {
  public:
    explicit Draw(unsigned seed) : random_(seed) {}

    int number(int low, int high) {
        // Not std::uniform_int_distribution: its results differ between libraries.
        return low + static_cast<int>(random_() % static_cast<unsigned long>(high - low + 1));
    }
    bool coin() { return number(0, 1) == 1; }

    std::string range(int most) {
        const int low = number(1, most);
        const int high = coin() ? low : number(low, most);
        return low == high ? std::to_string(low) : std::to_string(low) + '-' + std::to_string(high);
    }

    Drawn dose() {
        Drawn drawn{range(30), ""};
        drawn.map = "{sets: " + drawn.compact;
        drawn.compact += " x ";
        content(drawn);
        if (coin()) {
            const std::string rest = coin() ? range(1800) + " s" : range(30) + " min";
            drawn.compact += ", rest " + rest;
            drawn.map += ", rest: " + rest;
        }
        if (coin()) {
            const std::string times = range(24);
            drawn.compact += ", " + times + "/day";
            drawn.map += ", per_day: " + times;
        }
        if (coin()) {
            const std::string days = range(7);
            drawn.compact += ", " + days + " days/week";
            drawn.map += ", days_per_week: " + days;
        }
        drawn.map += '}';
        return drawn;
    }

  private:
    void content(Drawn& drawn) {
        const int kind = number(0, 4);
        const std::string value = kind == 0   ? range(200)
                                  : kind == 3 ? range(240) + " min"
                                              : range(600) + " s";
        if (kind == 0) {
            drawn.compact += value;
            drawn.map += ", repetitions: " + value;
        } else if (kind == 1) {
            drawn.compact += value;
            drawn.map += ", hold: " + value;
        } else if (kind == 2) {
            const std::string holds = std::to_string(number(1, 60));
            drawn.compact += holds + " x " + value;
            drawn.map += ", holds: " + holds + ", hold: " + value;
        } else if (kind == 3) {
            drawn.compact += "time " + value;
            drawn.map += ", time: " + value;
        } else {
            const std::string cap = std::to_string(number(1, 200));
            drawn.compact += "to fatigue at most " + cap;
            drawn.map += ", to_fatigue_at_most: " + cap;
        }
        if (kind != 3 && coin()) {
            drawn.compact += " each side";
            drawn.map += ", each_side: true";
        }
    }

    std::mt19937 random_;
};

} // namespace

TEST_CASE("generated doses: compact equals map, and writing then reading gives the dose back") {
    constexpr unsigned seed = 20260302;
    INFO("seed " << seed);
    Draw draw(seed);
    for (int i = 0; i < 3000; ++i) {
        const Drawn drawn = draw.dose();
        const Parsed compact = parse(drawn.compact);
        const Parsed map = parse(drawn.map);
        INFO(drawn.compact << " | " << drawn.map);
        REQUIRE(compact.findings.size() == 0);
        REQUIRE(map.findings.size() == 0);
        REQUIRE(same(*compact.dose, *map.dose));
        const Parsed again = parse(to_notation(*compact.dose));
        REQUIRE(again.dose);
        REQUIRE(same(*again.dose, *compact.dose));
    }
}

TEST_CASE("any bytes as a dose end in a dose or a finding, never in both or none") {
    constexpr unsigned seed = 7;
    INFO("seed " << seed);
    std::mt19937 random(seed);
    const std::vector<std::string> pieces = {
        "3",      "12",     "-",       "x",    "s",    "min",  ",", "rest", "/",
        "day",    "to",     "at",      "most", "each", "side", "0", "week", "1.5",
        "\u00D7", "\u20AC", "fatigue", "hold", "time", "days", " "};
    for (int i = 0; i < 5000; ++i) {
        yaml::Node node;
        node.kind = yaml::Node::Kind::Scalar;
        node.span = {0, 1, 1};
        for (auto j = random() % 12; j > 0; --j) {
            node.text += pieces.at(random() % pieces.size()) + (random() % 2 == 0 ? " " : "");
        }
        support::Findings findings;
        const auto read = read_dose(node, findings);
        INFO(node.text);
        REQUIRE(read.has_value() != findings.has_errors());
    }
}

TEST_CASE("a huge text is refused at once and not repeated in the message") {
    support::Findings findings;
    yaml::Node node;
    node.kind = yaml::Node::Kind::Scalar;
    node.span = {0, 1, 1};
    node.text = std::string(yaml::kMaxBytes, '3');
    CHECK_FALSE(read_dose(node, findings));
    CHECK_FALSE(read_tempo(node, findings));
    CHECK_FALSE(read_begin(node, findings));
    REQUIRE(findings.size() == 3);
    for (const support::Finding& finding : findings.all()) {
        CHECK(finding.message.size() < 300);
    }
}
