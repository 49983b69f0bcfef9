// SPDX-License-Identifier: MIT
#include "content/compose.h"

#include <algorithm>
#include <utility>

#include "content/build.h"
#include "content/draft_notice.h"
#include "content/parts.h"
#include "support/number.h"

namespace tickleaf::content {
namespace {

// The notice stands in English beside the reader's language so that staff can read it, without
// loading a second catalog for one sentence. A test holds it against the English catalog.
constexpr const char* kEnglish = "en";
constexpr const char* kDraftText = "No qualified translator has checked the safety words yet.";

void require(bool is_there, const char* what, const char* key, support::Findings& findings) {
    if (!is_there) {
        findings.error({}, "contact-missing",
                       std::string(what) + " is missing, and a patient must know it",
                       std::string("write it under clinic: ") + key + ":");
    }
}

void check_contact(const prescription::Clinic& clinic, support::Findings& findings) {
    require(!clinic.clinician.empty(), "the clinician's name", "clinician", findings);
    require(!clinic.phone.value.empty(), "the clinic's telephone number", "phone", findings);
    require(!clinic.emergency.value.empty(), "the emergency number", "emergency", findings);
}

/// The exercise is known and drawn, and has a side where it needs one.
void check_exercise(const Material& material, std::size_t stage, std::size_t index,
                    support::Findings& findings) {
    const dose::PlannedExercise& planned = material.schedule->stages[stage].exercises[index];
    const auto found = material.exercises->find(planned.exercise);
    if (found == material.exercises->end()) {
        findings.error(planned.span, "exercise-unknown",
                       "there is no exercise \"" + planned.exercise + "\"");
        return;
    }
    const bool is_drawn =
        stage < material.solutions.size() && index < material.solutions[stage].size();
    support::internal_error_if(!is_drawn, "compose: a solution is missing");
    if (found->second.facts().has_sides && planned.side == support::Side::None) {
        findings.error(planned.span, "side-missing",
                       "\"" + planned.exercise + "\" works one side, and no side is given",
                       "write side: left, right or both");
    }
}

bool is_complete(const Material& material, support::Findings& findings) {
    check_contact(material.prescription->clinic, findings);
    const std::size_t stages = material.schedule->stages.size();
    if (material.stage && *material.stage >= stages) {
        findings.error({}, "unknown-stage",
                       "stage " + std::to_string(*material.stage + 1) +
                           " is asked for, and the prescription has " + std::to_string(stages),
                       "choose a stage from 1 to " + std::to_string(stages));
    }
    for (std::size_t stage = 0; stage < stages; ++stage) {
        for (std::size_t i = 0; i < material.schedule->stages[stage].exercises.size(); ++i) {
            check_exercise(material, stage, i, findings);
        }
    }
    return !findings.has_errors();
}

std::string iso_date(prescription::Date date) {
    auto padded = [](std::int64_t value, std::size_t width) {
        std::string digits = std::to_string(value);
        return std::string(digits.size() < width ? width - digits.size() : 0, '0') + digits;
    };
    return padded(static_cast<int>(date.year()), 4) + "-" +
           padded(static_cast<unsigned>(date.month()), 2) + "-" +
           padded(static_cast<unsigned>(date.day()), 2);
}

bool is_wanted(const Material& material, Part::Kind kind) {
    using Kind = Part::Kind;
    constexpr Kind kBooklet[] = {Kind::Cover, Kind::Contents, Kind::Safety,
                                 Kind::Stage, Kind::Logbook,  Kind::Contact};
    const auto& asked = material.parts;
    return asked.empty()
               ? std::find(std::begin(kBooklet), std::end(kBooklet), kind) != std::end(kBooklet)
               : std::find(asked.begin(), asked.end(), kind) != asked.end();
}

void add_parts(Desk& desk, Booklet& booklet) {
    using Kind = Part::Kind;
    const bool pictures = desk.material.in_pictures;
    const std::pair<Kind, Part (*)(Desk&)> before[] = {
        {Kind::Cover, pictures ? cover_in_pictures : cover}, {Kind::Safety, safety}};
    const std::pair<Kind, Part (*)(Desk&)> after[] = {
        {Kind::Logbook, logbook}, {Kind::Contact, contact}, {Kind::SpareLog, spare_log},
        {Kind::Notes, notes},     {Kind::Sheet, sheet},     {Kind::Refill, refill}};
    for (const auto& [kind, make] : before) {
        if (is_wanted(desk.material, kind)) {
            booklet.parts.push_back(make(desk));
        }
    }
    for (std::size_t i = 0; i < desk.schedule.stages.size(); ++i) {
        if (is_wanted(desk.material, Kind::Stage)) {
            booklet.parts.push_back(pictures ? stage_in_pictures(desk, i) : stage(desk, i));
        }
    }
    for (const auto& [kind, make] : after) {
        if (is_wanted(desk.material, kind)) {
            booklet.parts.push_back(make(desk));
        }
    }
    if (is_wanted(desk.material, Kind::Contents) && !pictures) {
        add_contents(desk, booklet);
    }
}

/// The column beside the facts, where it also says that the plan replaces no advice.
std::vector<Block>& cover_side(Part& cover) {
    for (Block& block : cover.blocks) {
        if (auto* columns = std::get_if<Columns>(&block.value)) {
            return columns->second;
        }
    }
    return cover.blocks;
}

/// The notice goes to the front and to the safety page, above what it speaks of; a few words of it
/// wherever else such a text stands.
void add_draft_notices(Desk& desk, Booklet& booklet) {
    if (!desk.voice.said_unreviewed_safety()) {
        return;
    }
    for (Part& part : booklet.parts) {
        if (part.kind == Part::Kind::Cover) {
            add(cover_side(part), draft_notice(desk));
        } else if (part.kind == Part::Kind::Sheet) {
            // No frame: the room is needed for the signs themselves.
            add_all(part.blocks, draft_notice(desk).blocks);
        } else if (part.kind == Part::Kind::Safety || part.kind == Part::Kind::Refill) {
            Callout notice = draft_notice(desk);
            notice.title = {}; // the front says it in bold; here the room is needed
            part.blocks.insert(part.blocks.begin() + 1, Block{std::move(notice)});
            if (desk.voice.tongues().size() > 1) { // then the part runs over to a second page
                mark_unreviewed_frames(desk.voice, part);
            }
        } else {
            mark_unreviewed(desk.voice, part);
        }
    }
}

} // namespace

bool load_words(Voice& voice, const dose::Schedule& schedule, support::Findings& findings) {
    bool loaded = true;
    for (Tongue& tongue : voice.tongues()) {
        for (const auto& stage : schedule.stages) {
            for (const auto& exercise : stage.exercises) {
                loaded = tongue.language().load_exercise(exercise.exercise, findings) && loaded;
            }
        }
    }
    return loaded;
}

namespace {

/// The clinician by the booklet's language, or else as written first.
std::string author(const Desk& desk) {
    const prescription::FreeText& text = desk.rx.clinic.clinician;
    support::internal_error_if(text.empty(), "add_frame: no clinician");
    const auto* own = text.in(desk.voice.first().tag());
    return own != nullptr ? own->value : text.by_language.front().second.value;
}

} // namespace

void add_frame(Desk& desk, Booklet& booklet) {
    Voice& voice = desk.voice;
    Tongue& tongue = voice.first();
    booklet.language = tongue.tag();
    booklet.second_language = voice.tongues().size() > 1 ? voice.tongues().back().tag() : "";
    booklet.right_to_left = tongue.language().right_to_left();
    booklet.author = author(desk);
    for (int digit = 0; digit <= 9; ++digit) {
        booklet.digits.push_back(tongue.number(digit));
    }
    booklet.page_pattern = tongue.say("page.pattern", {{"page", kPageHole}, {"pages", "{1}"}});
    if (desk.rx.starts) {
        booklet.date = iso_date(desk.rx.starts->value);
    }
}

Callout draft_notice(Desk& desk) {
    Callout callout;
    callout.kind = Callout::Kind::Notice;
    callout.title = desk.voice.say("notice.draft_title");
    bool has_english = false;
    for (Tongue& tongue : desk.voice.tongues()) {
        has_english = has_english || tongue.tag() == kEnglish;
    }
    add(callout.blocks, paragraph(desk.voice.say("notice.draft"), Paragraph::Role::Small));
    if (!has_english) {
        add(callout.blocks, paragraph(Words{kDraftText, kEnglish, "notice.draft", {}, nullptr},
                                      Paragraph::Role::Small));
    }
    return callout;
}

std::optional<Booklet> compose(const Material& material, support::Findings& findings) {
    support::internal_error_if(material.prescription == nullptr || material.schedule == nullptr ||
                                   material.exercises == nullptr || material.language == nullptr,
                               "compose: material is missing");
    // Findings of earlier stages do not count here: only what is wrong with this booklet stops it.
    support::Findings mine;
    Voice voice(*material.language, material.second_language, mine);
    std::optional<Booklet> booklet;
    if (is_complete(material, mine) && load_words(voice, *material.schedule, mine)) {
        Desk desk{material, *material.prescription, *material.schedule, voice, mine};
        booklet.emplace();
        add_parts(desk, *booklet);
        add_frame(desk, *booklet);
        booklet->title = voice.say("cover.title");
        booklet->subject = desk.rx.problem.empty() ? std::string{}
                                                   : voice.written(desk.rx.problem, "problem").text;
        booklet->running_head =
            voice.say("page.running_head", {{"name", desk.rx.patient.name.value}});
        add_draft_notices(desk, *booklet);
        if (material.require_reviewed) {
            voice.report_unreviewed();
        }
    }
    const bool failed = mine.has_errors();
    for (const support::Finding& finding : mine.all()) {
        findings.add(finding);
    }
    if (failed) {
        return std::nullopt;
    }
    return booklet;
}

} // namespace tickleaf::content
