// SPDX-License-Identifier: MIT
// The first page: what this is, for whom, from whom, how the stages run, how to use it, and that it
// does not replace the clinician's advice.
#include "content/parts.h"

#include <utility>

#include "content/build.h"

namespace tickleaf::content {
namespace {

Table who_table(Desk& desk) {
    Voice& voice = desk.voice;
    Facts facts;
    facts.add(voice.say("cover.for"), voice.verbatim(desk.rx.patient.name));
    if (!desk.rx.goal.empty()) {
        facts.add(voice.say("cover.goal"), voice.written(desk.rx.goal, "goal"));
    }
    facts.add(voice.say("cover.made_by"), desk.clinician());
    facts.add(voice.say("cover.clinic"), desk.clinic_name());
    facts.add(voice.say("cover.phone"), voice.verbatim(desk.rx.clinic.phone));
    if (desk.rx.starts) {
        facts.add(voice.say("cover.starts"), voice.tell([&](Tongue& tongue) {
            return tongue.language().long_date(desk.rx.starts->value);
        }));
    }
    if (desk.schedule.review) {
        facts.add(voice.say("cover.review"), voice.tell([&](Tongue& tongue) {
            return tongue.language().long_date(*desk.schedule.review);
        }));
    }
    return facts.take(voice.say("cover.facts_caption"));
}

StageBar stage_bar(Desk& desk) {
    StageBar bar;
    for (std::size_t i = 0; i < desk.schedule.stages.size(); ++i) {
        const dose::PlannedStage& planned = desk.schedule.stages[i];
        StageBar::Stage stage;
        stage.name = desk.stage_name(i);
        stage.badge = desk.voice.first().number(static_cast<std::int64_t>(i) + 1);
        stage.when = desk.voice.tell([&](Tongue& tongue) { return stage_when(tongue, planned); });
        stage.from_week = planned.weeks.low - 1;
        stage.weeks = planned.weeks.high - planned.weeks.low + 1;
        bar.stages.push_back(std::move(stage));
    }
    return bar;
}

Callout advice(Desk& desk) {
    Callout callout;
    callout.kind = Callout::Kind::Notice;
    callout.title = desk.voice.say("safety.advice_title");
    add(callout.blocks, paragraph(desk.voice.say("safety.advice")));
    return callout;
}

} // namespace

Part cover(Desk& desk) {
    Voice& voice = desk.voice;
    Part part;
    part.kind = Part::Kind::Cover;
    part.title = voice.say("cover.title");
    add(part.blocks, heading(1, part.title));
    if (!desk.rx.problem.empty()) {
        add(part.blocks,
            paragraph(voice.written(desk.rx.problem, "problem"), Paragraph::Role::Lead));
    }
    add(part.blocks, paragraph(voice.say("cover.message")));
    Columns who;
    who.first_share = kBalanced;
    add(who.first, who_table(desk));
    add(who.second, advice(desk));
    add(part.blocks, std::move(who));
    add(part.blocks, heading(2, voice.say("cover.stages_title")));
    add(part.blocks, stage_bar(desk));
    add(part.blocks, paragraph(voice.say("cover.stages_note")));
    add(part.blocks, heading(2, voice.say("cover.use_title")));
    add_list(part.blocks, voice, numbered_texts(voice, "cover.use"), true);
    return part;
}

} // namespace tickleaf::content
