// SPDX-License-Identifier: MIT
// Step 3b: chooses the lines. Knows nothing of text, only of widths.
// Shapes: the first point is the paragraph's start, the last its end; the answer is the indexes of
// the points at which lines end, ascending, ending with the last point. Least in this order: lines
// that stick out, words broken inside, lines, raggedness (sum of squared slack of all lines but the
// last of each hard-broken part, plus penalties for a last line of one short word and for a number
// at the end of a line, away from what it counts). Cost: points
// times points a line. Source: D. E. Knuth and M. F. Plass, "Breaking paragraphs into lines"
// (1981), for the method; the measure is our own, for text that is not justified.
#pragma once

#include <cstddef>
#include <vector>

namespace tickleaf::text {

/// A place where a line may end and the next begin. Positions are distances from the paragraph's
/// start.
struct BreakPoint {
    double end = 0.0;       ///< where a line that ends here stops, without its trailing spaces
    double start = 0.0;     ///< where a line that begins here starts
    bool hard = false;      ///< a line must end here
    bool emergency = false; ///< inside a word
    bool number = false;    ///< between a number and the word that it counts
};

struct LineWidths {
    double first = 0.0;
    double rest = 0.0;
};

/// What a way of breaking costs; compared from the first field to the last.
struct BreakCost {
    double overflow = 0.0;
    int emergencies = 0;
    int lines = 0;
    double raggedness = 0.0;
    bool operator<(const BreakCost& other) const;
};

/// Cost of the line from point `from` to point `to`.
BreakCost line_cost(const std::vector<BreakPoint>& points, const LineWidths& widths,
                    std::size_t from, std::size_t to);
std::vector<std::size_t> break_lines(const std::vector<BreakPoint>& points,
                                     const LineWidths& widths);

} // namespace tickleaf::text
