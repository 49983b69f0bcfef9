// SPDX-License-Identifier: MIT
#include "draw/draw.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "draw/canvas.h"
#include "draw/panel.h"

namespace tickleaf::draw {

namespace {

constexpr double kGap = 11.0;     // between panels
constexpr double kMargin = 1.0;   // round everything
constexpr double kTallest = 0.87; // of the panel width
constexpr double kStandingShare =
    0.8; // of the panel width: a standing body, with which limbs keep their weight
constexpr double kLargest = 1.35; // low positions may be drawn larger than a standing body by this

double rounded(double v) {
    return std::round(v * 100.0) / 100.0;
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
            step.to = rounded(step.to + by);
            step.a = rounded(step.a + by);
            step.b = rounded(step.b + by);
        }
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

// A close-up stands level with what it shows, as far as the panel's height lets it.
Cell detail_cell(const figure::Scene& scene, const figure::Detail& detail, const Camera& camera,
                 const Box& panel) {
    const double low = std::max(panel.top + kDetailRadius, panel.bottom - kDetailRadius - 1.0);
    const double y = std::clamp(camera.see(detail.centre).y, panel.top + kDetailRadius, low);
    return {paint_detail(scene, detail, {0.0, y}), &detail};
}

std::vector<Cell> make_cells(const figure::Scene& scene, const Options& options,
                             const Camera& camera) {
    std::vector<Cell> cells;
    for (std::size_t i = 0; i < scene.panels.size(); ++i) {
        cells.push_back({paint_panel(scene, request_for(scene, options, i), camera), nullptr});
        const Box panel = cells.back().canvas.box();
        for (const figure::Detail& detail : scene.details) {
            if (detail.panel == i) {
                cells.push_back(detail_cell(scene, detail, camera, panel));
            }
        }
    }
    return cells;
}

} // namespace

page::Drawing draw(const figure::Scene& scene, const Options& options) {
    page::Drawing drawing;
    if (scene.panels.empty()) {
        return drawing;
    }
    const Camera camera(scene.view, scene.near_side, common_scale(scene, options.panel_width));
    const std::vector<Cell> cells = make_cells(scene, options, camera);
    Box all;
    std::vector<double> offsets;
    double width = 0.0;
    for (const Cell& cell : cells) {
        const Box& box = cell.canvas.box();
        all.add(box);
        offsets.push_back(width + kMargin - box.left);
        width += box.width() + kGap;
    }
    width += 2.0 * kMargin - kGap;
    if (options.panels_right_to_left) {
        for (std::size_t i = 0; i < cells.size(); ++i) {
            const Box& box = cells[i].canvas.box();
            offsets[i] = width - (offsets[i] + box.right) - box.left;
        }
    }
    const double down = kMargin - all.top;
    std::size_t owner = 0;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const figure::Detail* detail = cells[i].detail;
        owner = detail == nullptr ? i : owner;
        place(drawing, cells[i].canvas, {offsets[i], down});
        if (detail != nullptr) {
            const Spot seen = camera.see(detail->centre);
            const Box& box = cells[i].canvas.box();
            const page::Point centre{offsets[i] + (box.left + box.right) / 2.0,
                                     (box.top + box.bottom) / 2.0};
            place(drawing,
                  paint_leader({seen.x + offsets[owner], seen.y}, detail->radius * camera.scale(),
                               centre),
                  {0.0, down});
        }
    }
    drawing.width = rounded(width);
    drawing.height = rounded(all.height() + 2.0 * kMargin);
    return drawing;
}

} // namespace tickleaf::draw
