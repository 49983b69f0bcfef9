// SPDX-License-Identifier: MIT
#include "figure/optimise.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "figure/balance.h"
#include "figure/normal_equations.h"

namespace tickleaf::figure {
namespace {

constexpr double kBalanceWeight = 0.3;
constexpr double kFirstDamping = 1e-3;
constexpr double kSmallStep = 0.01; // of a sigma

Point3 unit(Axis axis) {
    return {axis == Axis::X ? 1.0 : 0.0, axis == Axis::Y ? 1.0 : 0.0, axis == Axis::Z ? 1.0 : 0.0};
}

Point3 scaled(const Point3& p, double k) {
    return {k * p.x, k * p.y, k * p.z};
}

Point3 flesh_position(const FleshPoint& point, const Body& body) {
    const Point3& a = body.at(point.a);
    const Point3& b = body.at(point.b);
    const double t = point.towards_b;
    return {a.x + t * (b.x - a.x), a.y + t * (b.y - a.y), a.z + t * (b.z - a.z)};
}

/// The shallowest way out of a solid: axis, sign and depth; depth <= 0 outside.
struct WayOut {
    Axis axis = Axis::Y;
    double sign = 1.0;
    double depth = 0.0;
};

WayOut way_out(const Solid& solid, const Point3& p, double radius) {
    WayOut best{Axis::Y, 1.0, 1e9};
    for (const Axis axis : {Axis::X, Axis::Y, Axis::Z}) {
        const double below = along(p, axis) + radius - along(solid.low, axis);
        const double above = along(solid.high, axis) - along(p, axis) + radius;
        if (below < best.depth) {
            best = {axis, -1.0, below};
        }
        if (above < best.depth) {
            best = {axis, 1.0, above};
        }
        if (best.depth <= 0.0) {
            break;
        }
    }
    return best;
}

/// A posture that is tried, its body and its cost.
struct Trial {
    Posture posture{};
    Kinematics kinematics;
    double cost = 0.0;
};

/// Residuals of a trial, one after the other, into what takes them: begin(residual), pull(landmark,
/// direction) and end() for each. What takes them decides what they are for.
template <class Taker>
class Residuals {
  public:
    Residuals(const Problem& problem, const Body& body, Taker& taker)
        : problem_(problem), body_(body), taker_(taker) {}

    void run() {
        for (const Goal& goal : problem_.goals) {
            add_goal(goal);
        }
        add_flesh();
        if (problem_.balances && !problem_.support.empty()) {
            add_balance();
        }
    }

  private:
    void add_goal(const Goal& goal) {
        const double r = miss(goal, body_) * goal.weight;
        if (r == 0.0 && goal.at_least) {
            return;
        }
        taker_.begin(r);
        for (std::size_t i = 0; i < goal.count; ++i) {
            taker_.pull(goal.terms[i].landmark, unit(goal.axis),
                        goal.terms[i].weight * goal.weight);
        }
        taker_.end();
    }

    void add_flesh() {
        const auto& points = flesh();
        for (std::size_t i = 0; i < points.size(); ++i) {
            const FleshPoint& point = points[i];
            const Point3 at = flesh_position(point, body_);
            const double radius = point.radius * problem_.stature;
            const std::uint64_t bit = std::uint64_t{1} << i;
            if ((problem_.on_floor & bit) == 0 && at.y < radius) {
                push_out(point, {0, 1, 0}, radius - at.y);
            }
            for (const Solid& solid : problem_.solids) {
                if ((solid.touching & bit) != 0) {
                    continue;
                }
                const WayOut out = way_out(solid, at, radius);
                if (out.depth > 0.0) {
                    push_out(point, scaled(unit(out.axis), out.sign), out.depth);
                }
            }
        }
    }

    void push_out(const FleshPoint& point, const Point3& direction, double depth) {
        taker_.begin(-depth);
        taker_.pull(point.a, direction, 1.0 - point.towards_b);
        if (point.towards_b != 0.0) {
            taker_.pull(point.b, direction, point.towards_b);
        }
        taker_.end();
    }

    void add_balance() {
        const Point3 mass = centre_of_mass(body_);
        for (const HullEdge& edge : hull_edges(body_, problem_.support, mass)) {
            const double lack = problem_.balance_margin - edge.inside;
            if (lack <= 0.0) {
                continue;
            }
            const Point3 inwards{edge.normal_x * kBalanceWeight, 0.0,
                                 edge.normal_z * kBalanceWeight};
            taker_.begin(-lack * kBalanceWeight);
            for (const auto& [landmark, share] : mass_points()) {
                taker_.pull(landmark, inwards, share);
            }
            taker_.pull(edge.from, inwards, -1.0);
            taker_.end();
        }
    }

    const Problem& problem_;
    const Body& body_;
    Taker& taker_;
};

/// Takes only the cost.
struct CostTaker {
    double cost = 0.0;
    void begin(double residual) { cost += 0.5 * residual * residual; }
    void pull(Landmark /*landmark*/, const Point3& /*direction*/, double /*share*/) {}
    void end() {}
};

/// Takes the rows of the normal equations.
struct RowTaker {
    NormalEquations& equations;
    double residual = 0.0;
    void begin(double r) {
        residual = r;
        equations.begin_row();
    }
    void pull(Landmark landmark, const Point3& direction, double share) {
        equations.pull(landmark, scaled(direction, share));
    }
    void end() { equations.end_row(residual); }
};

/// Damped Gauss-Newton between two trials: where it stands and what it tries.
class Search {
  public:
    explicit Search(const Problem& problem) : problem_(problem), equations_(problem.sigma) {}

    /// Poses the body and counts half the sum of squares.
    void evaluate(Trial& trial) const {
        pose_into(trial.kinematics, trial.posture, problem_.stature);
        CostTaker taker;
        for (std::size_t i = 0; i < equations_.count(); ++i) {
            taker.begin(wish(trial, i));
        }
        Residuals<CostTaker>(problem_, trial.kinematics.body, taker).run();
        trial.cost = taker.cost;
    }

    void linearise(const Trial& trial) {
        equations_.clear(trial.kinematics);
        for (std::size_t i = 0; i < equations_.count(); ++i) {
            equations_.add_wish(i, wish(trial, i));
        }
        RowTaker taker{equations_};
        Residuals<RowTaker>(problem_, trial.kinematics.body, taker).run();
    }

    /// The posture after the move of the free angles for a damping, bounded by the ranges; gives
    /// the largest move in sigmas.
    double move(const Trial& from, double damping, Posture& to) {
        const NormalEquations::Steps steps = equations_.step(damping, held(from));
        to = from.posture;
        double largest = 0.0;
        for (std::size_t i = 0; i < equations_.count(); ++i) {
            const std::size_t dof = equations_.dof(i);
            to[dof] += std::clamp(steps[i], -4.0, 4.0) * problem_.sigma[dof];
            if (dof >= kTrunkFlexion) {
                const DofInfo& info = dof_info(dof);
                to[dof] = std::clamp(to[dof], info.low, info.high);
            }
            largest =
                std::max(largest, std::abs(to[dof] - from.posture[dof]) / problem_.sigma[dof]);
        }
        return largest;
    }

  private:
    double wish(const Trial& trial, std::size_t column) const {
        const std::size_t dof = equations_.dof(column);
        return (trial.posture[dof] - problem_.prior[dof]) / problem_.sigma[dof];
    }

    /// Columns at the end of their range and pushed beyond it.
    std::uint64_t held(const Trial& trial) const {
        std::uint64_t bits = 0;
        for (std::size_t i = 0; i < equations_.count(); ++i) {
            const std::size_t dof = equations_.dof(i);
            if (dof < kTrunkFlexion) {
                continue;
            }
            const DofInfo& info = dof_info(dof);
            const double gradient = equations_.gradient(i);
            const bool at_end = (trial.posture[dof] <= info.low && gradient > 0.0) ||
                                (trial.posture[dof] >= info.high && gradient < 0.0);
            bits |= at_end ? std::uint64_t{1} << i : 0;
        }
        return bits;
    }

    const Problem& problem_;
    NormalEquations equations_;
};

} // namespace

double along(const Point3& point, Axis axis) {
    return axis == Axis::X ? point.x : (axis == Axis::Y ? point.y : point.z);
}

double miss(const Goal& goal, const Body& body) {
    double sum = -goal.value;
    for (std::size_t i = 0; i < goal.count; ++i) {
        sum += goal.terms[i].weight * along(body.at(goal.terms[i].landmark), goal.axis);
    }
    return goal.at_least ? std::min(sum, 0.0) : sum;
}

const std::vector<FleshPoint>& flesh() {
    using L = Landmark;
    static const std::vector<FleshPoint> points = [] {
        std::vector<FleshPoint> out{
            {L::Pelvis, L::Pelvis, 0, 0.048},         {L::Waist, L::Waist, 0, 0.048},
            {L::Chest, L::Chest, 0, 0.052},           {L::Chest, L::NeckBase, 0.7, 0.05},
            {L::HeadCentre, L::HeadCentre, 0, 0.052}, {L::Nose, L::Nose, 0, 0.0},
        };
        const FleshPoint paired[] = {
            {L::ShoulderL, L::ShoulderL, 0, 0.035},
            {L::ElbowL, L::ElbowL, 0, 0.020},
            {L::ElbowL, L::WristL, 0.5, 0.018},
            {L::WristL, L::WristL, 0, 0.012},
            {L::KnuckleL, L::KnuckleL, 0, 0.008},
            {L::FingertipL, L::FingertipL, 0, 0.004},
            {L::HipL, L::HipL, 0, 0.048},
            {L::HipL, L::KneeL, 0.5, 0.036},
            {L::KneeL, L::KneeL, 0, 0.028},
            {L::KneeL, L::AnkleL, 0.5, 0.025},
            {L::AnkleL, L::AnkleL, 0, 0.02},
            {L::HeelL, L::HeelL, 0, 0.0},
            {L::BallInnerL, L::BallInnerL, 0, 0.0},
            {L::BallOuterL, L::BallOuterL, 0, 0.0},
            {L::ToeL, L::ToeL, 0, 0.0},
        };
        for (const FleshPoint& point : paired) {
            out.push_back(point);
            out.push_back({left_or_right(point.a, 1), left_or_right(point.b, 1), point.towards_b,
                           point.radius});
        }
        return out;
    }();
    return points;
}

Posture optimise(const Problem& problem, const Posture& start, int max_steps) {
    Search search(problem);
    // Two of them in turns: the better one is the next to start from.
    std::array<Trial, 2> trials;
    Trial* now = &trials[0];
    Trial* tried = &trials[1];
    now->posture = start;
    for (std::size_t dof = kTrunkFlexion; dof < kDofs; ++dof) {
        now->posture[dof] = std::clamp(start[dof], dof_info(dof).low, dof_info(dof).high);
    }
    search.evaluate(*now);
    double damping = std::max(kFirstDamping, problem.least_damping);
    for (int i = 0; i < max_steps && now->cost >= problem.enough; ++i) {
        search.linearise(*now);
        double largest = 1.0;
        double gain = 0.0;
        bool better = false;
        // A step too small to be seen that gains nothing will not gain by being shorter.
        while (!better && largest >= kSmallStep) {
            largest = search.move(*now, damping, tried->posture);
            search.evaluate(*tried);
            gain = now->cost - tried->cost;
            better = gain > 0.0;
            damping = better ? std::max(damping * 0.2, problem.least_damping) : damping * 6.0;
        }
        if (!better) {
            break;
        }
        const double before = now->cost;
        std::swap(now, tried);
        if (largest < kSmallStep || gain < problem.least_gain * before) {
            break;
        }
    }
    return now->posture;
}

double deepest_intrusion(const Problem& problem, const Body& body) {
    double deepest = 0.0;
    const auto& points = flesh();
    for (std::size_t i = 0; i < points.size(); ++i) {
        const Point3 at = flesh_position(points[i], body);
        const double radius = points[i].radius * problem.stature;
        const std::uint64_t bit = std::uint64_t{1} << i;
        if ((problem.on_floor & bit) == 0) {
            deepest = std::max(deepest, radius - at.y);
        }
        for (const Solid& solid : problem.solids) {
            if ((solid.touching & bit) == 0) {
                deepest = std::max(deepest, way_out(solid, at, radius).depth);
            }
        }
    }
    return deepest;
}

} // namespace tickleaf::figure
