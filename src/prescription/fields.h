// SPDX-License-Identifier: MIT
// The keys of a prescription, map by map, in one table: the readers ask for keys through it and the
// JSON Schema is written from it, so that neither can know a key the other does not.
// Shapes: a FieldMap is one map of the file; a Field is a key with what may stand behind it.
// Errors: FieldReader throws std::logic_error where a reader asks for a key that is not in the
// table, asks for it in another way, or finishes without having asked for one: bugs of ours.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "support/finding.h"
#include "yaml/reader.h"

namespace tickleaf::prescription {

/// What may stand behind a key.
enum class Shape {
    Format,
    Text,
    Words, ///< a text that may not be blank
    Phone,
    Languages,
    FreeText,
    CalendarDate,
    Side,
    Height,
    BandLength,
    Force,
    Pain, ///< 0 to 10
    Minutes,
    LogbookWeeks,
    Weeks,
    Days,
    Sets,
    Repetitions,
    HoldCount,
    RepetitionCap,
    TimesADay,
    Hold,
    Time,
    Rest,
    Flag,
    Key, ///< a word in kebab case
    Keys,
    Limits,
    Dose,
    Tempo,
    Begin,
    Equipment,
    Waivers,
    Stages,
    Exercises,
    Patient,
    Clinic,
    Home,
    PainRule,
    Logbook,
};

struct Field {
    std::string_view key;
    Shape shape = Shape::Text;
    bool is_required = false;
    std::string_view about; ///< for whoever is typing it, one sentence
};

/// One map of the file.
struct FieldMap {
    std::string_view name; ///< as in messages: "the patient"
    std::string_view about;
    std::span<const Field> fields;
    const Field* find(std::string_view key) const;
};

const FieldMap& root_fields();
const FieldMap& patient_fields();
const FieldMap& clinic_fields();
const FieldMap& home_fields();
const FieldMap& band_fields();
const FieldMap& pain_fields();
const FieldMap& stage_fields();
const FieldMap& exercise_fields();
const FieldMap& dose_fields();
const FieldMap& logbook_fields();
const FieldMap& waiver_fields();

/// A yaml::MapReader that is held to the table.
class FieldReader {
  public:
    FieldReader(const yaml::Node& node, const FieldMap& fields, support::Findings& findings);
    bool is_map() const { return reader_.is_map(); }
    support::Span span() const { return reader_.span(); }

    /// The value under a key, or nullptr; missing is an error where the table says required.
    const yaml::Node* node(std::string_view key);
    std::optional<support::Located<std::string>> text(std::string_view key);
    std::optional<support::Located<std::int64_t>> integer(std::string_view key);
    std::optional<support::Located<bool>> flag(std::string_view key);
    /// A list of texts; a single text is taken as a list of one.
    std::vector<support::Located<std::string>> texts(std::string_view key);
    /// Reports the keys of the file that are not in the table.
    void finish();

  private:
    const Field& ask(std::string_view key);

    yaml::MapReader reader_;
    const FieldMap* fields_;
    std::vector<const Field*> asked_;
};

} // namespace tickleaf::prescription
