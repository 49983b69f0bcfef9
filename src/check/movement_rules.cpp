// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <string_view>
#include <utility>

#include "check/rule_set.h"
#include "support/number.h"

namespace tickleaf::check {

namespace {

using figure::Facts;
using figure::JointAngle;
using figure::Solution;
using figure::WeightBearing;
using prescription::Limit;
using support::Side;

/// Both names of a movement that goes two ways.
constexpr std::array<std::pair<std::string_view, std::string_view>, 7> kOpposites = {{
    {"flexion", "extension"},
    {"dorsiflexion", "plantarflexion"},
    {"inversion", "eversion"},
    {"abduction", "adduction"},
    {"internal rotation", "external rotation"},
    {"pronation", "supination"},
    {"radial deviation", "ulnar deviation"},
}};

/// The angle in the asked direction, where the joint moves that way at all.
std::optional<double> towards(const JointAngle& angle, std::string_view movement) {
    if (angle.movement == movement) {
        return angle.degrees;
    }
    for (const auto& [one, other] : kOpposites) {
        if ((angle.movement == one && movement == other) ||
            (angle.movement == other && movement == one)) {
            return -angle.degrees;
        }
    }
    return std::nullopt;
}

bool concerns(Side limit, Side joint) {
    return limit == Side::Both || limit == Side::None || joint == Side::None || limit == joint;
}

/// Solver and rounding may leave this much (figure/ meets contacts within 2 mm).
constexpr double kAngleToleranceDegrees = 0.5;

/// Visits the solution of every exercise beside its line in the prescription. None where the home
/// or the patient could not be read: step, band and height shape every pose.
template <class Visit>
void for_each_solution(const Subject& subject, const Visit& visit) {
    if (subject.prescription->unread.home || subject.prescription->unread.patient) {
        return;
    }
    for (std::size_t s = 0; s < subject.schedule->stages.size(); ++s) {
        const dose::PlannedStage& stage = subject.schedule->stages[s];
        for (std::size_t e = 0; e < stage.exercises.size(); ++e) {
            const auto& planned = stage.exercises[e];
            const auto& line =
                subject.prescription->stages.at(stage.index).exercises.at(planned.line);
            visit(line, planned, subject.exercises->at(planned.exercise).facts(),
                  subject.solutions->at(s).at(e));
        }
    }
}

std::optional<double> largest_angle(const Solution& solution, const Limit& limit) {
    std::optional<double> largest;
    for (const figure::SolvedPose& pose : solution.poses) {
        for (const JointAngle& angle : pose.angles) {
            const bool same = angle.joint == limit.joint && concerns(limit.side, angle.side);
            const auto degrees = same ? towards(angle, limit.movement) : std::nullopt;
            if (degrees) {
                largest = std::max(largest.value_or(*degrees), *degrees);
            }
        }
    }
    return largest;
}

bool loads_side(const Facts& facts, Side planned, Side limited) {
    if (facts.weight_bearing == WeightBearing::None) {
        return false;
    }
    return facts.weight_bearing != WeightBearing::Single || concerns(limited, planned);
}

/// Why an exercise breaks a limit; empty where it does not.
std::string breach(const Limit& limit, const dose::PlannedExercise& planned, const Facts& facts,
                   const Solution& solution) {
    switch (limit.kind) {
    case Limit::Kind::JointAngle: {
        const auto degrees = largest_angle(solution, limit);
        if (degrees && *degrees > limit.degrees + kAngleToleranceDegrees) {
            return "bends the " + limit.joint + " to " + support::fixed(std::round(*degrees), 0) +
                   " degrees of " + limit.movement;
        }
        return {};
    }
    case Limit::Kind::NoImpact:
        return facts.impact ? "has an impact" : "";
    case Limit::Kind::NoWeightBearing:
        return loads_side(facts, planned.side, limit.side) ? "puts weight on the leg" : "";
    case Limit::Kind::PartialWeightBearing:
        return facts.weight_bearing == WeightBearing::Single &&
                       loads_side(facts, planned.side, limit.side)
                   ? "puts the whole weight on the leg"
                   : "";
    }
    return {};
}

void against_limit(const Subject& subject, const Report& report) {
    for_each_solution(subject, [&](const auto& line, const auto& planned, const Facts& facts,
                                   const Solution& solution) {
        for (const Limit& limit : subject.prescription->limits) {
            const std::string why = breach(limit, planned, facts, solution);
            if (!why.empty()) {
                report(line.exercise.span,
                       "\"" + planned.exercise + "\" " + why + ", against the limit \"" +
                           limit.as_written + "\"",
                       "choose another exercise or change the limit");
            }
        }
    });
}

/// Usual working range of elastic bands: about 25 to 250 percent (value from memory); the upper end
/// is the limit here.
constexpr double kMostStretch = 2.5;

void band_tension(const Subject& subject, const Report& report) {
    for_each_solution(subject, [&](const auto& line, const auto& planned, const Facts&,
                                   const Solution& solution) {
        for (const figure::SolvedPose& pose : solution.poses) {
            for (const figure::BandResult& band : pose.bands) {
                const std::string percent = support::fixed(std::round(band.stretch * 100.0), 0);
                if (band.stretch < 0.0) {
                    report(line.exercise.span,
                           "the band of \"" + planned.exercise + "\" hangs slack in one picture",
                           "use a shorter band");
                } else if (band.stretch > kMostStretch) {
                    report(line.exercise.span,
                           "the band of \"" + planned.exercise + "\" is stretched by " + percent +
                               " percent",
                           "use a longer band");
                }
            }
        }
    });
}

void unbalanced(const Subject& subject, const Report& report) {
    for_each_solution(subject, [&](const auto& line, const auto& planned, const Facts& facts,
                                   const Solution& solution) {
        for (const figure::SolvedPose& pose : solution.poses) {
            if (!facts.passing && !pose.passing && !facts.support_needed &&
                pose.balance_margin_mm < 0.0) {
                report(line.exercise.span,
                       "\"" + planned.exercise +
                           "\" is out of balance in one picture and has no support",
                       "choose an exercise with a support");
                return;
            }
        }
    });
}

} // namespace

std::vector<CodedRule> movement_rules() {
    using support::Severity;
    return {
        {{"against-limit", Severity::Error, "No pose goes against a limit of the prescription.",
          "computed from the joint angles of the poses that are drawn"},
         against_limit},
        {{"band-tension", Severity::Warning,
          "A band is never slack and never stretched past its range.",
          "usual working range of elastic bands, about 25 to 250 percent (value from memory)"},
         band_tension},
        {{"balance", Severity::Warning,
          "A pose without support keeps the centre of mass over the base.",
          "computed with the segment masses of Winter 2009, table 4.1"},
         unbalanced},
    };
}

} // namespace tickleaf::check
