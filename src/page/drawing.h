// SPDX-License-Identifier: MIT
// A vector drawing as data: paths with strokes and fills, and the few labels that need a font.
// Units: points at natural size; origin top left, y down. Scaled by layout, never re-drawn.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace tickleaf::page {

struct Point {
    double x = 0.0;
    double y = 0.0;
    bool operator==(const Point&) const = default;
};

/// sRGB, 8 bits a channel. Contrast rules are tested on these values (WCAG 2.x 1.4.3, 1.4.11).
struct Colour {
    std::uint8_t red = 0;
    std::uint8_t green = 0;
    std::uint8_t blue = 0;
    bool operator==(const Colour&) const = default;
};

/// One step of a path; `a` and `b` are control points of a cubic Bezier, `to` its end.
struct PathStep {
    enum class Kind { Move, Line, Curve, Close };
    Kind kind = Kind::Move;
    Point to{};
    Point a{};
    Point b{};
    bool operator==(const PathStep&) const = default;
};
using Path = std::vector<PathStep>;

struct Stroke {
    enum class Cap { Butt, Round };
    double width = 1.0;
    Colour colour{};
    std::vector<double> dashes; ///< empty for a full line
    Cap cap = Cap::Round;       ///< joins are round with round caps, mitred with butt caps
    bool operator==(const Stroke&) const = default;
};

/// A path painted: fill first, then stroke.
struct Shape {
    Path path;
    std::optional<Colour> fill;
    std::optional<Stroke> stroke;
    /// Added to every point. Pictures of one body keep their own coordinates and differ by this
    /// alone, so that what they repeat (a ghost, a chair) compresses to almost nothing in a file.
    Point offset{};
    /// The path where it stands: with the offset added.
    Path placed() const;
    bool operator==(const Shape&) const = default;
};

/// A short text in a drawing, such as a panel number. `height` is the type size in points.
struct Label {
    enum class Anchor { Start, Middle, End };
    Point at{}; ///< on the baseline
    std::string text;
    double height = 8.0;
    Anchor anchor = Anchor::Middle;
    Colour colour{};
    bool bold = true;
};

struct Drawing {
    double width = 0.0;
    double height = 0.0;
    std::vector<Shape> shapes; ///< painted in order
    std::vector<Label> labels; ///< painted last
};

// Builders for common paths.
Path rectangle(double x, double y, double width, double height);
Path rounded_rectangle(double x, double y, double width, double height, double radius);
Path circle(Point centre, double radius);
Path line(Point from, Point to);
Path polygon(const std::vector<Point>& corners);
/// The same path scaled by `factor` about the origin and then moved by `offset`.
Path transformed(const Path& path, double factor, Point offset);

} // namespace tickleaf::page
