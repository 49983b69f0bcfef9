// SPDX-License-Identifier: MIT
#include "draw/palette.h"

#include <algorithm>
#include <cmath>

namespace tickleaf::draw {

namespace {

double linear(std::uint8_t channel) {
    const double c = static_cast<double>(channel) / 255.0;
    return c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

double luminance(page::Colour c) {
    return 0.2126 * linear(c.red) + 0.7152 * linear(c.green) + 0.0722 * linear(c.blue);
}

} // namespace

double contrast(page::Colour first, page::Colour second) {
    const double a = luminance(first);
    const double b = luminance(second);
    return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05);
}

} // namespace tickleaf::draw
