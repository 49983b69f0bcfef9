// SPDX-License-Identifier: MIT
#include "page/document.h"

#include <array>
#include <cmath>

#include "support/json.h"

namespace tickleaf::page {

namespace {

using support::Json;

/// Positions to 1/100 point, so that a dump can be read and compared.
Json rounded(double value) {
    const double hundredths = std::nearbyint(value * 100.0) / 100.0;
    return hundredths == 0.0 ? 0.0 : hundredths;
}

const char* name_of(Tag::Role role) {
    constexpr std::array kNames{"Document",  "Sect", "H1",     "H2",      "H3",    "P",
                                "L",         "LI",   "Lbl",    "LBody",   "Table", "TR",
                                "TH",        "TD",   "Figure", "Caption", "Form",  "Link",
                                "Reference", "Span", "TOC",    "TOCI",    "Note",  "Div"};
    return kNames.at(static_cast<std::size_t>(role));
}

Json box(double x, double y, double width, double height) {
    return Json::array({rounded(x), rounded(y), rounded(width), rounded(height)});
}

Json shape_box(const Shape& shape) {
    bool first = true;
    double x0 = 0.0, y0 = 0.0, x1 = 0.0, y1 = 0.0;
    for (const PathStep& step : shape.placed()) {
        if (step.kind == PathStep::Kind::Close) {
            continue;
        }
        x0 = first ? step.to.x : std::min(x0, step.to.x);
        y0 = first ? step.to.y : std::min(y0, step.to.y);
        x1 = first ? step.to.x : std::max(x1, step.to.x);
        y1 = first ? step.to.y : std::max(y1, step.to.y);
        first = false;
    }
    return box(x0, y0, x1 - x0, y1 - y0);
}

Json to_json(const GlyphRun& run) {
    Json json{{"text", run.text},
              {"at", Json::array({rounded(run.origin.x), rounded(run.origin.y)})},
              {"width", rounded(run.width())},
              {"size", rounded(run.size)},
              {"font", run.font}};
    if (run.outline > 0.0) {
        json["outline"] = rounded(run.outline);
    }
    if (!run.language.empty()) {
        json["language"] = run.language;
    }
    if (run.right_to_left) {
        json["right_to_left"] = true;
    }
    return json;
}

Json to_json(const PlacedDrawing& placed) {
    const double width = placed.drawing ? placed.drawing->width * placed.scale : 0.0;
    const double height = placed.drawing ? placed.drawing->height * placed.scale : 0.0;
    return Json{{"drawing", box(placed.origin.x, placed.origin.y, width, height)},
                {"scale", rounded(placed.scale)},
                {"shapes", placed.drawing ? placed.drawing->shapes.size() : 0}};
}

Json to_json(const PlacedPicture& placed) {
    return Json{{"picture", box(placed.origin.x, placed.origin.y, placed.width, placed.height)},
                {"pixels", placed.picture
                               ? Json::array({placed.picture->width, placed.picture->height})
                               : Json()}};
}

Json to_json(const Shape& shape) {
    Json json{{"shape", shape_box(shape)}};
    if (shape.fill) {
        json["fill"] = Json::array({shape.fill->red, shape.fill->green, shape.fill->blue});
    }
    if (shape.stroke) {
        json["stroke"] = rounded(shape.stroke->width);
    }
    return json;
}

Json to_json(const Link& link) {
    Json json{{"link", box(link.x, link.y, link.width, link.height)}};
    if (link.uri.empty()) {
        json["page"] = link.page + 1;
    } else {
        json["uri"] = link.uri;
    }
    json["description"] = link.description;
    return json;
}

Json to_json(const Item& item) {
    Json json = std::visit([](const auto& content) { return to_json(content); }, item.content);
    if (item.tag == kArtifact) {
        json["artifact"] = item.pagination ? "pagination" : "layout";
    } else {
        json["tag"] = item.tag;
    }
    return json;
}

Json to_json(const Tag& tag, std::size_t index) {
    Json json{{"tag", index}, {"role", name_of(tag.role)}};
    if (tag.parent != kArtifact) {
        json["parent"] = tag.parent;
    }
    const auto text = [&json](const char* key, const std::string& value) {
        if (!value.empty()) {
            json[key] = value;
        }
    };
    text("language", tag.language);
    text("alternative", tag.alternative);
    text("actual_text", tag.actual_text);
    if (tag.scope != Tag::Scope::None) {
        constexpr std::array kScopes{"none", "row", "column", "both"};
        json["scope"] = kScopes.at(static_cast<std::size_t>(tag.scope));
    }
    if (tag.column_span != 1) {
        json["column_span"] = tag.column_span;
    }
    if (tag.row_span != 1) {
        json["row_span"] = tag.row_span;
    }
    if (tag.numbered) {
        json["numbered"] = true;
    }
    return json;
}

Json to_json(const Page& page, std::size_t number) {
    Json items = Json::array();
    for (const Item& item : page.items) {
        items.push_back(to_json(item));
    }
    return Json{{"page", number + 1},
                {"size", Json::array({rounded(page.width), rounded(page.height)})},
                {"items", items}};
}

Json to_json(const Font& font) {
    return Json{{"name", font.postscript_name},
                {"kind", font.kind == Font::Kind::TrueType ? "TrueType" : "CFF"},
                {"glyphs", font.glyphs.size()},
                {"bytes", font.program.size()}};
}

} // namespace

std::string dump(const Document& document) {
    Json json{{"title", document.title},
              {"author", document.author},
              {"subject", document.subject},
              {"language", document.language},
              {"right_to_left", document.right_to_left},
              {"claims_accessibility", document.claims_accessibility}};
    if (document.date) {
        json["date"] = *document.date;
    }
    for (const char* key : {"pages", "tags", "outline", "fonts"}) {
        json[key] = Json::array();
    }
    for (std::size_t i = 0; i < document.pages.size(); ++i) {
        json["pages"].push_back(to_json(document.pages[i], i));
    }
    for (std::size_t i = 0; i < document.tags.size(); ++i) {
        json["tags"].push_back(to_json(document.tags[i], i));
    }
    for (const OutlineEntry& entry : document.outline) {
        json["outline"].push_back(Json{{"title", entry.title},
                                       {"level", entry.level},
                                       {"page", entry.page + 1},
                                       {"y", rounded(entry.y)}});
    }
    for (const Font& font : document.fonts) {
        json["fonts"].push_back(to_json(font));
    }
    return json.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

} // namespace tickleaf::page
