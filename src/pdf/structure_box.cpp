// SPDX-License-Identifier: MIT
#include "pdf/structure_box.h"

#include "page/bounds.h"

namespace tickleaf::pdf {

namespace {

std::size_t enclosing_figure(const page::Document& document, std::size_t tag) {
    while (tag != page::kArtifact && document.tags[tag].role != page::Tag::Role::Figure) {
        tag = document.tags[tag].parent;
    }
    return tag;
}

} // namespace

std::vector<std::optional<Box>> figure_boxes(const page::Document& document) {
    std::vector<std::optional<Box>> boxes(document.tags.size());
    std::vector<std::optional<page::Box>> extents(document.tags.size());
    std::vector<std::size_t> page_of(document.tags.size(), page::kArtifact);
    std::vector<bool> split(document.tags.size());
    for (std::size_t number = 0; number < document.pages.size(); ++number) {
        for (const page::Item& item : document.pages[number].items) {
            const std::size_t tag = enclosing_figure(document, item.tag);
            if (tag == page::kArtifact) {
                continue;
            }
            split[tag] = split[tag] || (page_of[tag] != page::kArtifact && page_of[tag] != number);
            page_of[tag] = number;
            if (const auto box = page::bounds_of(item.content, {})) {
                extents[tag] = extents[tag] ? extents[tag]->joined(*box) : *box;
            }
        }
    }
    for (std::size_t tag = 0; tag < boxes.size(); ++tag) {
        if (extents[tag] && !split[tag]) {
            const page::Box& e = *extents[tag];
            const double height = document.pages[page_of[tag]].height;
            boxes[tag] = Box{e.x0, height - e.y1, e.x1, height - e.y0};
        }
    }
    return boxes;
}

} // namespace tickleaf::pdf
