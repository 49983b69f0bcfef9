// SPDX-License-Identifier: MIT
// A stage: when, how often, how long, with what, when to move on, the plan at a glance, then its
// exercises.
#include "content/parts.h"

#include <algorithm>
#include <utility>

#include "content/build.h"
#include "content/dose_words.h"

namespace tickleaf::content {
namespace {

constexpr std::int64_t kSecondsAMinute = 60;

int whole_minutes(support::Seconds seconds) {
    return static_cast<int>((seconds.count + kSecondsAMinute - 1) / kSecondsAMinute);
}

std::string days_text(Tongue& tongue, support::Range<int> days) {
    constexpr int kEveryDay = 7;
    if (days.is_single() && days.low == kEveryDay) {
        return tongue.say("stage_page.every_day");
    }
    return tongue.say("stage_page.days_a_week",
                      {{"n", std::int64_t{days.high}}, {"count", tongue.range(days)}});
}

std::string time_text(Tongue& tongue, const dose::PlannedStage& planned) {
    const support::Range<int> minutes{whole_minutes(planned.session.low),
                                      whole_minutes(planned.session.high)};
    const std::string once = tongue.say("stage_page.minutes", {{"n", std::int64_t{minutes.high}},
                                                               {"count", tongue.range(minutes)}});
    return tongue.say("stage_page.each_time",
                      {{"minutes", once}, {"n", std::int64_t{planned.sessions_per_day}}});
}

/// Kinds of equipment in the order in which the exercises first need them.
std::vector<std::string> equipment_kinds(const Desk& desk, const dose::PlannedStage& planned) {
    std::vector<std::string> kinds;
    for (const auto& exercise : planned.exercises) {
        for (const std::string& kind : desk.facts(exercise.exercise).equipment) {
            if (std::find(kinds.begin(), kinds.end(), kind) == kinds.end()) {
                kinds.push_back(kind);
            }
        }
    }
    return kinds;
}

Table facts_table(Desk& desk, const dose::PlannedStage& planned) {
    Voice& voice = desk.voice;
    Facts facts;
    facts.add(voice.say("stage_page.when_label"),
              voice.tell([&](Tongue& tongue) { return stage_when(tongue, planned); }));
    facts.add(voice.say("stage_page.days_label"), voice.tell([&](Tongue& tongue) {
        return days_text(tongue, desk.written_stage(planned.index).days_per_week);
    }));
    facts.add(voice.say("stage_page.time_label"),
              voice.tell([&](Tongue& tongue) { return time_text(tongue, planned); }));
    const auto kinds = equipment_kinds(desk, planned);
    if (!kinds.empty()) {
        facts.add(voice.say("stage_page.need_label"),
                  voice.tell([&](Tongue& tongue) { return desk.equipment(tongue, kinds); }));
    }
    return facts.take(voice.say("stage_page.facts_caption"));
}

/// When to move on, kept together with what to do when it is not yet time.
Group criteria_group(Desk& desk, std::size_t index) {
    const bool is_last = index + 1 == desk.schedule.stages.size();
    std::vector<Words> criteria = desk.criteria(index);
    Group group;
    if (criteria.empty()) {
        add(group.blocks, heading(2, desk.voice.say("stage_page.move_on_title")));
        add(group.blocks, paragraph(desk.voice.say("stage_page.clinician_decides")));
        return group;
    }
    add(group.blocks,
        heading(2, desk.voice.say(is_last ? "stage_page.finish" : "stage_page.move_on")));
    add_ticks(group.blocks, std::move(criteria));
    add(group.blocks,
        paragraph(desk.voice.say(is_last ? "stage_page.not_finished" : "stage_page.not_yet")));
    return group;
}

Row plan_row(Desk& desk, std::size_t stage, std::size_t index) {
    const auto& exercise = desk.schedule.stages.at(stage).exercises.at(index);
    Voice& voice = desk.voice;
    Row row;
    row.cells.push_back(number_cell(voice.number(desk.exercise_number(stage, index))));
    row.cells.push_back(header_cell(desk.exercise_name(exercise)));
    row.cells.push_back(number_cell(voice.range(exercise.dose.sets)));
    row.cells.push_back(
        text_cell(voice.tell([&](Tongue& tongue) { return set_phrase(tongue, exercise); })));
    row.cells.push_back(number_cell(voice.range(exercise.dose.per_day)));
    return row;
}

Table plan_table(Desk& desk, std::size_t stage) {
    Table table;
    table.role = Table::Role::Plan;
    table.caption = desk.voice.say("plan.caption");
    Row header;
    header.header = true;
    for (const char* key :
         {"plan.number", "plan.exercise", "dose.sets", "plan.each_set", "dose.times_a_day"}) {
        header.cells.push_back(header_cell(desk.voice.say(key)));
    }
    table.rows.push_back(std::move(header));
    for (std::size_t i = 0; i < desk.schedule.stages.at(stage).exercises.size(); ++i) {
        table.rows.push_back(plan_row(desk, stage, i));
    }
    return table;
}

} // namespace

std::string stage_weeks(Tongue& tongue, const dose::PlannedStage& planned) {
    const std::int64_t count = planned.weeks.high - planned.weeks.low + 1;
    return tongue.say("stage_page.weeks", {{"n", count}, {"weeks", tongue.range(planned.weeks)}});
}

std::string stage_when(Tongue& tongue, const dose::PlannedStage& planned) {
    const std::string weeks = stage_weeks(tongue, planned);
    if (!planned.first_day || !planned.last_day) {
        return weeks;
    }
    return tongue.say("stage_page.weeks_and_dates",
                      {{"weeks", weeks},
                       {"from", tongue.language().short_date(*planned.first_day)},
                       {"to", tongue.language().short_date(*planned.last_day)}});
}

Part stage(Desk& desk, std::size_t index) {
    const dose::PlannedStage& planned = desk.schedule.stages.at(index);
    const auto number = static_cast<std::int64_t>(index) + 1;
    Words name = desk.stage_name(index);
    Part part;
    part.kind = Part::Kind::Stage;
    part.stage = index;
    part.title = desk.stage_title(index);
    add(part.blocks, page_heading(std::move(name), desk.voice.first().number(number)));
    const auto total = static_cast<std::int64_t>(desk.schedule.stages.size());
    add(part.blocks,
        paragraph(desk.voice.say("stage_page.of", {{"number", number}, {"total", total}}),
                  Paragraph::Role::Lead));
    add(part.blocks, facts_table(desk, planned));
    add(part.blocks, heading(2, desk.voice.say("plan.title")));
    add(part.blocks, plan_table(desk, index));
    add(part.blocks, paragraph(desk.voice.say("plan.terms"), Paragraph::Role::Small));
    if (index == 0) {
        add_all(part.blocks, before_you_start(desk));
    }
    add(part.blocks, criteria_group(desk, index));
    for (std::size_t i = 0; i < planned.exercises.size(); ++i) {
        add(part.blocks, exercise(desk, index, i));
    }
    return part;
}

} // namespace tickleaf::content
