// SPDX-License-Identifier: MIT
#include "text/break_lines.h"

#include <algorithm>
#include <tuple>

namespace tickleaf::text {

namespace {

/// Widths are sums of rounded glyph advances; far below what prints.
constexpr double kTolerance = 1e-4;
/// A last line narrower than this part of the width, made of one word, looks like a mistake ...
constexpr double kShortLastLine = 0.2;
/// ... and is worth as much as one line that is this part of the width too short.
constexpr double kShortLastLinePenalty = 0.4;
/// A number stands with its word unless that makes a line this part of the width shorter.
constexpr double kNumberPenalty = 0.35;

BreakCost operator+(const BreakCost& a, const BreakCost& b) {
    return {a.overflow + b.overflow, a.emergencies + b.emergencies, a.lines + b.lines,
            a.raggedness + b.raggedness};
}

bool is_last(const std::vector<BreakPoint>& points, std::size_t to) {
    return points[to].hard || to + 1 == points.size();
}

double square(double v) {
    return v * v;
}

} // namespace

bool BreakCost::operator<(const BreakCost& other) const {
    return std::tie(overflow, emergencies, lines, raggedness) <
           std::tie(other.overflow, other.emergencies, other.lines, other.raggedness);
}

BreakCost line_cost(const std::vector<BreakPoint>& points, const LineWidths& widths,
                    std::size_t from, std::size_t to) {
    const double width = from == 0 ? widths.first : widths.rest;
    const double slack = width - (points[to].end - points[from].start);
    BreakCost cost;
    cost.lines = 1;
    cost.emergencies = points[to].emergency ? 1 : 0;
    if (slack < -kTolerance) {
        cost.overflow = -slack;
        return cost;
    }
    if (!is_last(points, to)) {
        cost.raggedness =
            square(slack) + (points[to].number ? square(kNumberPenalty * width) : 0.0);
    } else if (from != 0 && !points[from].hard && to == from + 1 &&
               width - slack < kShortLastLine * width) {
        cost.raggedness = square(kShortLastLinePenalty * width);
    }
    return cost;
}

std::vector<std::size_t> break_lines(const std::vector<BreakPoint>& points,
                                     const LineWidths& widths) {
    if (points.size() < 2) {
        return {};
    }
    struct Best {
        BreakCost cost;
        std::size_t from = 0;
    };
    std::vector<Best> best(points.size());
    for (std::size_t to = 1; to < points.size(); ++to) {
        for (std::size_t from = to; from-- > 0;) {
            const BreakCost line = line_cost(points, widths, from, to);
            const bool only = from + 1 == to;
            // A line that sticks out only grows when it begins earlier.
            if (!only && line.overflow > 0.0) {
                break;
            }
            const BreakCost total = best[from].cost + line;
            if (only || total < best[to].cost) {
                best[to] = {total, from};
            }
            if (points[from].hard) {
                break;
            }
        }
    }
    std::vector<std::size_t> ends;
    for (std::size_t to = points.size() - 1; to > 0; to = best[to].from) {
        ends.push_back(to);
    }
    std::reverse(ends.begin(), ends.end());
    return ends;
}

} // namespace tickleaf::text
