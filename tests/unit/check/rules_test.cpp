// SPDX-License-Identifier: MIT
// Every rule of check::rules() with a prescription that breaks it and one that just does not, both
// planned and solved as the program does. A rule without a row here fails.
#include <catch2/catch.hpp>

#include <fstream>
#include <iterator>
#include <set>

#include "check/check.h"
#include "tests/unit/locale/environments.h"
#include "yaml/tree.h"

namespace {

using namespace tickleaf;

using Exercises = std::map<std::string, figure::Exercise>;

std::string bytes_of(const std::string& path) {
    std::ifstream stream(path, std::ios::binary);
    REQUIRE(stream);
    return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

/// Small exercises of one kind each; what is not here is read from figures/.
const std::map<std::string, std::string>& inline_exercises() {
    static const std::string stand = "region: ankle\nposition: standing\nposes: [{}]\n";
    static const std::map<std::string, std::string> files = {
        {"lift", stand + "family: calf\ndose_kind: strength\nweight_bearing: both\n"},
        {"lift-other", stand + "family: knee\ndose_kind: strength\nweight_bearing: both\n"},
        {"hold", stand + "family: calf\ndose_kind: hold\nweight_bearing: both\n"},
        {"stretch", stand + "family: calf\ndose_kind: stretch\nweight_bearing: both\n"},
        {"hop", stand + "family: calf\ndose_kind: strength\nweight_bearing: both\nimpact: true\n"},
        {"stand-work", stand + "family: calf\ndose_kind: balance\nweight_bearing: single\n"},
        {"on-step",
         stand + "family: calf\ndose_kind: balance\nweight_bearing: both\nequipment: [step]\n"},
    };
    return files;
}

figure::Exercise exercise(const std::string& id) {
    const auto found = inline_exercises().find(id);
    const std::string text = found != inline_exercises().end()
                                 ? found->second
                                 : bytes_of(TICKLEAF_ROOT "/figures/" + id + ".yaml");
    support::Sources sources;
    support::Findings findings;
    const auto root = yaml::read(sources, sources.add(id + ".yaml", text), findings);
    REQUIRE(root);
    auto read = figure::read_exercise(*root, id, findings);
    for (const auto& finding : findings.all()) {
        UNSCOPED_INFO(support::to_text(finding, sources));
    }
    REQUIRE(read);
    REQUIRE_FALSE(findings.has_errors());
    return *read;
}

struct ByFacts : dose::SidedExercises {
    explicit ByFacts(const Exercises& known) : exercises(known) {}
    bool has_sides(const std::string& id) const override {
        return exercises.at(id).facts().has_sides;
    }
    const Exercises& exercises;
};

/// Left and right as the source tree's languages have them.
const locale::SideNames& side_names() {
    static const locale::SideNames names = [] {
        const locale::test::TreeEnvironment tree;
        support::Sources sources;
        support::Findings findings;
        auto loaded = locale::SideNames::load(tree, sources, findings);
        REQUIRE(findings.size() == 0);
        return loaded;
    }();
    return names;
}

/// What the program knows before it checks.
struct Case {
    prescription::Prescription rx;
    Exercises exercises;
    dose::Schedule schedule;
    std::vector<std::vector<figure::Solution>> solutions;
    support::Findings planning;
    check::Subject subject() const {
        return {&rx, &schedule, &exercises, &solutions, &side_names()};
    }
};

const std::string kPeople =
    "format: 1\npatient: {name: Rosa M., languages: [en]}\n"
    "clinic: {name: C, clinician: T, phone: \"+44 1632 960123\", emergency: \"112\"}\n";

Case make_case(const std::string& rest) {
    Case made;
    support::Sources sources;
    support::Findings findings;
    const auto root = yaml::read(sources, sources.add("rx.yaml", kPeople + rest), findings);
    REQUIRE(root);
    auto rx = prescription::read(*root, findings);
    for (const auto& finding : findings.all()) {
        UNSCOPED_INFO(support::to_text(finding, sources));
    }
    REQUIRE(rx);
    REQUIRE_FALSE(findings.has_errors());
    made.rx = std::move(*rx);
    for (const auto& stage : made.rx.stages) {
        for (const auto& line : stage.exercises) {
            made.exercises.emplace(line.exercise.value, exercise(line.exercise.value));
        }
    }
    auto schedule = dose::plan(made.rx, ByFacts(made.exercises), made.planning);
    REQUIRE(schedule);
    made.schedule = std::move(*schedule);
    for (const auto& stage : made.schedule.stages) {
        auto& row = made.solutions.emplace_back();
        for (const auto& planned : stage.exercises) {
            figure::Request request;
            request.side = planned.side;
            auto solved = figure::solve(made.exercises.at(planned.exercise), request, findings);
            REQUIRE(solved);
            row.push_back(std::move(*solved));
        }
    }
    return made;
}

/// The findings of one rule.
std::vector<support::Finding> found(const Case& one, const std::string& rule) {
    support::Findings findings;
    check::check(one.subject(), findings);
    std::vector<support::Finding> result;
    for (const auto& finding : findings.sorted()) {
        if (finding.id == rule) {
            result.push_back(finding);
        }
    }
    return result;
}

const check::Rule& rule_of(const std::string& id) {
    for (const check::Rule& rule : check::rules()) {
        if (rule.id == id) {
            return rule;
        }
    }
    FAIL("no rule " + id);
    return check::rules().front();
}

std::string one_stage(const std::string& before, const std::string& lines,
                      const std::string& weeks = "1-2") {
    return before + "side: right\nstages:\n  - name: settle\n    weeks: " + weeks +
           "\n    days_per_week: 3\n    exercises:\n" + lines;
}

std::string line(const std::string& text) {
    return "      - {" + text + "}\n";
}

std::string stages(const std::string& first, const std::string& second) {
    const std::string head = "side: right\nstages:\n  - {name: a, weeks: 1-2, days_per_week: 3, ";
    return head + first + "}\n  - {name: b, weeks: 3-4, days_per_week: 3, " + second + "}\n";
}

/// A rule, what breaks it (`places` findings), and what comes nearest without breaking it.
struct Row {
    std::string rule;
    std::string bad;
    std::string good;
    std::size_t places = 1;
};

std::vector<Row> dose_rows() {
    return {
        // Usual 5 to 25 repetitions of strength: the ends belong to the range.
        {"dose-usual-range", one_stage("", line("do: lift, dose: \"3 x 8-26, rest 60 s\"")),
         one_stage("", line("do: lift, dose: \"6 x 5-25, rest 60 s\""))},
        {"dose-usual-range", one_stage("", line("do: stretch, dose: 7 x 9 s")),
         one_stage("", line("do: stretch, dose: 6 x 10-60 s")), 2},
        // Garber et al. 2011: stretches of 10 to 30 s, 30 to 60 s when older; Rio et al. 2015: five
        // holds of 45 s.
        {"dose-usual-range",
         one_stage("", line("do: hold, dose: \"5 x 61 s, rest 2 min\", begin: 15 s")),
         one_stage("", line("do: hold, dose: \"5 x 45 s, rest 2 min\", begin: 15 s"))},
        {"rest-for-load", one_stage("", line("do: lift, dose: \"3 x 10, rest 29 s\"")),
         one_stage("", line("do: lift, dose: \"3 x 10, rest 30 s\""))},
        {"rest-for-load", one_stage("", line("do: lift, dose: 2 x 10")),
         one_stage("", line("do: lift, dose: 1 x 10"))},
        {"start-low", one_stage("", line("do: hold, dose: \"5 x 30 s, rest 60 s\"")),
         one_stage("", line("do: hold, dose: \"5 x 29 s, rest 60 s\""))},
        {"start-low", one_stage("", line("do: hold, dose: \"5 x 45 s, rest 60 s\"")),
         one_stage("", line("do: hold, dose: \"5 x 45 s, rest 60 s\", begin: 15 s"))},
        {"fatigue-with-rest-days",
         one_stage("", line("do: lift, dose: \"2 x to fatigue at most 15, rest 60 s, 4 "
                            "days/week\"")),
         one_stage("", line("do: lift, dose: \"2 x to fatigue at most 15, rest 60 s\""))},
    };
}

std::vector<Row> load_rows() {
    const auto work = [](const std::string& id, int repetitions) {
        return "exercises: [{do: " + id + ", dose: \"3 x " + std::to_string(repetitions) +
               ", rest 60 s\"}]";
    };
    const std::string step = "home: {equipment: [chair, step: 15 cm]}\n";
    return {
        // Twice the work is allowed, one repetition more is not: 3 x 10 to 3 x 20 and 3 x 21.
        {"weekly-volume-jump", stages(work("lift", 10), work("lift", 21)),
         stages(work("lift", 10), work("lift", 20))},
        // 150 to 301 repetitions are 200.7 percent: nothing is rounded away.
        {"weekly-volume-jump",
         stages("exercises: [{do: lift, dose: 1 x 150}]", "exercises: [{do: lift, dose: 7 x 43}]"),
         stages("exercises: [{do: lift, dose: 1 x 150}]", "exercises: [{do: lift, dose: 6 x 50}]")},
        // Another family is no jump.
        {"weekly-volume-jump", stages(work("lift", 5), work("lift", 20)),
         stages(work("lift", 5), work("lift-other", 20))},
        {"rest-days", one_stage("", line("do: lift, dose: \"3 x 10, rest 60 s, 5 days/week\"")),
         one_stage("", line("do: lift, dose: \"3 x 10, rest 60 s, 4 days/week\""))},
        // On 3 days and on 4 of a week that has work every day: 6 days in all.
        {"rest-days",
         one_stage("", line("do: stretch, dose: \"3 x 30 s, 7 days/week\"") +
                           line("do: lift, dose: \"3 x 10, rest 60 s, 3 days/week\"") +
                           line("do: lift, dose: \"3 x 5, rest 60 s, 4 days/week\"")),
         one_stage("", line("do: stretch, dose: \"3 x 30 s, 7 days/week\"") +
                           line("do: lift, dose: \"3 x 10, rest 60 s, 3 days/week\"") +
                           line("do: lift, dose: \"3 x 5, rest 60 s, 3 days/week\""))},
        // 3 x 10 x 3 s and 2 x 60 s are 210 s, and twice a day 420 s: exactly 7 minutes.
        {"session-too-long",
         one_stage("home: {minutes_per_day: 6}\n",
                   line("do: lift, dose: \"3 x 10, rest 60 s, 2/day\"")),
         one_stage("home: {minutes_per_day: 7}\n",
                   line("do: lift, dose: \"3 x 10, rest 60 s, 2/day\""))},
        {"equipment-at-home",
         one_stage("home: {equipment: [chair]}\n", line("do: on-step, dose: 3 x 30 s")),
         one_stage(step, line("do: on-step, dose: 3 x 30 s"))},
        {"equipment-at-home", one_stage("", line("do: on-step, dose: 3 x 30 s")),
         one_stage("", line("do: lift, dose: 3 x 10"))},
    };
}

std::vector<Row> frame_rows() {
    const std::string lift = line("do: lift, dose: \"3 x 10, rest 60 s\"");
    const std::string plain = "exercises: [{do: lift, dose: \"3 x 10, rest 60 s\"}]";
    const auto problem = [&](const std::string& text) {
        return one_stage("problem: " + text + '\n', lift);
    };
    return {
        {"side-contradicted", problem("{en: Sprain of the LEFT ankle}"),
         problem("{en: Sprain of the right ankle}")},
        {"side-contradicted", problem("{es: Esguince del tobillo izquierdo}"),
         problem("{es: Esguince del tobillo derecho}")},
        {"side-contradicted", problem("{uk: Ліва щиколотка}"), problem("{uk: Права щиколотка}")},
        {"side-contradicted", problem("{ar: التواء الكاحل الأيسر}"),
         problem("{ar: التواء الكاحل الأيمن}")},
        // Without hamza, as it is often typed; "left-sided" in one word; without spaces.
        {"side-contradicted", problem("{ar: التواء الكاحل الايسر}"),
         problem("{ar: التواء الكاحل الايمن}")},
        {"side-contradicted", problem("{pl: Lewostronne skręcenie kostki}"),
         problem("{pl: Prawostronne skręcenie kostki}")},
        {"side-contradicted", problem("{fa: پیچ خوردگی مچ پای چپ}"),
         problem("{fa: پیچ خوردگی مچ پای راست}")},
        {"side-contradicted", problem("{zh-Hans: 左踝扭伤}"), problem("{zh-Hans: 右踝扭伤}")},
        // A text without a language is held against all.
        {"side-contradicted", problem("Tobillo izquierdo"), problem("Bright light hurts")},
        // Both sides named is no contradiction: the other one may be the sound one.
        {"side-contradicted", problem("Weaker than the left leg"),
         problem("Right leg weaker than the left")},
        {"no-criterion", stages(plain, plain),
         stages("move_on_text: {en: When it is easy.}, " + plain, plain)},
        {"no-criterion", stages(plain, plain),
         stages("move_on_when: [walks-without-limp], " + plain, plain)},
        // Two weeks from Monday 2 March 2026 end on Sunday 15 March.
        {"review-after-end", one_stage("starts: 2026-03-02\nreview: 2026-03-16\n", lift),
         one_stage("starts: 2026-03-02\nreview: 2026-03-15\n", lift)},
        {"alarm-sign-in-problem", problem("{en: Back pain with a numb saddle}"),
         problem("{en: Back pain without leg signs}")},
        {"problem-language", problem("{es: Esguince}"), problem("{en: Sprain}")},
    };
}

std::vector<Row> limit_rows() {
    const auto limited = [](const std::string& limit, const std::string& text) {
        return one_stage("limits: [\"" + limit + "\"]\n", line(text));
    };
    const std::string raise = "do: calf-raise-one-leg, dose: \"3 x 10, rest 60 s\"";
    return {
        // The raise is drawn at 30 degrees of plantarflexion.
        {"against-limit", limited("right ankle plantarflexion at most 25 degrees", raise),
         limited("right ankle plantarflexion at most 35 degrees", raise)},
        // The other ankle hangs at 10 degrees.
        {"against-limit", limited("left ankle plantarflexion at most 5 degrees", raise),
         limited("left ankle plantarflexion at most 15 degrees", raise)},
        {"against-limit", limited("no impact", "do: hop, dose: 3 x 10"),
         limited("no impact", "do: lift, dose: 3 x 10")},
        {"against-limit", limited("no weight on right leg", "do: lift, dose: 3 x 10"),
         limited("no weight on right leg", "do: heel-slide, dose: 3 x 10")},
        {"against-limit", limited("no weight on right leg", "do: stand-work, dose: 3 x 20 s"),
         limited("no weight on left leg", "do: stand-work, dose: 3 x 20 s")},
        {"against-limit", limited("partial weight on right leg", "do: stand-work, dose: 3 x 20 s"),
         limited("partial weight on right leg", "do: lift, dose: 3 x 10")},
    };
}

std::vector<Row> all_rows() {
    std::vector<Row> rows;
    for (auto part : {dose_rows(), load_rows(), frame_rows(), limit_rows()}) {
        rows.insert(rows.end(), part.begin(), part.end());
    }
    return rows;
}

/// Rules whose breach is put into the solution below, because figure/ keeps it out of the files.
const std::set<std::string> kBySolution = {"balance", "band-tension", "side-missing",
                                           "stages-in-order"};

} // namespace

TEST_CASE("each rule speaks where it is broken and is silent where it is not") {
    for (const Row& row : all_rows()) {
        INFO(row.rule << "\n" << row.bad);
        const auto bad = found(make_case(row.bad), row.rule);
        CHECK(bad.size() == row.places);
        for (const support::Finding& finding : bad) {
            CHECK(finding.severity == rule_of(row.rule).severity);
            CHECK(finding.span.line > 1);
            CHECK(finding.span.column > 0);
            CHECK_FALSE(finding.message.empty());
            CHECK_FALSE(finding.hint.empty());
        }
        INFO("beside it:\n" << row.good);
        for (const support::Finding& finding : found(make_case(row.good), row.rule)) {
            FAIL_CHECK(finding.message);
        }
    }
}

TEST_CASE("no rule is without a test, an id, a sentence or a source; ids are in order, once") {
    std::set<std::string> tested = kBySolution;
    for (const Row& row : all_rows()) {
        tested.insert(row.rule);
    }
    std::set<std::string> known;
    for (const check::Rule& rule : check::rules()) {
        CHECK((known.empty() || *known.rbegin() < rule.id));
        known.insert(rule.id);
        CHECK_FALSE(rule.sentence.empty());
        CHECK(rule.sentence.back() == '.');
        CHECK_FALSE(rule.source.empty());
    }
    CHECK(tested == known);
}

TEST_CASE("balance: a pose out of balance without support, unless it is only passed through") {
    Case one = make_case(one_stage("", line("do: lift, dose: 3 x 10")));
    CHECK(found(one, "balance").empty());
    auto& pose = one.solutions.at(0).at(0).poses.at(0);
    pose.balance_margin_mm = -0.1;
    CHECK(found(one, "balance").size() == 1);
    pose.passing = true;
    CHECK(found(one, "balance").empty());
    // The calf raise on one leg holds on to a chair.
    Case held = make_case(one_stage("", line("do: calf-raise-one-leg, dose: 3 x 10")));
    held.solutions.at(0).at(0).poses.at(0).balance_margin_mm = -0.1;
    CHECK(found(held, "balance").empty());
}

TEST_CASE("band: neither slack nor stretched past its range, both ends included") {
    const auto [stretch, places] = GENERATE(
        table<double, std::size_t>({{-0.001, 1u}, {0.0, 0u}, {0.25, 0u}, {2.5, 0u}, {2.501, 1u}}));
    INFO(stretch);
    Case one = make_case(one_stage("", line("do: lift, dose: 3 x 10")));
    figure::BandResult band;
    band.stretch = stretch;
    one.solutions.at(0).at(0).poses.at(0).bands.push_back(band);
    CHECK(found(one, "band-tension").size() == places);
}

TEST_CASE("a side is never guessed: planning says so, and so does the rule") {
    const std::string text = "stages:\n  - name: settle\n    weeks: 1-2\n    exercises:\n" +
                             line("do: lift, dose: 3 x 10");
    Case one = make_case(text);
    REQUIRE(one.planning.size() == 1);
    CHECK(one.planning.all().front().id == "side-missing");
    // Planning as though the exercise had no sides.
    one.schedule.stages.at(0).exercises.at(0).side = support::Side::None;
    CHECK(found(one, "side-missing").size() == 1);
    const Case good = make_case("side: left\n" + text);
    CHECK(good.planning.size() == 0);
    CHECK(found(good, "side-missing").empty());
}

TEST_CASE("doses of the guidelines and of published regimens are usual ones") {
    const std::vector<std::string> usual = {
        // Ratamess et al. 2009, Med Sci Sports Exerc 41:687-708: novices, 8 to 12 repetitions, 2 to
        // 3 days a week; Garber et al. 2011, 43:1334-59: 2 to 4 sets, 2 to 3 minutes of rest, 10 to
        // 15 repetitions for older people (values of 2011 from memory).
        "do: lift, dose: \"2-4 x 8-12, rest 2-3 min, 2-3 days/week\", tempo: 1-0-2",
        "do: lift, dose: \"2-4 x 10-15, rest 2-3 min, 2-3 days/week\"",
        // Garber et al. 2011: stretches 2 to 4 times for 10 to 30 s, 30 to 60 s for older people
        // (values from memory).
        "do: stretch, dose: \"2-4 x 10-30 s, 3 days/week\"",
        "do: stretch, dose: \"2-4 x 30-60 s, 3 days/week\"",
        // Otago Exercise Programme: two sets of 8 to 10, 1 to 2 minutes of rest, three days a week;
        // one-leg stand 10 to 30 s (values from memory).
        "do: lift, dose: \"2 x 8-10, rest 60-120 s, 3 days/week\"",
        "do: stand-work, dose: \"1 x 10-30 s, 3 days/week\"",
        // Rio et al. 2015, BJSM 49:1277-83: 5 x 45 s, 2 min of rest (dose: value from memory).
        "do: hold, dose: \"5 x 45 s, rest 2 min\", begin: 15 s",
        // Kongsgaard et al. 2009, Scand J Med Sci Sports 19:790-802, first and last stage (values
        // from memory).
        "do: lift, dose: \"3 x 15, rest 2-3 min, 3 days/week\", tempo: 3-0-3",
        "do: lift, dose: \"4 x 6, rest 2-3 min, 3 days/week\", tempo: 3-0-3",
    };
    for (const std::string& text : usual) {
        INFO(text);
        const Case one = make_case(one_stage("", line(text)));
        for (const char* rule : {"dose-usual-range", "rest-for-load", "rest-days", "start-low"}) {
            for (const support::Finding& finding : found(one, rule)) {
                FAIL_CHECK(rule << ": " << finding.message);
            }
        }
    }
    // Alfredson et al. 1998, Am J Sports Med 26:360-6, works every day on purpose: that is asked
    // about, and a reason waives it.
    const std::string daily = line("do: lift, dose: \"3 x 15, rest 60 s, 2/day, 7 days/week\"");
    CHECK(found(make_case(one_stage("", daily)), "rest-days").size() == 1);
    const auto waived = found(
        make_case(one_stage("waive: [{rule: rest-days, reason: every day by design}]\n", daily)),
        "rest-days");
    REQUIRE(waived.size() == 1);
    CHECK(waived.front().severity == support::Severity::Note);
}

TEST_CASE("weeks: a gap, an overlap, and a stage whose weeks could not be read") {
    const std::string lift = "exercises: [{do: lift, dose: 3 x 10}]";
    Case one = make_case(stages(lift, lift));
    CHECK(found(one, "stages-in-order").empty());
    auto& second = one.rx.stages.at(1);
    for (const auto& [low, places] : std::vector<std::pair<int, std::size_t>>{{2, 1}, {4, 1}}) {
        second.weeks.low = low;
        CHECK(found(one, "stages-in-order").size() == places);
    }
    second.has_whole_frame = false;
    CHECK(found(one, "stages-in-order").empty());
}

TEST_CASE("waivers: a warning becomes a note with the reason, an error cannot be waived") {
    const std::string lift = line("do: lift, dose: 3 x 10");
    const Case waived =
        make_case(one_stage("waive: [{rule: rest-for-load, reason: tiny load}]\n", lift));
    const auto notes = found(waived, "rest-for-load");
    REQUIRE(notes.size() == 1);
    CHECK(notes.front().severity == support::Severity::Note);
    CHECK(notes.front().message.find("(waived: tiny load)") != std::string::npos);

    const Case error = make_case(one_stage("problem: Left ankle\nwaive: [{rule: side-contradicted, "
                                           "reason: no}]\n",
                                           lift));
    CHECK(found(error, "rule-not-waivable").size() == 1);
    const auto still = found(error, "side-contradicted");
    REQUIRE(still.size() == 1);
    CHECK(still.front().severity == support::Severity::Error);

    const Case typo = make_case(one_stage("waive: [{rule: rest-dais, reason: no}]\n", lift));
    const auto unknown = found(typo, "unknown-rule");
    REQUIRE(unknown.size() == 1);
    CHECK(unknown.front().hint == "did you mean \"rest-days\"?");
}
