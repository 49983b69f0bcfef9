// SPDX-License-Identifier: MIT
// One exercise: name and side, why, how much, picture beside the steps, what to feel and to watch,
// what to do when it is too hard or too easy, what the clinician adds, what to take care of.
#include "content/parts.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "content/build.h"
#include "content/dose_signs.h"
#include "content/dose_words.h"
#include "draw/draw.h"

namespace tickleaf::content {
namespace {

/// The steps' share of the width beside the picture: the words come first in reading order.
constexpr double kStepShare = 0.43;
constexpr std::int64_t kSecondsAMinute = 60;

/// The keys of one exercise and the side they are said for.
struct Script {
    Voice& voice;
    const dose::PlannedExercise& exercise;

    std::string key(std::string_view part) const {
        return "exercise." + exercise.exercise + "." + std::string(part);
    }
    locale::Arguments side() const { return {{"side", exercise.side}}; }
    bool has(std::string_view part) const { return voice.first().has(key(part)); }
    Words say(std::string_view part) const { return voice.say(key(part), side()); }
    std::vector<Words> all(std::string_view part) const {
        return numbered_texts(voice, key(part), side());
    }
};

/// "45 s" beside the clock mark of a held panel.
std::string hold_text(Tongue& tongue, const dose::PlannedExercise& exercise,
                      const figure::Scene& scene) {
    const auto panel = std::find_if(scene.panels.begin(), scene.panels.end(), [](const auto& p) {
        return p.hold_seconds.has_value() || p.push_seconds.has_value();
    });
    if (panel == scene.panels.end()) {
        return {};
    }
    const int drawn = panel->hold_seconds ? *panel->hold_seconds : *panel->push_seconds;
    const support::Seconds one{drawn};
    const auto length =
        hold_length(exercise.dose).value_or(support::Range<support::Seconds>{one, one});
    const bool minutes = length.low.count >= 2 * kSecondsAMinute &&
                         length.low.count % kSecondsAMinute == 0 &&
                         length.high.count % kSecondsAMinute == 0;
    const std::int64_t unit = minutes ? kSecondsAMinute : 1;
    const support::Range<int> shown{static_cast<int>(length.low.count / unit),
                                    static_cast<int>(length.high.count / unit)};
    return tongue.say(minutes ? "figure.hold_minutes" : "figure.hold_seconds",
                      {{"time", tongue.range(shown)}});
}

std::shared_ptr<const page::Drawing> drawing(Tongue& tongue, const dose::PlannedExercise& exercise,
                                             const figure::Scene& scene) {
    draw::Options options;
    for (std::size_t i = 0; i < scene.panels.size(); ++i) {
        options.panel_numbers.push_back(tongue.number(static_cast<std::int64_t>(i) + 1));
    }
    options.hold_text = hold_text(tongue, exercise, scene);
    options.panels_right_to_left = tongue.language().right_to_left();
    return std::make_shared<const page::Drawing>(draw::draw(scene, options));
}

/// What a patient hears of a picture that stands beside its words: name and side, start position.
/// Set-up and steps are not said a second time.
std::string in_short(Tongue& tongue, Desk& desk, const Script& script) {
    std::string position = desk.facts(script.exercise.exercise).position;
    std::replace(position.begin(), position.end(), '-', '_'); // as a message can name it
    return tongue.say("figure.shows", {{"name", desk.exercise_name(tongue, script.exercise)},
                                       {"position", position}});
}

/// The same of a picture that stands alone: start position and movement in words.
std::string alternative(Tongue& tongue, Desk& desk, const Script& script) {
    std::vector<std::string> steps;
    const int count = tongue.count(script.key("step"));
    for (int i = 1; i <= count; ++i) {
        steps.push_back(tongue.say(script.key("step." + std::to_string(i)), script.side()));
    }
    return tongue.say("figure.alternative",
                      {{"name", desk.exercise_name(tongue, script.exercise)},
                       {"setup", tongue.say(script.key("setup"), script.side())},
                       {"movement", tongue.joined(steps, "text.sentences")}});
}

Figure figure_of(Desk& desk, const Script& script, const figure::Solution& solution) {
    Figure figure;
    figure.drawing = drawing(desk.voice.first(), script.exercise, solution.scene);
    figure.alternative = desk.voice.tell(
        [&](Tongue& tongue) { return alternative(tongue, desk, script); }, "figure.alternative");
    figure.caption = desk.voice.say("figure.caption", script.side());
    return figure;
}

/// How long the band is where the movement begins: from the patient to where it is fixed, or from
/// one leg to the other.
std::optional<Words> band_length(Desk& desk, const figure::Solution& solution) {
    if (!solution.band_setup_mm || solution.poses.empty() || solution.poses.front().bands.empty() ||
        solution.scene.panels.empty() || solution.scene.panels.front().bands.empty()) {
        return std::nullopt;
    }
    const std::int64_t cm = std::llround(solution.poses.front().bands.front().length_mm / 10.0);
    const bool is_fixed = solution.scene.panels.front().bands.front().anchored_end;
    return desk.voice.say(is_fixed ? "how.band_reach" : "how.band_across", {{"n", cm}});
}

/// What is needed at home, and how long the band is at the start.
void add_needs(Desk& desk, const Script& script, const figure::Solution& solution,
               std::vector<Block>& blocks) {
    const auto& kinds = desk.facts(script.exercise.exercise).equipment;
    if (!kinds.empty()) {
        auto things = [&](Tongue& tongue) {
            return locale::Arguments{{"things", desk.equipment(tongue, kinds)}};
        };
        add(blocks, paragraph(desk.voice.say_with("how.need", things), Paragraph::Role::Small));
    }
    if (auto length = band_length(desk, solution)) {
        add(blocks, paragraph(std::move(*length)));
    }
}

std::vector<Block> step_column(Desk& desk, const Script& script, const figure::Solution& solution) {
    std::vector<Block> blocks;
    add(blocks, heading(3, desk.voice.say("how.set_up")));
    add(blocks, paragraph(script.say("setup")));
    add_needs(desk, script, solution, blocks);
    add(blocks, heading(3, desk.voice.say("how.steps")));
    add_list(blocks, desk.voice, script.all("step"), true);
    if (auto tempo = tempo_sentence(desk.voice, script.exercise)) {
        add(blocks, paragraph(std::move(*tempo), Paragraph::Role::Strong));
    }
    add(blocks, heading(3, desk.voice.say("how.feel")));
    add(blocks, paragraph(script.say("feel")));
    return blocks;
}

/// The names of the neighbours that have words in every language of the booklet.
std::vector<Words> neighbour_lines(Desk& desk, const Script& script,
                                   const std::vector<std::string>& ids, std::string_view key) {
    std::vector<Words> lines;
    for (const std::string& id : ids) {
        const std::string name = "exercise." + id + ".name";
        support::Findings unused;
        const auto& tongues = desk.voice.tongues();
        const bool known = std::all_of(tongues.begin(), tongues.end(), [&](Tongue tongue) {
            return tongue.language().load_exercise(id, unused) && tongue.has(name);
        });
        if (!known) {
            desk.findings.note(script.exercise.span, "neighbour-without-words",
                               "\"" + id + "\", a neighbour of \"" + script.exercise.exercise +
                                   "\", has no words in the booklet's language and is left out");
            continue;
        }
        lines.push_back(desk.voice.say_with(key, [&](Tongue& tongue) {
            return locale::Arguments{{"name", tongue.say(name, script.side())}};
        }));
        break; // one name is a choice made, two are a question
    }
    return lines;
}

void add_neighbours(Desk& desk, const Script& script, std::vector<Block>& blocks) {
    const figure::Facts& facts = desk.facts(script.exercise.exercise);
    for (Words& line : neighbour_lines(desk, script, facts.easier, "how.easier")) {
        add(blocks, paragraph(std::move(line), Paragraph::Role::Small));
    }
    for (Words& line : neighbour_lines(desk, script, facts.harder, "how.harder")) {
        add(blocks, paragraph(std::move(line), Paragraph::Role::Small));
    }
}

std::vector<Block> picture_column(Desk& desk, const Script& script,
                                  const figure::Solution& solution) {
    std::vector<Block> blocks;
    Figure figure = figure_of(desk, script, solution);
    figure.alternative = desk.voice.tell(
        [&](Tongue& tongue) { return in_short(tongue, desk, script); }, "figure.shows");
    add(blocks, std::move(figure));
    add(blocks, heading(3, desk.voice.say("how.mistakes")));
    add_list(blocks, desk.voice, script.all("mistake"), false);
    return blocks;
}

bool uses(const figure::Facts& facts, std::string_view kind) {
    return std::find(facts.equipment.begin(), facts.equipment.end(), kind) != facts.equipment.end();
}

std::optional<Callout> clinician_note(Desk& desk, const Script& script, std::size_t stage) {
    const auto& lines = desk.written_stage(stage).exercises;
    const prescription::FreeText& note = lines.at(script.exercise.line).note;
    if (note.empty()) {
        return std::nullopt;
    }
    Callout callout;
    callout.kind = Callout::Kind::Tip;
    callout.title = desk.voice.say("how.note");
    add(callout.blocks,
        paragraph(desk.voice.written(note, "note of \"" + script.exercise.exercise + "\"")));
    return callout;
}

/// The dose as it is read out where the signs cannot be seen: every label with its value.
std::string dose_aloud(Tongue& tongue, Voice& voice, const dose::PlannedExercise& exercise) {
    std::vector<std::string> parts;
    for (const DoseCell& cell : dose_cells(voice, exercise)) {
        parts.push_back(tongue.say("text.sentences", {{"first", text_in(cell.label, tongue)},
                                                      {"second", text_in(cell.value, tongue)}}));
    }
    return tongue.joined(parts, "text.list");
}

} // namespace

std::optional<Callout> caution(Desk& desk, std::vector<Words> sentences) {
    if (sentences.empty()) {
        return std::nullopt;
    }
    Callout callout;
    callout.kind = Callout::Kind::Caution;
    callout.title = desk.voice.say("safety.caution");
    for (Words& sentence : sentences) {
        add(callout.blocks, paragraph(std::move(sentence)));
    }
    return callout;
}

/// Sentences by kind of exercise, and the exercise's own.
std::vector<Words> care_sentences(Desk& desk, const dose::PlannedExercise& exercise) {
    const Script script{desk.voice, exercise};
    const figure::Facts& facts = desk.facts(exercise.exercise);
    std::vector<Words> sentences;
    if (script.has("safety")) {
        sentences.push_back(script.say("safety"));
    }
    // An exercise with words of its own says what to hold on to and what to check; the others get
    // the general ones. The safety page asks to check the band in any case.
    const bool is_silent = sentences.empty();
    const bool may_fall = facts.support_needed || facts.dose_kind == figure::DoseKind::Balance ||
                          facts.weight_bearing == figure::WeightBearing::Single;
    if (is_silent && may_fall) {
        sentences.push_back(desk.voice.say("safety.care_support"));
    }
    if (is_silent && uses(facts, "band")) {
        sentences.push_back(desk.voice.say("safety.care_band"));
    }
    if (facts.impact) {
        sentences.push_back(desk.voice.say("safety.care_impact"));
    }
    return sentences;
}

Figure figure_of(Desk& desk, std::size_t stage, std::size_t exercise) {
    const dose::PlannedExercise& planned = desk.schedule.stages.at(stage).exercises.at(exercise);
    return figure_of(desk, Script{desk.voice, planned},
                     desk.material.solutions.at(stage).at(exercise));
}

Group exercise_in_pictures(Desk& desk, std::size_t stage, std::size_t index) {
    const dose::PlannedExercise& planned = desk.schedule.stages.at(stage).exercises.at(index);
    const Script script{desk.voice, planned};
    Group group;
    add(group.blocks, heading(2, desk.exercise_name(planned),
                              desk.voice.first().number(desk.exercise_number(stage, index))));
    Figure dose;
    dose.drawing = std::make_shared<const page::Drawing>(dose_signs(desk.voice.first(), planned));
    dose.alternative = desk.voice.tell(
        [&](Tongue& tongue) { return dose_aloud(tongue, desk.voice, planned); }, "dose.caption");
    add(group.blocks, std::move(dose));
    Figure figure = figure_of(desk, script, desk.material.solutions.at(stage).at(index));
    figure.caption = {};
    add(group.blocks, std::move(figure));
    // Where to begin low is numbers, and what the clinician wrote is not ours to leave out.
    if (auto note = clinician_note(desk, script, stage)) {
        add(group.blocks, std::move(*note));
    }
    add_all(group.blocks, ladder(desk.voice, planned, desk.rx.pain.carry_on_up_to));
    if (auto framed = caution(desk, care_sentences(desk, script.exercise))) {
        add(group.blocks, std::move(*framed));
    }
    return group;
}

Group exercise(Desk& desk, std::size_t stage, std::size_t index) {
    const dose::PlannedExercise& planned = desk.schedule.stages.at(stage).exercises.at(index);
    const Script script{desk.voice, planned};
    const figure::Solution& solution = desk.material.solutions.at(stage).at(index);
    Group group;
    auto& blocks = group.blocks;
    add(blocks, heading(2, desk.exercise_name(planned),
                        desk.voice.first().number(desk.exercise_number(stage, index))));
    add(blocks, paragraph(script.say("purpose")));
    add(blocks, dose_table(desk.voice, planned));
    Columns columns{kStepShare, step_column(desk, script, solution),
                    picture_column(desk, script, solution)};
    // Under the picture, which grows smaller where a page needs the room; words cannot.
    add_neighbours(desk, script, columns.second);
    if (auto note = clinician_note(desk, script, stage)) {
        add(columns.second, std::move(*note));
    }
    add(blocks, std::move(columns));
    add_all(blocks, ladder(desk.voice, planned, desk.rx.pain.carry_on_up_to));
    if (auto framed = caution(desk, care_sentences(desk, script.exercise))) {
        add(blocks, std::move(*framed));
    }
    return group;
}

} // namespace tickleaf::content
