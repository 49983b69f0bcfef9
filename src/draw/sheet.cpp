// SPDX-License-Identifier: MIT
#include <algorithm>

#include "draw/draw.h"
#include "draw/outline.h"
#include "draw/palette.h"

namespace tickleaf::draw {

namespace {

constexpr double kTitle = 9.0;    // type size
constexpr double kPadding = 10.0; // inside a cell
constexpr double kCell = 190.0;   // width of a cell

void copy_into(page::Drawing& sheet, const page::Drawing& drawing, double factor, page::Point at) {
    for (const page::Shape& shape : drawing.shapes) {
        page::Shape copy = shape;
        copy.path = page::transformed(shape.path, factor, {});
        copy.offset = shape.offset * factor + at;
        if (copy.stroke) {
            copy.stroke->width *= factor;
            for (double& dash : copy.stroke->dashes) {
                dash *= factor;
            }
        }
        sheet.shapes.push_back(std::move(copy));
    }
    for (page::Label label : drawing.labels) {
        label.at = label.at * factor + at;
        label.height *= factor;
        sheet.labels.push_back(std::move(label));
    }
}

double fit(const page::Drawing& drawing) {
    return drawing.width > 0.0 ? std::min(1.0, (kCell - 2.0 * kPadding) / drawing.width) : 1.0;
}

} // namespace

page::Drawing contact_sheet(const std::vector<SheetEntry>& entries, int columns) {
    page::Drawing sheet;
    const std::size_t per_row = static_cast<std::size_t>(std::max(columns, 1));
    double y = 0.0;
    for (std::size_t first = 0; first < entries.size(); first += per_row) {
        const std::size_t end = std::min(first + per_row, entries.size());
        double tall = 0.0;
        for (std::size_t i = first; i < end; ++i) {
            tall = std::max(tall, entries[i].drawing.height * fit(entries[i].drawing));
        }
        for (std::size_t i = first; i < end; ++i) {
            const page::Drawing& drawing = entries[i].drawing;
            const double x = kCell * static_cast<double>(i - first);
            const double below = tall - drawing.height * fit(drawing);
            copy_into(sheet, drawing, fit(drawing),
                      {x + kPadding, y + kPadding + kTitle * 1.6 + below});
            page::Label title;
            title.at = {x + kPadding, y + kPadding + kTitle * 0.8};
            title.text = entries[i].title;
            title.height = kTitle;
            title.anchor = page::Label::Anchor::Start;
            title.colour = kInk;
            sheet.labels.push_back(std::move(title));
        }
        y += tall + 2.0 * kPadding + kTitle * 1.6;
        page::Shape rule;
        rule.path = page::line({kPadding, y}, {kCell * static_cast<double>(per_row) - kPadding, y});
        rule.stroke = page::Stroke{0.5, kPale, {}, page::Stroke::Cap::Butt};
        sheet.shapes.push_back(std::move(rule));
    }
    sheet.width = kCell * static_cast<double>(per_row);
    sheet.height = y + 1.0;
    return sheet;
}

} // namespace tickleaf::draw
