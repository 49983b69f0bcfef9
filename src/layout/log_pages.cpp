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

/// Weeks of the logbook are filled in one after the other: they stand closer where that saves a
/// page. Where no week follows on the page of how to fill them in there are lines to write on.
/// Each trial measures every week, so what is tried last is what is kept.
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
    const std::size_t usual = pages_of(slabs, kit);
    if (usual == 1) {
        return slabs;
    }
    trial.undo(kit);
    slabs = measured(kTightest, 0);
    const std::size_t close = pages_of(slabs, kit);
    if (close < usual && close <= least_pages(slabs, kit)) {
        return slabs;
    }
    trial.undo(kit);
    slabs = measured(kTightestSheet, 0);
    if (pages_of(slabs, kit) < close) {
        return slabs;
    }
    trial.undo(kit);
    if (close < usual) {
        return measured(kTightest, 0);
    }
    if (const int lines = filling_lines(kit, part, context); lines > 0) {
        slabs = measured(0, lines);
        if (pages_of(slabs, kit) == usual) {
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
    Flow flow = bare_flow(slabs, kit);
    support::Findings unused;
    std::map<const content::Table*, double> result;
    for (const PageCut& cut : paginate(flow, kit.page_height, unused)) {
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
    return slabs;
}

} // namespace tickleaf::layout
