// SPDX-License-Identifier: MIT
// The skeleton: joints, their angles in anatomical terms, and forward kinematics with derivatives.
// Shapes: a Posture holds one number for each degree of freedom; the right side is always the
// working side (solve.cpp mirrors the result for the left). Units: degrees for angles, millimetres
// for the root's position; lengths in the tables are fractions of stature. Source: segment lengths
// Drillis and Contini 1966 (Winter 2009, fig. 4.1); joint distances (hips 0.10 H, shoulders 0.176
// H) are set below the table's breadths so that the arm span comes to 1.06 H; axes by ISB (Wu and
// Cavanagh 1995); hip and shoulder angles in the order flexion, abduction, rotation (Grood and
// Suntay 1983); axis of the joint below the ankle 42 degrees above the horizontal (Manter 1941,
// value from memory).
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "figure/body.h"

namespace tickleaf::figure {

/// Degrees of freedom of the trunk and neck, then 14 of each limb side.
enum Dof : std::size_t {
    kRootX,
    kRootY,
    kRootZ,
    kRootTurn,  ///< about the vertical, positive to the left
    kRootPitch, ///< positive leans back: 90 lies face up
    kRootRoll,  ///< positive leans to the right
    kTrunkFlexion,
    kTrunkBend, ///< positive to the right
    kTrunkRotation,
    kNeckFlexion,
    kNeckBend,
    kNeckRotation,
    kNeckRetraction, ///< the head goes straight back, level
    kFirstLimbDof
};

enum LimbDof : std::size_t {
    kHipFlexion,
    kHipAbduction,
    kHipRotation, ///< positive is medial
    kKneeFlexion,
    kAnkleDorsiflexion,
    kAnkleInversion,
    kToeExtension,
    kShoulderFlexion,
    kShoulderAbduction,
    kShoulderRotation, ///< positive is medial
    kElbowFlexion,
    kForearmPronation,
    kWristFlexion,
    kWristRadial,
    kLimbDofs
};

inline constexpr std::size_t kDofs = kFirstLimbDof + 2 * kLimbDofs;

/// Index of a limb's degree of freedom; `right` is 1 for the right limb, 0 for the left.
constexpr std::size_t limb_dof(std::size_t right, std::size_t dof) {
    return kFirstLimbDof + right * kLimbDofs + dof;
}

using Posture = std::array<double, kDofs>;

/// What an angle is called and how far it goes.
struct DofInfo {
    std::string_view joint;
    std::string_view positive; ///< movement in the positive direction
    std::string_view negative;
    double low = 0.0; ///< end of the normal range, degrees
    double high = 0.0;
    double tolerance = 0.0; ///< of authored angles beyond the range
};

/// Name and range of a joint angle; not for the root.
const DofInfo& dof_info(std::size_t dof);
/// Whether the index is one of the right (1) or left (0) limb's; -1 for root, trunk and neck.
int limb_of(std::size_t dof);

/// A turn of one degree of freedom about a line, as it stands in the posed body.
struct Turn {
    std::size_t dof = 0;
    double factor = 1.0; ///< share of the angle that turns here
    Point3 axis{};       ///< unit vector in the room
    Point3 origin{};
    std::uint64_t moves = 0; ///< one bit a landmark that is carried along
};

inline constexpr std::size_t kTurns = 45;

/// What of a turn is the same in every pose.
struct TurnSpec {
    std::size_t dof = 0;
    double factor = 1.0;
    std::uint64_t moves = 0;
};
const std::array<TurnSpec, kTurns>& turn_specs();
/// The turns that carry a landmark along, one bit a turn.
std::uint64_t turns_of(Landmark landmark);

/// Body and what is needed for derivatives.
struct Kinematics {
    Body body;
    std::array<Turn, kTurns> turns{};
};

/// Poses the body. `stature` in millimetres.
Kinematics forward(const Posture& posture, double stature);
/// The same into what is there, without a copy.
void pose_into(Kinematics& out, const Posture& posture, double stature);
/// The body alone.
Body pose_body(const Posture& posture, double stature);
/// How a landmark moves for one unit of a turn's degree of freedom (mm a degree).
Point3 derivative(const Turn& turn, const Point3& point);

inline Landmark left_or_right(Landmark left, std::size_t right) {
    return static_cast<Landmark>(static_cast<std::size_t>(left) + right);
}

} // namespace tickleaf::figure
