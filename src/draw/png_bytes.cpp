// SPDX-License-Identifier: MIT
#include "draw/png_bytes.h"

#include <cstring>

namespace tickleaf::draw {

cairo_status_t read_png_bytes(void* closure, unsigned char* data, unsigned int count) {
    auto* reader = static_cast<PngBytes*>(closure);
    if (count > reader->bytes.size() - reader->at) {
        return CAIRO_STATUS_READ_ERROR;
    }
    std::memcpy(data, reader->bytes.data() + reader->at, count);
    reader->at += count;
    return CAIRO_STATUS_SUCCESS;
}

} // namespace tickleaf::draw
