// SPDX-License-Identifier: MIT
// One stage on one page, to hang up where the exercises are done: a row an exercise, the pain rule,
// all stop signs with the number to call, whom to ask.
#include "content/parts.h"

#include <utility>

#include "content/build.h"
#include "content/dose_words.h"

namespace tickleaf::content {
namespace {

/// "Label: value" of each pair, in one phrase.
std::string pairs(Tongue& tongue, const std::vector<DoseCell>& cells) {
    std::vector<std::string> said;
    for (const DoseCell& cell : cells) {
        if (!cell.value.empty()) {
            said.push_back(tongue.say("sheet.pair", {{"label", text_in(cell.label, tongue)},
                                                     {"value", text_in(cell.value, tongue)}}));
        }
    }
    return tongue.joined(said, "text.list");
}

/// The dose as labels and values one after the other: a band of cells would take the room of a
/// second exercise.
Words dose_line(Desk& desk, const dose::PlannedExercise& planned) {
    const std::vector<DoseCell> cells = dose_cells(desk.voice, planned);
    return desk.voice.tell([&](Tongue& tongue) { return pairs(tongue, cells); });
}

/// Whose sheet it is, and when it is for.
Words who_and_when(Desk& desk, const dose::PlannedStage& planned) {
    return desk.voice.tell([&](Tongue& tongue) {
        return tongue.joined(
            {tongue.say("page.running_head", {{"name", desk.rx.patient.name.value}}),
             stage_when(tongue, planned)},
            "text.list");
    });
}

Words whom_to_ask(Desk& desk) {
    Voice& voice = desk.voice;
    const std::vector<DoseCell> cells{
        {voice.say("contact.clinician"), desk.clinician()},
        {voice.say("contact.clinic"), desk.clinic_name()},
        {voice.say("contact.phone"), voice.verbatim(desk.rx.clinic.phone)}};
    return voice.tell([&](Tongue& tongue) { return pairs(tongue, cells); });
}

Group row(Desk& desk, std::size_t stage, std::size_t index) {
    const dose::PlannedExercise& planned = desk.schedule.stages.at(stage).exercises.at(index);
    Columns columns;
    add(columns.first, heading(2, desk.exercise_name(planned),
                               desk.voice.first().number(desk.exercise_number(stage, index))));
    add(columns.first, paragraph(dose_line(desk, planned), Paragraph::Role::Strong));
    Figure figure = figure_of(desk, stage, index);
    figure.caption = {}; // the name says the side
    add(columns.second, std::move(figure));
    Group group;
    add(group.blocks, std::move(columns));
    return group;
}

/// What to take care of, exercise by exercise, in one frame.
std::optional<Callout> cautions(Desk& desk, std::size_t stage) {
    const auto& exercises = desk.schedule.stages.at(stage).exercises;
    std::vector<Words> items;
    for (std::size_t i = 0; i < exercises.size(); ++i) {
        for (const Words& sentence : care_sentences(desk, exercises[i])) {
            items.push_back(desk.voice.say_with("log.exercise", [&](Tongue& tongue) {
                return locale::Arguments{{"number", desk.exercise_number(stage, i)},
                                         {"name", text_in(sentence, tongue)}};
            }));
        }
    }
    return caution(desk, std::move(items));
}

} // namespace

Part sheet(Desk& desk) {
    const std::size_t index = desk.material.stage.value_or(0);
    const dose::PlannedStage& planned = desk.schedule.stages.at(index);
    Part part;
    part.kind = Part::Kind::Sheet;
    part.stage = index;
    part.title = desk.stage_title(index);
    add(part.blocks, page_heading(desk.stage_name(index),
                                  desk.voice.first().number(static_cast<std::int64_t>(index) + 1)));
    add(part.blocks, paragraph(who_and_when(desk, planned)));
    for (std::size_t i = 0; i < planned.exercises.size(); ++i) {
        add(part.blocks, row(desk, index, i));
    }
    if (auto callout = cautions(desk, index)) {
        add(part.blocks, std::move(*callout));
    }
    add(part.blocks, pain_scale(desk));
    add(part.blocks, stop_signs_in_short(desk));
    add(part.blocks, paragraph(whom_to_ask(desk), Paragraph::Role::Strong));
    add(part.blocks, paragraph(desk.voice.say("safety.advice")));
    return part;
}

} // namespace tickleaf::content
