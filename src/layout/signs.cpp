// SPDX-License-Identifier: MIT
#include "layout/signs.h"

#include <algorithm>
#include <utility>

namespace tickleaf::layout {

namespace {

constexpr page::Colour kWhite{255, 255, 255};

/// The stroke and the dot of an exclamation mark about the middle of a square.
Shapes exclamation(double size, double top, double bottom, page::Colour colour) {
    const double middle = size / 2.0;
    const double half = size * 0.065;
    const double dot = size * 0.075;
    const double foot = bottom - dot * 2.0 - size * 0.07;
    return {filled(page::polygon({{middle - half * 1.25, top},
                                  {middle + half * 1.25, top},
                                  {middle + half * 0.75, foot},
                                  {middle - half * 0.75, foot}}),
                   colour),
            filled(page::circle({middle, bottom - dot}, dot), colour)};
}

} // namespace

page::Shape filled(page::Path path, page::Colour colour) {
    page::Shape shape;
    shape.path = std::move(path);
    shape.fill = colour;
    return shape;
}

page::Shape outlined(page::Path path, page::Colour colour, double width) {
    page::Shape shape;
    shape.path = std::move(path);
    page::Stroke stroke;
    stroke.width = width;
    stroke.colour = colour;
    stroke.cap = page::Stroke::Cap::Butt;
    shape.stroke = stroke;
    return shape;
}

Shapes stop_sign(double size, page::Colour dark) {
    // Corners of a regular octagon cut the square's sides at 1 / (2 + sqrt 2).
    const double cut = size * 0.29289;
    const double far = size - cut;
    Shapes shapes{filled(page::polygon({{cut, 0},
                                        {far, 0},
                                        {size, cut},
                                        {size, far},
                                        {far, size},
                                        {cut, size},
                                        {0, far},
                                        {0, cut}}),
                         dark)};
    for (page::Shape& shape : exclamation(size, size * 0.18, size * 0.84, kWhite)) {
        shapes.push_back(std::move(shape));
    }
    return shapes;
}

Shapes caution_sign(double size, page::Colour dark) {
    const double line = std::max(1.2, size * 0.085);
    const double inset = line / 2.0;
    Shapes shapes{outlined(page::polygon({{size / 2.0, size * 0.06 + inset},
                                          {size - inset, size * 0.95 - inset},
                                          {inset, size * 0.95 - inset}}),
                           dark, line)};
    shapes.front().fill = kWhite;
    for (page::Shape& shape : exclamation(size, size * 0.36, size * 0.84, dark)) {
        shapes.push_back(std::move(shape));
    }
    return shapes;
}

Shapes go_sign(double size, page::Colour dark) {
    const double line = std::max(1.2, size * 0.085);
    Shapes shapes{
        outlined(page::circle({size / 2.0, size / 2.0}, (size - line) / 2.0), dark, line)};
    shapes.front().fill = kWhite;
    page::Shape mark = tick_mark(size, dark);
    shapes.push_back(std::move(mark));
    return shapes;
}

page::Shape tick_mark(double size, page::Colour dark) {
    page::Path tick = page::line({size * 0.28, size * 0.52}, {size * 0.44, size * 0.68});
    tick.push_back({page::PathStep::Kind::Line, {size * 0.73, size * 0.34}, {}, {}});
    page::Shape mark = outlined(std::move(tick), dark, std::max(1.4, size * 0.1));
    mark.stroke->cap = page::Stroke::Cap::Round;
    return mark;
}

Shapes notice_sign(double size, page::Colour dark) {
    const double middle = size / 2.0;
    const double half = size * 0.06;
    return {filled(page::circle({middle, middle}, middle), dark),
            filled(page::circle({middle, size * 0.27}, size * 0.085), kWhite),
            filled(page::rectangle(middle - half, size * 0.42, half * 2.0, size * 0.36), kWhite)};
}

page::Shape hatching(double width, double height, double step, page::Stroke stroke) {
    page::Shape shape;
    // Lines rise at 45 degrees: each runs from the lower or left edge to the upper or right edge.
    for (double at = step / 2.0; at < width + height; at += step) {
        const double x0 = std::max(0.0, at - height);
        const double x1 = std::min(width, at);
        const page::Path one = page::line({x0, at - x0}, {x1, at - x1});
        shape.path.insert(shape.path.end(), one.begin(), one.end());
    }
    stroke.cap = page::Stroke::Cap::Butt;
    shape.stroke = std::move(stroke);
    return shape;
}

} // namespace tickleaf::layout
