// SPDX-License-Identifier: MIT
#include "layout/impose.h"

#include <utility>

#include "support/finding.h"

namespace tickleaf::layout {

namespace {

using page::Point;

/// Moves what stands on a page.
struct Move {
    Point by{};
    void operator()(page::GlyphRun& run) const {
        run.origin.x += by.x;
        run.origin.y += by.y;
    }
    void operator()(page::PlacedDrawing& drawing) const {
        drawing.origin.x += by.x;
        drawing.origin.y += by.y;
    }
    void operator()(page::PlacedPicture& picture) const {
        picture.origin.x += by.x;
        picture.origin.y += by.y;
    }
    void operator()(page::Shape& shape) const {
        shape.path = page::transformed(shape.path, 1.0, by);
    }
    void operator()(page::Link& link) const {
        link.x += by.x;
        link.y += by.y;
    }
};

void lay(page::Page& side, page::Page&& page, Point at) {
    for (page::Item& item : page.items) {
        std::visit(Move{at}, item.content);
        side.items.push_back(std::move(item));
    }
}

page::Item fold(const page::Page& side, page::Colour colour) {
    page::Shape shape;
    shape.path = page::line({side.width / 2.0, 0.0}, {side.width / 2.0, side.height});
    page::Stroke stroke;
    stroke.width = 0.5;
    stroke.colour = colour;
    stroke.dashes = {2.0, 6.0};
    stroke.cap = page::Stroke::Cap::Butt;
    shape.stroke = std::move(stroke);
    return {std::move(shape), page::kArtifact, true};
}

} // namespace

std::vector<SheetSide> saddle_stitch(std::size_t pages, bool right_bound) {
    support::internal_error_if(pages % 4 != 0, "impose: the pages are no multiple of four");
    std::vector<SheetSide> sides;
    for (std::size_t i = 0; i < pages / 4; ++i) {
        SheetSide front{pages - 1 - 2 * i, 2 * i};
        SheetSide back{1 + 2 * i, pages - 2 - 2 * i};
        if (right_bound) {
            std::swap(front.left, front.right);
            std::swap(back.left, back.right);
        }
        sides.push_back(front);
        sides.push_back(back);
    }
    return sides;
}

page::Document impose(page::Document document, const Paper& sheet, page::Colour fold_line) {
    std::vector<page::Page> pages = std::move(document.pages);
    const auto sides = saddle_stitch(pages.size(), document.right_to_left);
    std::vector<std::size_t> side_of(pages.size());
    double top = 0.0;
    document.pages.clear();
    for (std::size_t i = 0; i < sides.size(); ++i) {
        page::Page side;
        side.width = sheet.height.pt();
        side.height = sheet.width.pt();
        page::Page& left = pages[sides[i].left];
        page::Page& right = pages[sides[i].right];
        side_of[sides[i].left] = i;
        side_of[sides[i].right] = i;
        // Both pages touch the fold; what the sheet is larger lies at the outer edges.
        top = (side.height - left.height) / 2.0;
        const double middle = side.width / 2.0;
        const double left_width = left.width;
        lay(side, std::move(left), {middle - left_width, top});
        lay(side, std::move(right), {middle, top});
        side.items.push_back(fold(side, fold_line));
        document.pages.push_back(std::move(side));
    }
    for (page::OutlineEntry& entry : document.outline) {
        entry.page = side_of.at(entry.page);
        entry.y += top;
    }
    for (page::Page& side : document.pages) {
        for (page::Item& item : side.items) {
            auto* link = std::get_if<page::Link>(&item.content);
            if (link != nullptr && link->uri.empty()) {
                link->page = side_of.at(link->page);
                link->target_y += top;
            }
        }
    }
    document.duplex_short_edge = true;
    document.no_print_scaling = true;
    document.claims_accessibility = false;
    return document;
}

} // namespace tickleaf::layout
