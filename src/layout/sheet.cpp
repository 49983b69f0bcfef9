// SPDX-License-Identifier: MIT
// A sheet for the door: its exercises one under the other or side by side, names and doses on top,
// drawings under them on one floor. A sheet has more width than its few words need, and drawings
// are seen from further away the larger they are.
#include <algorithm>
#include <utility>

#include "layout/blocks.h"

namespace tickleaf::layout {

namespace {

/// As in columns.cpp: a column of words narrower than this many ems reads badly.
constexpr double kNarrowest = 13.5;
constexpr double kGutter = 1.2;

const content::Columns* columns_of(const content::Block& block) {
    const auto* group = std::get_if<content::Group>(&block.value);
    return group != nullptr && group->blocks.size() == 1
               ? std::get_if<content::Columns>(&group->blocks.front().value)
               : nullptr;
}

double cell_width(const Kit& kit, std::size_t count, double width) {
    const double gutters = kit.em(kGutter) * static_cast<double>(count - 1);
    return (width - gutters) / static_cast<double>(count);
}

struct Cell {
    Slab words;
    Slab drawing;
};

Cell measure_cell(Kit& kit, const content::Block& block, const Context& context) {
    const content::Columns& columns = *columns_of(block);
    Context inner = context;
    inner.tag = kit.tag(page::Tag::Role::Div, context.tag);
    inner.rigid = true;
    inner.in_columns = true;
    Cell cell;
    cell.words = stack(measure_blocks(kit, columns.first, inner));
    cell.drawing = stack(measure_blocks(kit, columns.second, inner));
    return cell;
}

/// The part that is a sheet, and how it is set.
struct SheetOf {
    const content::Part* part = nullptr;
    const Context* context = nullptr;
    SetPart set = nullptr;
};

/// How a sheet is tried.
struct SheetForm {
    int tightness = 0;
    std::size_t abreast = 1;
    double figure_share = 1.0;
};

std::vector<Slab> in_form(Kit& kit, const SheetOf& of, const SheetForm& form) {
    tighten(kit, form.tightness);
    kit.abreast = form.abreast;
    kit.part_share = form.figure_share;
    std::vector<Slab> slabs = of.set(kit, *of.part, *of.context);
    kit.part_share = 1.0;
    kit.abreast = 1;
    tighten(kit, 0);
    return slabs;
}

/// How large all drawings are together.
double drawn(const std::vector<Slab>& slabs) {
    double size = 0.0;
    for (const Slab& slab : slabs) {
        for (const Fragment& fragment : slab.fragments) {
            const auto* part = std::get_if<DrawingPart>(&fragment.part);
            size += part != nullptr ? part->scale : 0.0;
        }
    }
    return size;
}

/// The largest drawings of a form with which the sheet takes one page, and how large they are; 0
/// where the words alone are too many.
double enlarge(Kit& kit, const SheetOf& of, SheetForm& form) {
    constexpr double kLeast = 0.25;
    constexpr int kSteps = 5;
    constexpr double kNoDrawing = 1e-3; // words alone fit, too
    const Trial trial(kit);
    double size = 0.0;
    const auto fits = [&](double share) {
        form.figure_share = share;
        const std::vector<Slab> slabs = in_form(kit, of, form);
        trial.undo(kit);
        const bool one_page = total_height(slabs, -1.0) <= kit.page_height;
        size = one_page ? drawn(slabs) + kNoDrawing : size;
        return one_page;
    };
    double low = kLeast;
    double high = 1.0;
    if (!fits(low) || fits(high)) {
        return size;
    }
    for (int i = 0; i < kSteps; ++i) {
        const double middle = (low + high) / 2.0;
        (fits(middle) ? low : high) = middle;
    }
    form.figure_share = low;
    return size;
}

} // namespace

bool is_cell(const content::Block& block) {
    const content::Columns* columns = columns_of(block);
    return columns != nullptr && columns->second.size() == 1 &&
           std::holds_alternative<content::Figure>(columns->second.front().value);
}

bool may_stand_abreast(const Kit& kit, std::size_t count, double width) {
    return count < 2 || cell_width(kit, count, width) >= kit.em(kNarrowest);
}

Measured measure_abreast(Kit& kit, const content::Block* blocks, std::size_t count,
                         const Context& context) {
    Context inner = context;
    inner.width = cell_width(kit, kit.abreast, context.width);
    std::vector<Cell> cells;
    double words = 0.0;
    double drawing = 0.0;
    for (std::size_t i = 0; i < count; ++i) {
        cells.push_back(measure_cell(kit, blocks[i], inner));
        words = std::max(words, cells.back().words.height());
        drawing = std::max(drawing, cells.back().drawing.height());
    }
    const double floor = words + kit.gap(0.5) + drawing;
    Slab row;
    row.where = cells.front().words.where;
    row.span = cells.front().words.span;
    for (std::size_t i = 0; i < count; ++i) {
        const double x = (inner.width + kit.em(kGutter)) * static_cast<double>(i);
        shift(cells[i].words, x, 0.0);
        shift(cells[i].drawing, x, floor - cells[i].drawing.height());
        append(row, std::move(cells[i].words));
        append(row, std::move(cells[i].drawing));
    }
    row.extents = {Extent{floor, 0.0}};
    Measured result;
    result.before = kit.em(1.2);
    result.after = kit.em(1.2);
    result.slabs.push_back(std::move(row));
    return result;
}

std::vector<Slab> on_a_sheet(Kit& kit, const content::Part& part, const Context& context,
                             SetPart set) {
    const SheetOf of{&part, &context, set};
    constexpr double kGood = 0.7;
    constexpr double kGain = 1.02;
    constexpr std::size_t kMostAbreast = 3;
    const auto cells =
        static_cast<std::size_t>(std::count_if(part.blocks.begin(), part.blocks.end(), is_cell));
    const Trial trial(kit);
    const double good = drawn(in_form(kit, of, {0, 1, kGood}));
    trial.undo(kit);
    SheetForm best;
    double largest = 0.0;
    for (int tightness = 0; tightness <= kTightestSheet && (largest == 0.0 || largest < good);
         ++tightness) {
        for (std::size_t abreast = 1; abreast <= std::clamp<std::size_t>(cells, 1, kMostAbreast) &&
                                      may_stand_abreast(kit, abreast, context.width);
             ++abreast) {
            SheetForm form{tightness, abreast, 1.0};
            const double size = enlarge(kit, of, form);
            if (size > largest * kGain) {
                largest = size;
                best = form;
            }
        }
    }
    if (largest == 0.0) {
        kit.say(support::Severity::Warning, part.title.span, "layout-one-page",
                "\"" + part.title.text + "\" does not fit one page of template \"" +
                    kit.page->name + "\" at its type size and takes more",
                "put fewer exercises into the stage, or print it on larger paper");
    }
    return in_form(kit, of, best);
}

} // namespace tickleaf::layout
