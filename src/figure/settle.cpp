// SPDX-License-Identifier: MIT
#include "figure/settle.h"

#include <algorithm>
#include <cmath>

#include "figure/balance.h"

namespace tickleaf::figure {
namespace {

constexpr int kSteps = 40;
constexpr double kNudge = 4.0; // degrees

Posture bent(Posture posture) {
    for (std::size_t right = 0; right < 2; ++right) {
        for (const std::size_t dof : {kHipFlexion, kKneeFlexion, kShoulderFlexion, kElbowFlexion}) {
            posture[limb_dof(right, dof)] += kNudge;
        }
    }
    return posture;
}

} // namespace

std::array<double, kDofs> usual_sigma(double stature) {
    std::array<double, kDofs> sigma{};
    sigma[kRootX] = 0.08 * stature;
    sigma[kRootY] = 0.30 * stature;
    sigma[kRootZ] = 0.05 * stature;
    sigma[kRootTurn] = 1.5;
    sigma[kRootPitch] = 4;
    sigma[kRootRoll] = 2.5;
    sigma[kTrunkFlexion] = 3;
    sigma[kTrunkBend] = 2.5;
    sigma[kTrunkRotation] = 2;
    sigma[kNeckFlexion] = 2;
    sigma[kNeckBend] = 2;
    sigma[kNeckRotation] = 2;
    sigma[kNeckRetraction] = 0;
    constexpr std::array<double, kLimbDofs> kLimb{6, 4, 4, 4, 6, 3, 30, 18, 12, 18, 20, 20, 20, 8};
    for (std::size_t right = 0; right < 2; ++right) {
        for (std::size_t dof = 0; dof < kLimbDofs; ++dof) {
            sigma[limb_dof(right, dof)] = kLimb[dof];
        }
    }
    return sigma;
}

bool is_met(const Problem& problem, const Posture& posture) {
    const Body body = pose_body(posture, problem.stature);
    const bool touches =
        std::all_of(problem.goals.begin(), problem.goals.end(), [&](const Goal& goal) {
            return goal.contact < 0 ||
                   std::abs(miss(goal, body)) <= (goal.stays ? kMostSlide : kMostMiss);
        });
    return touches && deepest_intrusion(problem, body) <= kMostMiss &&
           (!problem.balances ||
            balance_margin(body, problem.support, centre_of_mass(body)) >= 0.0);
}

Posture settle(const Problem& problem, const Posture& wish, const Posture& before) {
    const Posture first = optimise(problem, wish, kSteps);
    if (is_met(problem, first)) {
        return first;
    }
    for (const Posture& start : {first, before, bent(wish)}) {
        const Posture again = optimise(problem, start, kSteps);
        if (is_met(problem, again)) {
            return again;
        }
    }
    return first;
}

} // namespace tickleaf::figure
