// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "draw/part.h"

namespace tickleaf::draw {

namespace {

using figure::Body;
using figure::Landmark;
using figure::Segment;
using support::Side;

// Radii as shares of stature. Stouter than life, so that a limb still holds its pattern at 35 mm.
constexpr double kHip = 0.043;
constexpr double kKnee = 0.031;
constexpr double kAnkle = 0.020;
constexpr double kShoulder = 0.025;
constexpr double kElbow = 0.021;
constexpr double kWrist = 0.015;
constexpr double kBallSpread = 1.45;
constexpr double kFootDetail = 0.06; // points that a corner must stand out
// A working limb is drawn this much stouter.
constexpr double kWorkingWeight = 1.14;

struct SideMarks {
    Landmark shoulder, elbow, wrist, knuckle, fingertip, thumb;
    Landmark hip, knee, ankle, heel, ball_inner, ball_outer, toe;
};

SideMarks marks(Side side) {
    if (side == Side::Left) {
        return {Landmark::ShoulderL,  Landmark::ElbowL, Landmark::WristL,     Landmark::KnuckleL,
                Landmark::FingertipL, Landmark::ThumbL, Landmark::HipL,       Landmark::KneeL,
                Landmark::AnkleL,     Landmark::HeelL,  Landmark::BallInnerL, Landmark::BallOuterL,
                Landmark::ToeL};
    }
    return {Landmark::ShoulderR,  Landmark::ElbowR, Landmark::WristR,     Landmark::KnuckleR,
            Landmark::FingertipR, Landmark::ThumbR, Landmark::HipR,       Landmark::KneeR,
            Landmark::AnkleR,     Landmark::HeelR,  Landmark::BallInnerR, Landmark::BallOuterR,
            Landmark::ToeR};
}

bool works(const figure::Scene& scene, Segment segment, Side side) {
    return std::any_of(
        scene.working.begin(), scene.working.end(), [&](const figure::WorkingPart& part) {
            return part.segment == segment &&
                   (part.side == Side::Both || part.side == Side::None || part.side == side);
        });
}

// Far limbs are told apart only where the far side lies behind the near one.
Tone tone_of(const figure::Scene& scene, const Camera& camera, Segment segment, Side side) {
    const bool far = camera.view() == figure::View::Side && side != Side::Both &&
                     side == support::opposite(scene.near_side);
    if (works(scene, segment, side)) {
        return far ? Tone::WorkingFar : Tone::Working;
    }
    return far ? Tone::Far : Tone::Near;
}

// Where the pattern of a segment starts and ends, so that the patterns of neighbours do not cross
// at the joint.
double joint_share(const Capsule& c, Segment segment) {
    const double l = std::max(length(c.to - c.from), 0.01);
    const bool after_joint = segment == Segment::Shank || segment == Segment::Forearm;
    return after_joint ? std::min(0.5, 0.5 * c.from_radius / l) : 0.0;
}

double end_share(const Capsule& c, Segment segment) {
    const double l = std::max(length(c.to - c.from), 0.01);
    const bool last = segment == Segment::Hand || segment == Segment::Foot;
    return last ? 0.0 : std::min(0.4, 0.5 * c.to_radius / l);
}

struct Limb {
    const Body& body;
    const figure::Scene& scene;
    const Camera& camera;
    Side side;
    double h;

    Part bone(Segment segment, Landmark from, Landmark to, double r1, double r2) const {
        Part part;
        part.segment = segment;
        part.lean = side == Side::Left ? -part.lean : part.lean;
        part.tone = tone_of(scene, camera, segment, side);
        const bool stout = part.tone == Tone::Working || part.tone == Tone::WorkingFar;
        const double weight = stout ? kWorkingWeight : 1.0;
        part.from = camera.see(body.at(from));
        part.to = camera.see(body.at(to));
        part.from_radius = r1 * h * weight;
        part.to_radius = r2 * h * weight;
        const Capsule c = part.capsule();
        part.outline = {tapered(c)};
        const bool arm = segment == Segment::UpperArm || segment == Segment::Forearm;
        part.chain = chain(arm);
        part.lift = (arm ? 0.02 : 0.012) * h;
        part.hatched =
            flattened(flat_capsule(c, joint_share(c, segment), 1.0 - end_share(c, segment), 0.0))
                .front();
        return part;
    }

    Chain chain(bool arm) const {
        if (arm) {
            return side == Side::Left ? Chain::ArmL : Chain::ArmR;
        }
        return side == Side::Left ? Chain::LegL : Chain::LegR;
    }

    // White round a segment, but not across the joints named by `open_from` and `open_to`.
    void give_halo(Part& part, bool open_from, bool open_to, double width) const {
        const Capsule c = part.capsule();
        const double l = length(c.to - c.from);
        const double start =
            open_from ? std::min(0.6, (c.from_radius * 0.9) / std::max(l, 0.01)) : 0.0;
        const double end =
            open_to ? std::max(start, 1.0 - (c.to_radius * 0.9) / std::max(l, 0.01)) : 1.0;
        // Pointing at the reader it stands clear of what it grows from: a lap seen from the front.
        if (open_from && part.to.depth - part.from.depth > l) {
            part.halo.clear();
            return;
        }
        part.halo = flat_capsule(c, start, end, width);
    }

    Part hand(const SideMarks& m) const;
    Part foot(const SideMarks& m) const;
};

constexpr double kHalo = 1.1; // points of white round a part

Part Limb::hand(const SideMarks& m) const {
    Part part = bone(Segment::Hand, m.wrist, m.fingertip, 0.017, 0.013);
    part.chain = chain(true);
    part.lift = 0.03 * h;
    const std::size_t right = side == Side::Left ? 0 : 1;
    shape_hand(part,
               {body.at(m.wrist), body.at(m.knuckle), body.at(m.fingertip), body.at(m.thumb),
                body.fingers[right], right == 1},
               body.stature, camera);
    part.hatched.clear();
    return part;
}

Part Limb::foot(const SideMarks& m) const {
    Part part = bone(Segment::Foot, m.ankle, m.toe, 0.020, 0.010);
    part.chain = chain(false);
    const Point3 ankle = body.at(m.ankle);
    const Point3 heel = body.at(m.heel);
    const Point3 toe = body.at(m.toe);
    // Broader than life at the ball, so that a tilted sole shows from the front.
    const Point3 ball = between(body.at(m.ball_inner), body.at(m.ball_outer), 0.5);
    const Point3 inner = between(ball, body.at(m.ball_inner), kBallSpread);
    const Point3 outer = between(ball, body.at(m.ball_outer), kBallSpread);
    const double s = body.stature;
    Point3 up = unit(cross(outer - heel, inner - heel), {0, 1, 0});
    up = dot(up, ankle - heel) < 0.0 ? up * -1.0 : up;
    const Point3 across = unit(outer - inner, {0, 0, 1}) * (0.019 * s);
    const auto lifted = [&](Point3 p, double by) { return p + up * (by * s); };
    const std::vector<Point3> corners{
        heel + across,
        heel - across,
        lifted(heel + across, 0.030),
        lifted(heel - across, 0.030),
        toe,
        lifted(toe, 0.012),
        inner,
        outer,
        lifted(inner, 0.022),
        lifted(outer, 0.017),
    };
    std::vector<Point> flat;
    for (const Point3 p : corners) {
        flat.push_back(camera.see(p).flat());
    }
    part.hatched = hull(flat);
    const auto round =
        flattened(page::circle(camera.see(ankle).flat(), part.from_radius), 2).front();
    flat.insert(flat.end(), round.begin(), round.end());
    part.across = (camera.see(outer).flat() - camera.see(inner).flat()) * 0.5;
    part.outline = {{page::polygon(hull(flat, kFootDetail)), 0.0}};
    return part;
}

void add_limbs(std::vector<Part>& parts, const Limb& limb) {
    const SideMarks m = marks(limb.side);
    Part upper = limb.bone(Segment::UpperArm, m.shoulder, m.elbow, kShoulder, kElbow);
    Part fore = limb.bone(Segment::Forearm, m.elbow, m.wrist, kElbow, kWrist);
    Part thigh = limb.bone(Segment::Thigh, m.hip, m.knee, kHip, kKnee);
    Part shank = limb.bone(Segment::Shank, m.knee, m.ankle, kKnee, kAnkle);
    limb.give_halo(upper, false, true, kHalo);
    limb.give_halo(fore, true, true, kHalo);
    limb.give_halo(thigh, true, true, kHalo);
    limb.give_halo(shank, true, true, kHalo);
    for (const Part& part : {upper, fore, limb.hand(m), thigh, shank, limb.foot(m)}) {
        parts.push_back(part);
    }
}

// Where a far limb lies behind its twin only splinters of it would be seen: then it is left out.
bool is_behind(const Part& far, const Part& near) {
    constexpr double kSplinter = 0.45; // of the limb's thickness
    const double reach = std::min(near.from_radius, near.to_radius * 1.4) * kSplinter;
    return length(far.from.flat() - near.from.flat()) < reach &&
           length(far.to.flat() - near.to.flat()) < reach;
}

void leave_out_hidden(std::vector<Part>& parts, Side near_side, std::size_t first) {
    const std::size_t count = (parts.size() - first) / 2;
    const std::size_t far = near_side == Side::Left ? first + count : first;
    const std::size_t near = near_side == Side::Left ? first : first + count;
    for (std::size_t i = count; i-- > 0;) {
        if (is_behind(parts[far + i], parts[near + i])) {
            parts[far + i].outline.clear();
        }
    }
    std::erase_if(parts, [](const Part& part) { return part.outline.empty(); });
}

} // namespace

std::vector<Part> body_parts(const Body& body, const figure::Scene& scene, const Camera& camera) {
    const double h = body.stature * camera.scale();
    std::vector<Part> parts{trunk_part(body, camera), head_part(body, camera)};
    for (Part& part : parts) {
        part.lean = scene.near_side == Side::Left ? -part.lean : part.lean;
    }
    parts[0].tone = tone_of(scene, camera, Segment::Trunk, Side::Both);
    parts[1].tone = tone_of(scene, camera, Segment::Head, Side::Both);
    for (const Side side : {Side::Left, Side::Right}) {
        add_limbs(parts, Limb{body, scene, camera, side, h});
    }
    if (camera.view() == figure::View::Side) {
        leave_out_hidden(parts, scene.near_side, 2);
    }
    for (Part& part : parts) {
        if (part.tone == Tone::Near || part.tone == Tone::Far) {
            part.hatched.clear();
        }
    }
    return parts;
}

} // namespace tickleaf::draw
