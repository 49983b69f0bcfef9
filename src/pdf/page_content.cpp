// SPDX-License-Identifier: MIT
#include "pdf/page_content.h"

#include <algorithm>
#include <vector>

#include "pdf/content_stream.h"
#include "pdf/painting_order.h"
#include "pdf/text_painter.h"

namespace tickleaf::pdf {

namespace {

bool is_link(const page::Item& item) {
    return std::holds_alternative<page::Link>(item.content);
}
bool is_text(const page::Item& item) {
    return std::holds_alternative<page::GlyphRun>(item.content);
}

double top_of(const page::Item& item) {
    if (const auto* run = std::get_if<page::GlyphRun>(&item.content)) {
        return run->origin.y;
    }
    if (const auto* placed = std::get_if<page::PlacedDrawing>(&item.content)) {
        return placed->origin.y;
    }
    if (const auto* picture = std::get_if<page::PlacedPicture>(&item.content)) {
        return picture->origin.y;
    }
    const auto* shape = std::get_if<page::Shape>(&item.content);
    return shape != nullptr && !shape->path.empty() ? shape->path.front().to.y : 0.0;
}

class PagePainter {
  public:
    PagePainter(const page::Page& page, const ContentContext& context)
        : page_(page), context_(context), order_(painting_order(page, context.document.tags)) {}

    PageContent paint() {
        for (std::size_t i = 0; i < order_.size();) {
            if (is_link(item(i))) {
                add_link(i);
                ++i;
                continue;
            }
            const std::size_t end = group_end(i);
            paint_group(i, end);
            i = end;
        }
        content_.stream = stream_.finish();
        std::stable_sort(content_.pieces.begin(), content_.pieces.end(),
                         [](const Piece& a, const Piece& b) { return a.item < b.item; });
        return std::move(content_);
    }

  private:
    /// The item painted at a place of the order.
    const page::Item& item(std::size_t place) const { return page_.items[order_[place]]; }

    /// Places [begin, end) that go into one marked-content sequence; links in between do not count.
    std::size_t group_end(std::size_t begin) const {
        std::size_t end = begin;
        for (std::size_t i = begin; i < order_.size(); ++i) {
            if (is_link(item(i))) {
                continue;
            }
            if (item(i).tag != item(begin).tag || item(i).pagination != item(begin).pagination) {
                break;
            }
            end = i + 1;
        }
        return end;
    }

    void add_link(std::size_t place) {
        content_.pieces.push_back(
            Piece{Piece::Kind::Annotation, item(place).tag, order_[place], order_[place]});
    }

    void paint_group(std::size_t begin, std::size_t end) {
        bool text_only = true;
        for (std::size_t i = begin; i < end; ++i) {
            text_only = text_only && (is_text(item(i)) || is_link(item(i)));
        }
        begin_group(begin, text_only);
        for (std::size_t i = begin; i < end; ++i) {
            if (is_link(item(i))) {
                add_link(i);
            } else {
                paint_item(item(i));
            }
        }
        stream_.end_mark();
    }

    void begin_group(std::size_t place, bool text_only) {
        const page::Item& first = item(place);
        if (first.tag == page::kArtifact) {
            const bool header = top_of(first) < page_.height / 2.0;
            const char* properties = header ? "<</Type/Pagination/Subtype/Header>>"
                                            : "<</Type/Pagination/Subtype/Footer>>";
            stream_.begin_mark("Artifact", first.pagination ? properties : "", text_only);
            return;
        }
        content_.pieces.push_back(
            Piece{Piece::Kind::Marked, first.tag, content_.marked, order_[place]});
        // What the sequence is stands in its element; one name for all compresses better.
        stream_.begin_mark("P", "<</MCID " + std::to_string(content_.marked) + ">>", text_only);
        ++content_.marked;
    }

    void paint_item(const page::Item& item) {
        if (const auto* run = std::get_if<page::GlyphRun>(&item.content)) {
            const std::string& around = item.tag == page::kArtifact ? context_.document.language
                                                                    : context_.languages[item.tag];
            paint_run(stream_, *run,
                      TextPlace{.page_height = page_.height,
                                .language = around,
                                .codes = context_.fonts[run->font],
                                .findings = context_.findings});
        } else if (const auto* placed = std::get_if<page::PlacedDrawing>(&item.content)) {
            paint_placed(*placed);
        } else if (const auto* picture = std::get_if<page::PlacedPicture>(&item.content)) {
            // An image fills the unit square, its first row at the top.
            stream_.push(picture->width, picture->height,
                         {picture->origin.x, page_.height - picture->origin.y - picture->height});
            stream_.draw_form(context_.pictures.name(*picture->picture));
            stream_.pop();
        } else if (const auto* shape = std::get_if<page::Shape>(&item.content)) {
            stream_.shape(*shape, Placement{1.0, -1.0, {0.0, page_.height}});
        }
    }

    void paint_placed(const page::PlacedDrawing& placed) {
        const page::Point origin{placed.origin.x, page_.height - placed.origin.y};
        stream_.push(placed.scale, -placed.scale, origin);
        const std::string name = context_.drawings.name(placed.drawing.get());
        if (name.empty()) {
            paint_drawing(stream_, *placed.drawing);
        } else {
            stream_.draw_form(name);
        }
        stream_.pop();
    }

    const page::Page& page_;
    const ContentContext& context_;
    std::vector<std::size_t> order_;
    ContentStream stream_;
    PageContent content_;
};

} // namespace

SharedDrawings::SharedDrawings(const page::Document& document) {
    std::map<const page::Drawing*, std::size_t> uses;
    std::vector<const page::Drawing*> distinct;
    const auto first_alike = [&](const page::Drawing* drawing) {
        // Labels are set as text by layout/, so drawings that differ in them alone are one here.
        const auto alike = [&](const page::Drawing* other) {
            return other->shapes == drawing->shapes;
        };
        const auto found = std::find_if(distinct.begin(), distinct.end(), alike);
        return found == distinct.end() ? distinct.emplace_back(drawing) : *found;
    };
    for (const page::Page& page : document.pages) {
        for (const page::Item& item : page.items) {
            const auto* placed = std::get_if<page::PlacedDrawing>(&item.content);
            if (placed == nullptr) {
                continue;
            }
            const page::Drawing* drawing = first_alike(placed->drawing.get());
            alike_[placed->drawing.get()] = drawing;
            if (++uses[drawing] == 2) {
                index_[drawing] = shared_.size();
                shared_.push_back(drawing);
            }
        }
    }
}

std::string SharedDrawings::name(const page::Drawing* drawing) const {
    const auto found = index_.find(alike_.at(drawing));
    return found == index_.end() ? std::string() : "X" + std::to_string(found->second);
}

namespace {

/// Drawings come in fifths of a point: written as whole numbers they take a quarter less room.
constexpr double kDrawingUnits = 5.0;

/// Line widths and dashes in drawing units; the path is scaled as it is written, its offset by the
/// matrix.
page::Shape in_units(page::Shape shape) {
    shape.offset = {};
    if (shape.stroke) {
        shape.stroke->width *= kDrawingUnits;
        for (double& dash : shape.stroke->dashes) {
            dash *= kDrawingUnits;
        }
    }
    return shape;
}

} // namespace

void paint_drawing(ContentStream& stream, const page::Drawing& drawing) {
    const Placement to_units{kDrawingUnits, kDrawingUnits, {}};
    for (std::size_t i = 0; i < drawing.shapes.size(); ++i) {
        const page::Point offset = drawing.shapes[i].offset;
        if (i == 0 || offset != drawing.shapes[i - 1].offset) {
            if (i > 0) {
                stream.pop();
            }
            stream.push(1.0 / kDrawingUnits, 1.0 / kDrawingUnits, offset);
        }
        stream.shape(in_units(drawing.shapes[i]), to_units);
    }
    if (!drawing.shapes.empty()) {
        stream.pop();
    }
}

PageContent write_page(const page::Page& page, const ContentContext& context) {
    return PagePainter(page, context).paint();
}

const char* role_name(page::Tag::Role role) {
    using Role = page::Tag::Role;
    switch (role) {
    case Role::Document:
        return "Document";
    case Role::Sect:
        return "Sect";
    case Role::H1:
        return "H1";
    case Role::H2:
        return "H2";
    case Role::H3:
        return "H3";
    case Role::P:
        return "P";
    case Role::L:
        return "L";
    case Role::LI:
        return "LI";
    case Role::Lbl:
        return "Lbl";
    case Role::LBody:
        return "LBody";
    case Role::Table:
        return "Table";
    case Role::TR:
        return "TR";
    case Role::TH:
        return "TH";
    case Role::TD:
        return "TD";
    case Role::Figure:
        return "Figure";
    case Role::Caption:
        return "Caption";
    case Role::Form:
        return "Form";
    case Role::Link:
        return "Link";
    case Role::Reference:
        return "Reference";
    case Role::Span:
        return "Span";
    case Role::TOC:
        return "TOC";
    case Role::TOCI:
        return "TOCI";
    case Role::Note:
        return "Note";
    case Role::Div:
        return "Div";
    }
    return "P";
}

} // namespace tickleaf::pdf
