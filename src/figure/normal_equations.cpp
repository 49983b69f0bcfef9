// SPDX-License-Identifier: MIT
#include "figure/normal_equations.h"

#include <algorithm>
#include <bit>
#include <cmath>

#include "support/angle.h"

namespace tickleaf::figure {
namespace {

constexpr Eigen::Index kPanel = 4;
constexpr double kRadians = support::Angle::kPi / 180.0;

std::uint64_t bit(std::size_t i) {
    return std::uint64_t{1} << i;
}

Point3 scaled(const Point3& p, double k) {
    return {k * p.x, k * p.y, k * p.z};
}
double dot(const Point3& a, const Point3& b) {
    return a.x * b.x + a.y * b.y + a.z * b.z;
}
Point3 cross(const Point3& a, const Point3& b) {
    return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}

/// Calls `each` with the index of every set bit, lowest first.
template <class Each>
void for_bits(std::uint64_t bits, Each each) {
    for (; bits != 0; bits &= bits - 1) {
        each(static_cast<std::size_t>(std::countr_zero(bits)));
    }
}

/// Column j less its share of four columns left of it, from row j down.
void take_off(double* column, const double* panel, Eigen::Index j, Eigen::Index n) {
    const double* a = panel;
    const double* b = a + n;
    const double* c = b + n;
    const double* d = c + n;
    const double fa = a[j];
    const double fb = b[j];
    const double fc = c[j];
    const double fd = d[j];
    for (Eigen::Index i = j; i < n; ++i) {
        column[i] -= fa * a[i] + fb * b[i] + fc * c[i] + fd * d[i];
    }
}

} // namespace

NormalEquations::NormalEquations(const Sigma& sigma) : sigma_(sigma) {
    column_.fill(-1);
    for (std::size_t dof = 0; dof < kDofs; ++dof) {
        if (sigma_[dof] > 0.0) {
            column_[dof] = static_cast<int>(count_);
            free_[count_++] = dof;
        }
    }
    const auto& turns = turn_specs();
    for (std::size_t i = 0; i < kTurns; ++i) {
        levers_[i].column = column_[turns[i].dof];
        if (levers_[i].column >= 0) {
            free_turns_ |= bit(i);
        }
    }
}

void NormalEquations::clear(const Kinematics& kinematics) {
    kinematics_ = &kinematics;
    const auto n = static_cast<Eigen::Index>(count_);
    normal_.topLeftCorner(n, n).setZero();
    gradient_.fill(0.0);
    for_bits(free_turns_, [&](std::size_t i) {
        const Turn& turn = kinematics.turns[i];
        const double weight = turn.factor * kRadians * sigma_[turn.dof];
        levers_[i].axis = scaled(turn.axis, weight);
        levers_[i].moment = cross(levers_[i].axis, turn.origin);
    });
}

void NormalEquations::add_wish(std::size_t column, double residual) {
    const auto k = static_cast<Eigen::Index>(column);
    normal_(k, k) += 1.0;
    gradient_[column] += residual;
}

void NormalEquations::begin_row() {
    for_bits(used_, [this](std::size_t i) { row_[i] = 0.0; });
    used_ = 0;
}

void NormalEquations::pull(Landmark landmark, const Point3& direction) {
    const std::array<double, 3> shift{direction.x, direction.y, direction.z};
    for (std::size_t dof = kRootX; dof <= kRootZ; ++dof) {
        if (column_[dof] >= 0 && shift[dof] != 0.0) {
            add_to(column_[dof], shift[dof] * sigma_[dof]);
        }
    }
    const Point3 torque = cross(kinematics_->body.at(landmark), direction);
    for_bits(turns_of(landmark) & free_turns_, [&](std::size_t i) {
        const Lever& lever = levers_[i];
        add_to(lever.column, dot(lever.axis, torque) - dot(lever.moment, direction));
    });
}

void NormalEquations::end_row(double residual) {
    std::array<Eigen::Index, kDofs> at{};
    std::array<double, kDofs> slope{};
    std::size_t count = 0;
    for_bits(used_, [&](std::size_t i) {
        if (row_[i] != 0.0) {
            at[count] = static_cast<Eigen::Index>(i);
            slope[count++] = row_[i];
            gradient_[i] += row_[i] * residual;
        }
    });
    for (std::size_t a = 0; a < count; ++a) {
        double* column = normal_.data() + at[a] * normal_.rows();
        for (std::size_t b = a; b < count; ++b) {
            column[at[b]] += slope[a] * slope[b];
        }
    }
}

/// Cholesky, four columns at a time: factored among themselves, then taken off what is right of
/// them. Eigen's own has blocks of another kind, which cost twice as much at this size.
void NormalEquations::factor() {
    const Eigen::Index n = factors_.rows();
    for (Eigen::Index first = 0; first < n; first += kPanel) {
        const Eigen::Index end = std::min(first + kPanel, n);
        for (Eigen::Index k = first; k < end; ++k) {
            // Positive definite: each free angle adds its own wish to the diagonal.
            auto pivot = factors_.col(k).tail(n - k);
            pivot *= 1.0 / std::sqrt(pivot(0));
            for (Eigen::Index j = k + 1; j < end; ++j) {
                factors_.col(j).tail(n - j) -= factors_(j, k) * factors_.col(k).tail(n - j);
            }
        }
        const double* panel = factors_.data() + first * n;
        for (Eigen::Index j = end; j < n; ++j) {
            take_off(factors_.data() + j * n, panel, j, n);
        }
    }
}

NormalEquations::Steps NormalEquations::step(double damping, std::uint64_t held) {
    std::array<Eigen::Index, kDofs> live{};
    Eigen::Index n = 0;
    for_bits((bit(count_) - 1) & ~held, [&](std::size_t i) {
        live[static_cast<std::size_t>(n++)] = static_cast<Eigen::Index>(i);
    });
    factors_.resize(n, n);
    solution_.resize(n);
    for (Eigen::Index k = 0; k < n; ++k) {
        const Eigen::Index column = live[static_cast<std::size_t>(k)];
        for (Eigen::Index i = k; i < n; ++i) {
            factors_(i, k) = normal_(live[static_cast<std::size_t>(i)], column);
        }
        factors_(k, k) += damping * (1.0 + factors_(k, k));
        solution_(k) = -gradient_[static_cast<std::size_t>(column)];
    }
    factor();
    factors_.triangularView<Eigen::Lower>().solveInPlace(solution_);
    factors_.transpose().triangularView<Eigen::Upper>().solveInPlace(solution_);
    Steps steps{};
    for (Eigen::Index k = 0; k < n; ++k) {
        steps[static_cast<std::size_t>(live[static_cast<std::size_t>(k)])] = solution_(k);
    }
    return steps;
}

} // namespace tickleaf::figure
