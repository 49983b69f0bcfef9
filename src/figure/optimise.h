// SPDX-License-Identifier: MIT
// The bounded least-squares solve: a posture near the authored one that meets goals, keeps out of
// floor and props and keeps its balance. Units: mm and degrees; goal weights are in 1/mm, so that a
// miss of 1 mm costs as much as one sigma of an angle. Cost: damped Gauss-Newton on the free
// angles, projected on the joint ranges; a few dense steps, no randomness.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "figure/skeleton.h"

namespace tickleaf::figure {

enum class Axis { X, Y, Z };

double along(const Point3& point, Axis axis);

struct Term {
    Landmark landmark{};
    double weight = 1.0;
};

/// A weighted sum of landmark coordinates that should have a value, or be no less than it.
struct Goal {
    std::array<Term, 6> terms{};
    std::size_t count = 1;
    Axis axis = Axis::Y;
    double value = 0.0;
    double weight = 1.0;
    bool at_least = false;
    int contact = -1;   ///< index of the contact it stands for, -1 for what only guides
    bool stays = false; ///< keeps the contact from sliding between poses, softly
};

double miss(const Goal& goal, const Body& body);

/// A point of flesh that is kept out of things: on the line between two landmarks, with a radius.
struct FleshPoint {
    Landmark a{};
    Landmark b{};
    double towards_b = 0.0;
    double radius = 0.0; ///< fraction of stature
};

const std::vector<FleshPoint>& flesh();

/// A solid box that the body is kept out of, but for the points set in `touching` (one bit a flesh
/// point).
struct Solid {
    Point3 low{};
    Point3 high{};
    std::uint64_t touching = 0;
};

struct Problem {
    double stature = 1700.0;
    Posture prior{};
    std::array<double, kDofs> sigma{}; ///< how far an angle may stray at the cost of 1; 0: fixed
    std::vector<Goal> goals;
    std::vector<Solid> solids;
    std::uint64_t on_floor = 0;    ///< flesh points that touch the floor by a goal
    std::vector<Landmark> support; ///< base of support
    bool balances = true;          ///< the centre of mass is asked to be over the base
    double enough = 0.0;           ///< cost at which the solve may stop at once
    double least_damping = 1e-9;   ///< of a step; more is surer and shorter
    double least_gain = 1e-4;      ///< share of the cost that a step must gain to go on
    double balance_margin = 0.0;   ///< mm that the centre of mass should be inside
};

/// Solves from a start posture; deterministic.
Posture optimise(const Problem& problem, const Posture& start, int max_steps);

/// Deepest point of the body inside floor or solids, mm; 0 where it is clear.
double deepest_intrusion(const Problem& problem, const Body& body);

} // namespace tickleaf::figure
