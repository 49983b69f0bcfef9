// SPDX-License-Identifier: MIT
// Who and what for, and the sums: stages, exercises, sides, families.
#include "content/clinician.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <map>
#include <utility>

#include "content/build.h"

namespace tickleaf::content {
namespace {

using Count = support::Range<std::int64_t>;

constexpr double kHalf = 0.5;
constexpr double kCountShare = 0.08;

Words review_words(Desk& desk) {
    const auto& review = desk.schedule.review;
    if (!review) {
        return desk.voice.say("clinician.none_planned");
    }
    return desk.voice.tell([&](Tongue& tongue) {
        const std::string date = tongue.language().long_date(*review);
        if (!desk.rx.starts) {
            return date;
        }
        const std::int64_t day =
            (std::chrono::sys_days(*review) - std::chrono::sys_days(desk.rx.starts->value)).count();
        const std::int64_t week = day / 7 + 1;
        if (week > desk.schedule.expected_weeks.high) {
            return tongue.say("clinician.review_after", {{"date", date}});
        }
        return tongue.say("clinician.review_when",
                          {{"date", date}, {"week", week}, {"day", day % 7 + 1}});
    });
}

/// Limits as they were written, one after the other.
Words limits(Desk& desk) {
    if (desk.rx.limits.empty()) {
        return desk.voice.say("clinician.no_limits");
    }
    std::string all;
    for (const prescription::Limit& limit : desk.rx.limits) {
        all += (all.empty() ? "" : "; ") + limit.as_written;
    }
    return clinician_notation(desk, all);
}

Table who(Desk& desk) {
    Voice& voice = desk.voice;
    Facts facts;
    facts.add(voice.say("clinician.patient"), voice.verbatim(desk.rx.patient.name));
    facts.add(voice.say("clinician.side"),
              voice.say("clinician.side_name",
                        {{"side", desk.rx.side ? desk.rx.side->value : support::Side::None}}));
    if (!desk.rx.problem.empty()) {
        facts.add(voice.say("clinician.problem"), clinician_wrote(desk, desk.rx.problem));
    }
    if (!desk.rx.goal.empty()) {
        facts.add(voice.say("clinician.goal"), clinician_wrote(desk, desk.rx.goal));
    }
    facts.add(voice.say("clinician.made_by"), clinician_wrote(desk, desk.rx.clinic.clinician));
    facts.add(voice.say("clinician.clinic"), clinician_wrote(desk, desk.rx.clinic.name));
    facts.add(voice.say("clinician.limits"), limits(desk));
    return facts.take(voice.say("clinician.who_caption"));
}

Table when(Desk& desk) {
    Voice& voice = desk.voice;
    Facts facts;
    facts.add(
        voice.say("clinician.length"),
        voice.say("clinician.weeks", {{"n", std::int64_t{desk.schedule.expected_weeks.high}}}));
    facts.add(voice.say("clinician.starts"), desk.rx.starts ? voice.tell([&](Tongue& tongue) {
        return tongue.language().long_date(desk.rx.starts->value);
    })
                                                            : voice.say("clinician.none_planned"));
    facts.add(voice.say("clinician.review"), review_words(desk));
    if (desk.rx.home.minutes_per_day) {
        facts.add(voice.say("clinician.minutes_a_day"),
                  voice.say("clinician.minutes", {{"n", desk.rx.home.minutes_per_day->value}}));
    }
    std::vector<std::string> kinds;
    for (const auto& item : desk.rx.home.equipment) {
        kinds.push_back(item.kind.value);
    }
    if (!kinds.empty()) {
        facts.add(voice.say("clinician.at_home"), voice.tell([&](Tongue& tongue) {
            return desk.equipment(tongue, kinds, BandNames::OfTheFile);
        }));
    }
    facts.add(voice.say("clinician.pain"),
              voice.say("clinician.pain_rule",
                        {{"carry_on", std::int64_t{desk.rx.pain.carry_on_up_to}},
                         {"ease_off", std::int64_t{desk.rx.pain.ease_off_up_to}}}));
    return facts.take(voice.say("clinician.frame_caption"));
}

/// "Moves on when", then the criteria in one line.
Words move_on(Desk& desk, std::size_t stage) {
    std::vector<Words> criteria = desk.known_criteria(stage);
    const prescription::FreeText& text = desk.written_stage(stage).move_on_text;
    if (!text.empty()) {
        criteria.push_back(clinician_wrote(desk, text));
    }
    if (criteria.empty()) {
        return {};
    }
    std::vector<std::string> all;
    for (const Words& one : criteria) {
        all.push_back(one.text);
    }
    return desk.voice.say_with("clinician.move_on", [&](Tongue& tongue) {
        return locale::Arguments{{"criteria", tongue.joined(all, "text.sentences")}};
    });
}

Count seconds_of(support::Range<support::Seconds> range) {
    return {range.low.count, range.high.count};
}

/// A column of counts by side that is shown where anything is in it.
struct SideColumn {
    support::Side side;
    const Count& (*of)(const dose::SideCounts&);
};
const std::array<SideColumn, 3> kSides = {{
    {support::Side::Left,
     [](const dose::SideCounts& counts) -> const Count& { return counts.left; }},
    {support::Side::Right,
     [](const dose::SideCounts& counts) -> const Count& { return counts.right; }},
    {support::Side::None,
     [](const dose::SideCounts& counts) -> const Count& { return counts.no_side; }},
}};

std::vector<const SideColumn*> used_sides(const std::vector<dose::SideWork>& all) {
    std::vector<const SideColumn*> used;
    for (const SideColumn& column : kSides) {
        const bool any = std::any_of(all.begin(), all.end(), [&](const dose::SideWork& work) {
            return column.of(work.repetitions).high + column.of(work.holds).high > 0;
        });
        if (any) {
            used.push_back(&column);
        }
    }
    return used;
}

/// Repetitions or holds of one side.
struct WorkColumn {
    const SideColumn* side;
    const char* head;
    const dose::SideCounts dose::SideWork::*counts;
    const Count& of(const dose::SideWork& work) const { return side->of(work.*counts); }
};

std::vector<WorkColumn> used_work(const std::vector<dose::SideWork>& all) {
    std::vector<WorkColumn> used;
    for (const auto& [counts, head] :
         {std::pair(&dose::SideWork::repetitions, "clinician.repetitions_side"),
          std::pair(&dose::SideWork::holds, "clinician.holds_side")}) {
        for (const SideColumn& side : kSides) {
            const WorkColumn column{&side, head, counts};
            const bool any = std::any_of(all.begin(), all.end(), [&](const dose::SideWork& work) {
                return column.of(work).high > 0;
            });
            if (any) {
                used.push_back(column);
            }
        }
    }
    return used;
}

std::vector<dose::SideWork> side_work(const Desk& desk) {
    std::vector<dose::SideWork> all;
    for (const dose::PlannedStage& stage : desk.schedule.stages) {
        all.push_back(dose::weekly_counts(stage));
    }
    return all;
}

Words count_words(Desk& desk, Count count) {
    return count.high == 0 ? desk.voice.say("clinician.none") : clinician_range(desk, count);
}

struct SideRow {
    std::size_t stage;
    const dose::SideWork& work;
    int times; ///< weeks
};

Row side_row(Desk& desk, const SideRow& what, const std::vector<WorkColumn>& columns) {
    Row row;
    row.cells.push_back(header_cell(desk.voice.number(static_cast<std::int64_t>(what.stage) + 1)));
    row.cells.push_back(
        header_cell(desk.voice.say("clinician.weeks", {{"n", std::int64_t{what.times}}})));
    for (const WorkColumn& column : columns) {
        const Count& count = column.of(what.work);
        row.cells.push_back(
            number_cell(count_words(desk, {count.low * what.times, count.high * what.times})));
    }
    return row;
}

/// Dose and tempo as the prescription file writes them.
Words dose_words(Desk& desk, const dose::PlannedExercise& exercise) {
    std::string notation = prescription::to_notation(exercise.dose);
    if (exercise.tempo) {
        notation += "; " + prescription::to_notation(*exercise.tempo);
    }
    return clinician_notation(desk, notation);
}

Row exercise_row(Desk& desk, std::size_t stage, std::size_t index,
                 const std::vector<const SideColumn*>& sides) {
    const dose::PlannedExercise& one = desk.schedule.stages.at(stage).exercises.at(index);
    dose::PlannedStage alone;
    alone.exercises = {one};
    const dose::SideWork work = dose::weekly_counts(alone);
    const Count per_week{
        one.totals.tension.low.count * one.dose.per_day.low * one.days_per_week.low,
        one.totals.tension.high.count * one.dose.per_day.high * one.days_per_week.high};
    Row row;
    row.cells.push_back(number_cell(desk.voice.number(desk.exercise_number(stage, index))));
    row.cells.push_back(header_cell(desk.exercise_name(one)));
    row.cells.push_back(text_cell(dose_words(desk, one)));
    row.cells.push_back(number_cell(clinician_range(desk, seconds_of(one.totals.repetition))));
    row.cells.push_back(number_cell(clinician_minutes(desk, one.totals.session)));
    for (const SideColumn* side : sides) {
        const Count& repetitions = side->of(work.repetitions);
        const Count& holds = side->of(work.holds);
        row.cells.push_back(number_cell(
            count_words(desk, {repetitions.low + holds.low, repetitions.high + holds.high})));
    }
    row.cells.push_back(number_cell(clinician_range(desk, per_week)));
    return row;
}

struct FamilyRow {
    std::size_t stage;
    dose::FamilyWork work;
};

/// Family by family, and in each the stages in order.
std::map<std::string, std::vector<FamilyRow>> families_of(const dose::Schedule& schedule) {
    std::map<std::string, std::vector<FamilyRow>> families;
    for (std::size_t i = 0; i < schedule.stages.size(); ++i) {
        for (dose::FamilyWork& work : dose::weekly_work(schedule.stages[i])) {
            const std::string family = work.family;
            families[family].push_back({i, std::move(work)});
        }
    }
    return families;
}

Words family_name(Desk& desk, const std::string& family) {
    const std::string key = "clinician.family." + family;
    return desk.voice.first().has(key) ? desk.voice.say(key) : clinician_notation(desk, family);
}

} // namespace

Block clinician_facts(Desk& desk) {
    Columns columns;
    columns.first_share = kHalf;
    add(columns.first, who(desk));
    add(columns.second, when(desk));
    return Block{std::move(columns)};
}

Table clinician_stages(Desk& desk) {
    Voice& voice = desk.voice;
    std::vector<Words> heads;
    for (const char* key :
         {"clinician.stage", "clinician.when", "clinician.days_a_week", "clinician.sessions_a_week",
          "clinician.minutes_session", "clinician.minutes_day", "clinician.minutes_week",
          "clinician.change"}) {
        heads.push_back(voice.say(key));
    }
    const std::size_t columns = heads.size();
    Table table = clinician_table(desk, "clinician.stages_caption", heads);
    table.column_shares = {0.15, 0.24, 0.08, 0.1, 0.11, 0.1, 0.1, 0.12};
    const dose::PlannedStage* before = nullptr;
    for (std::size_t i = 0; i < desk.schedule.stages.size(); ++i) {
        const dose::PlannedStage& stage = desk.schedule.stages[i];
        Count earlier = before != nullptr ? seconds_of(before->week) : Count{};
        Row row;
        row.cells.push_back(header_cell(clinician_stage_name(desk, i)));
        row.cells.push_back(
            text_cell(voice.tell([&](Tongue& tongue) { return stage_when(tongue, stage); })));
        row.cells.push_back(number_cell(voice.range(stage.exercise_days)));
        row.cells.push_back(number_cell(voice.range(stage.sessions_week)));
        row.cells.push_back(number_cell(clinician_minutes(desk, stage.session)));
        row.cells.push_back(number_cell(clinician_minutes(desk, stage.day)));
        row.cells.push_back(number_cell(clinician_minutes(desk, stage.week)));
        row.cells.push_back(number_cell(clinician_change(
            desk, before != nullptr ? &earlier : nullptr, seconds_of(stage.week))));
        table.rows.push_back(std::move(row));
        Words criteria = move_on(desk, i);
        if (!criteria.empty()) {
            Row more = clinician_band(std::move(criteria), columns);
            more.cells.front().header = false;
            table.rows.push_back(std::move(more));
        }
        before = &stage;
    }
    return table;
}

Table clinician_exercises(Desk& desk) {
    Voice& voice = desk.voice;
    const auto sides = used_sides(side_work(desk));
    std::vector<Words> heads = {
        voice.say("clinician.number"), voice.say("clinician.exercise"), voice.say("clinician.dose"),
        voice.say("clinician.repetition_seconds"), voice.say("clinician.session_minutes")};
    for (const SideColumn* side : sides) {
        heads.push_back(voice.say("clinician.side_week", {{"side", side->side}}));
    }
    heads.push_back(voice.say("clinician.tension_week"));
    const std::size_t columns = heads.size();
    Table table = clinician_table(desk, "clinician.exercises_caption", heads);
    table.column_shares = {0.05, 0.27, 0.3, 0.08, 0.09};
    table.column_shares.resize(columns, kCountShare);
    for (std::size_t i = 0; i < desk.schedule.stages.size(); ++i) {
        table.rows.push_back(clinician_band(clinician_stage_name(desk, i), columns));
        for (std::size_t j = 0; j < desk.schedule.stages[i].exercises.size(); ++j) {
            table.rows.push_back(exercise_row(desk, i, j, sides));
        }
    }
    return table;
}

Table clinician_sides(Desk& desk) {
    Voice& voice = desk.voice;
    const std::vector<dose::SideWork> all = side_work(desk);
    const std::vector<WorkColumn> columns = used_work(all);
    std::vector<Words> heads = {voice.say("clinician.stage"), voice.say("clinician.time")};
    for (const WorkColumn& column : columns) {
        heads.push_back(voice.say(column.head, {{"side", column.side->side}}));
    }
    Table table = clinician_table(desk, "clinician.sides_caption", heads);
    for (std::size_t i = 0; i < all.size(); ++i) {
        const support::Range<int>& weeks = desk.schedule.stages[i].weeks;
        const int whole = weeks.high - weeks.low + 1;
        table.rows.push_back(side_row(desk, {i, all[i], 1}, columns));
        if (whole > 1) {
            table.rows.push_back(side_row(desk, {i, all[i], whole}, columns));
        }
    }
    return table;
}

Table clinician_families(Desk& desk) {
    Voice& voice = desk.voice;
    Table table = clinician_table(desk, "clinician.families_caption",
                                  {voice.say("clinician.family"), voice.say("clinician.stage"),
                                   voice.say("clinician.tension"), voice.say("clinician.count"),
                                   voice.say("clinician.change")});
    table.column_shares = {0.32, 0.1, 0.21, 0.19, 0.18};
    for (const auto& [family, rows] : families_of(desk.schedule)) {
        const FamilyRow* before = nullptr;
        for (const FamilyRow& one : rows) {
            // Only the stage just before is compared with: after a pause the work is new.
            const bool follows = before != nullptr && before->stage + 1 == one.stage;
            const Count none{0, 0};
            const Count* earlier = follows         ? &before->work.tension_seconds
                                   : one.stage > 0 ? &none
                                                   : nullptr;
            Row row;
            row.cells.push_back(header_cell(family_name(desk, family)));
            row.cells.push_back(
                number_cell(voice.number(static_cast<std::int64_t>(one.stage) + 1)));
            row.cells.push_back(number_cell(clinician_range(desk, one.work.tension_seconds)));
            row.cells.push_back(number_cell(count_words(desk, one.work.repetitions)));
            row.cells.push_back(
                number_cell(clinician_change(desk, earlier, one.work.tension_seconds)));
            table.rows.push_back(std::move(row));
            before = &one;
        }
    }
    return table;
}

} // namespace tickleaf::content
