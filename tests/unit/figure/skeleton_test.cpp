// SPDX-License-Identifier: MIT
// The skeleton against published tables and against a second formula.
#include <catch2/catch.hpp>

#include <cmath>

#include "figure/balance.h"
#include "figure/band.h"
#include "figure/parts.h"
#include "figure/skeleton.h"

using namespace tickleaf::figure;
using L = Landmark;

namespace {

double distance(const Body& body, L a, L b) {
    const Point3& p = body.at(a);
    const Point3& q = body.at(b);
    return std::hypot(p.x - q.x, p.y - q.y, p.z - q.z);
}

Posture standing() {
    Posture posture{};
    posture[kRootY] = 0.530 * 1000;
    return posture;
}

} // namespace

TEST_CASE("segment lengths are those of Drillis and Contini") {
    // Drillis & Contini 1966, TR 1166-03; Winter 2009, fig. 4.1; fractions of stature.
    const Body body = pose_body(standing(), 1000);
    struct Row {
        L a, b;
        double length;
    };
    const Row rows[] = {
        {L::ShoulderR, L::ElbowR, 186},  {L::ElbowR, L::WristR, 146},
        {L::WristR, L::FingertipR, 108}, {L::HipR, L::KneeR, 245},
        {L::KneeR, L::AnkleR, 246},      {L::HeelR, L::ToeR, 152},
        {L::ShoulderL, L::ElbowL, 186},  {L::ElbowL, L::WristL, 146},
        {L::WristL, L::FingertipL, 108}, {L::HipL, L::KneeL, 245},
        {L::KneeL, L::AnkleL, 246},      {L::HeelL, L::ToeL, 152},
    };
    for (const Row& row : rows) {
        CHECK(distance(body, row.a, row.b) == Approx(row.length).margin(1.0));
    }
    const std::pair<L, double> heights[] = {
        {L::AnkleR, 39},  {L::KneeR, 285},    {L::HipR, 530},       {L::ShoulderR, 818},
        {L::ElbowR, 632}, {L::WristR, 486},   {L::FingertipR, 378}, {L::Vertex, 1000},
        {L::HeelR, 0},    {L::BallInnerL, 0}, {L::ToeL, 0}};
    for (const auto& [landmark, height] : heights) {
        CHECK(body.at(landmark).y == Approx(height).margin(2.0));
    }
}

TEST_CASE("breadths are not taken for joint distances") {
    // Real adult arm span is about stature: 0.95 to 1.08 H (suggested beside Winter fig. 4.1).
    Posture posture = standing();
    posture[limb_dof(0, kShoulderAbduction)] = 90;
    posture[limb_dof(1, kShoulderAbduction)] = 90;
    const Body body = pose_body(posture, 1000);
    const double span = body.at(L::FingertipR).z - body.at(L::FingertipL).z;
    CHECK(span > 950);
    CHECK(span < 1080);
    CHECK(distance(body, L::HipL, L::HipR) == Approx(100).margin(5));
}

TEST_CASE("the centre of mass of a standing body is where Winter's table puts it") {
    // Winter 2009, table 4.1: 0.582 H.
    const Body body = pose_body(standing(), 1000);
    CHECK(centre_of_mass(body).y == Approx(582).margin(3));
    CHECK(centre_of_mass(body).z == Approx(0).margin(1e-9));
    double sum = 0.0;
    for (const MassPoint& point : mass_points()) {
        sum += point.share;
    }
    CHECK(sum == Approx(1.0).margin(0.002));
    CHECK(centre_of_mass(body).x > body.at(L::HeelR).x);
    CHECK(centre_of_mass(body).x < body.at(L::ToeR).x);
}

TEST_CASE("ranges are the largest handbook values") {
    // AAOS 1965/1994, AMA 2001, US examination norms; from memory but the limbs of the last.
    struct Row {
        const char* joint;
        const char* movement;
        double most;
    };
    const Row rows[] = {{"shoulder", "flexion", 180},
                        {"shoulder", "extension", 60},
                        {"shoulder", "abduction", 180},
                        {"shoulder", "medial-rotation", 90},
                        {"shoulder", "lateral-rotation", 90},
                        {"elbow", "flexion", 150},
                        {"elbow", "extension", 0},
                        {"forearm", "pronation", 80},
                        {"forearm", "supination", 85},
                        {"wrist", "flexion", 80},
                        {"wrist", "extension", 70},
                        {"wrist", "radial-deviation", 20},
                        {"wrist", "ulnar-deviation", 45},
                        {"hip", "flexion", 125},
                        {"hip", "extension", 30},
                        {"hip", "abduction", 45},
                        {"hip", "adduction", 30},
                        {"hip", "medial-rotation", 45},
                        {"hip", "lateral-rotation", 60},
                        {"knee", "flexion", 150},
                        {"knee", "extension", 0},
                        {"ankle", "dorsiflexion", 20},
                        {"ankle", "plantarflexion", 50},
                        {"ankle", "inversion", 35},
                        {"ankle", "eversion", 20},
                        {"toes", "extension", 70},
                        {"toes", "flexion", 45},
                        {"neck", "flexion", 50},
                        {"neck", "extension", 60},
                        {"trunk", "flexion", 90},
                        {"trunk", "extension", 30}};
    for (const Row& row : rows) {
        INFO(row.joint << ' ' << row.movement);
        const auto named = find_dof(row.joint, row.movement);
        REQUIRE(named);
        const DofInfo& info = dof_info(named->dof);
        CHECK((named->sign > 0 ? info.high : -info.low) == row.most);
    }
}

TEST_CASE("movements go the way their names say") {
    struct Row {
        std::size_t dof;
        double degrees;
        L landmark;
        int axis; // 0 x, 1 y, 2 z
        int sign;
    };
    const Row rows[] = {
        {limb_dof(1, kHipFlexion), 30, L::KneeR, 0, 1},
        {limb_dof(0, kHipFlexion), 30, L::KneeL, 0, 1},
        {limb_dof(1, kHipAbduction), 30, L::KneeR, 2, 1},
        {limb_dof(0, kHipAbduction), 30, L::KneeL, 2, -1},
        {limb_dof(1, kHipRotation), 30, L::ToeR, 2, -1},
        {limb_dof(0, kHipRotation), 30, L::ToeL, 2, 1},
        {limb_dof(1, kKneeFlexion), 30, L::AnkleR, 0, -1},
        {limb_dof(1, kAnkleDorsiflexion), 15, L::ToeR, 1, 1},
        {limb_dof(1, kAnkleInversion), 20, L::BallInnerR, 1, 1},
        {limb_dof(0, kAnkleInversion), 20, L::BallInnerL, 1, 1},
        {limb_dof(1, kAnkleInversion), 20, L::ToeR, 2, -1},
        {limb_dof(1, kToeExtension), 30, L::ToeR, 1, 1},
        {limb_dof(1, kShoulderFlexion), 30, L::ElbowR, 0, 1},
        {limb_dof(0, kShoulderAbduction), 30, L::ElbowL, 2, -1},
        {limb_dof(1, kElbowFlexion), 30, L::WristR, 0, 1},
        {limb_dof(1, kForearmPronation), 60, L::ThumbR, 2, -1},
        {limb_dof(1, kWristFlexion), 30, L::FingertipR, 2, -1},
        {limb_dof(0, kWristFlexion), 30, L::FingertipL, 2, 1},
        {limb_dof(1, kWristRadial), 15, L::FingertipR, 0, 1},
        {kTrunkFlexion, 30, L::NeckBase, 0, 1},
        {kTrunkBend, 20, L::NeckBase, 2, 1},
        {kTrunkRotation, 20, L::ShoulderR, 0, -1},
        {kNeckFlexion, 20, L::Nose, 1, -1},
        {kNeckRotation, 30, L::Nose, 2, 1},
        {kRootPitch, 90, L::Vertex, 0, -1},
    };
    const Body rest = pose_body(standing(), 1000);
    const auto coordinate = [](const Point3& p, int axis) {
        return axis == 0 ? p.x : (axis == 1 ? p.y : p.z);
    };
    for (const Row& row : rows) {
        INFO("dof " << row.dof << " landmark " << static_cast<int>(row.landmark));
        Posture posture = standing();
        posture[row.dof] = row.degrees;
        const Body body = pose_body(posture, 1000);
        CHECK((coordinate(body.at(row.landmark), row.axis) -
               coordinate(rest.at(row.landmark), row.axis)) *
                  row.sign >
              3.0);
    }
}

TEST_CASE("kinematics agree with a plane formula and with differences") {
    // A second formula: in the median plane, angles of the segments add up.
    Posture posture = standing();
    posture[limb_dof(1, kHipFlexion)] = 50;
    posture[limb_dof(1, kKneeFlexion)] = 80;
    posture[limb_dof(1, kAnkleDorsiflexion)] = 10;
    const double degree = std::acos(-1.0) / 180.0;
    const Body body = pose_body(posture, 1000);
    const double thigh = 50 * degree;
    const double shank = (50 - 80) * degree;
    const double x = 245 * std::sin(thigh) + 246 * std::sin(shank);
    const double y = 530 - 245 * std::cos(thigh) - 246 * std::cos(shank);
    CHECK(body.at(L::AnkleR).x == Approx(x).margin(1e-6));
    CHECK(body.at(L::AnkleR).y == Approx(y).margin(1e-6));

    for (std::size_t dof = 0; dof < kDofs; ++dof) {
        posture[dof] += 3.0 + static_cast<double>(dof % 7);
    }
    const Kinematics kinematics = forward(posture, 1000);
    for (std::size_t dof = kRootTurn; dof < kDofs; ++dof) {
        Posture more = posture;
        Posture less = posture;
        more[dof] += 1e-4;
        less[dof] -= 1e-4;
        const Body after = pose_body(more, 1000);
        const Body ahead = pose_body(less, 1000);
        for (std::size_t i = 0; i < kLandmarks; ++i) {
            const auto landmark = static_cast<L>(i);
            Point3 slope;
            for (const Turn& turn : kinematics.turns) {
                if (turn.dof == dof && ((turn.moves >> i) & 1U) != 0) {
                    const Point3 d = derivative(turn, kinematics.body.at(landmark));
                    slope = {slope.x + d.x, slope.y + d.y, slope.z + d.z};
                }
            }
            const Point3& p = after.at(landmark);
            const Point3& q = ahead.at(landmark);
            REQUIRE(slope.x == Approx((p.x - q.x) / 2e-4).margin(1e-4));
            REQUIRE(slope.y == Approx((p.y - q.y) / 2e-4).margin(1e-4));
            REQUIRE(slope.z == Approx((p.z - q.z) / 2e-4).margin(1e-4));
        }
    }
}

TEST_CASE("the band follows the rubber curve") {
    // Neo-Hookean rubber, force relative to that at double length (Treloar 1975, from memory): f(1)
    // = 1.75 exactly.
    CHECK(rubber_curve(1.0) == 1.75);
    CHECK(rubber_curve(0.0) == 0.0);
    CHECK(rubber_curve(-0.2) == 0.0);
    const std::pair<double, double> rows[] = {{0.25, 0.349}, {0.50, 0.603}, {0.75, 0.813},
                                              {1.0, 1.0},    {1.5, 1.337},  {2.0, 1.651},
                                              {2.5, 1.953}};
    for (const auto& [stretch, ratio] : rows) {
        CHECK(band_force(stretch, 1.0) == Approx(ratio).margin(0.0006));
    }
}
