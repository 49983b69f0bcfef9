// SPDX-License-Identifier: MIT
// Whom to call and when, the next visit, and room for the patient's questions.
#include "content/parts.h"

#include <utility>

#include "content/build.h"

namespace tickleaf::content {
namespace {

constexpr int kQuestionLines = 5;

void add_optional(Facts& facts, Voice& voice, std::string_view key, std::string_view what,
                  const prescription::FreeText& text) {
    if (!text.empty()) {
        facts.add(voice.say(key), voice.written(text, what));
    }
}

Table contact_table(Desk& desk) {
    Voice& voice = desk.voice;
    const prescription::Clinic& clinic = desk.rx.clinic;
    Facts facts;
    facts.add(voice.say("contact.clinician"), desk.clinician());
    facts.add(voice.say("contact.clinic"), desk.clinic_name());
    facts.add(voice.say("contact.phone"), voice.verbatim(clinic.phone));
    add_optional(facts, voice, "contact.hours", "the clinic's hours", clinic.hours);
    if (clinic.email) {
        facts.add(voice.say("contact.email"), voice.verbatim(*clinic.email));
    }
    add_optional(facts, voice, "contact.address", "the clinic's address", clinic.address);
    if (desk.schedule.review) {
        facts.add(voice.say("contact.review"), voice.tell([&](Tongue& tongue) {
            return tongue.language().long_date(*desk.schedule.review);
        }));
    }
    return facts.take(voice.say("contact.caption"));
}

} // namespace

Callout emergency(Desk& desk) {
    Callout callout;
    callout.kind = Callout::Kind::Warning;
    callout.title =
        desk.voice.say("safety.emergency_title", {{"emergency", desk.rx.clinic.emergency.value}});
    add(callout.blocks, paragraph(desk.voice.say("safety.emergency_short")));
    return callout;
}

Table contact_row(Desk& desk) {
    Voice& voice = desk.voice;
    Table table;
    table.role = Table::Role::Plan;
    table.caption = voice.say("contact.caption");
    Row labels;
    labels.header = true;
    Row values;
    const auto put = [&](const char* key, Words value) {
        if (!value.empty()) {
            labels.cells.push_back(header_cell(voice.say(key)));
            values.cells.push_back(text_cell(std::move(value)));
        }
    };
    put("contact.clinician", desk.clinician());
    put("contact.clinic", desk.clinic_name());
    put("contact.phone", voice.verbatim(desk.rx.clinic.phone));
    table.rows = {std::move(labels), std::move(values)};
    return table;
}

Part contact(Desk& desk) {
    Voice& voice = desk.voice;
    Part part;
    part.kind = Part::Kind::Contact;
    part.title = voice.say("contact.title");
    Group group;
    add(group.blocks, heading(1, part.title));
    add(group.blocks, contact_table(desk));
    add(group.blocks, emergency(desk));
    add(group.blocks, heading(2, voice.say("contact.call_title")));
    add_list(group.blocks, voice, numbered_texts(voice, "contact.call"), false);
    add(part.blocks, std::move(group));
    add(part.blocks, heading(2, voice.say("contact.visit_title")));
    add_list(part.blocks, voice, numbered_texts(voice, "contact.visit"), false);
    add(part.blocks, WritingLines{voice.say("contact.questions"), kQuestionLines});
    return part;
}

} // namespace tickleaf::content
