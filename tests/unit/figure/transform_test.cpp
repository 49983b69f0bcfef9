// SPDX-License-Identifier: MIT
// Forward kinematics a second way: Eigen's own transforms, joint by joint, written down from the
// joints' anatomical meaning and not from the table in skeleton.cpp.
#include <catch2/catch.hpp>

#include <cmath>

#include <eigen3/Eigen/Geometry>

#include "figure/skeleton.h"

using namespace tickleaf::figure;
using L = Landmark;

namespace {

using Frame = Eigen::Affine3d;
using Vector = Eigen::Vector3d;

constexpr double kStature = 1680;

/// Right-handed turn about an axis of the moving frame.
Frame turn(double degrees, double x, double y, double z) {
    const double radians = degrees * std::acos(-1.0) / 180.0;
    return Frame(Eigen::AngleAxisd(radians, Vector(x, y, z).normalized()));
}

Frame shift(double x, double y, double z) {
    return Frame(Eigen::Translation3d(kStature * x, kStature * y, kStature * z));
}

/// A share of bending forward, to the right and turning to the right.
Frame bend(double flexion, double right, double rotation, double share) {
    return turn(share * flexion, 0, 0, -1) * turn(share * right, 1, 0, 0) *
           turn(share * rotation, 0, -1, 0);
}

struct Frames {
    Frame root, chest, head;
};

Frames axial(const Posture& p) {
    Frames f;
    f.root = Frame(Eigen::Translation3d(p[kRootX], p[kRootY], p[kRootZ])) *
             turn(p[kRootTurn], 0, 1, 0) * turn(p[kRootPitch], 0, 0, 1) *
             turn(p[kRootRoll], 1, 0, 0);
    const Frame half = bend(p[kTrunkFlexion], p[kTrunkBend], p[kTrunkRotation], 0.5);
    f.chest = f.root * shift(0, 0.09, 0) * half * shift(0, 0.10, 0) * half;
    const Frame nod = bend(p[kNeckFlexion], p[kNeckBend], p[kNeckRotation], 0.5);
    // Retraction tilts the lower neck back and the head forward by as much.
    f.head = f.chest * shift(0, 0.14, 0) * turn(p[kNeckRetraction], 0, 0, 1) * nod *
             shift(0.004, 0.03, 0) * nod * turn(p[kNeckRetraction], 0, 0, -1);
    return f;
}

/// Flexion forward, abduction away from the middle, medial rotation; `side` is 1 right, -1 left.
Frame ball_joint(double flexion, double abduction, double medial, double side) {
    return turn(flexion, 0, 0, 1) * turn(abduction, -side, 0, 0) * turn(medial, 0, side, 0);
}

struct Limb {
    Vector ankle, heel, ball_outer, toe, elbow, wrist, fingertip, thumb;
};

Limb limb(const Posture& p, std::size_t right) {
    const double s = right == 1 ? 1.0 : -1.0;
    const auto a = [&p, right](std::size_t dof) { return p[limb_dof(right, dof)]; };
    const Frames f = axial(p);
    const Frame ankle = f.root * shift(0, 0, 0.05 * s) *
                        ball_joint(a(kHipFlexion), a(kHipAbduction), a(kHipRotation), s) *
                        shift(0, -0.245, 0) * turn(a(kKneeFlexion), 0, 0, -1) *
                        shift(0, -0.246, 0) * turn(a(kAnkleDorsiflexion), 0, 0, 1);
    const double up = 42.0 * std::acos(-1.0) / 180.0;
    const Frame foot = ankle * turn(a(kAnkleInversion), s * std::cos(up), s * std::sin(up), 0);
    const Frame toes = foot * shift(0.066, -0.039, 0) * turn(a(kToeExtension), 0, 0, 1);
    const Frame elbow =
        f.chest * shift(0, 0.098, 0.088 * s) *
        ball_joint(a(kShoulderFlexion), a(kShoulderAbduction), a(kShoulderRotation), s) *
        shift(0, -0.186, 0);
    const Frame wrist = elbow * turn(a(kElbowFlexion), 0, 0, 1) *
                        turn(a(kForearmPronation), 0, s, 0) * shift(0, -0.146, 0);
    const Frame hand = wrist * turn(a(kWristFlexion), s, 0, 0) * turn(a(kWristRadial), 0, 0, 1);
    const auto at = [](const Frame& frame, double x, double y, double z) {
        return Vector((frame * shift(x, y, z)).translation());
    };
    return {
        ankle.translation(),    at(foot, -0.040, -0.039, 0), at(foot, 0.060, -0.039, 0.0275 * s),
        at(toes, 0.046, 0, 0),  elbow.translation(),         wrist.translation(),
        at(hand, 0, -0.108, 0), at(hand, 0.032, -0.058, 0)};
}

void check_same(const Point3& p, const Vector& q) {
    CHECK(p.x == Approx(q.x()).margin(1e-7));
    CHECK(p.y == Approx(q.y()).margin(1e-7));
    CHECK(p.z == Approx(q.z()).margin(1e-7));
}

} // namespace

TEST_CASE("Eigen's transforms put every limb where forward kinematics puts it") {
    for (std::size_t sample = 0; sample < 40; ++sample) {
        Posture posture{};
        posture[kRootX] = 12.0 * static_cast<double>(sample);
        posture[kRootY] = 900;
        posture[kRootZ] = -40;
        // Angles spread over each range, from a plain congruence: the same in every run.
        for (std::size_t dof = kRootTurn; dof < kDofs; ++dof) {
            const double t = static_cast<double>((sample * 37 + dof * 61 + 13) % 101) / 100.0;
            const bool root = dof < kTrunkFlexion;
            const double low = root ? -90.0 : dof_info(dof).low;
            const double high = root ? 90.0 : dof_info(dof).high;
            posture[dof] = low + t * (high - low);
        }
        INFO(sample);
        const Body body = pose_body(posture, kStature);
        check_same(body.at(L::Nose),
                   Vector((axial(posture).head * shift(0.07, 0.036, 0)).translation()));
        check_same(body.at(L::Vertex),
                   Vector((axial(posture).head * shift(0.004, 0.11, 0)).translation()));
        for (const std::size_t right : {std::size_t{0}, std::size_t{1}}) {
            const Limb expected = limb(posture, right);
            check_same(body.at(left_or_right(L::AnkleL, right)), expected.ankle);
            check_same(body.at(left_or_right(L::HeelL, right)), expected.heel);
            check_same(body.at(left_or_right(L::BallOuterL, right)), expected.ball_outer);
            check_same(body.at(left_or_right(L::ToeL, right)), expected.toe);
            check_same(body.at(left_or_right(L::ElbowL, right)), expected.elbow);
            check_same(body.at(left_or_right(L::WristL, right)), expected.wrist);
            check_same(body.at(left_or_right(L::FingertipL, right)), expected.fingertip);
            check_same(body.at(left_or_right(L::ThumbL, right)), expected.thumb);
        }
    }
}
