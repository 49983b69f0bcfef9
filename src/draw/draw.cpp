// SPDX-License-Identifier: MIT
#include "draw/draw.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "draw/canvas.h"
#include "draw/panel.h"

namespace tickleaf::draw {

namespace {

constexpr double kGap = 11.0; // between panels
// Room that an exercise commonly leaves for its drawing, in panel widths.
constexpr double kRoomWide = 1.3;
constexpr double kRoomTall = 1.05;
constexpr double kMargin = 1.0;   // round everything
constexpr double kTallest = 0.87; // of the panel width
constexpr double kStandingShare =
    0.8; // of the panel width: a standing body, with which limbs keep their weight
constexpr double kLargest = 1.35; // low positions may be drawn larger than a standing body by this

double rounded(double v) {
    return std::round(v * 100.0) / 100.0;
}

// Fifths of a point: off by 0.04 mm at most, finer than a pen, and a third fewer bytes.
page::Point rounded_to_fifths(page::Point p) {
    return {std::round(p.x * 5.0) / 5.0, std::round(p.y * 5.0) / 5.0};
}

page::Point rounded(page::Point p) {
    return {rounded(p.x), rounded(p.y)};
}

// One scale for all panels: as large as width and height allow.
double common_scale(const figure::Scene& scene, double panel_width) {
    double wide = 1.0;
    double tall = 1.0;
    for (std::size_t i = 0; i < scene.panels.size(); ++i) {
        const Box box = content_box(scene, i);
        wide = std::max(wide, box.width());
        tall = std::max(tall, box.height());
    }
    const double stature = std::max(scene.panels.front().body.stature, 1.0);
    return std::min({panel_width * kStandingShare / stature * kLargest, panel_width / wide,
                     panel_width * kTallest / tall});
}

std::string clock_text(const figure::Scene& scene, const figure::Panel& panel,
                       const std::string& given) {
    std::set<int> all;
    for (const figure::Panel& other : scene.panels) {
        for (const auto& seconds : {other.hold_seconds, other.push_seconds}) {
            if (seconds) {
                all.insert(*seconds);
            }
        }
    }
    const std::optional<int> own = panel.hold_seconds ? panel.hold_seconds : panel.push_seconds;
    if (!own) {
        return {};
    }
    // The given text speaks of one number; beside any other it would be wrong.
    return all.size() == 1 && !given.empty() ? given : std::to_string(*own);
}

void place(page::Drawing& drawing, const Canvas& canvas, page::Point by) {
    for (page::Shape shape : canvas.shapes) {
        for (page::PathStep& step : shape.path) {
            step.to = rounded_to_fifths(step.to);
            step.a = rounded_to_fifths(step.a);
            step.b = rounded_to_fifths(step.b);
        }
        shape.offset = rounded(by);
        if (shape.stroke) {
            shape.stroke->width = rounded(shape.stroke->width);
        }
        drawing.shapes.push_back(std::move(shape));
    }
    for (page::Label label : canvas.labels) {
        label.at = rounded(label.at + by);
        drawing.labels.push_back(std::move(label));
    }
}

// A panel or a close-up, with what is needed to set it beside the others.
struct Cell {
    Canvas canvas;
    const figure::Detail* detail = nullptr;
};

PanelRequest request_for(const figure::Scene& scene, const Options& options, std::size_t i) {
    PanelRequest request;
    request.index = i;
    if (scene.panels.size() > 1) {
        const bool given = i < options.panel_numbers.size() && !options.panel_numbers[i].empty();
        request.number = given ? options.panel_numbers[i] : std::to_string(i + 1);
    }
    request.clock_text = clock_text(scene, scene.panels[i], options.hold_text);
    request.signs_on_right = options.panels_right_to_left;
    return request;
}

// Round what is shown large; no wider than needed to find it.
double ring_radius(const figure::Detail& detail, const Camera& camera) {
    return std::clamp(detail.radius * camera.scale() * 0.8, 5.0, 11.0);
}

// A close-up stands level with what it shows, as far as the panel's height lets it.
Cell detail_cell(const figure::Scene& scene, const figure::Detail& detail, const Camera& camera,
                 const Box& panel) {
    const double low = std::max(panel.top + kDetailRadius, panel.bottom - kDetailRadius - 1.0);
    const double y = std::clamp(camera.see(detail.centre).y, panel.top + kDetailRadius, low);
    return {paint_detail(scene, detail, {0.0, y}), &detail};
}

std::vector<Cell> make_cells(const figure::Scene& scene, const Options& options, double scale) {
    std::vector<Cell> cells;
    for (std::size_t i = 0; i < scene.panels.size(); ++i) {
        const Camera camera = camera_for(scene, i, scale);
        cells.push_back({paint_panel(scene, request_for(scene, options, i), camera), nullptr});
        const std::size_t owner = cells.size() - 1;
        for (const figure::Detail& detail : scene.details) {
            if (detail.panel == i) {
                Box ring;
                ring.add(camera.see(detail.centre).flat(), ring_radius(detail, camera) + 0.5);
                cells[owner].canvas.grow(ring);
                const Box panel = cells[owner].canvas.box();
                cells.push_back(detail_cell(scene, detail, camera, panel));
            }
        }
    }
    return cells;
}

// Cells side by side: a panel with its close-ups never parts from them.
struct Row {
    std::size_t begin = 0;
    std::size_t end = 0;
    Box box; ///< in the cells' own heights
    double width = 0.0;
};

std::vector<Row> rows_of(const std::vector<Cell>& cells, std::size_t panels_a_row) {
    std::vector<Row> rows;
    std::size_t panels = 0;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const bool starts_panel = cells[i].detail == nullptr;
        if (starts_panel && panels++ % panels_a_row == 0) {
            rows.push_back({i, i, {}, -kGap});
        }
        Row& row = rows.back();
        row.end = i + 1;
        row.box.add(cells[i].canvas.box());
        row.width += kGap + cells[i].canvas.box().width();
    }
    return rows;
}

page::Point size_of(const std::vector<Row>& rows) {
    page::Point size{0.0, -kGap};
    for (const Row& row : rows) {
        size.x = std::max(size.x, row.width);
        size.y += row.box.height() + kGap;
    }
    return size;
}

// The arrangement that can be printed largest beside an exercise's steps: low pictures go one above
// the other.
std::vector<Row> best_rows(const std::vector<Cell>& cells, std::size_t panels, double panel_width) {
    std::vector<Row> best;
    double best_factor = 0.0;
    for (std::size_t n = panels; n > 0; --n) {
        std::vector<Row> rows = rows_of(cells, n);
        const page::Point size = size_of(rows);
        const double factor =
            std::min({1.0, panel_width * kRoomWide / size.x, panel_width * kRoomTall / size.y});
        if (factor > best_factor * 1.02) {
            best_factor = factor;
            best = std::move(rows);
        }
    }
    return best;
}

// Where each cell's own origin comes to lie in the drawing.
std::vector<page::Point> offsets_of(const std::vector<Cell>& cells, const std::vector<Row>& rows,
                                    bool right_to_left) {
    std::vector<page::Point> offsets(cells.size());
    const double width = size_of(rows).x;
    double y = kMargin;
    for (const Row& row : rows) {
        double x = 0.0;
        for (std::size_t i = row.begin; i < row.end; ++i) {
            const Box& box = cells[i].canvas.box();
            const double left = right_to_left ? width - x - box.width() : x;
            offsets[i] = {kMargin + left - box.left, y - row.box.top};
            x += box.width() + kGap;
        }
        y += row.box.height() + kGap;
    }
    return offsets;
}

Point middle_of(const Box& box) {
    return {(box.left + box.right) / 2.0, (box.top + box.bottom) / 2.0};
}

} // namespace

page::Drawing draw(const figure::Scene& scene, const Options& options) {
    page::Drawing drawing;
    if (scene.panels.empty()) {
        return drawing;
    }
    const double scale = common_scale(scene, options.panel_width);
    const std::vector<Cell> cells = make_cells(scene, options, scale);
    const std::vector<Row> rows = best_rows(cells, scene.panels.size(), options.panel_width);
    const std::vector<page::Point> offsets = offsets_of(cells, rows, options.panels_right_to_left);
    std::size_t owner = 0;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        place(drawing, cells[i].canvas, offsets[i]);
        if (cells[i].detail == nullptr) {
            owner = i;
            continue;
        }
        const figure::Detail& detail = *cells[i].detail;
        const Camera camera = camera_for(scene, detail.panel, scale);
        const page::Point seen = camera.see(detail.centre).flat() + offsets[owner];
        const page::Point centre = middle_of(cells[i].canvas.box()) + offsets[i];
        place(drawing, paint_leader(seen, ring_radius(detail, camera), centre), {0.0, 0.0});
    }
    const page::Point size = size_of(rows);
    drawing.width = rounded(size.x + 2.0 * kMargin);
    drawing.height = rounded(size.y + 2.0 * kMargin);
    return drawing;
}

} // namespace tickleaf::draw
