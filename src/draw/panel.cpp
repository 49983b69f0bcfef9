// SPDX-License-Identifier: MIT
#include "draw/panel.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "draw/marks.h"
#include "draw/palette.h"
#include "draw/props.h"
#include "support/angle.h"

namespace tickleaf::draw {

namespace {

using figure::Landmark;
using figure::Panel;
using figure::Prop;
using figure::Scene;

constexpr double kSkin = 55.0; // millimetres that the drawn body reaches beyond its landmarks

double highest(const Panel& panel) {
    double top = 0.0;
    for (const Point3& p : panel.body.points) {
        top = std::max(top, p.y);
    }
    return top;
}

// Over all pictures, so that a wall is as high in each.
double top_of_walls(const Scene& scene) {
    double top = 0.0;
    for (const Panel& panel : scene.panels) {
        top = std::max(top, highest(panel));
    }
    return top + 60.0;
}

std::vector<Prop> props_of(const Scene& scene, const Panel& panel) {
    std::vector<Prop> props = scene.props;
    props.insert(props.end(), panel.props.begin(), panel.props.end());
    return props;
}

void add_prop(Occupied& occupied, const Part& part) {
    for (const Piece& piece : part.outline) {
        for (const auto& ring : flattened(piece.path)) {
            for (std::size_t i = 0; i < ring.size(); ++i) {
                occupied.push_back({ring[i], ring[(i + 1) % ring.size()], 0.5, 0.5});
            }
        }
    }
}

// No arrow goes through a wall or stands behind it.
void keep_out_of_wall(Occupied& occupied, const Prop& wall, const Camera& camera, double top) {
    const support::Angle yaw = support::Angle::from_degrees(wall.yaw_degrees);
    const Point3 front{support::cosine(yaw), 0.0, -support::sine(yaw)};
    const Point out = camera.see_direction(front).flat();
    if (!camera.is_level() || length(out) < 0.5 * camera.scale()) {
        return;
    }
    constexpr double kBehind = 16.0; // points
    const Point face = camera.see(wall.at + front * (wall.depth / 2.0)).flat();
    const Point middle = face - unit(out) * kBehind;
    occupied.push_back({middle, middle - Point{0.0, top * camera.scale()}, kBehind, kBehind});
}

// The floor seen from a slant or from above: a pale mat under everything.
void paint_mat(Canvas& canvas, const Panel& panel, const Camera& camera) {
    Point3 low{1e9, 0, 1e9};
    Point3 high{-1e9, 0, -1e9};
    for (const Point3& p : panel.body.points) {
        low = {std::min(low.x, p.x), 0.0, std::min(low.z, p.z)};
        high = {std::max(high.x, p.x), 0.0, std::max(high.z, p.z)};
    }
    const double m = 90.0;
    std::vector<Point> corners;
    for (const Point3 p : {Point3{low.x - m, 0, low.z - m}, Point3{high.x + m, 0, low.z - m},
                           Point3{high.x + m, 0, high.z + m}, Point3{low.x - m, 0, high.z + m}}) {
        corners.push_back(camera.see(p).flat());
    }
    const Path mat = page::polygon(hull(corners));
    canvas.fill_wider(mat, kPale, 0.7);
    canvas.fill(mat, kTint);
}

// Floor line with pale ground under it.
std::vector<page::Shape> floor_shapes(const Box& box) {
    Canvas canvas;
    page::Stroke ground = pen(kPale, 2.6);
    ground.cap = page::Stroke::Cap::Butt;
    canvas.stroke(page::line({box.left, 2.1}, {box.right, 2.1}), ground);
    canvas.stroke(page::line({box.left, 0.5}, {box.right, 0.5}), pen(kMuted, 1.0));
    return std::move(canvas.shapes);
}

// Places signs beside the content where they cover nothing and widen the panel least.
class Signs {
  public:
    Signs(Canvas& canvas, Occupied& occupied, bool on_right)
        : canvas_(canvas), occupied_(occupied), on_right_(on_right) {}

    // Middle of the left edge of a free place.
    // `drift` is the price of a point away from the reading edge.
    Point place(double width, double drift) {
        const Box box = canvas_.box();
        Point best{box.left - width - 2.0, box.top + kSignHeight / 2.0};
        double best_cost = 1e9;
        for (double x = box.left - width - 2.0; x <= box.right + 2.0; x += 4.0) {
            for (double y = box.top + kSignHeight / 2.0; y < box.top + 70.0; y += 6.0) {
                const double here = cost(box, {x, y}, width, drift);
                if (here < best_cost && is_free({x, y}, width)) {
                    best_cost = here;
                    best = {x, y};
                }
            }
        }
        const double r = kSignHeight / 2.0;
        occupied_.push_back({{best.x + r, best.y}, {best.x + width - r, best.y}, r, r});
        return best;
    }

  private:
    double cost(const Box& box, Point at, double width, double drift) const {
        const double growth = std::max(0.0, box.left - at.x) +
                              std::max(0.0, at.x + width - box.right) +
                              std::max(0.0, at.y + kSignHeight / 2.0 - box.bottom) * 2.0;
        const double aside = on_right_ ? box.right - at.x - width : at.x - box.left;
        return growth * 1.2 + (at.y - box.top) * 0.35 + std::max(0.0, aside) * drift;
    }

    bool is_free(Point at, double width) const {
        const double r = kSignHeight / 2.0;
        const Capsule sign{{at.x + r, at.y}, {at.x + std::max(r, width - r), at.y}, 0.0, 0.0};
        const double l = length(sign.to - sign.from);
        const int steps = 1 + static_cast<int>(l / 5.0);
        for (int i = 0; i <= steps; ++i) {
            const Point p = between(sign.from, sign.to, static_cast<double>(i) / steps);
            for (const Capsule& c : occupied_) {
                if (may_touch(p, c, r + 2.2) && distance(p, c) < r + 2.2) {
                    return false;
                }
            }
        }
        return true;
    }

    Canvas& canvas_;
    Occupied& occupied_;
    bool on_right_;
};

void paint_furniture(Canvas& canvas, std::vector<Part> furniture) {
    std::sort(furniture.begin(), furniture.end(), [](const Part& a, const Part& b) {
        return a.from.depth + a.to.depth < b.from.depth + b.to.depth;
    });
    for (const Part& part : furniture) {
        for (const Piece& piece : part.outline) {
            canvas.fill_wider(piece.path, kMuted, piece.round + 0.8);
            canvas.fill_wider(piece.path, kTint, piece.round);
        }
    }
}

void paint_movement(Canvas& canvas, const Panel& panel, const Camera& camera, Occupied& occupied) {
    std::vector<Point> there;
    for (const figure::MovementArrow& arrow : panel.arrows) {
        const std::vector<Point> beside = arrow.is_return ? there : std::vector<Point>{};
        there = paint_arrow(canvas, arrow, camera, beside, occupied);
    }
    for (std::size_t i = 0; i < panel.press_at.size() && i < panel.press_to.size(); ++i) {
        const Point toward = camera.see_direction(panel.press_to[i]).flat();
        const Point at = camera.see(panel.press_at[i]).flat();
        paint_press(canvas, at, toward, occupied);
        occupied.push_back({at, at - unit(toward) * 20.0, 5.0, 3.0});
    }
}

} // namespace

Camera camera_for(const Scene& scene, std::size_t panel, double scale) {
    return {scene.panels.at(panel).view.value_or(scene.view), scene.near_side, scale};
}

Box content_box(const Scene& scene, std::size_t index) {
    const Camera camera = camera_for(scene, index, 1.0);
    const Panel& panel = scene.panels.at(index);
    Box box;
    for (const Point3& p : panel.body.points) {
        box.add(camera.see(p).flat(), kSkin);
    }
    if (panel.ghost) {
        for (const Point3& p : panel.ghost->points) {
            box.add(camera.see(p).flat(), kSkin);
        }
    }
    const double top = top_of_walls(scene);
    for (const Prop& prop : props_of(scene, panel)) {
        for (const Part& part : prop_parts(prop, camera, top)) {
            for (const Piece& piece : part.outline) {
                box.add(extent(piece));
            }
        }
    }
    for (const figure::BandLine& band : panel.bands) {
        for (const Point3& p : band.points) {
            box.add(camera.see(p).flat());
        }
    }
    return box;
}

namespace {

// Everything but arrows, signs and floor.
void paint_content(Canvas& canvas, const Scene& scene, const Panel& panel, const Camera& camera,
                   Occupied& occupied) {
    std::vector<Part> parts = body_parts(panel.body, scene, camera);
    std::vector<Part> furniture;
    const double top = top_of_walls(scene);
    for (const Prop& prop : props_of(scene, panel)) {
        if (prop.kind == Prop::Kind::Wall) {
            keep_out_of_wall(occupied, prop, camera, top);
        }
        for (Part& part : prop_parts(prop, camera, top)) {
            // The bars of a rail are too many and too thin for an arrow to keep clear of.
            if (is_furniture(prop.kind) && prop.kind != Prop::Kind::Rail) {
                add_prop(occupied, part);
            }
            (is_furniture(prop.kind) ? furniture : parts).push_back(std::move(part));
        }
    }
    paint_furniture(canvas, std::move(furniture));
    if (panel.ghost) {
        paint_ghost(canvas, body_parts(*panel.ghost, scene, camera));
    }
    for (const Part& part : parts) {
        occupied.push_back(part.capsule());
    }
    const std::vector<Part> ordered = in_paint_order(std::move(parts));
    paint_parts(canvas, ordered);
    for (const figure::BandLine& band : panel.bands) {
        paint_band(canvas, band, camera, ordered);
        for (std::size_t i = 0; i + 1 < band.points.size(); ++i) {
            const Point from = camera.see(band.points[i]).flat();
            occupied.push_back({from, camera.see(band.points[i + 1]).flat(), 1.5, 1.5});
        }
    }
}

bool is_in_circle(const Box& box, Point centre, double radius) {
    const Point middle{(box.left + box.right) / 2.0, (box.top + box.bottom) / 2.0};
    // The corners of an arrow's box are empty: its round is what must fit.
    const double round = std::max(box.width(), box.height()) / 2.0;
    return length(middle - centre) + round < radius;
}

// Arrows of a close-up, each whole or not at all: what the rim cuts off tells nothing. The way back
// is left to the panel.
void paint_movement_in_circle(Canvas& canvas, const Panel& panel, const Camera& camera,
                              Occupied& occupied, Point centre) {
    for (std::size_t i = 0; i < panel.arrows.size() + panel.press_at.size(); ++i) {
        Panel one;
        if (i < panel.arrows.size()) {
            one.arrows = {panel.arrows[i]};
        } else {
            one.press_at = {panel.press_at[i - panel.arrows.size()]};
            one.press_to = {panel.press_to[i - panel.arrows.size()]};
        }
        Canvas alone;
        Occupied tried = occupied;
        paint_movement(alone, one, camera, tried);
        const bool is_return = !one.arrows.empty() && one.arrows[0].is_return;
        if (!is_return && is_in_circle(alone.box(), centre, kDetailRadius - 1.0)) {
            canvas.shapes.insert(canvas.shapes.end(), alone.shapes.begin(), alone.shapes.end());
            occupied = std::move(tried);
        }
    }
}

void paint_signs(Canvas& canvas, const Panel& panel, const PanelRequest& request,
                 Occupied& occupied) {
    Signs signs(canvas, occupied, request.signs_on_right);
    if (!request.number.empty()) {
        paint_badge(canvas, signs.place(badge_width(), 1.0), request.number);
    }
    if (!request.clock_text.empty()) {
        const Point at = signs.place(clock_width(request.clock_text), 0.15);
        paint_clock(canvas, at, request.clock_text);
    }
    if (panel.repeats) {
        paint_loop(canvas, signs.place(kSignHeight, 0.15));
    }
}

// A shape cut to a circle; curves and pens become short straight lines, but for what is inside.
page::Shape cut(const page::Shape& shape, Point centre, double radius) {
    const Piece whole{shape.path, shape.stroke ? shape.stroke->width / 2.0 : 0.0};
    const Box box = extent(whole);
    const Point corner{std::max(centre.x - box.left, box.right - centre.x),
                       std::max(centre.y - box.top, box.bottom - centre.y)};
    if (length(corner) <= radius) {
        return shape;
    }
    page::Shape result{{}, shape.fill, shape.stroke};
    if (box.right < centre.x - radius || box.left > centre.x + radius ||
        box.bottom < centre.y - radius || box.top > centre.y + radius) {
        return result;
    }
    if (shape.fill) {
        result.stroke.reset();
        for (std::vector<Point>& border : borders(whole)) {
            append(result.path,
                   page::polygon(clipped_to_circle(std::move(border), centre, radius)));
        }
        return result;
    }
    for (const std::vector<Point>& piece : flattened(shape.path, 8)) {
        for (const auto& run : line_in_circle(piece, centre, radius)) {
            append(result.path, polyline(run));
        }
    }
    return result;
}

} // namespace

Canvas paint_panel(const Scene& scene, const PanelRequest& request, const Camera& camera) {
    const Panel& panel = scene.panels.at(request.index);
    Canvas canvas;
    Occupied occupied;
    if (!camera.is_level()) {
        paint_mat(canvas, panel, camera);
    }
    paint_content(canvas, scene, panel, camera, occupied);
    paint_movement(canvas, panel, camera, occupied);
    if (panel.ghost) {
        for (const Part& part : body_parts(*panel.ghost, scene, camera)) {
            occupied.push_back(part.capsule());
        }
    }
    paint_signs(canvas, panel, request, occupied);
    if (camera.is_level()) {
        std::vector<page::Shape> floor = floor_shapes(canvas.box());
        canvas.shapes.insert(canvas.shapes.begin(), floor.begin(), floor.end());
        canvas.grow({canvas.box().left - 0.4, 0.0, canvas.box().right + 0.4, 3.8});
    }
    return canvas;
}

Canvas paint_detail(const Scene& scene, const figure::Detail& detail, Point centre) {
    const double scale = kDetailRadius / std::max(detail.radius, 1.0);
    const Camera camera(detail.view, scene.near_side, scale);
    Canvas whole;
    Occupied occupied;
    if (camera.is_level()) {
        const double reach = 3.0 * detail.radius;
        const Point left =
            camera.see(detail.centre + Point3{-reach, -detail.centre.y, -reach}).flat();
        const Point right =
            camera.see(detail.centre + Point3{reach, -detail.centre.y, reach}).flat();
        whole.stroke(page::line(left, right), pen(kMuted, 0.8));
    }
    const Panel& panel = scene.panels.at(detail.panel);
    paint_content(whole, scene, panel, camera, occupied);
    const Point middle = camera.see(detail.centre).flat();
    paint_movement_in_circle(whole, panel, camera, occupied, middle);
    Canvas canvas;
    canvas.fill(page::circle(centre, kDetailRadius), kWhite);
    for (const page::Shape& shape : whole.shapes) {
        page::Shape kept = cut(shape, middle, kDetailRadius - 1.0);
        kept.path = moved(kept.path, centre - middle);
        if (!kept.path.empty()) {
            canvas.shapes.push_back(std::move(kept));
        }
    }
    canvas.stroke(page::circle(centre, kDetailRadius), pen(kMuted, 1.6));
    return canvas;
}

Canvas paint_leader(Point seen, double ring, Point centre) {
    Canvas canvas;
    const Point along = unit(centre - seen);
    canvas.stroke(page::circle(seen, ring), pen(kMuted, 0.8));
    if (length(centre - seen) > ring + kDetailRadius) {
        canvas.stroke(page::line(seen + along * ring, centre - along * kDetailRadius),
                      pen(kMuted, 0.8));
    }
    return canvas;
}

} // namespace tickleaf::draw
