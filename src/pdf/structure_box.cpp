// SPDX-License-Identifier: MIT
#include "pdf/structure_box.h"

#include <algorithm>

namespace tickleaf::pdf {

namespace {

/// A box that grows, page axes (y down).
struct Extent {
    bool is_empty = true;
    double x0 = 0.0, y0 = 0.0, x1 = 0.0, y1 = 0.0;
    void add(double x, double y) {
        x0 = is_empty ? x : std::min(x0, x);
        y0 = is_empty ? y : std::min(y0, y);
        x1 = is_empty ? x : std::max(x1, x);
        y1 = is_empty ? y : std::max(y1, y);
        is_empty = false;
    }
};

void add_content(Extent& extent, const page::Content& content) {
    if (const auto* run = std::get_if<page::GlyphRun>(&content)) {
        extent.add(run->origin.x, run->origin.y - run->size * 0.8);
        extent.add(run->origin.x + run->width(), run->origin.y + run->size * 0.2);
    } else if (const auto* placed = std::get_if<page::PlacedDrawing>(&content)) {
        extent.add(placed->origin.x, placed->origin.y);
        extent.add(placed->origin.x + placed->drawing->width * placed->scale,
                   placed->origin.y + placed->drawing->height * placed->scale);
    } else if (const auto* picture = std::get_if<page::PlacedPicture>(&content)) {
        extent.add(picture->origin.x, picture->origin.y);
        extent.add(picture->origin.x + picture->width, picture->origin.y + picture->height);
    } else if (const auto* shape = std::get_if<page::Shape>(&content)) {
        for (const page::PathStep& step : shape->path) {
            if (step.kind != page::PathStep::Kind::Close) {
                extent.add(step.to.x, step.to.y);
            }
        }
    }
}

std::size_t enclosing_figure(const page::Document& document, std::size_t tag) {
    while (tag != page::kArtifact && document.tags[tag].role != page::Tag::Role::Figure) {
        tag = document.tags[tag].parent;
    }
    return tag;
}

} // namespace

std::vector<std::optional<Box>> figure_boxes(const page::Document& document) {
    std::vector<std::optional<Box>> boxes(document.tags.size());
    std::vector<Extent> extents(document.tags.size());
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
            add_content(extents[tag], item.content);
        }
    }
    for (std::size_t tag = 0; tag < boxes.size(); ++tag) {
        if (!extents[tag].is_empty && !split[tag]) {
            const Extent& e = extents[tag];
            const double height = document.pages[page_of[tag]].height;
            boxes[tag] = Box{e.x0, height - e.y1, e.x1, height - e.y0};
        }
    }
    return boxes;
}

} // namespace tickleaf::pdf
