// SPDX-License-Identifier: MIT
#include "figure/skeleton.h"

#include "support/angle.h"
#include "support/finding.h"

namespace tickleaf::figure {
namespace {

using support::Angle;

struct Matrix3 {
    Point3 x{1, 0, 0}, y{0, 1, 0}, z{0, 0, 1}; // columns
};

Point3 operator*(double k, const Point3& p) {
    return {k * p.x, k * p.y, k * p.z};
}
Point3 operator+(const Point3& a, const Point3& b) {
    return {a.x + b.x, a.y + b.y, a.z + b.z};
}
Point3 apply(const Matrix3& m, const Point3& p) {
    return p.x * m.x + p.y * m.y + p.z * m.z;
}
Point3 cross(const Point3& a, const Point3& b) {
    return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}

/// m turned about an axis given in its own frame (Rodrigues' formula on the columns of the turn).
Matrix3 turned_about_any(const Matrix3& m, const Point3& axis, double s, double c) {
    const double v = 1.0 - c;
    const auto& [x, y, z] = axis;
    Matrix3 out;
    out.x = apply(m, {c + x * x * v, y * x * v + z * s, z * x * v - y * s});
    out.y = apply(m, {x * y * v - z * s, c + y * y * v, z * y * v + x * s});
    out.z = apply(m, {x * z * v + y * s, y * z * v - x * s, c + z * z * v});
    return out;
}

/// The same, quicker for the axes of the frame itself, which most joints turn about.
Matrix3 turned(const Matrix3& m, const Point3& axis, double degrees) {
    if (degrees == 0.0) {
        return m;
    }
    const Angle angle = Angle::from_degrees(degrees);
    const double s = support::sine(angle);
    const double c = support::cosine(angle);
    if (axis.x == 0.0 && axis.y == 0.0) {
        const double k = axis.z * s;
        return {c * m.x + k * m.y, c * m.y + -k * m.x, m.z};
    }
    if (axis.x == 0.0 && axis.z == 0.0) {
        const double k = axis.y * s;
        return {c * m.x + -k * m.z, m.y, c * m.z + k * m.x};
    }
    if (axis.y == 0.0 && axis.z == 0.0) {
        const double k = axis.x * s;
        return {m.x, c * m.y + k * m.z, c * m.z + -k * m.y};
    }
    return turned_about_any(m, axis, s, c);
}

constexpr double kSubtalarUp = 42.0;

/// One elementary turn of a joint; written for the right side, mirrored for the left.
struct Element {
    std::size_t dof;
    Point3 axis;
    double factor;
};

enum JointId : int {
    Root,
    Waist,
    Chest,
    Neck,
    Head,
    Hip,
    Knee,
    Ankle,
    Toes,
    Shoulder,
    Elbow,
    Wrist
};

struct JointSpec {
    JointId parent;
    Point3 offset; // from the parent's centre in its frame, fraction of stature, right side
    std::size_t turns;
    std::array<Element, 4> elements;
};

struct LandmarkSpec {
    JointId joint;
    Landmark landmark; // the left one of a pair
    Point3 offset;
};

constexpr Point3 kX{1, 0, 0};
constexpr Point3 kY{0, 1, 0};
constexpr Point3 kZ{0, 0, 1};
constexpr Point3 kMinusX{-1, 0, 0};
constexpr Point3 kMinusY{0, -1, 0};
constexpr Point3 kMinusZ{0, 0, -1};

// Heights of L4-L5, T12-L1 and C7-T1 (0.62, 0.72, 0.86 H) are chosen so that Winter's segment
// masses give the standing centre of mass at 0.582 H.
const std::array<JointSpec, 5> kAxial{{
    {Root, {}, 3, {{{kRootTurn, kY, 1}, {kRootPitch, kZ, 1}, {kRootRoll, kX, 1}}}},
    {Root,
     {0, 0.09, 0},
     3,
     {{{kTrunkFlexion, kMinusZ, .5}, {kTrunkBend, kX, .5}, {kTrunkRotation, kMinusY, .5}}}},
    {Waist,
     {0, 0.10, 0},
     3,
     {{{kTrunkFlexion, kMinusZ, .5}, {kTrunkBend, kX, .5}, {kTrunkRotation, kMinusY, .5}}}},
    {Chest,
     {0, 0.14, 0},
     4,
     {{{kNeckRetraction, kZ, 1},
       {kNeckFlexion, kMinusZ, .5},
       {kNeckBend, kX, .5},
       {kNeckRotation, kMinusY, .5}}}},
    {Neck,
     {0.004, 0.03, 0},
     4,
     {{{kNeckFlexion, kMinusZ, .5},
       {kNeckBend, kX, .5},
       {kNeckRotation, kMinusY, .5},
       {kNeckRetraction, kMinusZ, 1}}}},
}};

const std::array<JointSpec, 7>& limb_joints() {
    static const std::array<JointSpec, 7> specs{{
        {Root,
         {0, 0, 0.05},
         3,
         {{{kHipFlexion, kZ, 1}, {kHipAbduction, kMinusX, 1}, {kHipRotation, kY, 1}}}},
        {Hip, {0, -0.245, 0}, 1, {{{kKneeFlexion, kMinusZ, 1}, {}, {}}}},
        {Knee,
         {0, -0.246, 0},
         2,
         {{{kAnkleDorsiflexion, kZ, 1},
           {kAnkleInversion,
            {support::cosine(Angle::from_degrees(kSubtalarUp)),
             support::sine(Angle::from_degrees(kSubtalarUp)), 0},
            1},
           {}}}},
        {Ankle, {0.066, -0.039, 0}, 1, {{{kToeExtension, kZ, 1}, {}, {}}}},
        {Chest,
         {0, 0.098, 0.088},
         3,
         {{{kShoulderFlexion, kZ, 1},
           {kShoulderAbduction, kMinusX, 1},
           {kShoulderRotation, kY, 1}}}},
        {Shoulder, {0, -0.186, 0}, 2, {{{kElbowFlexion, kZ, 1}, {kForearmPronation, kY, 1}, {}}}},
        {Elbow, {0, -0.146, 0}, 2, {{{kWristFlexion, kX, 1}, {kWristRadial, kZ, 1}, {}}}},
    }};
    return specs;
}

const std::array<LandmarkSpec, 8> kAxialLandmarks{{
    {Root, Landmark::Pelvis, {}},
    {Waist, Landmark::Waist, {}},
    {Chest, Landmark::Chest, {}},
    {Neck, Landmark::NeckBase, {}},
    {Head, Landmark::HeadBase, {}},
    {Head, Landmark::HeadCentre, {0.008, 0.045, 0}},
    {Head, Landmark::Nose, {0.07, 0.036, 0}},
    {Head, Landmark::Vertex, {0.004, 0.11, 0}},
}};

const std::array<LandmarkSpec, 13> kLimbLandmarks{{
    {Shoulder, Landmark::ShoulderL, {}},
    {Elbow, Landmark::ElbowL, {}},
    {Wrist, Landmark::WristL, {}},
    {Wrist, Landmark::KnuckleL, {0, -0.056, 0}},
    {Wrist, Landmark::FingertipL, {0, -0.108, 0}},
    {Wrist, Landmark::ThumbL, {0.032, -0.058, 0}},
    {Hip, Landmark::HipL, {}},
    {Knee, Landmark::KneeL, {}},
    {Ankle, Landmark::AnkleL, {}},
    {Ankle, Landmark::HeelL, {-0.040, -0.039, 0}},
    {Ankle, Landmark::BallInnerL, {0.072, -0.039, -0.0275}},
    {Ankle, Landmark::BallOuterL, {0.060, -0.039, 0.0275}},
    {Toes, Landmark::ToeL, {0.046, 0, 0}},
}};

struct Frame {
    Matrix3 turn;
    Point3 origin;
};

std::uint64_t bit(Landmark landmark) {
    return std::uint64_t{1} << static_cast<std::size_t>(landmark);
}

/// What hangs on what, the same in every pose.
struct Structure {
    std::array<TurnSpec, kTurns> turns{};
    std::array<std::uint64_t, kLandmarks> turns_of{};
};

class StructureMaker {
  public:
    Structure make() {
        for (int id = Root; id <= Head; ++id) {
            add(kAxial.at(static_cast<std::size_t>(id)), static_cast<JointId>(id), 0);
        }
        mark(kAxialLandmarks, 0);
        for (std::size_t right = 0; right < 2; ++right) {
            for (int id = Hip; id <= Wrist; ++id) {
                add(limb_joints().at(static_cast<std::size_t>(id - Hip)), static_cast<JointId>(id),
                    right);
            }
            mark(kLimbLandmarks, right);
        }
        return out_;
    }

  private:
    void add(const JointSpec& spec, JointId id, std::size_t right) {
        std::uint64_t& chain = chain_[static_cast<std::size_t>(id)];
        chain = id == Root ? 0 : chain_[static_cast<std::size_t>(spec.parent)];
        for (std::size_t i = 0; i < spec.turns; ++i) {
            const Element& element = spec.elements.at(i);
            const std::size_t dof = id >= Hip ? limb_dof(right, element.dof) : element.dof;
            chain |= std::uint64_t{1} << count_;
            out_.turns.at(count_++) = {dof, element.factor, 0};
        }
    }

    template <class Table>
    void mark(const Table& table, std::size_t right) {
        for (const LandmarkSpec& spec : table) {
            const Landmark landmark = left_or_right(spec.landmark, right);
            const std::uint64_t chain = chain_[static_cast<std::size_t>(spec.joint)];
            out_.turns_of[static_cast<std::size_t>(landmark)] = chain;
            for (std::size_t i = 0; i < kTurns; ++i) {
                if ((chain >> i & 1U) != 0) {
                    out_.turns[i].moves |= bit(landmark);
                }
            }
        }
    }

    Structure out_;
    std::array<std::uint64_t, 12> chain_{};
    std::size_t count_ = 0;
};

const Structure& structure() {
    static const Structure made = StructureMaker().make();
    return made;
}

/// Walks the tree once, filling body and turns.
class Poser {
  public:
    Poser(const Posture& posture, double stature, Kinematics& out)
        : posture_(posture), stature_(stature), out_(out) {}

    void run() {
        out_.body.stature = stature_;
        for (int id = Root; id <= Head; ++id) {
            place(kAxial.at(static_cast<std::size_t>(id)), static_cast<JointId>(id), 1.0);
        }
        mark(kAxialLandmarks, 0, 1.0);
        for (std::size_t right = 0; right < 2; ++right) {
            const double sign = right == 1 ? 1.0 : -1.0;
            for (int id = Hip; id <= Wrist; ++id) {
                place(limb_joints()[static_cast<std::size_t>(id - Hip)], static_cast<JointId>(id),
                      sign);
            }
            mark(kLimbLandmarks, right, sign);
        }
    }

  private:
    void place(const JointSpec& spec, JointId id, double sign) {
        const Frame& parent = frames_[static_cast<std::size_t>(spec.parent)];
        Frame& frame = frames_[static_cast<std::size_t>(id)];
        if (id == Root) {
            frame = {Matrix3{}, {posture_[kRootX], posture_[kRootY], posture_[kRootZ]}};
        } else {
            const Point3 offset{stature_ * spec.offset.x, stature_ * spec.offset.y,
                                stature_ * sign * spec.offset.z};
            frame = {parent.turn, parent.origin + apply(parent.turn, offset)};
        }
        for (std::size_t i = 0; i < spec.turns; ++i) {
            const Element& element = spec.elements[i];
            // A mirrored turn keeps its sense about the axis across and reverses about the other
            // two.
            const Point3 axis{sign * element.axis.x, sign * element.axis.y, element.axis.z};
            const TurnSpec& known = structure_.turns[count_];
            out_.turns[count_++] = {known.dof, known.factor, apply(frame.turn, axis), frame.origin,
                                    known.moves};
            frame.turn = turned(frame.turn, axis, posture_[known.dof] * known.factor);
        }
    }

    template <class Table>
    void mark(const Table& table, std::size_t right, double sign) {
        for (const LandmarkSpec& spec : table) {
            const Frame& frame = frames_[static_cast<std::size_t>(spec.joint)];
            const Point3 offset{stature_ * spec.offset.x, stature_ * spec.offset.y,
                                stature_ * sign * spec.offset.z};
            out_.body.at(left_or_right(spec.landmark, right)) =
                frame.origin + apply(frame.turn, offset);
        }
    }

    const Structure& structure_ = structure();
    const Posture& posture_;
    double stature_;
    Kinematics& out_;
    std::array<Frame, 12> frames_;
    std::size_t count_ = 0;
};

// Largest handbook value of AAOS 1965/1994, AMA 2001 and the US examination norms, as tabled in
// Norkin and White (values from memory); shoulder adduction AMA 2001 (from memory).
const std::array<DofInfo, 7> kAxialInfo{{
    {"trunk", "flexion", "extension", -30, 90, 2},
    {"trunk", "bend-to-work", "bend-to-other", -35, 35, 2},
    {"trunk", "turn-to-work", "turn-to-other", -45, 45, 2},
    {"neck", "flexion", "extension", -60, 50, 2},
    {"neck", "bend-to-work", "bend-to-other", -45, 45, 2},
    {"neck", "turn-to-work", "turn-to-other", -80, 80, 2},
    {"neck", "retraction", "protraction", -30, 30, 2}, // common practice: a few cm of the head
}};

const std::array<DofInfo, kLimbDofs> kLimbInfo{{
    {"hip", "flexion", "extension", -30, 125, 2},
    {"hip", "abduction", "adduction", -30, 45, 2},
    {"hip", "medial-rotation", "lateral-rotation", -60, 45, 2},
    {"knee", "flexion", "extension", 0, 150, 2},
    {"ankle", "dorsiflexion", "plantarflexion", -50, 20, 2},
    {"ankle", "inversion", "eversion", -20, 35, 2},
    {"toes", "extension", "flexion", -45, 70, 2},
    {"shoulder", "flexion", "extension", -60, 180, 2},
    {"shoulder", "abduction", "adduction", -50, 180, 2},
    {"shoulder", "medial-rotation", "lateral-rotation", -90, 90, 2},
    {"elbow", "flexion", "extension", 0, 150, 2},
    {"forearm", "pronation", "supination", -85, 80, 2},
    {"wrist", "flexion", "extension", -70, 80, 2},
    {"wrist", "radial-deviation", "ulnar-deviation", -45, 20, 2},
}};

} // namespace

const DofInfo& dof_info(std::size_t dof) {
    support::internal_error_if(dof < kTrunkFlexion || dof >= kDofs, "the root has no joint range");
    if (dof < kFirstLimbDof) {
        return kAxialInfo.at(dof - kTrunkFlexion);
    }
    return kLimbInfo.at((dof - kFirstLimbDof) % kLimbDofs);
}

int limb_of(std::size_t dof) {
    if (dof < kFirstLimbDof) {
        return -1;
    }
    return dof >= limb_dof(1, 0) ? 1 : 0;
}

const std::array<TurnSpec, kTurns>& turn_specs() {
    return structure().turns;
}

std::uint64_t turns_of(Landmark landmark) {
    return structure().turns_of[static_cast<std::size_t>(landmark)];
}

Kinematics forward(const Posture& posture, double stature) {
    Kinematics out;
    pose_into(out, posture, stature);
    return out;
}

void pose_into(Kinematics& out, const Posture& posture, double stature) {
    Poser(posture, stature, out).run();
}

Body pose_body(const Posture& posture, double stature) {
    return forward(posture, stature).body;
}

Point3 derivative(const Turn& turn, const Point3& point) {
    const Point3 arm{point.x - turn.origin.x, point.y - turn.origin.y, point.z - turn.origin.z};
    return (turn.factor * Angle::kPi / 180.0) * cross(turn.axis, arm);
}

} // namespace tickleaf::figure
