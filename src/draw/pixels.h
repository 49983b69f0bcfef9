// SPDX-License-Identifier: MIT
// A picture as grey pixels, so that pictures are compared as what is seen and never as compressed
// bytes. Errors: bytes that are no PNG throw std::runtime_error.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace tickleaf::draw {

struct Pixels {
    int width = 0;
    int height = 0;
    std::vector<std::uint8_t> grey; ///< row by row; luma of ITU-R BT.601
};

Pixels read_png(const std::string& bytes);

} // namespace tickleaf::draw
