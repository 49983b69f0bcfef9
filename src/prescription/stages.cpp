// SPDX-License-Identifier: MIT
// The stages and their exercise lines.
#include "prescription/parts.h"

#include <algorithm>

#include "prescription/dose_quantities.h"
#include "prescription/notation.h"

namespace tickleaf::prescription {

namespace {

using support::Findings;
using support::Range;

/// The hold or time doses that have no tempo of their own.
bool takes_tempo(const Dose& dose) {
    return std::holds_alternative<Repetitions>(dose.content) ||
           std::holds_alternative<ToFatigue>(dose.content);
}

Located<std::string> read_exercise_id(FieldReader& reader, Findings& findings) {
    auto id = required_words(reader, "do", findings);
    if (!id.value.empty() && !is_key(id.value)) {
        findings.error(id.span, "exercise-id", quoted(id.value) + " is no exercise id",
                       "ids are lower-case words with hyphens, such as calf-raise-two-legs");
        id.value.clear();
    }
    return id;
}

/// Nothing where the id is missing. A line with an unreadable dose is kept, so that its id is still
/// held against the exercises there are; the finding stops it from being planned.
std::optional<ExerciseLine> read_line(const yaml::Node& node, Findings& findings) {
    const Watch watch(findings);
    FieldReader reader(node, exercise_fields(), findings);
    if (!reader.is_map()) {
        return std::nullopt;
    }
    ExerciseLine line;
    line.exercise = read_exercise_id(reader, findings);
    if (const yaml::Node* side = reader.node("side")) {
        line.side = read_side(*side, findings);
    }
    const yaml::Node* dose_node = reader.node("dose");
    const auto dose = dose_node == nullptr ? std::nullopt : read_dose(*dose_node, findings);
    const yaml::Node* tempo = reader.node("tempo");
    if (tempo != nullptr) {
        line.tempo = read_tempo(*tempo, findings);
    }
    if (const yaml::Node* begin = reader.node("begin")) {
        line.begin = read_begin(*begin, findings);
    }
    line.band = reader.text("band");
    line.note = free_text(reader, "note", findings);
    reader.finish();
    if (tempo != nullptr && dose && !takes_tempo(*dose)) {
        findings.error(tempo->span, "dose-conflict",
                       "a tempo is given, but the dose has no repetitions",
                       "remove the tempo, or write the dose in repetitions, such as 3 x 10");
    }
    if (line.exercise.value.empty()) {
        return std::nullopt;
    }
    line.dose = dose.value_or(Dose{});
    line.is_whole = !watch.has_errors();
    return line;
}

/// One entry of move_on_when. A map is most often the free text of its neighbour.
void read_criterion(const yaml::Node& node, Stage& stage, Findings& findings) {
    if (node.kind == yaml::Node::Kind::Map) {
        findings.error(node.span, "wrong-type",
                       "move_on_when is " + yaml::describe(node) +
                           ", but keys of criteria were expected",
                       "write a key such as walks-without-limp here, and your own words in "
                       "languages under move_on_text");
        return;
    }
    const auto text = yaml::as_text(node, "move_on_when", findings);
    if (!text) {
        return;
    }
    if (is_key(*text)) {
        stage.move_on_when.push_back({*text, node.span});
        return;
    }
    findings.error(node.span, "criterion-key", quoted(*text) + " is no key of a criterion",
                   "write a key such as walks-without-limp, or free text under move_on_text");
}

void read_criteria(FieldReader& reader, Stage& stage, Findings& findings) {
    if (const yaml::Node* node = reader.node("move_on_when")) {
        if (node->kind == yaml::Node::Kind::List) {
            for (const yaml::Node& item : node->items) {
                read_criterion(item, stage, findings);
            }
        } else {
            read_criterion(*node, stage, findings);
        }
    }
    stage.move_on_text = free_text(reader, "move_on_text", findings);
}

void read_exercises(FieldReader& reader, Stage& stage, Findings& findings) {
    const yaml::Node* list = reader.node("exercises");
    if (list == nullptr) {
        return;
    }
    if (list->kind != yaml::Node::Kind::List || list->items.empty()) {
        findings.error(list->span, "wrong-type",
                       "the exercises are " +
                           (list->kind == yaml::Node::Kind::List ? std::string("an empty list")
                                                                 : yaml::describe(*list)) +
                           ", but a list of at least one was expected",
                       "write one exercise after each \"- do: \"");
        return;
    }
    if (list->items.size() > kMostExercises) {
        findings.error(list->span, "too-many",
                       "the stage has " + std::to_string(list->items.size()) +
                           " exercises, but at most " + std::to_string(kMostExercises) +
                           " are taken",
                       "split the stage");
        return;
    }
    for (const yaml::Node& item : list->items) {
        auto line = read_line(item, findings);
        stage.has_all_lines = stage.has_all_lines && line && line->is_whole;
        if (line) {
            stage.exercises.push_back(std::move(*line));
        }
    }
}

/// Whether the weeks read. Stages without weeks are left out of the order check.
bool read_weeks(FieldReader& reader, Stage& stage, Findings& findings) {
    const yaml::Node* node = reader.node("weeks");
    if (node == nullptr) {
        return false;
    }
    stage.weeks_span = node->span;
    const auto weeks = read_counts(*node, {"weeks", kLastWeek, true}, "weeks-syntax", findings);
    if (!weeks) {
        return false;
    }
    stage.weeks = *weeks;
    return true;
}

struct ReadStage {
    Stage stage;
    bool has_weeks = false;
};

ReadStage read_stage(const yaml::Node& node, Findings& findings) {
    ReadStage result;
    Stage& stage = result.stage;
    stage.span = node.span;
    stage.has_whole_frame = false;
    FieldReader reader(node, stage_fields(), findings);
    if (!reader.is_map()) {
        stage.has_all_lines = false;
        return result;
    }
    const Watch frame(findings);
    stage.name = required_words(reader, "name", findings);
    stage.title = free_text(reader, "title", findings);
    result.has_weeks = read_weeks(reader, stage, findings);
    if (const yaml::Node* days = reader.node("days_per_week")) {
        const auto range = read_counts(*days, days_per_week_quantity(), "days-syntax", findings);
        stage.has_days = range.has_value();
        stage.days_per_week = range.value_or(stage.days_per_week);
    }
    read_criteria(reader, stage, findings);
    const bool good_frame = !frame.has_errors();
    read_exercises(reader, stage, findings);
    const Watch keys(findings);
    reader.finish();
    stage.has_whole_frame = good_frame && !keys.has_errors();
    stage.has_days = stage.has_days && !keys.has_errors();
    return result;
}

/// Weeks run from 1 without gap and without overlap.
void check_order(const std::vector<ReadStage>& stages, Findings& findings) {
    int next = 1;
    for (const ReadStage& one : stages) {
        if (!one.has_weeks) {
            return; // where the next stage should begin is not known
        }
        const Range<int> weeks = one.stage.weeks;
        if (weeks.low != next) {
            const std::string where = next == 1 ? "the first stage" : "the stage";
            const std::string kind =
                weeks.low < next ? "overlaps the stage before" : "leaves a gap";
            findings.error(one.stage.weeks_span, weeks.low < next ? "weeks-overlap" : "weeks-gap",
                           where + " starts in week " + std::to_string(weeks.low) + " and " + kind +
                               ", but week " + std::to_string(next) + " was expected",
                           "start it in week " + std::to_string(next));
        }
        next = std::max(next, weeks.high + 1);
    }
}

void check_names(const std::vector<ReadStage>& stages, Findings& findings) {
    std::vector<std::string> seen;
    seen.reserve(stages.size());
    for (const ReadStage& one : stages) {
        const Located<std::string>& name = one.stage.name;
        if (!name.value.empty() && std::find(seen.begin(), seen.end(), name.value) != seen.end()) {
            findings.error(name.span, "stage-twice",
                           "two stages have the name " + quoted(name.value),
                           "give each stage its own name");
        }
        seen.push_back(name.value);
    }
}

} // namespace

std::vector<Stage> read_stages(const yaml::Node& node, Findings& findings) {
    if (node.kind != yaml::Node::Kind::List || node.items.empty() ||
        node.items.size() > kMostStages) {
        const bool is_list = node.kind == yaml::Node::Kind::List;
        const std::string found =
            !is_list ? yaml::describe(node) : "a list of " + std::to_string(node.items.size());
        findings.error(node.span, "wrong-type",
                       "stages is " + found + ", but a list of 1 to " +
                           std::to_string(kMostStages) + " stages was expected",
                       "write one stage after each \"- name: \"");
        return {};
    }
    std::vector<ReadStage> read;
    read.reserve(node.items.size());
    for (const yaml::Node& item : node.items) {
        read.push_back(read_stage(item, findings));
    }
    const Watch order(findings);
    check_order(read, findings);
    check_names(read, findings);
    const bool has_order = !order.has_errors();
    std::vector<Stage> stages;
    stages.reserve(read.size());
    for (ReadStage& one : read) {
        one.stage.has_whole_frame = one.stage.has_whole_frame && has_order;
        stages.push_back(std::move(one.stage));
    }
    return stages;
}

} // namespace tickleaf::prescription
