// SPDX-License-Identifier: MIT
#include "content/booklet.h"

#include "support/json.h"

namespace tickleaf::content {
namespace {

using support::Json;

constexpr int kIndent = 2;

Json to_json(const Words& words) {
    if (words.empty()) {
        return nullptr;
    }
    Json json{{"text", words.text}, {"language", words.language}};
    if (!words.key.empty()) {
        json["key"] = words.key;
    }
    if (words.second) {
        json["second"] = to_json(*words.second);
    }
    return json;
}

Json to_json(const std::vector<Words>& list) {
    Json json = Json::array();
    for (const Words& words : list) {
        json.push_back(to_json(words));
    }
    return json;
}

Json to_json(const std::vector<Block>& blocks);

const char* name(Paragraph::Role role) {
    switch (role) {
    case Paragraph::Role::Body:
        return "body";
    case Paragraph::Role::Lead:
        return "lead";
    case Paragraph::Role::Small:
        return "small";
    case Paragraph::Role::Strong:
        return "strong";
    }
    return "body";
}

const char* name(Table::Role role) {
    switch (role) {
    case Table::Role::Facts:
        return "facts";
    case Table::Role::Dose:
        return "dose";
    case Table::Role::Log:
        return "log";
    case Table::Role::Sheet:
        return "sheet";
    case Table::Role::Plan:
        return "plan";
    }
    return "facts";
}

const char* name(Callout::Kind kind) {
    switch (kind) {
    case Callout::Kind::Warning:
        return "warning";
    case Callout::Kind::Caution:
        return "caution";
    case Callout::Kind::Notice:
        return "notice";
    case Callout::Kind::Tip:
        return "tip";
    }
    return "notice";
}

const char* name(Part::Kind kind) {
    switch (kind) {
    case Part::Kind::Cover:
        return "cover";
    case Part::Kind::Contents:
        return "contents";
    case Part::Kind::Safety:
        return "safety";
    case Part::Kind::Stage:
        return "stage";
    case Part::Kind::Logbook:
        return "logbook";
    case Part::Kind::Contact:
        return "contact";
    case Part::Kind::ClinicianCopy:
        return "clinician-copy";
    case Part::Kind::SpareLog:
        return "spare-log";
    case Part::Kind::Sheet:
        return "sheet";
    case Part::Kind::Refill:
        return "refill";
    case Part::Kind::Notes:
        return "notes";
    }
    return "notes";
}

Json to_json(const Cell& cell) {
    Json json{{"words", to_json(cell.words)}};
    if (cell.header) {
        json["header"] = true;
    }
    if (cell.column_span != 1) {
        json["column_span"] = cell.column_span;
    }
    if (cell.tick_boxes > 0) {
        json["tick_boxes"] = cell.tick_boxes;
        json["ticked"] = cell.ticked;
        json["tick_labels"] = to_json(cell.tick_labels);
    }
    if (cell.write_in) {
        json["write_in"] = true;
    }
    return json;
}

/// One JSON object a block, its kind first.
struct BlockJson {
    Json operator()(const Heading& heading) const {
        return {{"block", "heading"},
                {"level", heading.level},
                {"badge", heading.badge},
                {"words", to_json(heading.words)},
                {"starts_page", heading.starts_page}};
    }
    Json operator()(const Paragraph& paragraph) const {
        return {{"block", "paragraph"},
                {"role", name(paragraph.role)},
                {"words", to_json(paragraph.words)}};
    }
    Json operator()(const List& list) const {
        return {{"block", "list"},
                {"numbered", list.numbered},
                {"numbers", list.numbers},
                {"items", to_json(list.items)}};
    }
    Json operator()(const Table& table) const {
        Json rows = Json::array();
        for (const Row& row : table.rows) {
            Json cells = Json::array();
            for (const Cell& cell : row.cells) {
                cells.push_back(to_json(cell));
            }
            rows.push_back({{"header", row.header}, {"cells", std::move(cells)}});
        }
        return {{"block", "table"},
                {"role", name(table.role)},
                {"caption", to_json(table.caption)},
                {"rows", std::move(rows)}};
    }
    Json operator()(const Figure& figure) const {
        return {{"block", "figure"},
                {"width", figure.drawing ? figure.drawing->width : 0.0},
                {"height", figure.drawing ? figure.drawing->height : 0.0},
                {"alternative", to_json(figure.alternative)},
                {"caption", to_json(figure.caption)}};
    }
    Json operator()(const Callout& callout) const {
        return {{"block", "callout"},
                {"kind", name(callout.kind)},
                {"title", to_json(callout.title)},
                {"blocks", to_json(callout.blocks)}};
    }
    Json operator()(const PainScale& scale) const {
        return {{"block", "pain-scale"},
                {"carry_on_up_to", scale.carry_on_up_to},
                {"ease_off_up_to", scale.ease_off_up_to},
                {"zones",
                 {{to_json(scale.carry_on), to_json(scale.carry_on_action)},
                  {to_json(scale.ease_off), to_json(scale.ease_off_action)},
                  {to_json(scale.stop), to_json(scale.stop_action)}}},
                {"numbers", scale.numbers},
                {"alternative", to_json(scale.alternative)}};
    }
    Json operator()(const StageBar& bar) const {
        Json stages = Json::array();
        for (const StageBar::Stage& stage : bar.stages) {
            stages.push_back({{"badge", stage.badge},
                              {"name", to_json(stage.name)},
                              {"when", to_json(stage.when)},
                              {"from_week", stage.from_week},
                              {"weeks", stage.weeks}});
        }
        return {{"block", "stage-bar"}, {"stages", std::move(stages)}};
    }
    Json operator()(const WritingLines& lines) const {
        return {
            {"block", "writing-lines"}, {"label", to_json(lines.label)}, {"lines", lines.lines}};
    }
    Json operator()(const TickList& list) const {
        return {{"block", "tick-list"}, {"items", to_json(list.items)}};
    }
    Json operator()(const Group& group) const {
        return {{"block", "group"}, {"blocks", to_json(group.blocks)}};
    }
    Json operator()(const Columns& columns) const {
        return {{"block", "columns"},
                {"first_share", columns.first_share},
                {"first", to_json(columns.first)},
                {"second", to_json(columns.second)}};
    }
    Json operator()(const Contents& contents) const {
        Json entries = Json::array();
        for (const Contents::Entry& entry : contents.entries) {
            entries.push_back({{"level", entry.level},
                               {"badge", entry.badge},
                               {"words", to_json(entry.words)},
                               {"anchor", entry.anchor}});
        }
        return {{"block", "contents"}, {"entries", std::move(entries)}};
    }
    Json operator()(const PageBreak&) const { return {{"block", "page-break"}}; }
    Json operator()(const Divider&) const { return {{"block", "divider"}}; }
};

Json to_json(const std::vector<Block>& blocks) {
    Json json = Json::array();
    for (const Block& block : blocks) {
        json.push_back(std::visit(BlockJson{}, block.value));
    }
    return json;
}

} // namespace

std::string dump(const Booklet& booklet) {
    Json parts = Json::array();
    for (const Part& part : booklet.parts) {
        parts.push_back({{"part", name(part.kind)},
                         {"stage", part.stage},
                         {"title", to_json(part.title)},
                         {"blocks", to_json(part.blocks)}});
    }
    Json json{{"language", booklet.language},
              {"second_language", booklet.second_language},
              {"right_to_left", booklet.right_to_left},
              {"title", to_json(booklet.title)},
              {"author", booklet.author},
              {"subject", booklet.subject},
              {"running_head", to_json(booklet.running_head)},
              {"digits", booklet.digits},
              {"page_pattern", booklet.page_pattern},
              {"date", booklet.date ? Json(*booklet.date) : Json(nullptr)},
              {"parts", std::move(parts)}};
    return json.dump(kIndent);
}

} // namespace tickleaf::content
