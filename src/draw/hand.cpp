// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>

#include "draw/part.h"
#include "support/angle.h"

namespace tickleaf::draw {

namespace {

using support::Angle;

// Of stature.
constexpr double kFinger = 0.0105;
constexpr double kBreadth = 0.024; // half of it, flat
constexpr double kThumbOut = 0.024;
constexpr double kFirstBone = 0.55;   // of the fingers' length
constexpr double kLeastLines = 200.0; // points of stature where fingers can be told apart
constexpr double kSeen = 0.45;        // of a surface turned to the reader

/// A bone of all four fingers: where it ends, and the way its back looks.
struct Bone {
    Point3 from{};
    Point3 to{};
    Point3 back{};
};

std::array<Bone, 2> finger_bones(const Hand& hand, Point3 along, Point3 palm, double stature) {
    std::array<Bone, 2> bones;
    const Point3 fingers = hand.fingertip - hand.knuckle;
    // The pen rounds the tips by as much as is left out here.
    const double whole = std::max(std::sqrt(dot(fingers, fingers)) - kFinger * stature, 1.0);
    Point3 at = hand.knuckle;
    for (std::size_t i = 0; i < 2; ++i) {
        // The middle joints bend as far as the knuckles: common practice for a loose fist.
        const Angle bent = Angle::from_degrees(hand.flexion * static_cast<double>(i + 1));
        const double s = support::sine(bent);
        const double c = support::cosine(bent);
        const double share = i == 0 ? kFirstBone : 1.0 - kFirstBone;
        const Point3 to = at + (along * c + palm * s) * (share * whole);
        bones[i] = {at, to, along * s - palm * c};
        at = to;
    }
    return bones;
}

// Between the fingers, where their back is seen, or their inside while nothing hides it.
void part_fingers(Path& lines, const std::array<Bone, 2>& bones, Point3 across, bool open,
                  const Camera& camera) {
    for (std::size_t i = 0; i < bones.size(); ++i) {
        const double facing = dot(bones[i].back, camera.toward());
        if (!(facing > kSeen || (open && facing < -kSeen))) {
            continue;
        }
        for (const double aside : {-0.55, 0.0, 0.55}) {
            const Point3 by = across * aside;
            const double end = i == 0 ? 1.0 : 0.8;
            append(lines,
                   page::line(camera.see(bones[i].from + by).flat(),
                              camera.see(between(bones[i].from, bones[i].to, end) + by).flat()));
        }
    }
}

Path slab(Point3 from, Point3 to, Point3 from_half, Point3 to_half, const Camera& camera) {
    std::vector<Point> corners;
    for (const Point3 p : {from + from_half, from - from_half, to + to_half, to - to_half}) {
        corners.push_back(camera.see(p).flat());
    }
    return closed_polygon(hull(corners));
}

Path flat_hand(const Hand& hand, Point3 palm, double h, const Camera& camera) {
    // A hand seen flat is broader than one seen on edge.
    const double flat = 0.014 + 0.010 * std::abs(dot(palm, camera.toward()));
    const Point w = camera.see(hand.wrist).flat();
    const Point k = camera.see(hand.knuckle).flat();
    const Point f = camera.see(hand.fingertip).flat();
    const Point aside = normal(unit(f - w)) * ((flat - kFinger) * h);
    const Point tip = between(f, k, kFinger * h / std::max(length(f - k), 2.0 * kFinger * h));
    Path shape = closed_polygon({w, k - aside, tip, k + aside});
    append(shape, closed_polygon({between(w, k, 0.35), camera.see(hand.thumb).flat()}));
    return shape;
}

} // namespace

void shape_hand(Part& part, const Hand& hand, double stature, const Camera& camera) {
    const double h = stature * camera.scale();
    const Point3 along = unit(hand.knuckle - hand.wrist, {0, -1, 0});
    const Point3 back_of_right = unit(cross(along, hand.thumb - hand.wrist), {0, 0, 1});
    const Point3 palm = back_of_right * (hand.is_right ? -1.0 : 1.0);
    const Point3 to_thumb = cross(back_of_right, along);
    const Point3 half = to_thumb * (kBreadth * stature);
    const std::array<Bone, 2> bones = finger_bones(hand, along, palm, stature);
    Path shape;
    if (hand.flexion > 0.0) {
        const Point3 thin = half * (1.0 - kFinger / kBreadth);
        shape = slab(hand.wrist, hand.knuckle, thin * 0.3, thin, camera);
        append(shape, slab(bones[0].from, bones[0].to, thin, thin, camera));
        append(shape, slab(bones[1].from, bones[1].to, thin, thin * 0.8, camera));
        const double closed = support::sine(Angle::from_degrees(hand.flexion));
        const Point3 thumb = hand.thumb + (palm - to_thumb * 0.4) * (closed * kThumbOut * stature);
        append(shape, closed_polygon({camera.see(between(hand.wrist, hand.knuckle, 0.35)).flat(),
                                      camera.see(thumb).flat()}));
    } else {
        shape = flat_hand(hand, palm, h, camera);
    }
    part.outline = {{shape, kFinger * h}};
    if (h > kLeastLines) {
        part_fingers(part.lines, bones, half, hand.flexion < 45.0, camera);
    }
}

} // namespace tickleaf::draw
