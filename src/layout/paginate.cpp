// SPDX-License-Identifier: MIT
#include "layout/paginate.h"

#include <algorithm>
#include <limits>

namespace tickleaf::layout {

namespace {

// What a page costs. One page more always weighs more than everything else, so paper is saved
// first.
constexpr double kPageCost = 1000.0;
// Empty space, squared, so that pages are filled evenly instead of a full one and an empty one.
constexpr double kSlackCost = 100.0;
// Drawings made smaller: only to save a page or a bad break.
constexpr double kShrinkCost = 60.0;
// A break inside a paragraph, list or table where one between blocks would do.
constexpr double kDiscouragedCost = 30.0;
// A break inside what is used together: less than a page, more than evenly filled pages gain.
constexpr double kPaidCost = 300.0;
// A little over a third: the last line of a page has space below its ink.
constexpr double kThin = 0.37;
// Rounding in sums of heights must not push a slab to the next page.
constexpr double kTolerance = 1e-4;

/// Running sums of the slabs' heights, so that any page's height is a difference.
struct Sums {
    std::vector<double> rest;  ///< drawings at their own size
    std::vector<double> least; ///< drawings at their least size

    explicit Sums(const Flow& flow) {
        rest.assign(flow.slabs.size() + 1, 0.0);
        least.assign(flow.slabs.size() + 1, 0.0);
        for (std::size_t i = 0; i < flow.slabs.size(); ++i) {
            const Slab& slab = flow.slabs[i];
            rest[i + 1] = rest[i] + slab.space_before + slab.height(0.0);
            least[i + 1] = least[i] + slab.space(-1.0) + slab.height(-1.0);
        }
    }
};

double top_extra(const Flow& flow, std::size_t first, double k) {
    const Slab& slab = flow.slabs[first];
    const double head = slab.repeat == kNone ? 0.0 : flow.heads[slab.repeat].height();
    return head - slab.space(k);
}

bool may_begin(const Slab& slab) {
    return slab.before == Break::Allowed || slab.before == Break::Discouraged ||
           slab.before == Break::Paid || slab.before == Break::Forced;
}

double break_cost(Break before) {
    return before == Break::Discouraged ? kDiscouragedCost
           : before == Break::Paid      ? kPaidCost
                                        : 0.0;
}

double page_cost(double rest, double least, double height, bool ends_part) {
    double cost = kPageCost;
    if (rest > height + kTolerance) {
        const double squeeze = (rest - height) / std::max(rest - least, kTolerance);
        cost += kShrinkCost * squeeze * squeeze + kShrinkCost / 3.0;
        return cost;
    }
    const double slack = (height - rest) / height;
    cost += kSlackCost * slack * slack;
    cost += !ends_part && rest < height * kThin ? kThinCost : 0.0;
    return cost;
}

void report_tall(Slab& slab, double height, support::Findings& findings) {
    if (slab.height(-1.0) > height + kTolerance) {
        findings.error(slab.span, "layout-too-tall", "\"" + slab.where + "\" does not fit a page",
                       "shorten the text, or choose a template with smaller type");
    }
}

/// A row that fits a page, but not under the head of its table, stands without it.
void drop_head_without_room(const Flow& flow, Slab& slab, double height) {
    if (slab.repeat != kNone &&
        slab.height(-1.0) + flow.heads[slab.repeat].height() > height + kTolerance) {
        slab.repeat = kNone;
    }
}

/// Parts a run of slabs that must stay together but is taller than a page: best after the latest
/// heading's company that fits, else at the latest slab that fits.
void part_run(Flow& flow, std::size_t begin, std::size_t end, double height,
              support::Findings& findings) {
    std::size_t start = begin;
    while (start < end && page_height(flow, start, end, -1.0) > height + kTolerance) {
        std::size_t soft = kNone;
        std::size_t hard = kNone;
        for (std::size_t i = start + 1; i < end; ++i) {
            if (page_height(flow, start, i, -1.0) > height + kTolerance) {
                break;
            }
            hard = i;
            soft = flow.slabs[i].before == Break::Kept ? i : soft;
        }
        const std::size_t at = soft != kNone ? soft : hard != kNone ? hard : start + 1;
        if (at >= end) {
            break;
        }
        if (flow.slabs[at].before == Break::Forbidden) {
            findings.warning(flow.slabs[begin].span, "layout-parted",
                             "\"" + flow.slabs[begin].where +
                                 "\" does not fit a page with what belongs to it and is split",
                             "shorten it, or choose a template with smaller type");
        }
        flow.slabs[at].before = Break::Allowed;
        start = at;
    }
}

void part_tall_runs(Flow& flow, double height, support::Findings& findings) {
    std::size_t begin = 0;
    for (std::size_t i = 0; i <= flow.slabs.size(); ++i) {
        if (i < flow.slabs.size()) {
            drop_head_without_room(flow, flow.slabs[i], height);
            report_tall(flow.slabs[i], height, findings);
        }
        if (i > 0 && (i == flow.slabs.size() || may_begin(flow.slabs[i]))) {
            part_run(flow, begin, i, height, findings);
            begin = i;
        }
    }
}

/// The best cuts of everything before each slab.
struct Best {
    double cost = std::numeric_limits<double>::infinity();
    std::size_t from = 0;
};

void look_back(const Flow& flow, const Sums& sums, std::vector<Best>& best, std::size_t end,
               double height) {
    const bool ends_part = end == flow.slabs.size() || flow.slabs[end].before == Break::Forced;
    const double broken = end < flow.slabs.size() ? break_cost(flow.slabs[end].before) : 0.0;
    bool any = false;
    for (std::size_t first = end; first-- > 0;) {
        if (first != 0 && !may_begin(flow.slabs[first])) {
            continue;
        }
        const double rest = sums.rest[end] - sums.rest[first] + top_extra(flow, first, 0.0);
        const double least = sums.least[end] - sums.least[first] + top_extra(flow, first, -1.0);
        const bool fits = least <= height + kTolerance;
        // A slab that fits no page has been reported; it still gets a page of its own.
        if (fits || !any) {
            const double cost =
                best[first].cost + page_cost(rest, least, height, ends_part) + broken;
            if (cost < best[end].cost) {
                best[end] = {cost, first};
            }
        }
        any = true;
        if (!fits || flow.slabs[first].before == Break::Forced) {
            break;
        }
    }
}

std::vector<Best> best_cuts(const Flow& flow, double height) {
    const std::size_t count = flow.slabs.size();
    const Sums sums(flow);
    std::vector<Best> best(count + 1);
    best[0].cost = 0.0;
    for (std::size_t end = 1; end <= count; ++end) {
        if (end == count || may_begin(flow.slabs[end])) {
            look_back(flow, sums, best, end, height);
        }
    }
    return best;
}

/// The largest flex up to `most` at which the page still holds its slabs.
double fitting_flex(const Flow& flow, const PageCut& cut, double height) {
    if (page_height(flow, cut.first, cut.last, 1.0) <= height) {
        return 1.0;
    }
    double low = -1.0;
    double high = 1.0;
    for (int i = 0; i < 24; ++i) {
        const double middle = (low + high) / 2.0;
        (page_height(flow, cut.first, cut.last, middle) <= height ? low : high) = middle;
    }
    return low;
}

void loosen(const Flow& flow, PageCut& cut, double height) {
    bool flexible = false;
    double stretch = 0.0;
    for (std::size_t i = cut.first; i < cut.last; ++i) {
        for (const Extent& extent : flow.slabs[i].extents) {
            flexible = flexible || extent.flex > 0.0;
        }
        stretch += i > cut.first ? flow.slabs[i].stretch : 0.0;
    }
    const bool tight = page_height(flow, cut.first, cut.last, 0.0) > height;
    cut.flex = flexible || tight ? fitting_flex(flow, cut, height) : 0.0;
    const double spare = height - page_height(flow, cut.first, cut.last, cut.flex);
    cut.stretch = stretch > 0.0 ? std::clamp(spare / stretch, 0.0, 1.0) : 0.0;
}

} // namespace

double page_height(const Flow& flow, std::size_t first, std::size_t last, double k) {
    if (first >= last) {
        return 0.0;
    }
    double result = top_extra(flow, first, k);
    for (std::size_t i = first; i < last; ++i) {
        result += flow.slabs[i].space(k) + flow.slabs[i].height(k);
    }
    return result;
}

Worth worth_of(Flow flow, double height) {
    support::Findings unused;
    part_tall_runs(flow, height, unused);
    const std::vector<Best> best = best_cuts(flow, height);
    Worth worth;
    for (std::size_t end = flow.slabs.size(); end > 0; end = best[end].from) {
        ++worth.pages;
    }
    worth.trouble = best.back().cost - kPageCost * static_cast<double>(worth.pages);
    return worth;
}

std::vector<PageCut> paginate(Flow& flow, double height, support::Findings& findings) {
    part_tall_runs(flow, height, findings);
    const std::vector<Best> best = best_cuts(flow, height);
    std::vector<PageCut> cuts;
    for (std::size_t end = flow.slabs.size(); end > 0; end = best[end].from) {
        PageCut cut;
        cut.first = best[end].from;
        cut.last = end;
        loosen(flow, cut, height);
        cuts.push_back(cut);
    }
    std::reverse(cuts.begin(), cuts.end());
    return cuts;
}

} // namespace tickleaf::layout
