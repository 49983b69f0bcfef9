// SPDX-License-Identifier: MIT
// A dose as the clinician wrote it: sets, what one set is, rest, times a day, days a week; and
// tempo. Grammar of the compact notation (EBNF; counts, whole, duration as in quantity.h; words in
// any case, spaces free):
//   dose     = work, { ",", clause } ;
//   work     = [ counts, "x" ], load, [ "each side" ] ;             (first counts: sets; without:
//   one set) load     = counts                                                (repetitions; only
//   behind "sets x")
//            | [ whole, "x" ], [ "hold" ], duration                  (holds; whole: how many in a
//            set) | [ "time" ], duration                                  (time spent) | "to",
//            "fatigue", "at", "most", whole ;                (repetitions until tired, with a cap)
//   clause   = "rest", duration | counts, "/", "day" | counts, "days", "/", "week" ;
//   A bare duration is a hold behind "sets x" and time spent where it stands alone. A bare count
//   says nothing: an error.
// The map form has the keys sets, repetitions | hold, holds | time | to_fatigue_at_most, rest,
// per_day, days_per_week, each_side, and means the same. Grammar of tempo:  digits = step, "-",
// step, "-", step, [ "-", step ] ;  step = whole | "X" ;
//   in the order lift (or out), hold, lower (or back), rest at the start position; X: as fast as is
//   safe. Or named phases in the order the patient does them, as text ("out 2 s, hold 1 s, back 3
//   s"), map or list of maps.
// Units: seconds and counts, ranges inclusive.
// Errors: every mistake is a finding that points into the text: dose-syntax, dose-conflict,
// tempo-syntax, begin-syntax.
#pragma once

#include <optional>
#include <string>
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
    bool operator==(const Repetitions&) const = default;
};
/// A set made of one or more holds.
struct Holds {
    support::Range<support::Seconds> length;
    int count = 1; ///< holds in a set
    bool each_side = false;
    bool operator==(const Holds&) const = default;
};
/// A set that is simply time spent, such as walking 10 minutes.
struct TimeSpent {
    support::Range<support::Seconds> length;
    bool operator==(const TimeSpent&) const = default;
};
/// Repetitions until tired, with a cap so that the tick sheet and totals stay finite.
struct ToFatigue {
    int at_most = 15;
    bool each_side = false;
    bool operator==(const ToFatigue&) const = default;
};
using SetContent = std::variant<Repetitions, Holds, TimeSpent, ToFatigue>;

/// The whole dose of one exercise line.
struct Dose {
    support::Range<int> sets{1, 1};
    SetContent content;
    support::Range<support::Seconds> rest{}; ///< between sets; 0 to 0 where none is given
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
    bool operator==(const TempoStep&) const = default;
};
/// Phases of one repetition; pauses of 0 seconds are left out.
struct Tempo {
    std::vector<TempoStep> steps;
    support::Span span{};
};

/// Seconds of "quick" and "slow" (common practice), and of a phase done as fast as is safe, for
/// totals.
inline constexpr int kQuickSeconds = 1;
inline constexpr int kSlowSeconds = 3;
inline constexpr int kFastSeconds = 1;

/// Reads the compact notation or the map form; every mistake is a finding that points into the
/// text.
std::optional<Dose> read_dose(const yaml::Node& node, support::Findings& findings);
std::optional<Tempo> read_tempo(const yaml::Node& node, support::Findings& findings);
/// "15 s", "2 min", "8": the start-low value of `begin`, a hold length or a count of repetitions in
/// a set.
struct BeginValue {
    std::variant<support::Seconds, int> value; ///< hold length or repetitions
    support::Span span{};
};
std::optional<BeginValue> read_begin(const yaml::Node& node, support::Findings& findings);

/// True where the dose is done on one side and then on the other.
bool is_each_side(const Dose& dose);

/// The compact notation of a dose; reading it again gives the same dose.
std::string to_notation(const Dose& dose);
/// "lift 1 s, hold 1 s, lower 3 s".
std::string to_notation(const Tempo& tempo);
/// The word of a phase in prescriptions: "lift", "hold", "lower", "rest", "out", "back".
std::string_view to_word(TempoPhase phase);

} // namespace tickleaf::prescription
