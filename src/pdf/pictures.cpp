// SPDX-License-Identifier: MIT
#include "pdf/pictures.h"

#include <algorithm>
#include <string_view>

namespace tickleaf::pdf {

Pictures::Pictures(const page::Document& document) {
    for (const page::Page& page : document.pages) {
        for (const page::Item& item : page.items) {
            const auto* placed = std::get_if<page::PlacedPicture>(&item.content);
            if (placed != nullptr &&
                std::find(all_.begin(), all_.end(), placed->picture.get()) == all_.end()) {
                all_.push_back(placed->picture.get());
            }
        }
    }
}

std::string Pictures::name(const page::Picture& picture) const {
    const auto found = std::find(all_.begin(), all_.end(), &picture);
    return "I" + std::to_string(found - all_.begin());
}

void add_pictures(Objects& objects, const Pictures& pictures, Dict resources) {
    for (const page::Picture* picture : pictures.all()) {
        const std::string_view samples(reinterpret_cast<const char*>(picture->samples.data()),
                                       picture->samples.size());
        Dict image = objects.stream(samples, Packing::Deflate);
        image.name("Type", "XObject")
            .name("Subtype", "Image")
            .integer("Width", picture->width)
            .integer("Height", picture->height)
            .name("ColorSpace", picture->grey ? "DeviceGray" : "DeviceRGB")
            .integer("BitsPerComponent", 8);
        resources.put(pictures.name(*picture).c_str(), image);
    }
}

} // namespace tickleaf::pdf
