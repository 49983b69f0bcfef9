// SPDX-License-Identifier: MIT
#include "content/parts.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "support/number.h"

namespace tickleaf::content {
namespace {

/// The side the criteria speak of: the prescription's, else that of the stage's first sided
/// exercise.
support::Side programme_side(const Desk& desk, std::size_t stage) {
    if (desk.rx.side) {
        return desk.rx.side->value;
    }
    for (const auto& exercise : desk.schedule.stages.at(stage).exercises) {
        if (exercise.side == support::Side::Left || exercise.side == support::Side::Right) {
            return exercise.side;
        }
    }
    return support::Side::None;
}

/// The first number written in a key, such as 30 in "stands-one-leg-30-seconds"; 0 where there is
/// none.
std::int64_t number_in(std::string_view key) {
    constexpr std::string_view kDigits = "0123456789";
    const std::size_t begin = key.find_first_of(kDigits);
    if (begin == std::string_view::npos) {
        return 0;
    }
    const std::size_t end = std::min(key.find_first_not_of(kDigits, begin), key.size());
    return support::parse_integer(key.substr(begin, end - begin)).value_or(0);
}

std::string band_name(Desk& desk, const Tongue& tongue, const prescription::Band& band,
                      BandNames names) {
    if (names == BandNames::OfTheFile || band.title.empty()) {
        return band.name;
    }
    return text_in(desk.voice.written(band.title, "title of the band \"" + band.name + "\""),
                   tongue);
}

std::string equipment_name(Desk& desk, Tongue& tongue, const std::string& kind, BandNames bands) {
    const std::string key = "equipment." + kind;
    for (const auto& item : desk.rx.home.equipment) {
        if (item.kind.value != kind) {
            continue;
        }
        if (item.height_mm && tongue.has(key + "_high")) {
            const auto cm = static_cast<std::int64_t>(std::llround(*item.height_mm / 10.0));
            return tongue.say(key + "_high", {{"n", cm}});
        }
        if (item.band && !item.band->name.empty()) {
            return tongue.say(key + "_named",
                              {{"name", band_name(desk, tongue, *item.band, bands)}});
        }
    }
    return tongue.say(key);
}

} // namespace

std::int64_t Desk::exercise_number(std::size_t stage, std::size_t exercise) const {
    std::size_t before = 0;
    for (std::size_t i = 0; i < stage; ++i) {
        before += schedule.stages.at(i).exercises.size();
    }
    return static_cast<std::int64_t>(before + exercise + 1);
}

const prescription::Stage& Desk::written_stage(std::size_t stage) const {
    return rx.stages.at(schedule.stages.at(stage).index);
}

const figure::Facts& Desk::facts(const std::string& exercise) const {
    return material.exercises->at(exercise).facts();
}

Words Desk::stage_name(std::size_t stage) {
    const prescription::Stage& written = written_stage(stage);
    if (!written.title.empty()) {
        return voice.written(written.title, "title of stage \"" + written.name.value + "\"");
    }
    const std::string key = "stage." + written.name.value;
    return voice.first().has(key) ? voice.say(key) : voice.verbatim(written.name);
}

Words Desk::stage_title(std::size_t stage) {
    const Words name = stage_name(stage);
    return voice.say_with("stage_page.title", [&](Tongue& tongue) {
        return locale::Arguments{{"number", static_cast<std::int64_t>(stage) + 1},
                                 {"name", text_in(name, tongue)}};
    });
}

std::string Desk::exercise_name(Tongue& tongue, const dose::PlannedExercise& exercise) {
    const locale::Arguments side{{"side", exercise.side}};
    const std::string name = tongue.say("exercise." + exercise.exercise + ".name", side);
    if (exercise.side == support::Side::None) {
        return name;
    }
    return tongue.say("how.name_and_side", {{"name", name}, {"side", exercise.side}});
}

Words Desk::exercise_name(const dose::PlannedExercise& exercise) {
    return voice.tell([&](Tongue& tongue) { return exercise_name(tongue, exercise); },
                      "exercise." + exercise.exercise + ".name");
}

Words Desk::clinician() {
    return voice.written(rx.clinic.clinician, "clinician");
}

Words Desk::clinic_name() {
    return voice.written(rx.clinic.name, "the clinic's name");
}

std::string Desk::equipment(Tongue& tongue, const std::vector<std::string>& kinds,
                            BandNames bands) {
    std::vector<std::string> names;
    for (const std::string& kind : kinds) {
        names.push_back(equipment_name(*this, tongue, kind, bands));
    }
    return tongue.joined(names, "text.list");
}

std::vector<Words> Desk::known_criteria(std::size_t stage) {
    const prescription::Stage& written = written_stage(stage);
    std::vector<Words> result;
    for (const auto& criterion : written.move_on_when) {
        const std::string key = "criterion." + criterion.value;
        if (!voice.first().has(key)) {
            findings.error(criterion.span, "criterion-unknown",
                           "the booklet has no words for \"" + criterion.value +
                               "\", expected one of the criteria in locales/en/booklet.yaml",
                           "choose a known criterion, or write it in words under move_on_text");
            continue;
        }
        result.push_back(voice.say(
            key, {{"n", number_in(criterion.value)}, {"side", programme_side(*this, stage)}}));
    }
    return result;
}

std::vector<Words> Desk::criteria(std::size_t stage) {
    const prescription::Stage& written = written_stage(stage);
    std::vector<Words> result = known_criteria(stage);
    if (!written.move_on_text.empty()) {
        result.push_back(voice.written(written.move_on_text,
                                       "move_on_text of stage \"" + written.name.value + "\""));
    }
    return result;
}

} // namespace tickleaf::content
