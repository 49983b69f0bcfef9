// SPDX-License-Identifier: MIT
// Totals, ladders and calendar, against published regimens and against a walk that counts one
// repetition at a time.
#include <catch2/catch.hpp>

#include <fstream>
#include <iterator>
#include <random>
#include <set>

#include "dose/schedule.h"
#include "planned.h"
#include "yaml/tree.h"

namespace {

using namespace tickleaf;
using namespace tickleaf::dose;
using prescription::Prescription;
using namespace tickleaf::tests;

} // namespace

TEST_CASE("published regimens come to their published totals") {
    // Alfredson et al. 1998, Am J Sports Med 26(3):360-6 (dose: value from memory): two exercises,
    // 3 x 15, twice a day, seven days a week, twelve weeks: 15 120 repetitions in 84 days.
    const Planned calf = plan_stage(
        "1-12", "7",
        {"do: knee-straight, dose: \"3 x 15, 2/day\"", "do: knee-bent, dose: \"3 x 15, 2/day\""});
    std::int64_t repetitions = 0;
    int session = 0;
    for (const PlannedExercise& one : calf.schedule->stages.front().exercises) {
        repetitions += one.totals.repetitions_stage.high;
        session += one.totals.repetitions_session.high;
    }
    CHECK(session == 90);
    CHECK(repetitions == 15120);
    CHECK(calf.schedule->days.size() == 84);

    // Rio et al. 2015, Br J Sports Med 49:1277-83 (dose: value from memory): five holds of 45 s
    // with 2 min of rest are 225 s of tension and 705 s in all; four sets of eight at 3 s up and 4
    // s down are 224 s.
    const Planned isometric = plan_stage("1", "4", {"do: hold, dose: \"5 x 45 s, rest 2 min\""});
    CHECK(first(isometric).totals.tension.high.count == 225);
    CHECK(first(isometric).totals.session.high.count == 705);
    CHECK(first(isometric).totals.set.high.count == 45);
    const Planned isotonic = plan_stage("1", "4", {"do: lift, dose: 4 x 8, tempo: 3-0-4"});
    CHECK(first(isotonic).totals.tension.high.count == 224);

    // Pearson et al. 2020, Clin J Sport Med: 24 x 10 s and 6 x 40 s are the same total.
    CHECK(first(plan_stage("1", "4", {"do: hold, dose: 24 x 10 s"})).totals.tension.high.count ==
          240);
    CHECK(first(plan_stage("1", "4", {"do: hold, dose: 6 x 40 s"})).totals.tension.high.count ==
          240);

    // Rio et al. 2017, Clin J Sport Med 27(3):253-9: four times a week for four weeks are 16
    // sessions. Hupperets et al. 2009, BMJ 339:b2684: three a week for eight weeks are 24 sessions.
    const auto sessions = [](const Planned& planned) {
        int days = 0;
        for (const PlannedDay& day : planned.schedule->days) {
            days += day.is_rest_day() ? 0 : 1;
        }
        return days;
    };
    CHECK(sessions(plan_stage("1-4", "4", {"do: hold, dose: 5 x 45 s"})) == 16);
    CHECK(sessions(plan_stage("1-8", "3", {"do: stand, dose: 30 min"})) == 24);
}

TEST_CASE("tempo table: seconds a repetition, a set and in all") {
    // The arithmetic of time under tension: repetitions x sum of phases (Wilk, Zajac and Tufano
    // 2021, Sports Med 51:1629-50; value from memory). Their digits name the lowering first; here
    // the same numbers are written in the order done.
    struct Row {
        std::string dose;
        std::string tempo;
        int repetition, set, total;
    };
    const auto row = GENERATE(values<Row>({{"3 x 15", "3-0-3-0", 6, 90, 270},
                                           {"4 x 8", "3-0-4-0", 7, 56, 224},
                                           {"3 x 10", "1-0-3-1", 5, 50, 150},
                                           {"3 x 12", "2-0-2-0", 4, 48, 144}}));
    INFO(row.dose << ' ' << row.tempo);
    const Planned planned =
        plan_stage("1", "7", {"do: lift, dose: " + row.dose + ", tempo: " + row.tempo});
    const ExerciseTotals& totals = first(planned).totals;
    CHECK(totals.repetition.high.count == row.repetition);
    CHECK(totals.set.high.count == row.set);
    CHECK(totals.tension.high.count == row.total);
}

TEST_CASE("both ends of every range, sides and rests") {
    const Planned planned = plan_stage(
        "1-2", "3-5",
        {"do: lift, dose: \"3-4 x 8-12 each side, rest 60-90 s, 1-2/day\", tempo: 1-1-3-2"});
    const ExerciseTotals& totals = first(planned).totals;
    CHECK(first(planned).side == support::Side::Both);
    CHECK(totals.sides == 2);
    CHECK(totals.repetition == Range<Seconds>{{7}, {7}});
    CHECK(totals.set == Range<Seconds>{{56}, {84}});
    // 2 sides x (3 x 56 + 2 x 60) and 2 x (4 x 84 + 3 x 90)
    CHECK(totals.session == Range<Seconds>{{576}, {1212}});
    // all phases of a repetition, no rests between sets: 2 x 3 x 8 x 7 and 2 x 4 x 12 x 7
    CHECK(totals.tension == Range<Seconds>{{336}, {672}});
    CHECK(totals.repetitions_session == Range<int>{48, 96});
    CHECK(totals.repetitions_week == Range<std::int64_t>{48 * 3, 96 * 2 * 5});
    CHECK(totals.repetitions_stage == Range<std::int64_t>{48 * 3 * 2, 96 * 2 * 5 * 2});
}

TEST_CASE("days of a week are spread as evenly as whole days allow") {
    using Days = std::vector<int>;
    CHECK(spread_days(1) == Days{0});
    CHECK(spread_days(2) == Days{0, 3});
    CHECK(spread_days(3) == Days{0, 2, 4});
    CHECK(spread_days(4) == Days{0, 1, 3, 5});
    CHECK(spread_days(5) == Days{0, 1, 2, 4, 5});
    CHECK(spread_days(6) == Days{0, 1, 2, 3, 4, 5});
    CHECK(spread_days(7) == Days{0, 1, 2, 3, 4, 5, 6});
    for (int n = 1; n <= 7; ++n) {
        const Days days = spread_days(n);
        int least = 7;
        int most = 0;
        for (std::size_t i = 0; i < days.size(); ++i) {
            const int gap = (i + 1 < days.size() ? days.at(i + 1) : days.front() + 7) - days.at(i);
            least = std::min(least, gap);
            most = std::max(most, gap);
        }
        CHECK(most - least <= 1);
    }
}

TEST_CASE("what is done less often falls on exercise days, apart from each other") {
    const Planned planned = plan_stage(
        "1", "5", {"do: often, dose: 3 x 10", "do: seldom, dose: \"3 x 10, 3 days/week\""});
    REQUIRE(planned.schedule);
    std::vector<int> seldom;
    int busy = 0;
    for (const PlannedDay& day : planned.schedule->days) {
        busy += day.is_rest_day() ? 0 : 1;
        if (std::find(day.exercises.begin(), day.exercises.end(), 1u) != day.exercises.end()) {
            seldom.push_back(day.weekday);
        }
    }
    CHECK(busy == 5);
    CHECK(seldom == std::vector<int>{0, 2, 4});
}

TEST_CASE("calendar runs over months, leap days and changes of the clock; no start, no dates") {
    const auto dates = [](const std::string& starts) {
        const Planned planned = plan_text(with_people(
            "side: right\nstarts: " + starts +
            "\nstages:\n  - {name: one, weeks: 1-2, exercises: [{do: a, dose: 3 x 10}]}\n"
            "  - {name: two, weeks: 3-6, exercises: [{do: a, dose: 3 x 10}]}\n"));
        REQUIRE(planned.schedule);
        return *planned.schedule;
    };
    using namespace std::chrono;
    const Schedule leap = dates("2024-02-26");
    CHECK(*leap.days.at(3).date == 2024y / February / 29);
    CHECK(*leap.days.at(4).date == 2024y / March / 1);
    const Schedule plain = dates("2026-02-26");
    CHECK(*plain.days.at(3).date == 2026y / March / 1);
    // Clocks change on 2026-03-29 in Europe: the day after is still the next day, and every day
    // comes once.
    const Schedule spring = dates("2026-03-02");
    CHECK(*spring.stages.at(0).first_day == 2026y / March / 2);
    CHECK(*spring.stages.at(0).last_day == 2026y / March / 15);
    CHECK(*spring.stages.at(1).first_day == 2026y / March / 16);
    CHECK(*spring.stages.at(1).last_day == 2026y / April / 12);
    std::set<sys_days> seen;
    for (const PlannedDay& day : spring.days) {
        CHECK(weekday{sys_days{*day.date}} ==
              weekday{sys_days{2026y / March / 2} + days{day.weekday}});
        seen.insert(sys_days{*day.date});
    }
    CHECK(seen.size() == 42);
    // Weekdays of known dates: check table of calendar conversions, ICU 72.1 (2024-02-29 Thursday,
    // 2026-03-20 Friday).
    CHECK(weekday{sys_days{2024y / February / 29}} == Thursday);
    CHECK(weekday{sys_days{*spring.days.at(18).date}} == Friday);
    const Planned undated = plan_stage("1", "7", {"do: a, dose: 3 x 10"});
    CHECK_FALSE(undated.schedule->stages.front().first_day);
    CHECK_FALSE(undated.schedule->days.front().date);
}

TEST_CASE("sides: the exercise's own, else the prescription's; never guessed") {
    struct Row {
        std::string side;
        std::string line;
        support::Side planned;
        int sides;
        std::string id;
    };
    using support::Side;
    const auto row = GENERATE(values<Row>({
        {"right", "do: a, dose: 3 x 10", Side::Right, 1, ""},
        {"right", "do: a, dose: 3 x 10, side: left", Side::Left, 1, ""},
        {"right", "do: a, dose: 3 x 10, side: both", Side::Both, 2, ""},
        {"right", "do: a, dose: 3 x 10 each side", Side::Both, 2, ""},
        {"right", "do: a, dose: 3 x 10 each side, side: left", Side::Both, 2, "side-contradiction"},
        {"right", "do: both-a, dose: 3 x 10", Side::None, 1, ""},
        {"right", "do: both-a, dose: 3 x 10, side: right", Side::None, 1, "side-not-used"},
        {"right", "do: both-a, dose: 3 x 10 each side", Side::None, 1, "side-contradiction"},
        {"none", "do: a, dose: 3 x 10", Side::Both, 2, "side-missing"},
        {"", "do: a, dose: 3 x 10", Side::Both, 2, "side-missing"},
        {"", "do: both-a, dose: 3 x 10", Side::None, 1, ""},
    }));
    INFO(row.side << ": " << row.line);
    const Planned planned = plan_text(
        with_people((row.side.empty() ? "" : "side: " + row.side + "\n") +
                    "stages:\n  - {name: one, weeks: 1, exercises: [{" + row.line + "}]}\n"));
    REQUIRE(planned.schedule);
    const PlannedExercise& one = planned.schedule->stages.front().exercises.front();
    CHECK(one.side == row.planned);
    CHECK(one.totals.sides == row.sides);
    REQUIRE(planned.findings.size() == (row.id.empty() ? 0u : 1u));
    if (!row.id.empty()) {
        CHECK(planned.findings.all().front().id == row.id);
    }
}

namespace {

/// Seconds and repetitions counted one by one, at the low or the high end of all ranges.
struct Walk {
    std::int64_t seconds = 0;
    std::vector<std::int64_t> repetitions;
    std::vector<std::int64_t> tension;
};

struct Line {
    int sets[2], repetitions[2], rest[2], per_day[2], days[2], hold[2];
    int up = 0, pause = 0, down = 0;
    bool is_hold = false, each_side = false, has_tempo = false;
};

std::string range_text(const int (&ends)[2]) {
    return std::to_string(ends[0]) + (ends[0] == ends[1] ? "" : "-" + std::to_string(ends[1]));
}

std::string text_of(const Line& line) {
    std::string text =
        "do: a, dose: \"" + range_text(line.sets) + " x " +
        (line.is_hold ? range_text(line.hold) + " s" : range_text(line.repetitions)) +
        (line.each_side ? " each side" : "") + ", rest " + range_text(line.rest) + " s, " +
        range_text(line.per_day) + "/day, " + range_text(line.days) + " days/week\"";
    if (line.has_tempo) {
        text += ", tempo: " + std::to_string(line.up) + '-' + std::to_string(line.pause) + '-' +
                std::to_string(line.down);
    }
    return text;
}

/// One exercise in one session, second by second.
void do_session(const Line& line, std::size_t end, std::size_t index, Walk& walk) {
    for (int side = 0; side < (line.each_side ? 2 : 1); ++side) {
        for (int set = 0; set < line.sets[end]; ++set) {
            walk.seconds += set > 0 ? line.rest[end] : 0;
            for (int i = 0; i < (line.is_hold ? 1 : line.repetitions[end]); ++i) {
                const int each = line.is_hold     ? line.hold[end]
                                 : line.has_tempo ? line.up + line.pause + line.down
                                                  : 3;
                walk.seconds += each;
                walk.tension[index] += each;
                ++walk.repetitions[index];
            }
        }
    }
}

/// One week: on how many of its days a line is due is all that counts here, so days are filled from
/// the front, and the lines all have the same days or the walk is of one line.
Walk walk_week(const std::vector<Line>& lines, std::size_t end) {
    Walk walk;
    walk.repetitions.assign(lines.size(), 0);
    walk.tension.assign(lines.size(), 0);
    for (int day = 0; day < 7; ++day) {
        for (int session = 0; session < 24; ++session) {
            bool is_first = true;
            for (std::size_t i = 0; i < lines.size(); ++i) {
                if (day >= lines[i].days[end] || session >= lines[i].per_day[end]) {
                    continue;
                }
                walk.seconds += is_first ? 0 : 30;
                is_first = false;
                do_session(lines[i], end, i, walk);
            }
        }
    }
    return walk;
}

} // namespace

TEST_CASE("generated prescriptions: totals equal a walk over every day, set and repetition") {
    constexpr unsigned seed = 15120;
    INFO("seed " << seed);
    std::mt19937 random(seed);
    const auto draw = [&](int(&ends)[2], int least, int most) {
        ends[0] = least + static_cast<int>(random() % static_cast<unsigned long>(most - least + 1));
        ends[1] =
            ends[0] + static_cast<int>(random() % static_cast<unsigned long>(most - ends[0] + 1));
    };
    for (int i = 0; i < 3000; ++i) {
        std::vector<Line> lines(1 + random() % 4);
        int days[2];
        draw(days, 1, 7);
        std::vector<std::string> texts;
        for (Line& line : lines) {
            draw(line.sets, 1, 6);
            draw(line.repetitions, 1, 20);
            draw(line.hold, 1, 60);
            draw(line.rest, 1, 120);
            draw(line.per_day, 1, 4);
            line.days[0] = days[0];
            line.days[1] = days[1];
            line.is_hold = random() % 2 == 0;
            line.each_side = random() % 3 == 0;
            line.has_tempo = !line.is_hold && random() % 2 == 0;
            line.up = 1 + static_cast<int>(random() % 4);
            line.pause = static_cast<int>(random() % 3);
            line.down = 1 + static_cast<int>(random() % 4);
            texts.push_back(text_of(line));
        }
        const int weeks = 1 + static_cast<int>(random() % 12);
        const Planned planned = plan_stage("1-" + std::to_string(weeks), "7", texts);
        REQUIRE(planned.findings.size() == 0);
        const PlannedStage& stage = planned.schedule->stages.front();
        const Walk low = walk_week(lines, 0);
        const Walk high = walk_week(lines, 1);
        REQUIRE(stage.week == Range<Seconds>{{low.seconds}, {high.seconds}});
        REQUIRE(stage.day == Range<Seconds>{{low.seconds / days[0]}, {high.seconds / days[1]}});
        for (std::size_t j = 0; j < lines.size(); ++j) {
            const ExerciseTotals& totals = stage.exercises.at(j).totals;
            INFO(texts.at(j));
            REQUIRE(totals.repetitions_week ==
                    Range<std::int64_t>{low.repetitions[j], high.repetitions[j]});
            REQUIRE(totals.repetitions_stage ==
                    Range<std::int64_t>{weeks * low.repetitions[j], weeks * high.repetitions[j]});
            REQUIRE(totals.tension.low.count * lines[j].per_day[0] * days[0] == low.tension[j]);
            REQUIRE(totals.tension.high.count * lines[j].per_day[1] * days[1] == high.tension[j]);
        }
        // Each line is on the calendar as many days as it asks for at most.
        std::int64_t due = 0;
        for (const PlannedDay& day : planned.schedule->days) {
            due += static_cast<std::int64_t>(day.exercises.size());
        }
        REQUIRE(due == std::int64_t{weeks} * days[1] * static_cast<std::int64_t>(lines.size()));
    }
}

TEST_CASE("the ankle starter plans without an error and dumps the same twice") {
    std::ifstream stream(std::string(TICKLEAF_ROOT) + "/templates/starters/ankle-sprain.yaml",
                         std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(stream),
                           std::istreambuf_iterator<char>()};
    const Planned planned = plan_text(text);
    CHECK(planned.findings.size() == 0);
    REQUIRE(planned.schedule);
    CHECK(planned.schedule->expected_weeks == Range<int>{8, 8});
    CHECK(planned.schedule->days.size() == 56);
    CHECK(planned.schedule->stages.at(0).sessions_per_day == 3);
    CHECK(planned.schedule->stages.at(0).exercises.at(1).ladder.size() == 4);
    const std::string json = dump(*planned.schedule);
    CHECK(json == dump(*plan_text(text).schedule));
    CHECK(json.find("\"first_day\": \"2026-03-16\"") != std::string::npos);
}

TEST_CASE("sessions and exercise days of a week, and the work of each family, on both ends") {
    // Alfredson et al. 1998, Am J Sports Med 26:360-6: two exercises of 3 x 15, twice a day, every
    // day, are 1260 repetitions and 14 sessions a week (dose: value from memory).
    const Planned calf = plan_stage("1-12", "7",
                                    {"do: straight, dose: \"3 x 15, 2/day\", tempo: 3-0-3",
                                     "do: bent, dose: \"3 x 15, 2/day\", tempo: 3-0-3"});
    const PlannedStage& stage = calf.schedule->stages.front();
    CHECK(stage.sessions_week == Range<int>{14, 14});
    CHECK(stage.exercise_days == Range<int>{7, 7});
    const auto work = weekly_work(stage, [](const std::string&) { return std::string("calf"); });
    REQUIRE(work.size() == 1);
    CHECK(work.front() ==
          FamilyWork{"calf", {1260 * 6, 1260 * 6}, Range<std::int64_t>{1260, 1260}});

    // By hand: 2 to 3 sets of 8 to 10 at 3 s on 2 to 3 days; walking is left out.
    const Planned mixed =
        plan_stage("1", "2-3",
                   {"do: lift, dose: 2-3 x 8-10", "do: walk, dose: \"time 10 min, 1-2/day\"",
                    "do: hold, dose: 4 x 20-30 s"});
    const PlannedStage& one = mixed.schedule->stages.front();
    CHECK(one.sessions_week == Range<int>{2, 6});
    CHECK(one.exercise_days == Range<int>{2, 3});
    const auto families = weekly_work(one, [](const std::string& exercise) {
        return exercise == "walk" ? std::string() : exercise == "lift" ? "thigh" : "calf";
    });
    CHECK(families == std::vector<FamilyWork>{
                          {"calf", {4 * 20 * 2, 4 * 30 * 3}, Range<std::int64_t>{8, 12}},
                          {"thigh", {16 * 3 * 2, 30 * 3 * 3}, Range<std::int64_t>{32, 90}}});
}

TEST_CASE("home programmes of the literature: sessions, days between, hours") {
    // Campbell and Robertson, Otago Exercise Programme (manual 2003): three times a week; a rest
    // day between, 8 to 10 repetitions, two sets, 1 to 2 minutes of rest, lift 2 to 3 s, lower 4 to
    // 5 s, one-leg stand 10 to 30 s (values from memory). On the days between they walk.
    const Planned otago =
        plan_stage("1-4", "7",
                   {"do: front-knee, dose: \"2 x 8-10, rest 60-120 s, 3 days/week\", tempo: 3-0-5",
                    "do: one-leg, dose: \"1 x 10-30 s, 3 days/week\"",
                    "do: both-walk, dose: \"30 min, 2 days/week\""});
    const PlannedStage& stage = otago.schedule->stages.front();
    CHECK(stage.exercises.at(0).totals.tension == Range<Seconds>{{2 * 8 * 8}, {2 * 10 * 8}});
    CHECK(stage.exercises.at(0).totals.session == Range<Seconds>{{128 + 60}, {160 + 120}});
    const Planned alone = plan_stage("1-4", "3", {"do: front-knee, dose: 2 x 8-10"});
    CHECK(alone.schedule->stages.front().sessions_week == Range<int>{3, 3});
    int before = -7;
    for (const PlannedDay& day : alone.schedule->days) {
        const int number = 7 * (day.week - 1) + day.weekday;
        if (!day.is_rest_day()) {
            CHECK(number - before >= 2);
            before = number;
        }
    }
    // Hupperets et al. 2009, BMJ 339:b2684: eight weeks, three sessions, at most 30 minutes: 24
    // sessions and at most 12 hours.
    const Planned balance = plan_stage("1-8", "3", {"do: stand, dose: 30 min"});
    const PlannedStage& weeks = balance.schedule->stages.front();
    CHECK(weeks.sessions_week.high * 8 == 24);
    CHECK(weeks.week.high.count * 8 == 12 * 3600);
    // Kongsgaard et al. 2009, Scand J Med Sci Sports 19:790-802: 6 s a repetition (value from
    // memory), so 3 sets of 15 are 270 s under tension and 4 of 6 are 144 s.
    CHECK(first(plan_stage("1", "3", {"do: squat, dose: 3 x 15, tempo: 3-0-3"}))
              .totals.tension.high.count == 270);
    CHECK(first(plan_stage("1", "3", {"do: squat, dose: 4 x 6, tempo: 3-0-3"}))
              .totals.tension.high.count == 144);
}

TEST_CASE("a quotient is compared exactly and printed no smaller than it is") {
    CHECK_FALSE(Ratio{200, 100}.is_above_percent(200));
    CHECK(Ratio{2001, 1000}.is_above_percent(200));
    CHECK(Ratio{2001, 1000}.percent_rounded_up() == 201);
    CHECK(Ratio{200, 100}.percent_rounded_up() == 200);
    CHECK(Ratio{1, 3}.percent_rounded_up() == 34);
}

TEST_CASE("heavy slow resistance: five stages of 1, 2, 2, 3 and 4 weeks, dated from end to end") {
    // Kongsgaard et al. 2009, Scand J Med Sci Sports 19:790-802: 12 weeks, three days a week
    // (values from memory). 2026-03-02 is the Monday of ISO week 10 and 84 days end on Sunday
    // 2026-05-24, in ISO week 21 (ISO 8601-1:2019; counted by hand).
    std::string text = "side: right\nstarts: 2026-03-02\nstages:\n";
    const std::vector<std::string> weeks = {"1", "2-3", "4-5", "6-8", "9-12"};
    for (const std::string& range : weeks) {
        text += "  - {name: w" + range + ", weeks: " + range +
                ", days_per_week: 3, exercises: [{do: a, dose: 4 x 8, tempo: 3-0-3}]}\n";
    }
    const Planned planned = plan_text(with_people(text));
    REQUIRE(planned.schedule);
    using namespace std::chrono;
    sys_days next{2026y / March / 2};
    for (const PlannedStage& stage : planned.schedule->stages) {
        CHECK(sys_days{*stage.first_day} == next);
        next = sys_days{*stage.last_day} + days{1};
        CHECK(weekday{sys_days{*stage.last_day}} == Sunday);
        CHECK(stage.sessions_week == Range<int>{3, 3});
    }
    CHECK(next == sys_days{2026y / May / 25});
    CHECK(planned.schedule->days.size() == 84);
    CHECK(planned.schedule->expected_weeks == Range<int>{12, 12});
}
