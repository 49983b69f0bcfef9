// SPDX-License-Identifier: MIT
// A posed body as points in space.
// Axes: x forward (the way the body faces when it stands in its rest pose), y up, z to the body's
// right (ISB recommendation, Wu and Cavanagh 1995). Units: millimetres; the floor is y = 0.
#pragma once

#include <array>
#include <cstddef>

#include "support/side.h"

namespace tickleaf::figure {

struct Point3 {
    double x = 0.0;
    double y = 0.0;
    double z = 0.0;
};

/// Points of the body that are tracked. Paired ones come left first, then right.
enum class Landmark {
    Pelvis,   ///< midpoint between the hip joints
    Waist,    ///< L4-L5
    Chest,    ///< T12-L1
    NeckBase, ///< C7-T1
    HeadBase, ///< top of the neck
    HeadCentre,
    Nose, ///< on the face, for the gaze direction
    Vertex,
    ShoulderL,
    ShoulderR,
    ElbowL,
    ElbowR,
    WristL,
    WristR,
    KnuckleL,
    KnuckleR,
    FingertipL,
    FingertipR,
    ThumbL,
    ThumbR, ///< tip of the thumb, shows how the hand is turned
    HipL,
    HipR,
    KneeL,
    KneeR,
    AnkleL,
    AnkleR,
    HeelL,
    HeelR,
    BallInnerL,
    BallInnerR,
    BallOuterL,
    BallOuterR,
    ToeL,
    ToeR,
    kCount
};

inline constexpr std::size_t kLandmarks = static_cast<std::size_t>(Landmark::kCount);

/// One pose of one body.
struct Body {
    double stature = 1700.0;
    std::array<Point3, kLandmarks> points{};
    std::array<double, 2> fingers{}; ///< flexion at the knuckles, left and right, degrees: drawn
                                     ///< alone, the fingertips' landmarks are of a flat hand
    const Point3& at(Landmark landmark) const {
        return points.at(static_cast<std::size_t>(landmark));
    }
    Point3& at(Landmark landmark) { return points.at(static_cast<std::size_t>(landmark)); }
};

} // namespace tickleaf::figure
