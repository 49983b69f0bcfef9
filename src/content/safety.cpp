// SPDX-License-Identifier: MIT
// Staying safe: the pain rule, the signs to stop at and whom to call, the room before the first
// exercise. Source: pain bands after Thomee 1997 and Silbernagel et al. 2007 with the
// prescription's own thresholds; signs after NICE NG158 (leg clot), published cauda equina cards,
// BSR 2006 (hot joint), Ottawa ankle rules (four steps); signal words after ANSI Z535.4-2007, 4.14.
#include "content/parts.h"

#include <algorithm>
#include <utility>

#include "content/build.h"

namespace tickleaf::content {
namespace {

constexpr int kWorstPain = 10;

struct Zone {
    support::Range<int> pain;
    const char* name;
    const char* action;
};

/// The ends of the pain line.
locale::Arguments ends() {
    return {{"low", std::int64_t{0}}, {"high", std::int64_t{kWorstPain}}};
}

std::vector<Zone> zones(const prescription::PainRule& rule) {
    return {{{0, rule.carry_on_up_to}, "safety.pain_carry_on", "safety.pain_carry_on_action"},
            {{rule.carry_on_up_to + 1, rule.ease_off_up_to},
             "safety.pain_ease_off",
             "safety.pain_ease_off_action"},
            {{rule.ease_off_up_to + 1, kWorstPain}, "safety.pain_stop", "safety.pain_stop_action"}};
}

Words action(Voice& voice, const Zone& zone) {
    return voice.say_with(zone.action, [&](Tongue& tongue) {
        return locale::Arguments{{"pain", tongue.range(zone.pain)}};
    });
}

} // namespace

PainScale pain_scale(Desk& desk) {
    Voice& voice = desk.voice;
    const auto all = zones(desk.rx.pain);
    PainScale scale;
    scale.carry_on_up_to = desk.rx.pain.carry_on_up_to;
    scale.ease_off_up_to = desk.rx.pain.ease_off_up_to;
    scale.carry_on = voice.say(all[0].name);
    scale.ease_off = voice.say(all[1].name);
    scale.stop = voice.say(all[2].name);
    scale.carry_on_action = action(voice, all[0]);
    scale.ease_off_action = action(voice, all[1]);
    scale.stop_action = action(voice, all[2]);
    for (int pain = 0; pain <= kWorstPain; ++pain) {
        scale.numbers.push_back(voice.first().number(pain));
    }
    // What each zone asks for stands below as text.
    scale.alternative = voice.say("safety.pain_line", ends());
    return scale;
}

namespace {

void add_pain_rule(Desk& desk, std::vector<Block>& blocks) {
    Voice& voice = desk.voice;
    add(blocks, heading(2, voice.say("safety.pain_title")));
    add(blocks, paragraph(voice.say("safety.pain_lead", ends())));
    add(blocks, pain_scale(desk));
}

/// What to do the next morning and when pain flares up.
Columns afterwards(Desk& desk) {
    Voice& voice = desk.voice;
    const locale::Arguments phone{{"phone", desk.rx.clinic.phone.value},
                                  {"n", std::int64_t{desk.rx.pain.carry_on_up_to}}};
    std::vector<Block> morning;
    add(morning, heading(3, voice.say("safety.morning_title")));
    add_list(morning, voice, numbered_texts(voice, "safety.morning"), false);
    std::vector<Block> flare;
    add(flare, heading(3, voice.say("safety.flare_title")));
    add_list(flare, voice, numbered_texts(voice, "safety.flare", phone), true);
    return Columns{kBalanced, std::move(morning), std::move(flare)};
}

locale::Arguments numbers_to_call(const Desk& desk) {
    return {{"emergency", desk.rx.clinic.emergency.value}, {"phone", desk.rx.clinic.phone.value}};
}

/// The frame of the stop signs with its lead.
Callout stop_frame(Voice& voice) {
    Callout callout;
    callout.kind = Callout::Kind::Warning;
    callout.title = voice.say("safety.stop_title");
    add(callout.blocks, paragraph(voice.say("safety.stop_lead"), Paragraph::Role::Strong));
    return callout;
}

Callout stop_signs(Desk& desk) {
    Voice& voice = desk.voice;
    const locale::Arguments numbers = numbers_to_call(desk);
    Callout callout = stop_frame(voice);
    std::vector<Block> emergency;
    add(emergency, heading(3, voice.say("safety.emergency_title", numbers)));
    add_list(emergency, voice, numbered_texts(voice, "safety.emergency"), false);
    std::vector<Block> today;
    add(today, heading(3, voice.say("safety.today_title")));
    add_list(today, voice, numbered_texts(voice, "safety.today"), false);
    add(callout.blocks, Columns{kBalanced, std::move(emergency), std::move(today)});
    add(callout.blocks, paragraph(voice.say("safety.call", numbers), Paragraph::Role::Strong));
    return callout;
}

Words as_sentences(Voice& voice, std::string_view prefix) {
    return voice.tell(
        [&](Tongue& tongue) {
            std::vector<std::string> signs;
            const int count = tongue.count(prefix);
            for (int i = 1; i <= count; ++i) {
                signs.push_back(tongue.say(std::string(prefix) + "." + std::to_string(i)));
            }
            return tongue.joined(signs, "text.sentences");
        },
        prefix);
}

bool needs_band(const Desk& desk) {
    for (const auto& stage : desk.schedule.stages) {
        for (const auto& exercise : stage.exercises) {
            const auto& equipment = desk.facts(exercise.exercise).equipment;
            if (std::find(equipment.begin(), equipment.end(), "band") != equipment.end()) {
                return true;
            }
        }
    }
    return false;
}

} // namespace

Callout stop_signs_in_short(Desk& desk) {
    Voice& voice = desk.voice;
    const locale::Arguments numbers = numbers_to_call(desk);
    Callout callout = stop_frame(voice);
    add(callout.blocks, heading(3, voice.say("safety.emergency_title", numbers)));
    add(callout.blocks, paragraph(as_sentences(voice, "safety.emergency")));
    add(callout.blocks, heading(3, voice.say("safety.today_title")));
    add(callout.blocks, paragraph(as_sentences(voice, "safety.today")));
    add(callout.blocks, paragraph(voice.say("safety.call", numbers), Paragraph::Role::Strong));
    return callout;
}

Part safety(Desk& desk) {
    Voice& voice = desk.voice;
    Part part;
    part.kind = Part::Kind::Safety;
    part.title = voice.say("safety.title");
    add(part.blocks, page_heading(part.title));
    add_pain_rule(desk, part.blocks);
    add(part.blocks, stop_signs(desk));
    add(part.blocks, afterwards(desk));
    return part;
}

std::vector<Block> before_you_start(Desk& desk) {
    Voice& voice = desk.voice;
    std::vector<Block> blocks;
    add(blocks, heading(2, voice.say("safety.before_title")));
    std::vector<Words> before = numbered_texts(voice, "safety.before");
    if (needs_band(desk)) {
        before.push_back(voice.say("safety.care_band"));
    }
    add_list(blocks, voice, std::move(before), false);
    return blocks;
}

} // namespace tickleaf::content
