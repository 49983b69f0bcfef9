// SPDX-License-Identifier: MIT
#include "prescription/fields.h"

#include <algorithm>
#include <array>

namespace tickleaf::prescription {

namespace {

constexpr bool kRequired = true;
constexpr bool kOptional = false;

constexpr std::array<Field, 14> kRoot = {{
    {"format", Shape::Format, kRequired, "The version of this file format."},
    {"patient", Shape::Patient, kRequired, "Who the booklet is for."},
    {"clinic", Shape::Clinic, kRequired, "Who prescribes, and whom the patient calls."},
    {"problem", Shape::FreeText, kOptional, "One line for the cover, in each language."},
    {"goal", Shape::FreeText, kOptional, "What the patient wants to be able to do again."},
    {"side", Shape::Side, kOptional, "The patient's own side; an exercise may name another."},
    {"starts", Shape::CalendarDate, kOptional,
     "The first day. Without it the booklet has no dates."},
    {"review", Shape::CalendarDate, kOptional, "The day on which the clinician looks again."},
    {"home", Shape::Home, kOptional, "What the patient has: time and things."},
    {"limits", Shape::Limits, kOptional, "Precautions; every drawn pose is checked against them."},
    {"pain", Shape::PainRule, kOptional, "The pain rule; 2 and 5 where it is left out."},
    {"stages", Shape::Stages, kRequired, "The stages, in order."},
    {"logbook", Shape::Logbook, kOptional, "The tick sheets."},
    {"waive", Shape::Waivers, kOptional, "Rules switched off for this patient, with reasons."},
}};

constexpr std::array<Field, 3> kPatient = {{
    {"name", Shape::Words, kRequired, "As printed on the cover."},
    {"languages", Shape::Languages, kRequired, "The patient's own language first."},
    {"height", Shape::Height, kOptional, "Drawings and set-up distances are made for it."},
}};

constexpr std::array<Field, 7> kClinic = {{
    {"name", Shape::FreeText, kRequired, "The clinic's name."},
    {"clinician", Shape::FreeText, kRequired, "Name and profession, as printed."},
    {"phone", Shape::Phone, kRequired, "Whom to call with questions, in quotes."},
    {"emergency", Shape::Phone, kRequired, "The emergency number where the patient lives."},
    {"email", Shape::Text, kOptional, "An address that is read."},
    {"hours", Shape::FreeText, kOptional, "When somebody answers."},
    {"address", Shape::FreeText, kOptional, "Where the clinic is."},
}};

constexpr std::array<Field, 2> kHome = {{
    {"minutes_per_day", Shape::Minutes, kOptional, "The programme is checked against it."},
    {"equipment", Shape::Equipment, kOptional, "What is at home, with its measures."},
}};

constexpr std::array<Field, 4> kBand = {{
    {"name", Shape::Words, kRequired, "A name of your own, such as light; a colour is no dose."},
    {"title", Shape::FreeText, kOptional, "The name in the patient's words."},
    {"rest_length", Shape::BandLength, kRequired, "Its length when it hangs loose."},
    {"force_at_double_length", Shape::Force, kRequired, "Its pull at twice that length."},
}};

constexpr std::array<Field, 2> kPain = {{
    {"carry_on_up_to", Shape::Pain, kRequired, "Up to and including this number: carry on."},
    {"ease_off_up_to", Shape::Pain, kRequired, "Up to and including: do less; above: stop."},
}};

constexpr std::array<Field, 7> kStage = {{
    {"name", Shape::Words, kRequired, "A key of the catalog, such as settle, or your own words."},
    {"title", Shape::FreeText, kOptional, "The name in the patient's words."},
    {"weeks", Shape::Weeks, kRequired, "Weeks of the programme, counted from 1, both included."},
    {"days_per_week", Shape::Days, kOptional, "Exercise days a week; 7 where it is left out."},
    {"move_on_when", Shape::Keys, kOptional, "Keys of the criteria to move on."},
    {"move_on_text", Shape::FreeText, kOptional, "Further criteria in your own words."},
    {"exercises", Shape::Exercises, kRequired, "The exercises, in the order they are done."},
}};

constexpr std::array<Field, 7> kExercise = {{
    {"do", Shape::Key, kRequired, "The exercise, by its id."},
    {"side", Shape::Side, kOptional, "The prescription's side where it is left out."},
    {"dose", Shape::Dose, kRequired, "How much: compact, or a map."},
    {"tempo", Shape::Tempo, kOptional, "How fast, in the order the patient does it."},
    {"begin", Shape::Begin, kOptional, "Where to start if the dose is too much."},
    {"band", Shape::Words, kOptional, "The name of a band under home."},
    {"note", Shape::FreeText, kOptional, "Your own words, printed as they are."},
}};

constexpr std::array<Field, 10> kDose = {{
    {"sets", Shape::Sets, kOptional, "One where it is left out."},
    {"repetitions", Shape::Repetitions, kOptional, "Repetitions in a set."},
    {"hold", Shape::Hold, kOptional, "The length of one hold."},
    {"holds", Shape::HoldCount, kOptional, "Holds in a set; one where it is left out."},
    {"time", Shape::Time, kOptional, "Time spent, such as walking."},
    {"to_fatigue_at_most", Shape::RepetitionCap, kOptional, "Until tired, at most so many."},
    {"rest", Shape::Rest, kOptional, "Between sets."},
    {"per_day", Shape::TimesADay, kOptional, "Times a day; one where it is left out."},
    {"days_per_week", Shape::Days, kOptional, "The stage's where it is left out."},
    {"each_side", Shape::Flag, kOptional, "On one side and then on the other."},
}};

constexpr std::array<Field, 1> kLogbook = {{
    {"weeks", Shape::LogbookWeeks, kOptional, "Weeks of tick sheets."},
}};

constexpr std::array<Field, 2> kWaiver = {{
    {"rule", Shape::Key, kRequired, "The id that stands in brackets behind the finding."},
    {"reason", Shape::Words, kRequired, "Printed in the clinician's copy."},
}};

constexpr FieldMap kMaps[] = {
    {"the prescription", "A home exercise prescription.", kRoot},
    {"the patient", "Who the booklet is for.", kPatient},
    {"the clinic", "Who prescribes, and whom the patient calls.", kClinic},
    {"the home", "What the patient has at home.", kHome},
    {"the band", "An elastic band, by length and pull.", kBand},
    {"the pain rule", "Pain from 0 to 10.", kPain},
    {"the stage", "A stage of the programme.", kStage},
    {"the exercise", "One exercise as prescribed.", kExercise},
    {"the dose", "A dose with one key a quantity.", kDose},
    {"the logbook", "The tick sheets.", kLogbook},
    {"the waived rule", "A rule switched off, with its reason.", kWaiver},
};

} // namespace

const Field* FieldMap::find(std::string_view key) const {
    const auto found = std::find_if(fields.begin(), fields.end(),
                                    [&](const Field& field) { return field.key == key; });
    return found == fields.end() ? nullptr : &*found;
}

const FieldMap& root_fields() {
    return kMaps[0];
}
const FieldMap& patient_fields() {
    return kMaps[1];
}
const FieldMap& clinic_fields() {
    return kMaps[2];
}
const FieldMap& home_fields() {
    return kMaps[3];
}
const FieldMap& band_fields() {
    return kMaps[4];
}
const FieldMap& pain_fields() {
    return kMaps[5];
}
const FieldMap& stage_fields() {
    return kMaps[6];
}
const FieldMap& exercise_fields() {
    return kMaps[7];
}
const FieldMap& dose_fields() {
    return kMaps[8];
}
const FieldMap& logbook_fields() {
    return kMaps[9];
}
const FieldMap& waiver_fields() {
    return kMaps[10];
}

FieldReader::FieldReader(const yaml::Node& node, const FieldMap& fields,
                         support::Findings& findings)
    : reader_(node, std::string(fields.name), findings), fields_(&fields) {
    asked_.reserve(fields.fields.size());
}

const Field& FieldReader::ask(std::string_view key) {
    const Field* field = fields_->find(key);
    support::internal_error_if(field == nullptr, "a reader asked for a key outside its table");
    asked_.push_back(field);
    return *field;
}

const yaml::Node* FieldReader::node(std::string_view key) {
    return ask(key).is_required ? reader_.required_node(key) : reader_.optional_node(key);
}

std::optional<support::Located<std::string>> FieldReader::text(std::string_view key) {
    return ask(key).is_required ? reader_.required_text(key) : reader_.optional_text(key);
}

std::optional<support::Located<std::int64_t>> FieldReader::integer(std::string_view key) {
    return ask(key).is_required ? reader_.required_integer(key) : reader_.optional_integer(key);
}

std::optional<support::Located<bool>> FieldReader::flag(std::string_view key) {
    ask(key);
    return reader_.optional_flag(key);
}

std::vector<support::Located<std::string>> FieldReader::texts(std::string_view key) {
    ask(key);
    return reader_.optional_texts(key);
}

void FieldReader::finish() {
    for (const Field& field : fields_->fields) {
        support::internal_error_if(std::find(asked_.begin(), asked_.end(), &field) == asked_.end(),
                                   "a key of the table was not asked for");
    }
    reader_.finish();
}

} // namespace tickleaf::prescription
