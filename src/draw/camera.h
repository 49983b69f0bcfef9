// SPDX-License-Identifier: MIT
// Parallel projection of the room on paper for each view.
// Units: the room in millimetres (y up), paper in points (y down); depth in points, larger is
// nearer the reader.
#pragma once

#include "figure/scene.h"
#include "page/drawing.h"

namespace tickleaf::draw {

using figure::Point3;

Point3 operator+(Point3 a, Point3 b);
Point3 operator-(Point3 a, Point3 b);
Point3 operator*(Point3 a, double factor);
double dot(Point3 a, Point3 b);
Point3 cross(Point3 a, Point3 b);
/// Length 1, or `otherwise` where the vector has no direction.
Point3 unit(Point3 a, Point3 otherwise);
Point3 between(Point3 a, Point3 b, double t);

/// A point on paper that remembers how near it is.
struct Spot {
    double x = 0.0;
    double y = 0.0;
    double depth = 0.0;
    page::Point flat() const { return {x, y}; }
};

class Camera {
  public:
    /// `scale` is points a millimetre. Side views look from `near_side`; any other value than Left
    /// is Right.
    Camera(figure::View view, support::Side near_side, double scale);
    Spot see(Point3 point) const;
    /// A direction of the room, in points on paper for each millimetre.
    Spot see_direction(Point3 direction) const { return see(direction); }
    Point3 toward() const { return toward_; }
    double scale() const { return scale_; }
    figure::View view() const { return view_; }
    /// The floor is seen as a line, not as a plane.
    bool is_level() const { return level_; }

  private:
    Point3 right_{};
    Point3 up_{};
    Point3 toward_{};
    double scale_ = 1.0;
    figure::View view_ = figure::View::Side;
    bool level_ = true;
};

} // namespace tickleaf::draw
