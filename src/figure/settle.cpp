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
