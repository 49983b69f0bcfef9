// SPDX-License-Identifier: MIT
// The logbook: a table a week, a column a day, a row for each time each exercise is done, a box for
// each set; pain before, during and the next morning; effort; what the clinic counts; and once a
// week the question whether to move on.
#include "content/parts.h"

#include <algorithm>
#include <utility>

#include "content/build.h"

namespace tickleaf::content {
namespace {

/// A week with more rows of boxes than this may be broken over pages; one with fewer stays whole.
constexpr std::size_t kRowsKeptTogether = 9;
constexpr int kNoteLines = 2;

/// Pain and effort both run from 0 to 10.
locale::Arguments scale(Tongue& tongue) {
    constexpr int kMost = 10;
    return {{"scale", tongue.range({0, kMost})},
            {"low", std::int64_t{0}},
            {"high", std::int64_t{kMost}}};
}

/// Days of one week that belong to one stage.
struct Stretch {
    int week = 1;
    std::size_t stage = 0;
    std::vector<const dose::PlannedDay*> days;
};

/// The weeks for which a predicate holds, cut where the stage changes.
template <class Wanted>
std::vector<Stretch> stretches(const Desk& desk, Wanted wanted) {
    std::vector<Stretch> result;
    for (const dose::PlannedDay& day : desk.schedule.days) {
        if (!wanted(day)) {
            continue;
        }
        if (result.empty() || result.back().week != day.week || result.back().stage != day.stage) {
            result.push_back({day.week, day.stage, {}});
        }
        result.back().days.push_back(&day);
    }
    return result;
}

bool is_in_logbook(const Desk& desk, const dose::PlannedDay& day) {
    return !desk.rx.logbook_weeks || day.week <= desk.rx.logbook_weeks->value;
}

/// "Mon 2 Mar", or "Day 3" of the week where no start date is known.
std::string day_text(Tongue& tongue, const dose::PlannedDay& day, std::size_t index) {
    if (!day.date) {
        return tongue.say("log.day_number", {{"n", static_cast<std::int64_t>(index) + 1}});
    }
    const locale::Language& language = tongue.language();
    return tongue.say("log.day", {{"weekday", language.weekday_short(*day.date)},
                                  {"date", language.short_date(*day.date)}});
}

bool is_due(const dose::PlannedDay& day, std::size_t exercise) {
    return std::find(day.exercises.begin(), day.exercises.end(), exercise) != day.exercises.end();
}

/// "round 2" is not broken before its number, which is all that tells two rows apart.
std::string number_kept(std::string name) {
    constexpr std::string_view kSpaceAndIsolate = " \u2068";
    constexpr std::string_view kNoBreakSpaceAndIsolate = "\u00A0\u2068";
    const std::size_t at = name.rfind(kSpaceAndIsolate);
    if (at != std::string::npos) {
        name.replace(at, kSpaceAndIsolate.size(), kNoBreakSpaceAndIsolate);
    }
    return name;
}

/// One exercise at one of its times of the day.
struct Line {
    std::size_t exercise = 0;
    int time = 1;
    int times = 1;
    int sets = 1;
};

std::vector<Line> lines(const dose::PlannedStage& planned) {
    std::vector<Line> result;
    for (std::size_t i = 0; i < planned.exercises.size(); ++i) {
        const prescription::Dose& dose = planned.exercises[i].dose;
        for (int time = 1; time <= dose.per_day.high; ++time) {
            result.push_back({i, time, dose.per_day.high, dose.sets.high});
        }
    }
    return result;
}

/// Makes the table of one stretch.
class WeekTable {
  public:
    WeekTable(Desk& desk, const Stretch& stretch)
        : desk_(desk), stretch_(stretch), planned_(desk.schedule.stages.at(stretch.stage)) {
        for (std::size_t i = 0; i < stretch.days.size(); ++i) {
            days_.push_back(desk.voice.tell(
                [&](Tongue& tongue) { return day_text(tongue, *stretch.days[i], i); }));
        }
    }

    Table make() {
        Table table;
        table.role = Table::Role::Log;
        table.caption = desk_.voice.say("log.caption", {{"week", std::int64_t{stretch_.week}}});
        table.rows.push_back(header());
        for (const Line& line : lines(planned_)) {
            table.rows.push_back(tick_row(line));
        }
        for (const char* key :
             {"log.pain_before", "log.pain_during", "log.pain_morning", "log.effort"}) {
            table.rows.push_back(number_row(key));
        }
        table.rows.push_back(total_row());
        return table;
    }

  private:
    /// Sets of the week as planned at most, for the clinic to count what was done.
    std::int64_t planned_sets() const {
        std::int64_t sets = 0;
        for (const Line& line : lines(planned_)) {
            for (const dose::PlannedDay* day : stretch_.days) {
                sets += is_due(*day, line.exercise) ? line.sets : 0;
            }
        }
        return sets;
    }

    Row total_row() {
        Row row;
        row.cells.push_back(header_cell(desk_.voice.say("log.total", {{"n", planned_sets()}})));
        row.cells.push_back(write_in_cell());
        row.cells.back().column_span = static_cast<int>(days_.size());
        return row;
    }

    Row header() {
        Row row;
        row.header = true;
        row.cells.push_back(header_cell(desk_.voice.say("plan.exercise")));
        for (const Words& day : days_) {
            row.cells.push_back(header_cell(day));
        }
        return row;
    }

    std::string line_name(Tongue& tongue, const Line& line) {
        const auto& exercise = planned_.exercises[line.exercise];
        const locale::Arguments arguments{
            {"number", desk_.exercise_number(stretch_.stage, line.exercise)},
            {"name", desk_.exercise_name(tongue, exercise)},
            {"time", std::int64_t{line.time}}};
        return line.times > 1 ? number_kept(tongue.say("log.exercise_time", arguments))
                              : tongue.say("log.exercise", arguments);
    }

    Row tick_row(const Line& line) {
        const Words name =
            desk_.voice.tell([&](Tongue& tongue) { return line_name(tongue, line); });
        Row row;
        row.cells.push_back(header_cell(name));
        for (std::size_t i = 0; i < days_.size(); ++i) {
            if (is_due(*stretch_.days[i], line.exercise)) {
                row.cells.push_back(boxes(line));
            } else {
                row.cells.push_back(text_cell(desk_.voice.say("log.rest")));
            }
        }
        return row;
    }

    /// A box is named by its set alone: the day and the exercise are the headers of its cell, which
    /// a screen reader says before it.
    Cell boxes(const Line& line) {
        Cell cell;
        cell.tick_boxes = line.sets;
        for (int set = 1; set <= line.sets; ++set) {
            cell.tick_labels.push_back(desk_.voice.say("log.box", {{"set", std::int64_t{set}}}));
        }
        return cell;
    }

    Row number_row(const char* key) {
        Row row;
        row.cells.push_back(header_cell(desk_.voice.say_with(key, scale)));
        for (const dose::PlannedDay* day : stretch_.days) {
            row.cells.push_back(day->is_rest_day() ? Cell{} : write_in_cell());
        }
        return row;
    }

    Desk& desk_;
    const Stretch& stretch_;
    const dose::PlannedStage& planned_;
    std::vector<Words> days_;
};

Words week_title(Desk& desk, const Stretch& stretch) {
    const auto& from = stretch.days.front()->date;
    const auto& to = stretch.days.back()->date;
    if (!from || !to) {
        return desk.voice.say("log.week", {{"week", std::int64_t{stretch.week}}});
    }
    return desk.voice.say_with("log.week_dates", [&](Tongue& tongue) {
        return locale::Arguments{{"week", std::int64_t{stretch.week}},
                                 {"from", tongue.language().short_date(*from)},
                                 {"to", tongue.language().short_date(*to)}};
    });
}

/// The stage's criteria once a week (all ticked means the next stage), beside room for notes.
void add_below(Desk& desk, std::size_t stage, std::vector<Block>& blocks) {
    const bool is_last = stage + 1 == desk.schedule.stages.size();
    std::vector<Words> criteria = desk.criteria(stage);
    WritingLines notes{desk.voice.say("log.notes"), kNoteLines};
    if (criteria.empty()) {
        add(blocks, std::move(notes));
        return;
    }
    Columns below;
    below.first_share = kBalanced;
    add(below.first, heading(3, desk.voice.say(is_last ? "log.ready_to_finish" : "log.ready")));
    add_ticks(below.first, std::move(criteria));
    add(below.second, std::move(notes));
    add(blocks, std::move(below));
}

void add_week(Desk& desk, const Stretch& stretch, std::vector<Block>& blocks) {
    Group week;
    add(week.blocks, heading(2, week_title(desk, stretch)));
    add(week.blocks, paragraph(desk.stage_title(stretch.stage), Paragraph::Role::Small));
    add(week.blocks, WeekTable(desk, stretch).make());
    add_below(desk, stretch.stage, week.blocks);
    if (lines(desk.schedule.stages.at(stretch.stage)).size() > kRowsKeptTogether) {
        add_all(blocks, std::move(week.blocks));
    } else {
        add(blocks, std::move(week));
    }
}

Cell example_boxes(Desk& desk, int boxes, int ticked) {
    Cell cell;
    cell.tick_boxes = boxes;
    cell.ticked = ticked;
    for (int set = 1; set <= boxes; ++set) {
        cell.tick_labels.push_back(desk.voice.say(
            set <= ticked ? "log.example_done" : "log.example_open", {{"set", std::int64_t{set}}}));
    }
    return cell;
}

Row example_numbers(Desk& desk, const char* key, int first, int second) {
    Row row;
    row.cells.push_back(header_cell(desk.voice.say_with(key, scale)));
    row.cells.push_back(number_cell(desk.voice.number(first)));
    row.cells.push_back(text_cell({}));
    row.cells.push_back(number_cell(desk.voice.number(second)));
    return row;
}

/// Three invented days, filled in: all sets, a rest day, two sets of three because pain rose.
Table example(Desk& desk) {
    Voice& voice = desk.voice;
    const int carry_on = desk.rx.pain.carry_on_up_to;
    constexpr int kSets = 3;
    constexpr int kEffort = 4;
    Table table;
    table.role = Table::Role::Log;
    table.caption = voice.say("log.example_caption");
    table.show_caption = true;
    Row header;
    header.header = true;
    header.cells.push_back(header_cell(voice.say("plan.exercise")));
    for (int weekday = 1; weekday <= kSets; ++weekday) {
        header.cells.push_back(header_cell(
            voice.tell([&](Tongue& tongue) { return tongue.language().weekday_short(weekday); })));
    }
    Row sets;
    sets.cells.push_back(header_cell(voice.say("log.example_exercise")));
    sets.cells.push_back(example_boxes(desk, kSets, kSets));
    sets.cells.push_back(text_cell(voice.say("log.rest")));
    sets.cells.push_back(example_boxes(desk, kSets, kSets - 1));
    table.rows = {std::move(header),
                  std::move(sets),
                  example_numbers(desk, "log.pain_before", std::min(1, carry_on), carry_on),
                  example_numbers(desk, "log.pain_during", carry_on, carry_on + 1),
                  example_numbers(desk, "log.pain_morning", std::min(1, carry_on), carry_on),
                  example_numbers(desk, "log.effort", kEffort, kEffort + 1)};
    return table;
}

} // namespace

Part logbook(Desk& desk) {
    Voice& voice = desk.voice;
    Part part;
    part.kind = Part::Kind::Logbook;
    part.title = voice.say("log.title");
    add(part.blocks, page_heading(part.title));
    Columns how;
    how.first_share = kBalanced;
    add_list(how.first, voice, numbered_texts(voice, "log.how", scale), true);
    add(how.second, example(desk));
    add(part.blocks, std::move(how));
    // In the words of the weeks' own notes, as these lines may be left out.
    add(part.blocks, WritingLines{desk.voice.say("log.notes"), 0});
    for (const Stretch& stretch :
         stretches(desk, [&](const auto& day) { return is_in_logbook(desk, day); })) {
        add_week(desk, stretch, part.blocks);
    }
    return part;
}

Part refill(Desk& desk) {
    Voice& voice = desk.voice;
    Part part;
    part.kind = Part::Kind::Refill;
    part.title = voice.say("log.title");
    add(part.blocks, page_heading(part.title));
    add(part.blocks, pain_scale(desk));
    add(part.blocks, emergency(desk));
    Group whom;
    add(whom.blocks, contact_row(desk));
    add(whom.blocks, paragraph(voice.say("safety.advice"), Paragraph::Role::Small));
    add(part.blocks, std::move(whom));
    std::vector<Stretch> weeks = stretches(desk, [&](const dose::PlannedDay& day) {
        return desk.material.stage ? day.stage == *desk.material.stage : !is_in_logbook(desk, day);
    });
    if (weeks.empty()) {
        weeks = stretches(desk, [](const auto&) { return true; });
    }
    for (const Stretch& stretch : weeks) {
        add_week(desk, stretch, part.blocks);
    }
    return part;
}

Part spare_log(Desk& desk) {
    Part part;
    part.kind = Part::Kind::SpareLog;
    const std::vector<Stretch> later =
        stretches(desk, [&](const auto& day) { return !is_in_logbook(desk, day); });
    const std::vector<Stretch> all = stretches(desk, [](const auto&) { return true; });
    if (all.empty()) {
        return part;
    }
    const Stretch& model = later.empty() ? all.back() : later.front();
    std::vector<dose::PlannedDay> days;
    for (const dose::PlannedDay* day : model.days) {
        days.push_back(*day);
        days.back().date.reset();
    }
    Stretch undated{model.week, model.stage, {}};
    for (const dose::PlannedDay& day : days) {
        undated.days.push_back(&day);
    }
    Group week;
    add(week.blocks, heading(2, desk.voice.say("log.title")));
    add(week.blocks, paragraph(desk.stage_title(undated.stage), Paragraph::Role::Small));
    add(week.blocks, WeekTable(desk, undated).make());
    add_below(desk, undated.stage, week.blocks);
    add(part.blocks, std::move(week));
    return part;
}

Part notes(Desk& desk) {
    Part part;
    part.kind = Part::Kind::Notes;
    add(part.blocks, WritingLines{desk.voice.say("log.notes"), 0});
    return part;
}

} // namespace tickleaf::content
