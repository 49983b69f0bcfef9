// SPDX-License-Identifier: MIT
// Poses solved for one side, stature and set of props: joint angles inside the normal range,
// contacts within 2 mm, near the authored pose. Deterministic. Errors: a contact that cannot be met
// is a finding that names the contact and the miss in mm. Source: segment lengths Drillis and
// Contini 1966 (Winter 2009, fig. 4.1); ranges AAOS 1965/1994, AMA 2001.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "figure/exercise.h"
#include "figure/scene.h"
#include "support/finding.h"

namespace tickleaf::figure {

/// A joint movement and its angle in a solved pose, in anatomical terms; degrees, positive in the
/// named direction.
struct JointAngle {
    std::string joint;                        ///< "ankle"
    std::string movement;                     ///< "inversion"
    support::Side side = support::Side::None; ///< None for neck and trunk
    double degrees = 0.0;
};

/// How well a contact is met.
struct ContactResult {
    std::string name; ///< "right heel on floor"
    double miss_mm = 0.0;
};

/// A band in one pose: its length and stretch over rest length, and the force by the rubber curve.
struct BandResult {
    double length_mm = 0.0;
    double stretch = 0.0; ///< 0.5 is 50 % longer than at rest
    double force_newtons = 0.0;
};

struct SolvedPose {
    Body body;
    std::vector<JointAngle> angles;
    std::vector<ContactResult> contacts;
    Point3 centre_of_mass{};
    double balance_margin_mm =
        0.0;              ///< of the centre of mass inside the base of support; negative is outside
    bool passing = false; ///< only passed through: balance was not asked of it
    std::vector<BandResult> bands;
};

/// What the patient's file gives for the drawing.
struct Request {
    support::Side side = support::Side::Right;
    double stature_mm = 1700.0;
    std::optional<double> step_height_mm;
    std::optional<double> band_rest_length_mm;
    std::optional<double> band_force_at_double_newtons;
    std::optional<int> hold_seconds; ///< shown beside a held pose
};

struct Solution {
    Scene scene;
    std::vector<SolvedPose> poses;
    std::optional<double> band_setup_mm; ///< distance to the anchor solved for this stature
};

std::optional<Solution> solve(const Exercise& exercise, const Request& request,
                              support::Findings& findings);

} // namespace tickleaf::figure
