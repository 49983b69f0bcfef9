// SPDX-License-Identifier: MIT
#include "figure/optimise.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <Eigen/Cholesky>
#include <Eigen/Core>

#include "figure/balance.h"

namespace tickleaf::figure {
namespace {

constexpr double kBalanceWeight = 0.3;
constexpr double kFirstDamping = 1e-3;
constexpr double kMostDamping = 1e6;
constexpr double kSmallStep = 0.01; // of a sigma
constexpr double kSmallGain = 1e-4; // of the cost

using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, kDofs, kDofs>;
using Vector = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, kDofs, 1>;

/// A direction in the room times a share of a landmark: what a residual row is made of.
struct Pull {
    Landmark landmark;
    Point3 direction;
};

Point3 unit(Axis axis) {
    return {axis == Axis::X ? 1.0 : 0.0, axis == Axis::Y ? 1.0 : 0.0, axis == Axis::Z ? 1.0 : 0.0};
}

Point3 scaled(const Point3& p, double k) {
    return {k * p.x, k * p.y, k * p.z};
}

double dot(const Point3& a, const Point3& b) {
    return a.x * b.x + a.y * b.y + a.z * b.z;
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
    }
    return best;
}

/// Builds the normal equations of one step, in units of sigma.
class Step {
  public:
    explicit Step(const Problem& problem) : problem_(problem) {
        for (std::size_t dof = 0; dof < kDofs; ++dof) {
            column_[dof] = -1;
            if (problem.sigma[dof] > 0.0) {
                column_[dof] = static_cast<int>(free_.size());
                free_.push_back(dof);
            }
        }
        const auto n = static_cast<Eigen::Index>(free_.size());
        normal_.resize(n, n);
        damped_.resize(n, n);
        gradient_.resize(n);
        held_gradient_.resize(n);
        row_.resize(n);
    }

    void take(const Posture& posture) {
        posture_ = posture;
        pose_into(kinematics_, posture, problem_.stature);
    }
    const Posture& posture() const { return posture_; }

    /// Half the sum of squares, without derivatives.
    double cost() {
        derive_ = false;
        cost_ = 0.0;
        add_all();
        return cost_;
    }

    void linearise() {
        normal_.setZero();
        gradient_.setZero();
        derive_ = true;
        cost_ = 0.0;
        add_all();
    }

    /// Half the sum of squares at the last evaluation.
    double last_cost() const { return cost_; }

    /// The posture after the move of the free angles for a damping, bounded by the ranges.
    Posture moved(double damping, double& largest) {
        const auto n = static_cast<Eigen::Index>(free_.size());
        Matrix& damped = damped_;
        Vector& gradient = held_gradient_;
        damped = normal_;
        gradient = gradient_;
        for (Eigen::Index i = 0; i < n; ++i) {
            damped(i, i) += damping * (1.0 + damped(i, i));
            if (is_held(free_[static_cast<std::size_t>(i)], gradient(i))) {
                damped.row(i).setZero();
                damped.col(i).setZero();
                damped(i, i) = 1.0;
                gradient(i) = 0.0;
            }
        }
        // Positive definite: each free angle adds its own wish to the diagonal.
        const Eigen::LLT<Eigen::Ref<Matrix>, Eigen::Lower> factors(damped);
        const Vector step = factors.solve(-gradient);
        Posture next = posture_;
        largest = 0.0;
        for (Eigen::Index i = 0; i < n; ++i) {
            const std::size_t dof = free_[static_cast<std::size_t>(i)];
            next[dof] += std::clamp(step(i), -4.0, 4.0) * problem_.sigma[dof];
            if (dof >= kTrunkFlexion) {
                next[dof] = std::clamp(next[dof], dof_info(dof).low, dof_info(dof).high);
            }
            largest = std::max(largest, std::abs(next[dof] - posture_[dof]) / problem_.sigma[dof]);
        }
        return next;
    }

  private:
    /// At the end of its range and pushed beyond it.
    bool is_held(std::size_t dof, double gradient) const {
        if (dof < kTrunkFlexion) {
            return false;
        }
        const DofInfo& info = dof_info(dof);
        return (posture_[dof] <= info.low && gradient > 0.0) ||
               (posture_[dof] >= info.high && gradient < 0.0);
    }

    void add_all() {
        add_prior();
        for (const Goal& goal : problem_.goals) {
            add_goal(goal);
        }
        add_flesh();
        if (problem_.balances && !problem_.support.empty()) {
            add_balance();
        }
    }

    void add_prior() {
        for (std::size_t i = 0; i < free_.size(); ++i) {
            const std::size_t dof = free_[i];
            const double r = (posture_[dof] - problem_.prior[dof]) / problem_.sigma[dof];
            cost_ += 0.5 * r * r;
            if (derive_) {
                const auto k = static_cast<Eigen::Index>(i);
                normal_(k, k) += 1.0;
                gradient_(k) += r;
            }
        }
    }

    void add_goal(const Goal& goal) {
        const double r = miss(goal, kinematics_.body) * goal.weight;
        if (r == 0.0) {
            if (goal.at_least) {
                return;
            }
        }
        begin_row(r);
        for (std::size_t i = 0; i < goal.count; ++i) {
            pull(goal.terms[i].landmark,
                 scaled(unit(goal.axis), goal.terms[i].weight * goal.weight));
        }
        end_row();
    }

    void add_flesh() {
        const auto& points = flesh();
        for (std::size_t i = 0; i < points.size(); ++i) {
            const FleshPoint& point = points[i];
            const Point3 at = flesh_position(point, kinematics_.body);
            const double radius = point.radius * problem_.stature;
            const std::uint64_t bit = std::uint64_t{1} << i;
            if ((problem_.on_floor & bit) == 0 && at.y < radius) {
                push_out(point, {0, 1, 0}, radius - at.y);
            }
            for (const Solid& solid : problem_.solids) {
                const WayOut out = way_out(solid, at, radius);
                if ((solid.touching & bit) == 0 && out.depth > 0.0) {
                    push_out(point, scaled(unit(out.axis), out.sign), out.depth);
                }
            }
        }
    }

    void push_out(const FleshPoint& point, const Point3& direction, double depth) {
        begin_row(-depth);
        pull(point.a, scaled(direction, 1.0 - point.towards_b));
        pull(point.b, scaled(direction, point.towards_b));
        end_row();
    }

    void add_balance() {
        const Point3 mass = centre_of_mass(kinematics_.body);
        for (const HullEdge& edge : hull_edges(kinematics_.body, problem_.support, mass)) {
            const double lack = problem_.balance_margin - edge.inside;
            if (lack <= 0.0) {
                continue;
            }
            const Point3 inwards{edge.normal_x * kBalanceWeight, 0.0,
                                 edge.normal_z * kBalanceWeight};
            begin_row(-lack * kBalanceWeight);
            for (const auto& [landmark, share] : mass_points()) {
                pull(landmark, scaled(inwards, share));
            }
            pull(edge.from, scaled(inwards, -1.0));
            end_row();
        }
    }

    void begin_row(double residual) {
        residual_ = residual;
        cost_ += 0.5 * residual * residual;
        if (derive_) {
            row_.setZero();
        }
    }

    void pull(Landmark landmark, const Point3& direction) {
        if (!derive_) {
            return;
        }
        const std::uint64_t bit = std::uint64_t{1} << static_cast<std::size_t>(landmark);
        add_to_row(kRootX, direction.x);
        add_to_row(kRootY, direction.y);
        add_to_row(kRootZ, direction.z);
        for (const Turn& turn : kinematics_.turns) {
            if ((turn.moves & bit) != 0 && column_[turn.dof] >= 0) {
                add_to_row(turn.dof,
                           dot(derivative(turn, kinematics_.body.at(landmark)), direction));
            }
        }
    }

    void add_to_row(std::size_t dof, double slope) {
        if (column_[dof] >= 0) {
            row_(column_[dof]) += slope * problem_.sigma[dof];
        }
    }

    /// Adds the row to the lower half of the normal equations; most of its slopes are zero, as a
    /// landmark hangs on few joints.
    void end_row() {
        if (!derive_) {
            return;
        }
        std::size_t count = 0;
        for (Eigen::Index i = 0; i < row_.size(); ++i) {
            if (row_(i) != 0.0) {
                used_[count++] = i;
            }
        }
        for (std::size_t a = 0; a < count; ++a) {
            const double slope = row_(used_[a]);
            gradient_(used_[a]) += slope * residual_;
            for (std::size_t b = a; b < count; ++b) {
                normal_(used_[b], used_[a]) += slope * row_(used_[b]);
            }
        }
    }

    const Problem& problem_;
    Posture posture_{};
    Kinematics kinematics_;
    std::array<int, kDofs> column_{};
    std::vector<std::size_t> free_;
    bool derive_ = false;
    double cost_ = 0.0;
    double residual_ = 0.0;
    Vector row_; ///< slopes of one residual
    std::array<Eigen::Index, kDofs> used_{};
    Matrix normal_;
    Matrix damped_;
    Vector gradient_;
    Vector held_gradient_;
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
    Posture best = start;
    for (std::size_t dof = kTrunkFlexion; dof < kDofs; ++dof) {
        best[dof] = std::clamp(best[dof], dof_info(dof).low, dof_info(dof).high);
    }
    // Two of them in turns: the better candidate is the next one to start from.
    Step one(problem);
    Step two(problem);
    Step* now = &one;
    Step* tried = &two;
    now->take(best);
    double damping = kFirstDamping;
    for (int i = 0; i < max_steps; ++i) {
        now->linearise();
        const double cost = now->last_cost();
        if (cost < problem.enough) {
            break;
        }
        double largest = 0.0;
        double gain = 0.0;
        bool better = false;
        while (!better && damping < kMostDamping) {
            tried->take(now->moved(damping, largest));
            gain = cost - tried->cost();
            better = gain > 0.0;
            if (better) {
                std::swap(now, tried);
                damping = std::max(damping * 0.2, 1e-9);
            } else {
                damping *= 6.0;
            }
        }
        if (!better || largest < kSmallStep || gain < kSmallGain * cost) {
            break;
        }
    }
    return now->posture();
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
