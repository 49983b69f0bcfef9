// SPDX-License-Identifier: MIT
// librsvg, loaded when a clinic's logo is an SVG and not before: it brings nineteen libraries
// along, which would cost every booklet 4 ms of start-up.
#pragma once

#include <librsvg/rsvg.h>

#include <optional>

namespace tickleaf::draw {

/// The functions used, by their own names.
struct SvgLibrary {
    decltype(&::rsvg_handle_new_from_data) handle_new_from_data = nullptr;
    decltype(&::rsvg_handle_get_intrinsic_dimensions) get_intrinsic_dimensions = nullptr;
    decltype(&::rsvg_handle_get_intrinsic_size_in_pixels) get_intrinsic_size = nullptr;
    decltype(&::rsvg_handle_render_document) render_document = nullptr;
    decltype(&::g_object_unref) object_unref = nullptr;
    decltype(&::g_error_free) error_free = nullptr;

    /// Nothing where it is not installed. It stays loaded.
    static std::optional<SvgLibrary> load();
};

} // namespace tickleaf::draw
