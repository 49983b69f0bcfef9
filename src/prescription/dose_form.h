// SPDX-License-Identifier: MIT
// A dose as the clinician wrote it: sets, what one set is, rest, times a day, days a week; and tempo.
// Units: seconds and counts, ranges inclusive. Notation: compact text or map (docs: templates/README.md).
#pragma once

#include <optional>
#include <string_view>
#include <variant>
#include <vector>

#include "support/finding.h"
#include "support/units.h"
#include "yaml/tree.h"

namespace tickleaf::prescription {

/// A set made of repetitions.
struct Repetitions {
    support::Range<int> count;
    bool each_side = false;
};
/// A set made of one or more holds.
struct Holds {
    support::Range<support::Seconds> length;
    int count = 1;           ///< holds in a set
    bool each_side = false;
};
/// A set that is simply time spent, such as walking 10 minutes.
struct TimeSpent {
    support::Range<support::Seconds> length;
};
/// Repetitions until tired, with a cap so that the tick sheet and totals stay finite.
struct ToFatigue {
    int at_most = 15;
    bool each_side = false;
};
using SetContent = std::variant<Repetitions, Holds, TimeSpent, ToFatigue>;

/// The whole dose of one exercise line.
struct Dose {
    support::Range<int> sets{1, 1};
    SetContent content;
    support::Range<support::Seconds> rest{};      ///< between sets; 0 to 0 where none is given
    bool has_rest = false;
    support::Range<int> per_day{1, 1};
    std::optional<support::Range<int>> days_per_week; ///< the stage's where missing
    support::Span span{};
};

/// One named phase of a repetition, in the order the patient does them.
enum class TempoPhase { Lift, HoldTop, Lower, Rest, Out, HoldEnd, Back };
struct TempoStep {
    TempoPhase phase = TempoPhase::Lift;
    support::Seconds length{};
    bool as_fast_as_safe = false; ///< length is then taken as 1 s for totals
};
/// Phases of one repetition. Digits "a-b-c" mean lift (or out), hold, lower (or back), in that order.
struct Tempo {
    std::vector<TempoStep> steps;
    support::Span span{};
};

/// Reads the compact notation or the map form; every mistake is a finding that points into the text.
std::optional<Dose> read_dose(const yaml::Node& node, support::Findings& findings);
std::optional<Tempo> read_tempo(const yaml::Node& node, support::Findings& findings);
/// "15 s", "2 min", "8" (a count where `allow_count`): the start-low value of `begin`.
struct BeginValue {
    std::variant<support::Seconds, int> value; ///< hold length or repetitions
    support::Span span{};
};
std::optional<BeginValue> read_begin(const yaml::Node& node, support::Findings& findings);

} // namespace tickleaf::prescription
