// SPDX-License-Identifier: MIT
#include "figure/band.h"

#include <algorithm>
#include <cmath>

#include "figure/skeleton.h"
#include "support/number.h"

namespace tickleaf::figure {
namespace {

constexpr double kUsualRest = 1000.0; // mm, where the prescription names no band
constexpr double kOnTop = 0.012;      // of stature, the band lies on the foot
constexpr int kHalvings = 60;

double distance(const Point3& a, const Point3& b) {
    return std::hypot(a.x - b.x, a.y - b.y, a.z - b.z);
}

double line_length(const std::vector<Point3>& points) {
    double sum = 0.0;
    for (std::size_t i = 1; i < points.size(); ++i) {
        sum += distance(points[i - 1], points[i]);
    }
    return sum;
}

Point3 mixed(const Point3& a, const Point3& b, double t) {
    return {a.x + t * (b.x - a.x), a.y + t * (b.y - a.y), a.z + t * (b.z - a.z)};
}

bool is_forefoot(const BandSpot& spot) {
    return spot.info->from == Landmark::BallInnerL;
}

Landmark of(Landmark left, const BandSpot& spot) {
    return left_or_right(left, spot.right);
}

/// Unit vector out of the back of the foot.
Point3 dorsal(const BandSpot& spot, const Body& body) {
    const Point3& heel = body.at(of(Landmark::HeelL, spot));
    const Point3& inner = body.at(of(Landmark::BallInnerL, spot));
    const Point3& outer = body.at(of(Landmark::BallOuterL, spot));
    const double sign = spot.right == 1 ? 1.0 : -1.0;
    const Point3 f{inner.x - heel.x, inner.y - heel.y, inner.z - heel.z};
    const Point3 o{sign * (outer.x - inner.x), sign * (outer.y - inner.y),
                   sign * (outer.z - inner.z)};
    const Point3 up{o.y * f.z - o.z * f.y, o.z * f.x - o.x * f.z, o.x * f.y - o.y * f.x};
    const double length = std::max(std::hypot(up.x, up.y, up.z), 1e-9);
    return {up.x / length, up.y / length, up.z / length};
}

/// `share` of the way from the spot's first landmark to its second; on a foot, above it.
Point3 spot_at(const BandSpot& spot, const Body& body, double share) {
    Point3 p =
        mixed(body.at(of(spot.info->from, spot)), body.at(of(spot.info->towards, spot)), share);
    if (is_forefoot(spot)) {
        const Point3 up = dorsal(spot, body);
        const double high = kOnTop * body.stature;
        p = {p.x + high * up.x, p.y + high * up.y, p.z + high * up.z};
    }
    return p;
}

Point3 spot_at(const BandSpot& spot, const Body& body) {
    return spot_at(spot, body, spot.info->share);
}

Point3 anchor_at(const BandSpec& spec, const Body& first, double distance_mm) {
    Point3 at = spot_at(spec.from.front(), first);
    if (spec.from.size() > 1) {
        at = mixed(at, spot_at(spec.from.back(), first), 0.5);
    }
    at.y = spec.anchor_height * first.stature;
    switch (*spec.anchor) {
    case PropSite::Front:
        at.x += distance_mm;
        break;
    case PropSite::Behind:
        at.x -= distance_mm;
        break;
    case PropSite::Work:
        at.z += distance_mm;
        break;
    case PropSite::Other:
        at.z -= distance_mm;
        break;
    case PropSite::Under:
    case PropSite::WorkHand:
    case PropSite::OtherHand:
    case PropSite::BothHands:
        at.y = 0.0;
        break;
    }
    return at;
}

double shortest(const BandSpec& spec, const BandSetup& setup, const std::vector<Body>& movement) {
    double least = 1e9;
    for (const Body& body : movement) {
        for (const BandLine& line : band_lines(spec, setup, body)) {
            least = std::min(least, line.length);
        }
    }
    return least;
}

/// Moves the anchor out until the slackest pose is stretched as asked.
void place_anchor(const BandSpec& spec, BandSetup& setup, const std::vector<Body>& movement) {
    double low = 0.0;
    double high = setup.rest_mm * 4 + movement.front().stature;
    const double wanted = setup.rest_mm * (1.0 + spec.start_stretch);
    for (int i = 0; i < kHalvings; ++i) {
        setup.setup_mm = (low + high) / 2;
        setup.anchor = anchor_at(spec, movement.front(), setup.setup_mm);
        (shortest(spec, setup, movement) < wanted ? low : high) = setup.setup_mm;
    }
}

} // namespace

double rubber_curve(double stretch) {
    if (stretch <= 0.0) {
        return 0.0;
    }
    const double length = 1.0 + stretch;
    return length - 1.0 / (length * length);
}

double band_force(double stretch, double force_at_double_newtons) {
    return force_at_double_newtons * rubber_curve(stretch) / rubber_curve(1.0);
}

std::vector<BandLine> band_lines(const BandSpec& spec, const BandSetup& setup, const Body& body) {
    std::vector<BandLine> lines;
    const BandSpot& from = spec.from.front();
    if (spec.round) {
        // Along the sole of a foot, or behind a limb: the hands pull the loop tight.
        BandLine line;
        const Landmark a = of(spec.round->info->from, *spec.round);
        const Landmark b = of(spec.round->info->towards, *spec.round);
        line.points = {spot_at(from, body), mixed(body.at(a), body.at(b), spec.round->info->share)};
        if (spec.from.size() > 1) {
            line.points.push_back(spot_at(spec.from.back(), body));
        }
        line.is_strap = true;
        lines.push_back(std::move(line));
    } else if (spec.to && is_forefoot(from) && is_forefoot(*spec.to)) {
        // Round both forefeet: from one outer edge over both feet to the other.
        lines.push_back({{spot_at(from, body, 1.0), spot_at(from, body, 0.0),
                          spot_at(*spec.to, body, 0.0), spot_at(*spec.to, body, 1.0)}});
    } else if (spec.to) {
        lines.push_back({{spot_at(from, body), spot_at(*spec.to, body)}});
    } else {
        for (const BandSpot& spot : spec.from) {
            lines.push_back(
                {{spot_at(spot, body), setup.anchor.value_or(Point3{})}, 0.0, false, true});
        }
    }
    for (BandLine& line : lines) {
        line.length = line_length(line.points);
    }
    std::stable_sort(lines.begin(), lines.end(),
                     [](const BandLine& a, const BandLine& b) { return a.length > b.length; });
    return lines;
}

std::optional<BandSetup> set_up_band(const BandSpec& spec, const Request& request,
                                     const std::vector<Body>& movement,
                                     support::Findings& findings) {
    BandSetup setup;
    const double whole = request.band_rest_length_mm.value_or(kUsualRest);
    if (!(whole >= 50.0 && whole <= 20000.0)) {
        findings.error(spec.span, "figure-band",
                       std::isfinite(whole)
                           ? "a band of " + support::fixed(whole, 0) + " mm cannot be drawn"
                           : "the band's length is no number",
                       "give a length at rest from 5 cm to 2000 cm");
        return std::nullopt;
    }
    const double available = whole / spec.strands;
    if (spec.to) {
        setup.rest_mm = shortest(spec, setup, movement) / (1.0 + spec.start_stretch);
        setup.setup_mm = setup.rest_mm;
        if (setup.rest_mm > available) {
            findings.error(
                spec.span, "figure-band",
                "the band is too short: " + support::fixed(setup.rest_mm * spec.strands, 0) +
                    " mm are needed, " + support::fixed(whole, 0) + " mm are there",
                "prescribe a longer band");
            return std::nullopt;
        }
    } else {
        setup.rest_mm = available;
        place_anchor(spec, setup, movement);
    }
    for (const Body& body : movement) {
        const double stretch = band_lines(spec, setup, body).front().length / setup.rest_mm - 1.0;
        if (stretch > spec.most_stretch) {
            findings.error(spec.span, "figure-band",
                           "the band is stretched by " + support::fixed(stretch * 100, 0) +
                               " % in this movement, over its limit of " +
                               support::fixed(spec.most_stretch * 100, 0) + " %",
                           "prescribe a longer band");
            return std::nullopt;
        }
    }
    return setup;
}

BandResult band_result(const BandSpec& spec, const BandSetup& setup, const Body& body,
                       const Request& request) {
    BandResult result;
    result.length_mm = band_lines(spec, setup, body).front().length;
    result.stretch = result.length_mm / setup.rest_mm - 1.0;
    result.force_newtons =
        spec.strands *
        band_force(result.stretch, request.band_force_at_double_newtons.value_or(0.0));
    return result;
}

} // namespace tickleaf::figure
