// SPDX-License-Identifier: MIT
// The booklet for people who do not read: what stands in words is who and whom to call, the names
// of things, and everything that keeps the patient safe; somebody can read those out once.
#include "content/parts.h"

#include <algorithm>
#include <string_view>

#include "content/build.h"

namespace tickleaf::content {
namespace {

bool is_prose(const Block& block) {
    if (const auto* paragraph = std::get_if<Paragraph>(&block.value)) {
        return paragraph->role == Paragraph::Role::Body;
    }
    const auto* heading = std::get_if<Heading>(&block.value);
    return std::holds_alternative<List>(block.value) ||
           (heading != nullptr && heading->words.key == "cover.use_title");
}

} // namespace

Part cover_in_pictures(Desk& desk) {
    Part part = cover(desk);
    std::erase_if(part.blocks, is_prose);
    return part;
}

Part stage_in_pictures(Desk& desk, std::size_t index) {
    const dose::PlannedStage& planned = desk.schedule.stages.at(index);
    const std::int64_t number = static_cast<std::int64_t>(index) + 1;
    Part part;
    part.kind = Part::Kind::Stage;
    part.stage = index;
    part.title = desk.stage_title(index);
    add(part.blocks, page_heading(desk.stage_name(index), desk.voice.first().number(number)));
    add(part.blocks,
        paragraph(desk.voice.tell([&](Tongue& tongue) { return stage_when(tongue, planned); }),
                  Paragraph::Role::Lead));
    for (std::size_t i = 0; i < planned.exercises.size(); ++i) {
        add(part.blocks, exercise_in_pictures(desk, index, i));
    }
    if (index + 1 < desk.schedule.stages.size()) {
        // The signs to move on are sentences to tick; who cannot read them asks.
        add(part.blocks, paragraph(desk.voice.say("stage_page.clinician_decides")));
    }
    if (index == 0) {
        add_all(part.blocks, before_you_start(desk));
    }
    return part;
}

} // namespace tickleaf::content
