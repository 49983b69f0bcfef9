// SPDX-License-Identifier: MIT
// Normal equations of one Gauss-Newton step over the free angles, in units of their sigma.
// Shapes: rows are added one residual at a time, as pulls on landmarks; only the lower half is
// kept.
// Units: residuals without unit, pulls in 1/mm. Cost: no allocation; a row costs the square of the
// angles it hangs on.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

#include <Eigen/Core>

#include "figure/skeleton.h"

namespace tickleaf::figure {

class NormalEquations {
  public:
    using Sigma = std::array<double, kDofs>;

    explicit NormalEquations(const Sigma& sigma);

    std::size_t count() const { return count_; }
    std::size_t dof(std::size_t column) const { return free_[column]; }

    /// Forgets all rows; `kinematics` is the body that the next rows pull on.
    void clear(const Kinematics& kinematics);
    /// A wish of one free angle: residual in sigmas.
    void add_wish(std::size_t column, double residual);

    /// One residual: begin, pulls, end.
    void begin_row();
    void pull(Landmark landmark, const Point3& direction);
    void end_row(double residual);

    using Steps = std::array<double, kDofs>;
    /// The damped step of every free column; columns set in `held` do not move.
    Steps step(double damping, std::uint64_t held);
    double gradient(std::size_t column) const { return gradient_[column]; }

  private:
    /// A turn as rows see it: slope = axis . (point x pull) - moment . pull.
    struct Lever {
        int column = -1;
        Point3 axis{};
        Point3 moment{};
    };
    using Matrix = Eigen::Matrix<double, kDofs, kDofs>;

    void add_to(int column, double slope) {
        row_[static_cast<std::size_t>(column)] += slope;
        used_ |= std::uint64_t{1} << static_cast<unsigned>(column);
    }
    void factor();

    const Sigma& sigma_;
    const Kinematics* kinematics_ = nullptr;
    std::size_t count_ = 0;
    std::array<std::size_t, kDofs> free_{};
    std::array<int, kDofs> column_{};
    std::uint64_t free_turns_ = 0;
    std::array<Lever, kTurns> levers_{};
    std::array<double, kDofs> row_{};
    std::uint64_t used_ = 0; ///< columns of the row that may be other than zero
    std::array<double, kDofs> gradient_{};
    Matrix normal_;
    Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, kDofs, kDofs> factors_;
    Eigen::Matrix<double, Eigen::Dynamic, 1, 0, kDofs, 1> solution_;
};

} // namespace tickleaf::figure
