// SPDX-License-Identifier: MIT
#include "draw/marks.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "draw/palette.h"
#include "support/angle.h"

namespace tickleaf::draw {

namespace {

// Arrows must be seen at 35 mm and in a bad copy: common practice in printed instructions.
constexpr double kShaft = 2.5;
constexpr double kHeadLength = 8.0;
constexpr double kHeadHalf = 4.6;
constexpr double kLeast = 24.0; // shortest arrow
constexpr double kHalo = 1.0;
constexpr double kBow = 58.0;     // degrees of a bow
constexpr double kLeastBow = 6.0; // points from its middle to the landmark
constexpr double kBowAway = 10.0; // outside the landmark
constexpr double kBowApart = 8.5; // the way back
constexpr double kBand = 3.2;
constexpr double kStrap = 5.0;
constexpr std::array<double, 5> kWays{4.0, 8.0, 12.0, 17.0, 23.0}; // an arrow may be moved aside by
constexpr double kStay =
    0.3; // price of a point away from the computed path, against covering something
constexpr double kApart = 0.6;   // and of the way back from the way there,
constexpr double kBeside = 20.0; // beyond this

// No more is added up than `enough`.
double cost_of(const std::vector<Point>& line, Point by, const Occupied& occupied, double floor,
               double enough) {
    double cost = 0.0;
    for (const Point p : line) {
        if (cost >= enough) {
            break;
        }
        cost += 3.0 * std::max(0.0, p.y + by.y + 3.0 - floor);
        for (const Capsule& c : occupied) {
            if (!may_touch(p + by, c, kHeadHalf * 0.8)) {
                continue;
            }
            const double free = distance(p + by, c) - kHeadHalf * 0.8;
            cost += free < 0.0 ? std::min(4.0, -free) : 0.0;
        }
    }
    return cost;
}

// What an arrow may meet that is moved by up to `reach`.
Occupied near(const std::vector<Point>& line, const Occupied& occupied, double reach) {
    Occupied result;
    for (const Capsule& c : occupied) {
        if (std::any_of(line.begin(), line.end(),
                        [&](Point p) { return may_touch(p, c, reach); })) {
            result.push_back(c);
        }
    }
    return result;
}

// What it costs the way back to stand apart from the way there.
double apart(const std::vector<Point>& line, Point by, const std::vector<Point>& there) {
    if (there.empty()) {
        return 0.0;
    }
    const Point middle = line[line.size() / 2] + by;
    double gap = 1e9;
    for (const Point p : there) {
        gap = std::min(gap, length(p - middle));
    }
    return kApart * std::max(0.0, gap - kBeside);
}

// Beside the body rather than on it, but no farther from the computed path than needed.
Point best_shift(const std::vector<Point>& line, const std::vector<Point>& there,
                 const Occupied& occupied, double floor) {
    const std::vector<Point> few = resampled(line, 5);
    const Occupied close = near(few, occupied, kWays.back() + kHeadHalf);
    Point best{};
    double best_cost = cost_of(few, best, close, floor, 1e9) + apart(few, best, there);
    for (int i = 0; i < 12 && best_cost > 0.0; ++i) {
        const support::Angle angle = support::Angle::from_degrees(30.0 * i);
        const Point way{support::cosine(angle), support::sine(angle)};
        for (const double by : kWays) {
            const double away = by * kStay + apart(few, way * by, there);
            const double cost = cost_of(few, way * by, close, floor, best_cost - away) + away;
            if (cost < best_cost - 1e-6) {
                best_cost = cost;
                best = way * by;
            }
        }
    }
    return best;
}

// The line without its last `by` points of length.
std::vector<Point> shortened(const std::vector<Point>& line, double by) {
    const double keep = std::max(length(line) - by, 0.1);
    std::vector<Point> result{line.front()};
    double walked = 0.0;
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        const double piece = length(line[i + 1] - line[i]);
        if (walked + piece >= keep) {
            result.push_back(
                between(line[i], line[i + 1], (keep - walked) / std::max(piece, 1e-9)));
            break;
        }
        result.push_back(line[i + 1]);
        walked += piece;
    }
    return result;
}

Path arrow_head(Point base, Point tip) {
    const Point along = unit(tip - base);
    const Point n = normal(along);
    const Point foot = tip - along * kHeadLength;
    return page::polygon({foot + n * kHeadHalf, foot - n * kHeadHalf, tip});
}

void paint_shaft_and_head(Canvas& canvas, const Path& shaft, const Path& head, bool dashed) {
    canvas.stroke(shaft, pen(kWhite, kShaft + 2.0 * kHalo));
    canvas.fill_wider(head, kWhite, kHalo);
    page::Stroke stroke = pen(kArrow, kShaft);
    stroke.cap = page::Stroke::Cap::Butt;
    if (dashed) {
        stroke.dashes = {2.8, 2.0};
    }
    canvas.stroke(shaft, stroke);
    canvas.fill(head, kArrow);
}

const Part* part_under(const std::vector<Part>& parts, Point at) {
    const Part* best = nullptr;
    double best_gap = 4.0;
    for (const Part& part : parts) {
        const double gap = distance(at, part.capsule());
        if (part.chain != Chain::Thing && gap < best_gap) {
            best_gap = gap;
            best = &part;
        }
    }
    return best;
}

void paint_rubber(Canvas& canvas, const Path& path) {
    page::Stroke outer = pen(kInk, kBand);
    outer.cap = page::Stroke::Cap::Butt;
    page::Stroke inner = pen(kWhite, kBand - 1.7);
    inner.cap = page::Stroke::Cap::Butt;
    inner.dashes = {3.0, 1.4};
    canvas.stroke(path, pen(kWhite, kBand + 2.0));
    canvas.stroke(path, outer);
    canvas.stroke(path, inner);
}

// Twice round the limb, so that it is seen where the band sits.
Path wrap(const Part& part, Point at) {
    const Point along = unit(part.to.flat() - part.from.flat());
    // A foot seen from its toes has no length on paper; then the band lies across its sole.
    const bool end_on =
        part.segment == figure::Segment::Foot && length(part.across) > part.from_radius * 0.7;
    const Point n = end_on ? unit(part.across) : normal(along);
    const Capsule c = part.capsule();
    const double l = length(c.to - c.from);
    const double t = l > 0.0 ? std::clamp(dot(at - c.from, along) / l, 0.08, 0.92) : 0.5;
    const double r = c.from_radius + (c.to_radius - c.from_radius) * t + 0.9;
    const Point middle = end_on ? at : between(c.from, c.to, t);
    return page::line(middle - n * r, middle + n * r);
}

// A flat strap or towel: broad, pale, with its two edges. White keeps it clear of what it passes,
// but would cut off the toes that it runs round.
void paint_strap(Canvas& canvas, const std::vector<Part>& parts, const std::vector<Point>& line) {
    Path wraps;
    Path clear;
    std::vector<Point> ends = line;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const Part* part = part_under(parts, line[i]);
        const bool in_fist = part != nullptr && part->segment == figure::Segment::Hand;
        if (in_fist) { // it comes out of the fist, which stays in sight
            const Point next = line[i + 1 < line.size() ? i + 1 : i - 1];
            ends[i] = line[i] + unit(next - line[i]) * part->to_radius;
        } else if (part != nullptr) {
            append(wraps, wrap(*part, line[i]));
        }
    }
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        const Point by = unit(line[i + 1] - line[i]) * (1.2 * kStrap);
        append(clear, page::line(ends[i] + by, ends[i + 1] - by));
    }
    const Path free = polyline(ends);
    const auto flat = [](page::Colour colour, double width) {
        page::Stroke stroke = pen(colour, width);
        stroke.cap = page::Stroke::Cap::Butt;
        return stroke;
    };
    canvas.stroke(clear, flat(kWhite, kStrap + 2.0));
    canvas.stroke(free, flat(kInk, kStrap));
    canvas.stroke(wraps, flat(kInk, kStrap));
    canvas.stroke(wraps, flat(kPale, kStrap - 2.2));
    canvas.stroke(free, flat(kPale, kStrap - 2.2));
}

// The path on paper, long enough to be seen and clear of the body; empty where it runs straight
// towards the reader: an arrow would tell a wrong way.
std::vector<Point> beside_body(const figure::MovementArrow& arrow, const Camera& camera,
                               const std::vector<Point>& there, const Occupied& occupied) {
    std::vector<Point> line;
    for (const Point3 p : arrow.path) {
        line.push_back(camera.see(p).flat());
    }
    const double seen = length(line);
    if (seen < 0.8) {
        return {};
    }
    if (seen < kLeast) {
        const Point middle = between(line.front(), line.back(), 0.5);
        for (Point& p : line) {
            p = middle + (p - middle) * (kLeast / seen);
        }
    }
    line = resampled(line, 9);
    const Point shift = best_shift(line, there, occupied, camera.is_level() ? 0.0 : 1e9);
    for (Point& p : line) {
        p = p + shift;
    }
    if (camera.is_level()) {
        // Lengthened or moved aside, it still must not go through the floor.
        const double low = std::max(line.front().y, line.back().y) + 2.0;
        for (Point& p : line) {
            p.y -= std::max(0.0, low);
        }
    }
    return line;
}

// A small turn would be a dot at its true length: a bow of a quarter about the point, from where
// the landmark was. The way back runs outside it.
std::vector<Point> bow(const figure::MovementArrow& arrow, const Camera& camera) {
    using support::Angle;
    const Point centre = camera.see(*arrow.about).flat();
    const Point first = camera.see(arrow.path.front()).flat() - centre;
    const Point last = camera.see(arrow.path.back()).flat() - centre;
    const double sense = first.x * last.y - first.y * last.x < 0.0 ? -1.0 : 1.0;
    const Point begin = arrow.is_return ? last : first;
    const double reach = std::max({length(first), length(last), kLeastBow}) + kBowAway;
    const double radius = arrow.is_return ? reach + kBowApart : reach;
    const double start = Angle(support::arc_tangent(begin.y, begin.x)).degrees() +
                         (arrow.is_return ? -sense * kBow : 0.0);
    std::vector<Point> line;
    for (int i = 0; i <= 8; ++i) {
        const Angle angle = Angle::from_degrees(start + sense * kBow * i / 8.0);
        line.push_back(centre +
                       Point{radius * support::cosine(angle), radius * support::sine(angle)});
    }
    return line;
}

} // namespace

std::vector<Point> paint_arrow(Canvas& canvas, const figure::MovementArrow& arrow,
                               const Camera& camera, const std::vector<Point>& there,
                               Occupied& occupied) {
    if (arrow.path.size() < 2) {
        return {};
    }
    const std::vector<Point> line =
        arrow.about ? bow(arrow, camera) : beside_body(arrow, camera, there, occupied);
    if (line.empty()) {
        return {};
    }
    const std::vector<Point> body = shortened(line, kHeadLength - 0.4);
    const Path head = arrow_head(body.back(), line.back());
    paint_shaft_and_head(canvas, smooth_open(resampled(body, 5)), head, arrow.is_return);
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        occupied.push_back({line[i], line[i + 1], kHeadHalf, kHeadHalf});
    }
    return line;
}

void paint_press(Canvas& canvas, Point at, Point toward, const Occupied& occupied) {
    const Point along = unit(toward);
    // The arrow stands before the surface that is pressed, or inside the limb that presses it.
    (void)occupied;
    const Point tip = at - along * 1.2;
    const Point tail = tip - along * 20.0;
    const Point n = normal(along);
    paint_shaft_and_head(canvas, page::line(tail, tip - along * (kHeadLength - 0.4)),
                         arrow_head(tail, tip), false);
    page::Stroke bar = pen(kArrow, 2.2);
    bar.cap = page::Stroke::Cap::Butt;
    // What is pressed downwards, even at a slant, is the level floor.
    const Point surface = along.y > 0.3 ? Point{1.0, 0.0} : n;
    canvas.stroke(page::line(at + surface * 6.0, at - surface * 6.0), bar);
}

void paint_band(Canvas& canvas, const figure::BandLine& band, const Camera& camera,
                const std::vector<Part>& parts) {
    std::vector<Point> line;
    for (const Point3 p : band.points) {
        line.push_back(camera.see(p).flat());
    }
    if (line.size() < 2) {
        return;
    }
    if (band.is_strap) {
        paint_strap(canvas, parts, line);
        return;
    }
    paint_rubber(canvas, polyline(line));
    for (std::size_t i = 0; i < line.size(); ++i) {
        const bool fixed =
            (i == 0 && band.anchored_start) || (i + 1 == line.size() && band.anchored_end);
        if (fixed) {
            canvas.fill_wider(page::circle(line[i], 3.6), kWhite, 1.0);
            canvas.fill(page::circle(line[i], 3.6), kInk);
            canvas.fill(page::circle(line[i], 1.3), kWhite);
        } else if (const Part* part = part_under(parts, line[i])) {
            paint_rubber(canvas, wrap(*part, line[i]));
        }
    }
}

double badge_width() {
    return kSignHeight;
}

void paint_badge(Canvas& canvas, Point at, const std::string& number) {
    const double r = kSignHeight / 2.0;
    const Point centre{at.x + r, at.y};
    canvas.fill(page::circle(centre, r), kInk);
    page::Label label;
    label.at = {centre.x, centre.y + 3.1};
    label.text = number;
    label.height = 8.6;
    label.colour = kWhite;
    canvas.label(label, std::min(text_width(number, label.height), kSignHeight));
}

double clock_width(const std::string& text) {
    return 11.6 + 2.0 + text_width(text, 9.0);
}

void paint_clock(Canvas& canvas, Point at, const std::string& text) {
    const Point centre{at.x + 5.8, at.y};
    const Path face = page::circle(centre, 5.1);
    canvas.fill(face, kWhite);
    canvas.stroke(face, pen(kInk, 1.3));
    Path hands = page::line(centre, {centre.x, centre.y - 3.4});
    append(hands, page::line(centre, {centre.x + 2.4, centre.y + 1.2}));
    canvas.stroke(hands, pen(kInk, 1.2));
    page::Label label;
    label.at = {at.x + 13.6, at.y + 3.2};
    label.text = text;
    label.height = 9.0;
    label.anchor = page::Label::Anchor::Start;
    label.colour = kInk;
    canvas.label(label, text_width(text, label.height));
}

void paint_loop(Canvas& canvas, Point at) {
    using support::Angle;
    const Point centre{at.x + kSignHeight / 2.0, at.y};
    constexpr double r = 4.5;
    const auto on_ring = [&](double degrees) {
        const Angle angle = Angle::from_degrees(degrees);
        return centre + Point{r * support::cosine(angle), r * support::sine(angle)};
    };
    std::vector<Point> arc;
    for (int i = 0; i <= 5; ++i) {
        arc.push_back(on_ring(-25.0 + 54.0 * i));
    }
    canvas.stroke(smooth_open(arc), pen(kInk, 1.7));
    // The head points along the ring, clockwise, over its open part.
    const Point end = arc.back();
    const Point along = unit(on_ring(255.0) - on_ring(235.0));
    const Point n = normal(along);
    canvas.fill(page::polygon({end + n * 3.4, end - n * 3.4, end + along * 5.4}), kInk);
}

} // namespace tickleaf::draw
