// SPDX-License-Identifier: MIT
#include "draw/svg_library.h"

#include <dlfcn.h>

namespace tickleaf::draw {

namespace {

template <class Function>
bool find(void* library, const char* name, Function& function) {
    function = reinterpret_cast<Function>(dlsym(library, name));
    return function != nullptr;
}

} // namespace

std::optional<SvgLibrary> SvgLibrary::load() {
    void* library = dlopen("librsvg-2.so.2", RTLD_NOW | RTLD_LOCAL);
    SvgLibrary found;
    if (library != nullptr &&
        find(library, "rsvg_handle_new_from_data", found.handle_new_from_data) &&
        find(library, "rsvg_handle_get_intrinsic_dimensions", found.get_intrinsic_dimensions) &&
        find(library, "rsvg_handle_get_intrinsic_size_in_pixels", found.get_intrinsic_size) &&
        find(library, "rsvg_handle_render_document", found.render_document) &&
        find(library, "g_object_unref", found.object_unref) &&
        find(library, "g_error_free", found.error_free)) {
        return found;
    }
    return std::nullopt;
}

} // namespace tickleaf::draw
