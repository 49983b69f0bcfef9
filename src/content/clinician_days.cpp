// SPDX-License-Identifier: MIT
// Day by day: the ladders' rungs, the calendar, and what the rules said.
#include "content/clinician.h"

#include <algorithm>
#include <utility>

#include "content/build.h"

namespace tickleaf::content {
namespace {

/// A longer programme shows the weeks of a stage, which are alike, in one row.
constexpr int kMostWeeksShown = 16;
constexpr int kDaysAWeek = 7;

Words rung_in_a_set(Desk& desk, const dose::Rung& rung) {
    const support::Range<int> in_set{rung.count.low / rung.sets.low,
                                     rung.count.high / rung.sets.high};
    return desk.voice.tell([&](Tongue& tongue) {
        const std::string count = tongue.range(in_set);
        if (rung.hold.count == 0) {
            return tongue.say("clinician.rung_repetitions",
                              {{"n", std::int64_t{in_set.high}}, {"count", count}});
        }
        return tongue.say(
            "clinician.rung_holds",
            {{"n", std::int64_t{in_set.high}}, {"count", count}, {"seconds", rung.hold.count}});
    });
}

/// All holds in seconds, or all repetitions.
Words rung_total(Desk& desk, const dose::Rung& rung) {
    const std::int64_t each = rung.hold.count == 0 ? 1 : rung.hold.count;
    return desk.voice.tell([&](Tongue& tongue) {
        const support::Range<int> all{static_cast<int>(rung.count.low * each),
                                      static_cast<int>(rung.count.high * each)};
        const std::string count = tongue.range(all);
        return rung.hold.count == 0 ? count : tongue.say("clinician.seconds", {{"count", count}});
    });
}

void add_ladder(Desk& desk, std::size_t stage, std::size_t index, Table& table) {
    const dose::PlannedExercise& one = desk.schedule.stages.at(stage).exercises.at(index);
    if (one.ladder.empty()) {
        return;
    }
    const std::string name = desk.exercise_name(one).text;
    table.rows.push_back(clinician_band(
        desk.voice.say("clinician.rung_of",
                       {{"number", desk.exercise_number(stage, index)}, {"name", name}}),
        table.rows.front().cells.size()));
    for (std::size_t i = 0; i < one.ladder.size(); ++i) {
        const dose::Rung& rung = one.ladder[i];
        Row row;
        row.cells.push_back(header_cell(desk.voice.number(static_cast<std::int64_t>(i) + 1)));
        row.cells.push_back(number_cell(desk.voice.number(rung.week)));
        row.cells.push_back(number_cell(desk.voice.range(rung.sets)));
        row.cells.push_back(text_cell(rung_in_a_set(desk, rung)));
        row.cells.push_back(number_cell(rung_total(desk, rung)));
        table.rows.push_back(std::move(row));
    }
}

support::Range<int> sessions_of(const dose::PlannedStage& stage,
                                const std::vector<std::size_t>& due) {
    support::Range<int> sessions{0, 0};
    for (const std::size_t index : due) {
        const support::Range<int>& per_day = stage.exercises.at(index).dose.per_day;
        sessions.low = std::max(sessions.low, per_day.low);
        sessions.high = std::max(sessions.high, per_day.high);
    }
    return sessions;
}

std::string due_text(Desk& desk, Tongue& tongue, const dose::PlannedDay& day) {
    if (day.exercises.size() == desk.schedule.stages.at(day.stage).exercises.size()) {
        return tongue.say("clinician.all");
    }
    std::vector<std::string> numbers;
    for (const std::size_t index : day.exercises) {
        numbers.push_back(tongue.number(desk.exercise_number(day.stage, index)));
    }
    return tongue.joined(numbers, "clinician.list");
}

Words day_words(Desk& desk, const dose::PlannedDay& day, bool one_of_many) {
    const bool review = !one_of_many && day.date && desk.schedule.review == day.date;
    return desk.voice.tell([&](Tongue& tongue) {
        const dose::PlannedStage& stage = desk.schedule.stages.at(day.stage);
        const std::string what =
            day.is_rest_day()
                ? tongue.say("clinician.rest")
                : tongue.say("clinician.sessions",
                             {{"sessions", tongue.range(sessions_of(stage, day.exercises))},
                              {"exercises", due_text(desk, tongue, day)}});
        return review ? tongue.say("clinician.review_day", {{"day", what}}) : what;
    });
}

std::vector<Words> calendar_heads(Desk& desk) {
    std::vector<Words> heads = {desk.voice.say("clinician.week_number"),
                                desk.voice.say("clinician.stage_short")};
    if (desk.rx.starts) {
        heads.push_back(desk.voice.say("clinician.from"));
    }
    for (int day = 0; day < kDaysAWeek; ++day) {
        const auto& first = desk.schedule.days.at(static_cast<std::size_t>(day));
        heads.push_back(first.date
                            ? desk.voice.tell([&](Tongue& tongue) {
                                  return tongue.language().weekday_short(*first.date);
                              })
                            : desk.voice.say("clinician.day", {{"n", std::int64_t{day} + 1}}));
    }
    return heads;
}

/// One week, or all weeks of a stage where they stand in one row.
Row week_row(Desk& desk, std::size_t first_day, support::Range<int> weeks) {
    const dose::PlannedDay& first = desk.schedule.days.at(first_day);
    Row row;
    row.cells.push_back(header_cell(desk.voice.range(weeks)));
    row.cells.push_back(number_cell(desk.voice.number(static_cast<std::int64_t>(first.stage) + 1)));
    if (first.date) {
        row.cells.push_back(text_cell(desk.voice.tell(
            [&](Tongue& tongue) { return tongue.language().short_date(*first.date); })));
    }
    for (std::size_t day = 0; day < kDaysAWeek; ++day) {
        row.cells.push_back(
            text_cell(day_words(desk, desk.schedule.days.at(first_day + day), !weeks.is_single())));
    }
    return row;
}

/// What warned, then what was waived, then what passed; each in order of id.
std::vector<check::Verdict> most_telling_first(std::vector<check::Verdict> verdicts) {
    using Outcome = check::Verdict::Outcome;
    const auto place = [](const check::Verdict& verdict) {
        return verdict.outcome == Outcome::Passed ? 2 : verdict.outcome == Outcome::Waived ? 1 : 0;
    };
    std::stable_sort(verdicts.begin(), verdicts.end(),
                     [&](const check::Verdict& one, const check::Verdict& other) {
                         return place(one) < place(other);
                     });
    return verdicts;
}

Words result_words(Desk& desk, const check::Verdict& verdict) {
    using Outcome = check::Verdict::Outcome;
    switch (verdict.outcome) {
    case Outcome::Passed:
        return desk.voice.say("clinician.passed");
    case Outcome::Waived:
        return desk.voice.say("clinician.waived");
    case Outcome::Warned:
    case Outcome::Failed:
        return desk.voice.say("clinician.warned");
    }
    return {};
}

} // namespace

Table clinician_ladders(Desk& desk) {
    std::vector<Words> heads;
    for (const char* key : {"clinician.rung", "clinician.from_week", "clinician.sets",
                            "clinician.rung_each", "clinician.rung_total"}) {
        heads.push_back(desk.voice.say(key));
    }
    Table table = clinician_table(desk, "clinician.ladders_caption", heads);
    table.column_shares = {0.12, 0.15, 0.16, 0.31, 0.26};
    for (std::size_t i = 0; i < desk.schedule.stages.size(); ++i) {
        for (std::size_t j = 0; j < desk.schedule.stages[i].exercises.size(); ++j) {
            add_ladder(desk, i, j, table);
        }
    }
    return table;
}

Table clinician_calendar(Desk& desk) {
    Table table = clinician_table(desk, "clinician.calendar_caption", calendar_heads(desk));
    const bool every_week = desk.schedule.expected_weeks.high <= kMostWeeksShown;
    std::size_t day = 0;
    for (const dose::PlannedStage& stage : desk.schedule.stages) {
        const int weeks = stage.weeks.high - stage.weeks.low + 1;
        for (int week = 0; week < (every_week ? weeks : 1); ++week) {
            const int number = stage.weeks.low + week;
            table.rows.push_back(week_row(desk, day + static_cast<std::size_t>(week * kDaysAWeek),
                                          {number, every_week ? number : stage.weeks.high}));
        }
        day += static_cast<std::size_t>(weeks * kDaysAWeek);
    }
    return table;
}

Table clinician_checks(Desk& desk, const std::vector<check::Verdict>& verdicts) {
    Table table =
        clinician_table(desk, "clinician.checks_caption",
                        {desk.voice.say("clinician.rule"), desk.voice.say("clinician.result"),
                         desk.voice.say("clinician.source")});
    const auto english = [&](const std::string& text) { return clinician_notation(desk, text); };
    table.column_shares = {0.43, 0.07, 0.5};
    for (const check::Verdict& verdict : most_telling_first(verdicts)) {
        Row row;
        // The id is for waivers, so only what was found needs it.
        const bool passed = verdict.outcome == check::Verdict::Outcome::Passed;
        row.cells.push_back(
            text_cell(english((passed ? "" : verdict.rule.id + ": ") + verdict.rule.sentence)));
        Cell result = text_cell(result_words(desk, verdict));
        result.strong = !passed;
        row.cells.push_back(std::move(result));
        row.cells.push_back(text_cell(english(verdict.rule.source)));
        table.rows.push_back(std::move(row));
        std::vector<Words> more;
        for (const support::Finding& finding : verdict.found) {
            more.push_back(english(finding.message));
        }
        if (!verdict.reason.empty()) {
            const bool used = verdict.outcome == check::Verdict::Outcome::Waived;
            more.push_back(
                desk.voice.say(used ? "clinician.waived_reason" : "clinician.waiver_unused",
                               {{"reason", verdict.reason}}));
        }
        for (Words& words : more) {
            Row below = clinician_band(std::move(words), table.rows.front().cells.size());
            below.cells.front().header = false;
            table.rows.push_back(std::move(below));
        }
    }
    return table;
}

} // namespace tickleaf::content
