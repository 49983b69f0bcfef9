// SPDX-License-Identifier: MIT
#include "figure/band.h"

#include <algorithm>
#include <cmath>

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

bool is_forefoot(Landmark landmark) {
    return landmark == Landmark::BallOuterL || landmark == Landmark::BallOuterR;
}

Point3 anchor_at(const BandSpec& spec, const Body& first, double distance_mm) {
    Point3 at = first.at(spec.from);
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
    case PropSite::Under:
        at.z -= distance_mm;
        break;
    }
    return at;
}

double shortest(const BandSpec& spec, const BandSetup& setup, const std::vector<Body>& movement) {
    double least = 1e9;
    for (const Body& body : movement) {
        least = std::min(least, band_line(spec, setup, body).length);
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

BandLine band_line(const BandSpec& spec, const BandSetup& setup, const Body& body) {
    BandLine line;
    const auto on_top = [&body](Landmark landmark) {
        Point3 p = body.at(landmark);
        p.y += kOnTop * body.stature;
        return p;
    };
    if (spec.to && is_forefoot(spec.from) && is_forefoot(*spec.to)) {
        // Round both forefeet: from one outer edge over both feet to the other.
        const auto inner = [](Landmark outer) {
            return outer == Landmark::BallOuterR ? Landmark::BallInnerR : Landmark::BallInnerL;
        };
        line.points = {on_top(spec.from), on_top(inner(spec.from)), on_top(inner(*spec.to)),
                       on_top(*spec.to)};
    } else if (spec.to) {
        line.points = {body.at(spec.from), body.at(*spec.to)};
    } else {
        line.points = {on_top(spec.from), setup.anchor.value_or(Point3{})};
        line.anchored_end = true;
    }
    line.length = line_length(line.points);
    return line;
}

std::optional<BandSetup> set_up_band(const BandSpec& spec, const Request& request,
                                     const std::vector<Body>& movement,
                                     support::Findings& findings) {
    BandSetup setup;
    const double whole = request.band_rest_length_mm.value_or(kUsualRest);
    if (!(whole >= 50.0 && whole <= 20000.0)) {
        findings.error(spec.span, "figure-band",
                       "a band of " + support::fixed(whole, 0) + " mm cannot be drawn",
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
        const double stretch = band_line(spec, setup, body).length / setup.rest_mm - 1.0;
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
    result.length_mm = band_line(spec, setup, body).length;
    result.stretch = result.length_mm / setup.rest_mm - 1.0;
    result.force_newtons =
        spec.strands *
        band_force(result.stretch, request.band_force_at_double_newtons.value_or(0.0));
    return result;
}

} // namespace tickleaf::figure
