// SPDX-License-Identifier: MIT
// The pages of a logbook: few, and with room for the pen.
#include "layout/blocks.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "layout/worth.h"

namespace tickleaf::layout {

namespace {

bool fills_page(const content::Block& block) {
    const auto* lines = std::get_if<content::WritingLines>(&block.value);
    return lines != nullptr && lines->lines == 0;
}

/// Lines to write on that fit under what stands before them in the part; 0 where they would be few.
int filling_lines(Kit& kit, const content::Part& part, const Context& context) {
    constexpr int kFewest = 4;
    const auto filler = std::find_if(part.blocks.begin(), part.blocks.end(), fills_page);
    if (filler == part.blocks.end()) {
        return 0;
    }
    const Trial trial(kit);
    kit.filling = 1; // the label and one line are measured along
    const std::vector<content::Block> front(part.blocks.begin(), std::next(filler));
    const double height = total_height(measure_blocks(kit, front, context), 0.0);
    kit.filling.reset();
    trial.undo(kit);
    const double room = kit.page_height - height - kit.em(0.9);
    const int lines = 1 + static_cast<int>(std::floor(room / kit.page->writing_row.pt()));
    return lines < kFewest ? 0 : lines;
}

std::vector<PageCut> cuts_of(const std::vector<Slab>& slabs, const Kit& kit) {
    Flow flow = bare_flow(slabs, kit);
    support::Findings unused;
    return paginate(flow, kit.page_height, unused);
}

/// Pages, and what weeks that go over the edge of one are worth in pages.
double paper(const std::vector<Slab>& slabs, const Kit& kit) {
    constexpr double kPartedLog = 0.6;
    const std::vector<PageCut> cuts = cuts_of(slabs, kit);
    const auto parted = std::count_if(cuts.begin(), cuts.end(), [&](const PageCut& cut) {
        return cut.first > 0 && slabs[cut.first].log != nullptr &&
               slabs[cut.first].log == slabs[cut.first - 1].log;
    });
    return static_cast<double>(cuts.size()) + kPartedLog * static_cast<double>(parted);
}

/// Weeks of the logbook are filled in one after the other: they stand closer where that saves a
/// page or keeps a week on one. Where no week follows on the page of how to fill them in there are
/// lines to write on. Each trial measures every week, so what is tried last is what is kept.
std::vector<Slab> on_fewest_pages(Kit& kit, const content::Part& part, const Context& context,
                                  SetPart set) {
    const auto measured = [&](int tightness, int filling) {
        tighten(kit, tightness);
        kit.filling = filling;
        std::vector<Slab> slabs = set(kit, part, context);
        kit.filling.reset();
        tighten(kit, 0);
        return slabs;
    };
    const Trial trial(kit);
    std::vector<Slab> slabs = measured(0, 0);
    const double usual = paper(slabs, kit);
    if (usual <= 1.0) {
        return slabs;
    }
    trial.undo(kit);
    slabs = measured(kTightest, 0);
    const double close = paper(slabs, kit);
    if (close < usual && close <= static_cast<double>(least_pages(slabs, kit))) {
        return slabs;
    }
    trial.undo(kit);
    slabs = measured(kTightestSheet, 0);
    if (paper(slabs, kit) < std::min(close, usual)) {
        return slabs;
    }
    trial.undo(kit);
    if (close < usual) {
        return measured(kTightest, 0);
    }
    if (const int lines = filling_lines(kit, part, context); lines > 0) {
        slabs = measured(0, lines);
        if (paper(slabs, kit) <= usual) {
            return slabs;
        }
        trial.undo(kit);
    }
    return measured(0, 0);
}

/// How much taller the rows of each log may be on the pages they stand on.
std::map<const content::Table*, double> room_in_rows(const std::vector<Slab>& slabs,
                                                     const Kit& kit) {
    constexpr double kMost = 1.2; // of the body size; more tears the table apart
    const Flow flow = bare_flow(slabs, kit);
    std::map<const content::Table*, double> result;
    for (const PageCut& cut : cuts_of(slabs, kit)) {
        const auto first = slabs.begin() + static_cast<std::ptrdiff_t>(cut.first);
        const auto last = slabs.begin() + static_cast<std::ptrdiff_t>(cut.last);
        const auto rows =
            std::count_if(first, last, [](const Slab& slab) { return slab.log != nullptr; });
        const double room = kit.page_height - page_height(flow, cut.first, cut.last, 0.0);
        const double share = std::clamp(room / static_cast<double>(rows + 1), 0.0, kit.em(kMost));
        for (auto slab = first; slab != last; ++slab) {
            if (slab->log != nullptr) {
                const auto [known, is_new] = result.emplace(slab->log, share);
                known->second = std::min(known->second, share);
            }
        }
    }
    return result;
}

/// Lines for notes that end a page go on down to its end. The part's last page is left to what
/// follows.
std::vector<Slab> with_lines_to_the_end(std::vector<Slab> slabs, const Kit& kit) {
    const Flow flow = bare_flow(slabs, kit);
    std::vector<Slab> result;
    result.reserve(slabs.size());
    for (const PageCut& cut : cuts_of(slabs, kit)) {
        const double room = kit.page_height - page_height(flow, cut.first, cut.last, 0.0);
        for (std::size_t i = cut.first; i < cut.last; ++i) {
            result.push_back(std::move(slabs[i]));
        }
        const bool goes_on = cut.last < slabs.size() && result.back().is_writing_line;
        for (double used = 0.0; goes_on && used + result.back().height() <= room;
             used += result.back().height()) {
            Slab line = result.back();
            line.space_before = 0.0;
            line.before = Break::Forbidden;
            result.push_back(std::move(line));
        }
    }
    return result;
}

} // namespace

std::vector<Slab> on_log_pages(Kit& kit, const content::Part& part, const Context& context,
                               SetPart set) {
    std::vector<Slab> slabs = on_fewest_pages(kit, part, context, set);
    const auto room = room_in_rows(slabs, kit);
    for (Slab& slab : slabs) {
        if (slab.log != nullptr) {
            make_taller(slab, room.at(slab.log));
        }
    }
    return with_lines_to_the_end(std::move(slabs), kit);
}

} // namespace tickleaf::layout
