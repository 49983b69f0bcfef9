// SPDX-License-Identifier: MIT
// A PNG file in memory as cairo reads it: in pieces, to an error where it ends too soon.
#pragma once

#include <cairo.h>

#include <cstddef>
#include <string>

namespace tickleaf::draw {

struct PngBytes {
    const std::string& bytes;
    std::size_t at = 0;
};

/// A cairo_read_func_t; `closure` is a PngBytes.
cairo_status_t read_png_bytes(void* closure, unsigned char* data, unsigned int count);

} // namespace tickleaf::draw
