// SPDX-License-Identifier: MIT
#include "content/clinician.h"

#include <algorithm>
#include <utility>

#include "content/build.h"
#include "locale/formats.h"

namespace tickleaf::content {
namespace {

constexpr std::int64_t kSecondsAMinute = 60;
/// Tables of more rows than this stand one under the other, so that they may run over a page.
constexpr std::size_t kMostRowsBeside = 30;
/// The ladders' share of the width beside the sums: five short columns to five longer ones.
constexpr double kLadderShare = 0.41;

Words written_under(Desk& desk, const std::string& language,
                    const support::Located<std::string>& text) {
    Tongue& own = desk.voice.first();
    if (language.empty() || language == own.tag()) {
        return Words{text.value, own.tag(), {}, text.span, nullptr};
    }
    return Words{
        locale::isolated(text.value, own.right_to_left()), language, {}, text.span, nullptr};
}

/// Beside each other where neither is long.
void add_beside(std::vector<Block>& blocks, std::vector<Block> first, std::vector<Block> second) {
    const auto rows = [](const std::vector<Block>& of) {
        std::size_t all = 0;
        for (const Block& block : of) {
            if (const auto* table = std::get_if<Table>(&block.value)) {
                all += table->rows.size();
            }
        }
        return all;
    };
    if (std::max(rows(first), rows(second)) > kMostRowsBeside) {
        add_all(blocks, std::move(first));
        add_all(blocks, std::move(second));
        return;
    }
    Columns columns;
    columns.first_share = kLadderShare;
    columns.first = std::move(first);
    columns.second = std::move(second);
    add(blocks, std::move(columns));
}

std::vector<Block> under(Desk& desk, std::string_view title, Table table,
                         std::string_view note = {}) {
    std::vector<Block> blocks;
    add(blocks, heading(2, desk.voice.say(title)));
    add(blocks, std::move(table));
    if (!note.empty()) {
        add(blocks, paragraph(desk.voice.say(note), Paragraph::Role::Small));
    }
    return blocks;
}

std::vector<Block> ladders(Desk& desk) {
    Table table = clinician_ladders(desk);
    if (table.rows.size() > 1) {
        return under(desk, "clinician.ladders", std::move(table));
    }
    std::vector<Block> blocks;
    add(blocks, heading(2, desk.voice.say("clinician.ladders")));
    add(blocks, paragraph(desk.voice.say("clinician.no_ladders")));
    return blocks;
}

std::int64_t count_of(const std::vector<check::Verdict>& verdicts,
                      check::Verdict::Outcome outcome) {
    return std::count_if(verdicts.begin(), verdicts.end(),
                         [&](const check::Verdict& verdict) { return verdict.outcome == outcome; });
}

std::vector<Block> checks(Desk& desk, const std::vector<check::Verdict>& verdicts) {
    using Outcome = check::Verdict::Outcome;
    std::vector<Block> blocks;
    add(blocks, heading(2, desk.voice.say("clinician.checks")));
    add(blocks, paragraph(desk.voice.say("clinician.check_counts",
                                         {{"passed", count_of(verdicts, Outcome::Passed)},
                                          {"warned", count_of(verdicts, Outcome::Warned)},
                                          {"waived", count_of(verdicts, Outcome::Waived)}})));
    add(blocks, clinician_checks(desk, verdicts));
    return blocks;
}

void add_head(Desk& desk, const ClinicianMaterial& besides, std::vector<Block>& blocks) {
    const support::Side side = desk.rx.side ? desk.rx.side->value : support::Side::None;
    add(blocks, heading(1, desk.voice.say("clinician.head",
                                          {{"name", desk.rx.patient.name.value}, {"side", side}})));
    if (!besides.in_place_of.empty()) {
        Callout callout;
        callout.title = desk.voice.say("clinician.in_english_note");
        add(callout.blocks,
            paragraph(desk.voice.say("clinician.in_english", {{"language", besides.in_place_of}})));
        add(blocks, std::move(callout));
    }
    add(blocks, paragraph(desk.voice.say("clinician.note")));
}

Part clinician_part(Desk& desk, const ClinicianMaterial& besides) {
    Part part;
    part.kind = Part::Kind::ClinicianCopy;
    part.title = desk.voice.say("clinician.title");
    std::vector<Block>& blocks = part.blocks;
    add_head(desk, besides, blocks);
    blocks.push_back(clinician_facts(desk));
    add_all(blocks,
            under(desk, "clinician.stages", clinician_stages(desk), "clinician.session_note"));
    add_all(blocks, under(desk, "clinician.exercises", clinician_exercises(desk)));
    add_all(blocks, under(desk, "clinician.calendar", clinician_calendar(desk)));
    std::vector<Block> sums = under(desk, "clinician.families", clinician_families(desk));
    add_all(sums, under(desk, "clinician.sides", clinician_sides(desk)));
    add_beside(blocks, ladders(desk), std::move(sums));
    add_all(blocks, checks(desk, *besides.verdicts));
    add(blocks, paragraph(desk.voice.say("clinician.how",
                                         {{"plain", dose::kPlainRepetitionSeconds},
                                          {"change", dose::kChangeOverSeconds},
                                          {"percent", std::int64_t{dose::kLargestStepPercent}},
                                          {"carry_on", std::int64_t{desk.rx.pain.carry_on_up_to}}}),
                          Paragraph::Role::Small));
    if (!besides.readings.empty()) {
        add(blocks, paragraph(clinician_reading(desk, besides.readings), Paragraph::Role::Small));
    }
    add(blocks, paragraph(desk.voice.say("clinician.reading_note"), Paragraph::Role::Small));
    return part;
}

} // namespace

Table clinician_table(Desk& desk, std::string_view caption, const std::vector<Words>& heads) {
    Table table;
    table.role = Table::Role::Sheet;
    table.caption = desk.voice.say(caption);
    Row row;
    row.header = true;
    for (const Words& head : heads) {
        row.cells.push_back(header_cell(head));
    }
    table.rows.push_back(std::move(row));
    return table;
}

Row clinician_band(Words words, std::size_t columns) {
    Row row;
    Cell cell = header_cell(std::move(words));
    cell.column_span = static_cast<int>(columns);
    row.cells.push_back(std::move(cell));
    return row;
}

Words clinician_wrote(Desk& desk, const prescription::FreeText& text) {
    if (const auto* same = text.for_all()) {
        return desk.voice.verbatim(*same);
    }
    const std::string& tag = desk.voice.first().tag();
    if (const auto* own = text.in(tag)) {
        return written_under(desk, tag, *own);
    }
    const auto& [language, other] = text.by_language.front();
    return written_under(desk, language, other);
}

Words clinician_stage_name(Desk& desk, std::size_t stage) {
    const prescription::Stage& written = desk.written_stage(stage);
    const bool known =
        written.title.empty() && desk.voice.first().has("stage." + written.name.value);
    const Words name = !written.title.empty() ? clinician_wrote(desk, written.title)
                       : known                ? desk.stage_name(stage)
                                              : desk.voice.verbatim(written.name);
    return desk.voice.say("clinician.stage_name",
                          {{"number", static_cast<std::int64_t>(stage) + 1}, {"name", name.text}});
}

Words clinician_notation(Desk& desk, const std::string& notation) {
    const bool turned = desk.voice.first().right_to_left();
    return Words{locale::isolated(notation, turned), "en", {}, {}, nullptr};
}

Words clinician_range(Desk& desk, support::Range<std::int64_t> range) {
    constexpr std::int64_t kMost = 2000000000; // prescription/ bounds every factor far below
    support::internal_error_if(range.high > kMost, "clinician: a total is out of bounds");
    return desk.voice.range({static_cast<int>(range.low), static_cast<int>(range.high)});
}

Words clinician_minutes(Desk& desk, support::Range<support::Seconds> range) {
    const auto minutes = [](support::Seconds seconds) {
        return (seconds.count + kSecondsAMinute - 1) / kSecondsAMinute;
    };
    return clinician_range(desk, {minutes(range.low), minutes(range.high)});
}

Words clinician_change(Desk& desk, const support::Range<std::int64_t>* before,
                       support::Range<std::int64_t> now) {
    if (before == nullptr) {
        return desk.voice.say("clinician.first");
    }
    if (before->low == 0 || before->high == 0) {
        return desk.voice.say(before->high == 0 ? "clinician.new" : "clinician.none");
    }
    const std::int64_t low = dose::Ratio{now.low, before->low}.percent_rounded_up();
    const std::int64_t high = dose::Ratio{now.high, before->high}.percent_rounded_up();
    if (low == high) {
        return desk.voice.say("clinician.percent_one", {{"percent", low}});
    }
    return desk.voice.say("clinician.percent",
                          {{"low", std::min(low, high)}, {"high", std::max(low, high)}});
}

std::optional<Booklet> compose_clinician_copy(const Material& material,
                                              const ClinicianMaterial& besides,
                                              support::Findings& findings) {
    support::internal_error_if(material.prescription == nullptr || material.schedule == nullptr ||
                                   material.exercises == nullptr || material.language == nullptr ||
                                   besides.verdicts == nullptr,
                               "compose_clinician_copy: material is missing");
    support::Findings mine;
    Voice voice(*material.language, nullptr, mine);
    std::optional<Booklet> booklet;
    if (material.language->load_clinician_texts(mine) &&
        load_words(voice, *material.schedule, mine)) {
        Desk desk{material, *material.prescription, *material.schedule, voice, mine};
        booklet.emplace();
        add_frame(desk, *booklet);
        const std::string& name = desk.rx.patient.name.value;
        booklet->title = voice.say("clinician.running_head", {{"name", name}});
        booklet->running_head = booklet->title;
        booklet->subject =
            desk.rx.problem.empty() ? "" : clinician_wrote(desk, desk.rx.problem).text;
        booklet->parts.push_back(clinician_part(desk, besides));
    }
    const bool failed = mine.has_errors();
    for (const support::Finding& finding : mine.all()) {
        findings.add(finding);
    }
    return failed ? std::nullopt : std::move(booklet);
}

} // namespace tickleaf::content
