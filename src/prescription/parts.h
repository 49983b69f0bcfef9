// SPDX-License-Identifier: MIT
// The parts of a prescription file, one reader each; prescription.cpp puts them together.
// Errors: each reader reports all that is wrong in its part and gives what could be used.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "prescription/fields.h"
#include "prescription/prescription.h"

namespace tickleaf::prescription {

// Bounds against slips and hostile files.
inline constexpr double kShortestPatientMm = 500.0;
inline constexpr double kTallestPatientMm = 2500.0;
inline constexpr double kLowestStepMm = 10.0;
inline constexpr double kHighestStepMm = 600.0;
inline constexpr double kShortestBandMm = 50.0;
inline constexpr double kLongestBandMm = 5000.0;
inline constexpr std::size_t kMostStages = 26;
inline constexpr std::size_t kMostExercises = 60; ///< in a stage
inline constexpr std::int64_t kMostMinutesADay = 720;
inline constexpr std::int64_t kMostLogbookWeeks = 52;
inline constexpr int kFirstYear = 1900;
inline constexpr int kLastYear = 2199;

/// Tells whether anything was found wrong since it was made.
class Watch {
  public:
    explicit Watch(const support::Findings& findings)
        : findings_(&findings), begin_(findings.size()) {}
    bool has_errors() const;

  private:
    const support::Findings* findings_;
    std::size_t begin_;
};

/// A text that may not be empty or blank. The result is empty where it was missing.
Located<std::string> required_words(FieldReader& reader, std::string_view key,
                                    support::Findings& findings);
/// A word in kebab case (letters, digits, hyphens), as ids and catalog keys are. Reports others as
/// `what`.
bool is_key(const std::string& text);

FreeText read_free_text(const yaml::Node& node, const std::string& what,
                        support::Findings& findings);
/// The text under a key, of a key that may be left out or not as its table says.
FreeText free_text(FieldReader& reader, std::string_view key, support::Findings& findings);

/// YYYY-MM-DD (ISO 8601 calendar date) that exists.
std::optional<Located<Date>> read_date(const yaml::Node& node, const std::string& what,
                                       support::Findings& findings);
std::optional<Located<support::Side>> read_side(const yaml::Node& node,
                                                support::Findings& findings);
/// An optional whole number from 1 to `most`.
std::optional<Located<std::int64_t>> optional_count(FieldReader& reader, std::string_view key,
                                                    std::int64_t most, support::Findings& findings);

Patient read_patient(const yaml::Node& node, support::Findings& findings);
Clinic read_clinic(const yaml::Node& node, support::Findings& findings);
Home read_home(const yaml::Node& node, support::Findings& findings);
PainRule read_pain_rule(const yaml::Node& node, support::Findings& findings);
std::vector<Stage> read_stages(const yaml::Node& node, support::Findings& findings);

} // namespace tickleaf::prescription
