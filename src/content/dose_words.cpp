// SPDX-License-Identifier: MIT
#include "content/dose_words.h"

#include <algorithm>
#include <utility>

#include "content/build.h"

namespace tickleaf::content {
namespace {

using prescription::Holds;
using prescription::Repetitions;
using prescription::TempoPhase;
using prescription::TempoStep;
using prescription::TimeSpent;
using prescription::ToFatigue;

/// The ladder's words stand beside its steps.
constexpr double kLeadShare = 0.43;

template <class... Ts>
struct Cases : Ts... {
    using Ts::operator()...;
};
template <class... Ts>
Cases(Ts...) -> Cases<Ts...>;

/// "Repetitions" or "Repetitions on each side".
Words label(Voice& voice, std::string key, bool each_side) {
    return voice.say(each_side ? key + "_each_side" : key);
}

bool is_each_side(const dose::PlannedExercise& exercise) {
    const bool written = std::visit(Cases{[](const Repetitions& set) { return set.each_side; },
                                          [](const Holds& set) { return set.each_side; },
                                          [](const TimeSpent&) { return false; },
                                          [](const ToFatigue& set) { return set.each_side; }},
                                    exercise.dose.content);
    return written || exercise.totals.sides > 1;
}

void add_content(Voice& voice, const dose::PlannedExercise& exercise,
                 std::vector<DoseCell>& cells) {
    const bool each = is_each_side(exercise);
    std::visit(
        Cases{[&](const Repetitions& set) {
                  cells.push_back({label(voice, "dose.repetitions", each), voice.range(set.count)});
              },
              [&](const Holds& set) {
                  if (set.count > 1) {
                      cells.push_back({label(voice, "dose.holds", each), voice.number(set.count)});
                  }
                  cells.push_back({label(voice, "dose.hold", each && set.count == 1),
                                   voice.tell([&](Tongue& tongue) {
                                       return tongue.duration_range(set.length);
                                   })});
              },
              [&](const TimeSpent& set) {
                  cells.push_back({label(voice, "dose.time", each), voice.tell([&](Tongue& tongue) {
                                       return tongue.duration_range(set.length);
                                   })});
              },
              [&](const ToFatigue& set) {
                  cells.push_back(
                      {label(voice, "dose.repetitions", each),
                       voice.say("dose.to_fatigue", {{"n", std::int64_t{set.at_most}}})});
              }},
        exercise.dose.content);
}

std::string counted(Tongue& tongue, std::string_view key, support::Range<int> count) {
    return tongue.say(key, {{"n", std::int64_t{count.high}}, {"count", tongue.range(count)}});
}

std::string_view phase_key(TempoPhase phase) {
    switch (phase) {
    case TempoPhase::Lift:
        return "tempo.lift";
    case TempoPhase::HoldTop:
        return "tempo.hold_top";
    case TempoPhase::Lower:
        return "tempo.lower";
    case TempoPhase::Rest:
        return "tempo.rest";
    case TempoPhase::Out:
        return "tempo.out";
    case TempoPhase::HoldEnd:
        return "tempo.hold_end";
    case TempoPhase::Back:
        return "tempo.back";
    }
    return "tempo.lift";
}

std::string phase_text(Tongue& tongue, const TempoStep& step) {
    std::string key(phase_key(step.phase));
    if (step.as_fast_as_safe) {
        return tongue.say(key + "_fast");
    }
    return tongue.say(key, {{"time", tongue.duration(step.length)}});
}

/// Whether a rung is so many times a hold or a time, and not so many sets.
bool counts_times(const prescription::Dose& dose) {
    const auto* holds = std::get_if<Holds>(&dose.content);
    const bool single = holds != nullptr && holds->count == 1;
    return single || std::holds_alternative<TimeSpent>(dose.content);
}

std::string rung_size(Tongue& tongue, const prescription::Dose& dose, const dose::Rung& rung) {
    if (counts_times(dose)) {
        return tongue.duration(rung.hold);
    }
    const int each = rung.count.high / rung.sets.high;
    if (rung.hold.count > 0) {
        return tongue.say("dose.phrase_holds",
                          {{"n", std::int64_t{each}}, {"time", tongue.duration(rung.hold)}});
    }
    return counted(tongue, "dose.phrase_repetitions", {each, each});
}

Row rung_row(Voice& voice, const prescription::Dose& dose, const dose::Rung& rung,
             std::int64_t number) {
    Row row;
    row.cells.push_back(header_cell(voice.number(number)));
    row.cells.push_back(
        text_cell(voice.tell([&](Tongue& tongue) { return rung_size(tongue, dose, rung); })));
    row.cells.push_back(text_cell(voice.range(rung.sets)));
    return row;
}

/// Two rungs in one week are steps 1, 2, 3 and not "week 1, week 1".
bool is_a_rung_a_week(const std::vector<dose::Rung>& ladder) {
    return std::adjacent_find(ladder.begin(), ladder.end(), [](const auto& one, const auto& next) {
               return one.week == next.week;
           }) == ladder.end();
}

Table ladder_table(Voice& voice, const dose::PlannedExercise& exercise) {
    const bool times = counts_times(exercise.dose);
    Table table;
    table.role = Table::Role::Plan; // no caption: its heading stands right above
    Row header;
    header.header = true;
    const bool by_week = is_a_rung_a_week(exercise.ladder);
    for (const char* key :
         {by_week ? "ladder.week" : "plan.number", times ? "ladder.each_time" : "plan.each_set",
          times ? "ladder.times" : "dose.sets"}) {
        header.cells.push_back(header_cell(voice.say(key)));
    }
    table.rows.push_back(std::move(header));
    for (const dose::Rung& rung : exercise.ladder) {
        const auto step = static_cast<std::int64_t>(table.rows.size());
        table.rows.push_back(rung_row(voice, exercise.dose, rung, by_week ? rung.week : step));
    }
    return table;
}

Words ladder_lead(Voice& voice, const dose::PlannedExercise& exercise, int carry_on_up_to) {
    return voice.say_with("ladder.lead", [&](Tongue& tongue) {
        const auto length = hold_length(exercise.dose);
        return locale::Arguments{
            {"target", length ? tongue.duration_range(*length) : set_phrase(tongue, exercise)},
            {"n", std::int64_t{carry_on_up_to}}};
    });
}

} // namespace

std::optional<support::Range<support::Seconds>> hold_length(const prescription::Dose& dose) {
    if (const auto* holds = std::get_if<Holds>(&dose.content)) {
        return holds->length;
    }
    return std::nullopt;
}

std::vector<DoseCell> dose_cells(Voice& voice, const dose::PlannedExercise& exercise) {
    const prescription::Dose& dose = exercise.dose;
    std::vector<DoseCell> cells;
    cells.push_back({voice.say("dose.sets"), voice.range(dose.sets)});
    add_content(voice, exercise, cells);
    if (dose.has_rest && dose.sets.high > 1) {
        cells.push_back({voice.say("dose.rest"), voice.tell([&](Tongue& tongue) {
                             return tongue.duration_range(dose.rest);
                         })});
    }
    cells.push_back({voice.say("dose.times_a_day"), voice.range(dose.per_day)});
    cells.push_back({voice.say("dose.days_a_week"), voice.range(exercise.days_per_week)});
    return cells;
}

Table dose_table(Voice& voice, const dose::PlannedExercise& exercise) {
    Table table;
    table.role = Table::Role::Dose;
    table.caption = voice.say("dose.caption");
    Row labels;
    Row values;
    labels.header = true;
    for (DoseCell& cell : dose_cells(voice, exercise)) {
        labels.cells.push_back(header_cell(std::move(cell.label)));
        Cell value = text_cell(std::move(cell.value));
        value.strong = true;
        values.cells.push_back(std::move(value));
    }
    table.rows = {std::move(labels), std::move(values)};
    return table;
}

std::string set_phrase(Tongue& tongue, const dose::PlannedExercise& exercise) {
    const bool each = is_each_side(exercise);
    std::string phrase = std::visit(
        Cases{[&](const Repetitions& set) {
                  return counted(tongue, "dose.phrase_repetitions", set.count);
              },
              [&](const Holds& set) {
                  if (set.count == 1) {
                      return tongue.say("dose.phrase_hold",
                                        {{"time", tongue.duration_range(set.length)}});
                  }
                  return tongue.say("dose.phrase_holds",
                                    {{"n", std::int64_t{set.count}},
                                     {"time", tongue.duration_range(set.length)}});
              },
              [&](const TimeSpent& set) { return tongue.duration_range(set.length); },
              [&](const ToFatigue& set) {
                  return tongue.say("dose.to_fatigue", {{"n", std::int64_t{set.at_most}}});
              }},
        exercise.dose.content);
    return each ? tongue.say("dose.phrase_each_side", {{"dose", phrase}}) : phrase;
}

std::optional<Words> tempo_sentence(Voice& voice, const dose::PlannedExercise& exercise) {
    if (!exercise.tempo) {
        return std::nullopt;
    }
    std::vector<TempoStep> steps;
    for (const TempoStep& step : exercise.tempo->steps) {
        if (step.length.count > 0 || step.as_fast_as_safe) {
            steps.push_back(step);
        }
    }
    if (steps.empty()) {
        return std::nullopt;
    }
    return voice.say_with("tempo.sentence", [&](Tongue& tongue) {
        std::vector<std::string> phases;
        for (const TempoStep& step : steps) {
            phases.push_back(phase_text(tongue, step));
        }
        return locale::Arguments{{"phases", tongue.joined(phases, "text.then")}};
    });
}

std::vector<Block> ladder(Voice& voice, const dose::PlannedExercise& exercise, int carry_on_up_to) {
    std::vector<Block> blocks;
    if (exercise.ladder.empty()) {
        return blocks;
    }
    Columns columns;
    columns.first_share = kLeadShare;
    add(columns.first, heading(3, voice.say("ladder.title")));
    add(columns.first, paragraph(ladder_lead(voice, exercise, carry_on_up_to)));
    add(columns.second, ladder_table(voice, exercise));
    add(blocks, std::move(columns));
    return blocks;
}

} // namespace tickleaf::content
