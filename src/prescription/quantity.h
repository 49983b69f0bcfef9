// SPDX-License-Identifier: MIT
// Counts, durations, lengths and forces of a prescription with their units and bounds.
// Grammar (EBNF):
//   whole    = digit, { digit } ;                     (no sign, no decimals)
//   counts   = whole, [ "-", whole ] ;                (low to high; an en dash will do)
//   duration = counts, unit ;                         (one unit for both ends)
//   unit     = "s" | "sec" | "second" | "seconds" | "min" | "minute" | "minutes" ;
// Units: seconds as whole numbers; lengths in millimetres, forces in newtons as decimals.
// Errors: zero, negative, enormous, reversed, decimal, without unit, mixed units: each a finding.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "prescription/notation.h"
#include "support/finding.h"
#include "support/units.h"
#include "yaml/tree.h"

namespace tickleaf::prescription {

// Bounds that catch slips of the pen (an extra zero, a wrong unit), not clinical advice; check/
// judges doses.
inline constexpr int kMostSets = 30;         ///< 24 x 10 s is a published regimen (Pearson 2020)
inline constexpr int kMostRepetitions = 200; ///< in one set
inline constexpr int kMostHolds = 60;        ///< in one set
inline constexpr int kMostTimesADay = 24;    ///< once an hour
inline constexpr int kDaysAWeek = 7;
inline constexpr int kLastWeek = 104; ///< two years
inline constexpr int kLongestHoldSeconds = 600;
inline constexpr int kLongestTimeSeconds = 14400; ///< of time spent: four hours
inline constexpr int kLongestRestSeconds = 1800;
inline constexpr int kLongestPhaseSeconds = 60; ///< of one phase of a tempo

/// What is counted or timed, and the most it may be. The least is 1.
struct Quantity {
    std::string name; ///< as in messages: "repetitions", "the rest"
    int most = 0;     ///< a count, or seconds
    bool is_plural = true;
};

/// The pieces of notation. Nothing (and a finding) where it does not read; the phrase stands behind
/// what was read.
std::optional<support::Range<int>> read_counts(Phrase& phrase, const Quantity& quantity);
std::optional<support::Range<support::Seconds>> read_duration(Phrase& phrase,
                                                              const Quantity& quantity);
/// True where a duration's unit stands `ahead` tokens from here.
bool is_unit_of_time(const Token& token);

/// Whole scalars of a map, such as `repetitions: 8-12` and `rest: 60 s`.
std::optional<support::Range<int>> read_counts(const yaml::Node& node, const Quantity& quantity,
                                               const std::string& id, support::Findings& findings);
std::optional<support::Range<support::Seconds>> read_duration(const yaml::Node& node,
                                                              const Quantity& quantity,
                                                              const std::string& id,
                                                              support::Findings& findings);

/// A length with its unit (mm, cm, m) in millimetres, between two bounds.
struct LengthBounds {
    std::string name;
    double least_mm = 0.0;
    double most_mm = 0.0;
    std::string example; ///< "162 cm", for hints
};
std::optional<double> read_length_mm(const yaml::Node& node, const LengthBounds& bounds,
                                     support::Findings& findings);
std::optional<double> read_force_newtons(const yaml::Node& node, const std::string& name,
                                         support::Findings& findings);

} // namespace tickleaf::prescription
