// SPDX-License-Identifier: MIT
#include "prescription/prescription.h"

#include "support/json.h"
#include "support/number.h"

namespace tickleaf::prescription {

namespace {

using support::Json;

std::string date_text(const Date& date) {
    const auto two = [](unsigned value) { return (value < 10 ? "0" : "") + std::to_string(value); };
    return std::to_string(static_cast<int>(date.year())) + '-' +
           two(static_cast<unsigned>(date.month())) + '-' + two(static_cast<unsigned>(date.day()));
}

Json texts(const std::vector<Located<std::string>>& list) {
    Json json = Json::array();
    for (const auto& text : list) {
        json.push_back(text.value);
    }
    return json;
}

/// A text for all languages is one string.
Json free_text(const FreeText& free) {
    if (const auto* text = free.for_all()) {
        return text->value;
    }
    Json json = Json::object();
    for (const auto& [language, text] : free.by_language) {
        json[language] = text.value;
    }
    return json;
}

void put(Json& json, const char* key, const FreeText& free) {
    if (!free.empty()) {
        json[key] = free_text(free);
    }
}

void put(Json& json, const char* key, const std::optional<Located<std::string>>& text) {
    if (text) {
        json[key] = text->value;
    }
}

Json range(const support::Range<int>& value) {
    return Json{{"low", value.low}, {"high", value.high}};
}

Json patient(const Patient& patient) {
    Json json{{"name", patient.name.value}, {"languages", texts(patient.languages)}};
    if (patient.height_mm) {
        json["height_mm"] = patient.height_mm->value;
    }
    return json;
}

Json clinic(const Clinic& clinic) {
    Json json = Json::object();
    put(json, "name", clinic.name);
    put(json, "clinician", clinic.clinician);
    json["phone"] = clinic.phone.value;
    json["emergency"] = clinic.emergency.value;
    put(json, "email", clinic.email);
    put(json, "hours", clinic.hours);
    put(json, "address", clinic.address);
    return json;
}

Json equipment(const Equipment& item) {
    Json json{{"kind", item.kind.value}};
    if (item.height_mm) {
        json["height_mm"] = *item.height_mm;
    }
    if (item.band) {
        json["name"] = item.band->name;
        put(json, "title", item.band->title);
        json["rest_length_mm"] = item.band->rest_length_mm;
        json["force_at_double_length_newtons"] = item.band->force_at_double_newtons;
    }
    return json;
}

Json home(const Home& home) {
    Json json = Json::object();
    if (home.minutes_per_day) {
        json["minutes_per_day"] = home.minutes_per_day->value;
    }
    json["equipment"] = Json::array();
    for (const Equipment& item : home.equipment) {
        json["equipment"].push_back(equipment(item));
    }
    return json;
}

const char* word(Limit::Kind kind) {
    switch (kind) {
    case Limit::Kind::JointAngle:
        return "joint-angle";
    case Limit::Kind::NoImpact:
        return "no-impact";
    case Limit::Kind::NoWeightBearing:
        return "no-weight-bearing";
    case Limit::Kind::PartialWeightBearing:
        return "partial-weight-bearing";
    }
    return "";
}

Json limit(const Limit& limit) {
    Json json{{"kind", word(limit.kind)}, {"as_written", limit.as_written}};
    if (limit.kind == Limit::Kind::NoImpact) {
        return json;
    }
    json["side"] = support::to_word(limit.side);
    if (limit.kind == Limit::Kind::JointAngle) {
        json["joint"] = limit.joint;
        json["movement"] = limit.movement;
        json["degrees_at_most"] = limit.degrees;
    } else {
        json["part"] = limit.joint;
    }
    return json;
}

Json begin(const BeginValue& begin) {
    if (const auto* seconds = std::get_if<support::Seconds>(&begin.value)) {
        return Json{{"hold_seconds", seconds->count}};
    }
    return Json{{"repetitions", std::get<int>(begin.value)}};
}

Json line(const ExerciseLine& line) {
    Json json{{"do", line.exercise.value}};
    if (line.side) {
        json["side"] = support::to_word(line.side->value);
    }
    json["dose"] = to_notation(line.dose);
    if (line.tempo) {
        json["tempo"] = to_notation(*line.tempo);
    }
    if (line.begin) {
        json["begin"] = begin(*line.begin);
    }
    put(json, "band", line.band);
    put(json, "note", line.note);
    return json;
}

Json stage(const Stage& stage) {
    Json json{{"name", stage.name.value},
              {"weeks", range(stage.weeks)},
              {"days_per_week", range(stage.days_per_week)}};
    put(json, "title", stage.title);
    json["move_on_when"] = texts(stage.move_on_when);
    put(json, "move_on_text", stage.move_on_text);
    json["exercises"] = Json::array();
    for (const ExerciseLine& one : stage.exercises) {
        json["exercises"].push_back(line(one));
    }
    return json;
}

Json waivers(const std::vector<Waiver>& list) {
    Json json = Json::array();
    for (const Waiver& one : list) {
        json.push_back(Json{{"rule", one.rule.value}, {"reason", one.reason.value}});
    }
    return json;
}

} // namespace

std::string dump(const Prescription& prescription) {
    Json json{{"format", 1},
              {"patient", patient(prescription.patient)},
              {"clinic", clinic(prescription.clinic)}};
    put(json, "problem", prescription.problem);
    put(json, "goal", prescription.goal);
    if (prescription.side) {
        json["side"] = support::to_word(prescription.side->value);
    }
    if (prescription.starts) {
        json["starts"] = date_text(prescription.starts->value);
    }
    if (prescription.review) {
        json["review"] = date_text(prescription.review->value);
    }
    json["home"] = home(prescription.home);
    json["limits"] = Json::array();
    for (const Limit& one : prescription.limits) {
        json["limits"].push_back(limit(one));
    }
    json["pain"] = Json{{"carry_on_up_to", prescription.pain.carry_on_up_to},
                        {"ease_off_up_to", prescription.pain.ease_off_up_to}};
    json["stages"] = Json::array();
    for (const Stage& one : prescription.stages) {
        json["stages"].push_back(stage(one));
    }
    if (prescription.logbook_weeks) {
        json["logbook"] = Json{{"weeks", prescription.logbook_weeks->value}};
    }
    if (!prescription.waivers.empty()) {
        json["waive"] = waivers(prescription.waivers);
    }
    return json.dump(2) + '\n';
}

} // namespace tickleaf::prescription
