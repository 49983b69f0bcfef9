// SPDX-License-Identifier: MIT
// Two columns side by side or, where there is no room for two, one under the other: the drawing
// first, then the words in reading order, all over the whole width.
#include "layout/blocks.h"

#include <algorithm>
#include <utility>

namespace tickleaf::layout {

namespace {

using content::Block;

/// A column of words narrower than this many ems has lines of less than some 26 letters, which
/// read badly and waste paper (common practice: 35 to 70 letters, half of that in a narrow column).
constexpr double kNarrowest = 13.5;
constexpr double kGutter = 1.5;
/// Share of a page that words side by side may take.
constexpr double kTallestBlock = 0.55;

struct Heights {
    double first = 0.0;
    double second = 0.0;
    double both() const { return std::max(first, second); }
};

Heights heights_at(Kit& kit, const content::Columns& block, double share, double gutter,
                   Context inner) {
    const double width = inner.width - gutter;
    const Trial trial(kit);
    Heights heights;
    inner.width = width * share;
    heights.first = total_height(measure_blocks(kit, block.first, inner), 0.0);
    inner.width = width - inner.width;
    heights.second = total_height(measure_blocks(kit, block.second, inner), 0.0);
    trial.undo(kit);
    return heights;
}

/// The share at which both columns end nearest together, as near to the middle as that allows: from
/// the middle the taller column is widened for as long as that helps.
double balanced_share(Kit& kit, const content::Columns& block, double gutter,
                      const Context& context) {
    constexpr double kMiddle = 0.5;
    constexpr double kStep = 0.04;
    constexpr int kSteps = 3;
    const Heights middle = heights_at(kit, block, kMiddle, gutter, context);
    const double way = middle.first >= middle.second ? kStep : -kStep;
    double best = kMiddle;
    double least = middle.both();
    for (int i = 1; i <= kSteps; ++i) {
        const double share = kMiddle + way * i;
        const double height = heights_at(kit, block, share, gutter, context).both();
        if (height > least + 0.1) {
            break;
        }
        if (height < least - 0.1) {
            least = height;
            best = share;
        }
    }
    return best;
}

bool is_figure(const Block& block) {
    return std::holds_alternative<content::Figure>(block.value);
}

/// Words need a line of some length; a drawing alone does not.
bool is_narrow(const Kit& kit, const content::Columns& block, double width, double share) {
    const auto narrow = [&](const std::vector<Block>& column, double part) {
        return !std::all_of(column.begin(), column.end(), is_figure) &&
               width * part < kit.em(kNarrowest);
    };
    return narrow(block.first, share) || narrow(block.second, 1.0 - share);
}

bool is_steps(const Block& block) {
    const auto* list = std::get_if<content::List>(&block.value);
    return list != nullptr && list->numbered;
}

/// How fast the steps are done stands under them in bold.
bool is_speed(const Block& block) {
    const auto* paragraph = std::get_if<content::Paragraph>(&block.value);
    return paragraph != nullptr && paragraph->role == content::Paragraph::Role::Strong;
}

/// The share of the first column where the second is a drawing alone: words take all that the
/// drawing leaves, never less than half.
double share_beside_drawing(const Kit& kit, const content::Columns& block, double width) {
    const auto* figure = block.second.size() == 1
                             ? std::get_if<content::Figure>(&block.second.front().value)
                             : nullptr;
    if (figure == nullptr || figure->drawing == nullptr || figure->drawing->height <= 0.0) {
        return 0.0;
    }
    const double drawing = figure_limit(kit) * figure->drawing->width / figure->drawing->height;
    return std::max(0.5, 1.0 - drawing * (1.0 + kFlexShare) / width);
}

/// Both columns in one, a drawing that one of them begins with before everything else.
std::vector<Block> in_one_column(const content::Columns& block) {
    std::vector<Block> all;
    const bool drawing_second = !block.second.empty() && is_figure(block.second.front());
    if (drawing_second) {
        all.push_back(block.second.front());
    }
    all.insert(all.end(), block.first.begin(), block.first.end());
    all.insert(all.end(), block.second.begin() + (drawing_second ? 1 : 0), block.second.end());
    return all;
}

/// Drawing and steps are one: whoever turns a page in between exercises blindly. Where a page
/// cannot hold both, the drawing and the first step.
void keep_steps_with_drawing(Kit& kit, const std::vector<Block>& blocks, const Context& context,
                             std::vector<Slab>& slabs) {
    const auto steps = std::find_if(blocks.begin(), blocks.end(), is_steps);
    if (blocks.empty() || !is_figure(blocks.front()) || steps == blocks.end()) {
        return;
    }
    const Trial trial(kit);
    const std::size_t first_step = measure_blocks(kit, {blocks.begin(), steps}, context).size();
    const auto end = steps + (steps + 1 != blocks.end() && is_speed(*(steps + 1)) ? 2 : 1);
    const auto count = measure_blocks(kit, {steps, end}, context).size();
    trial.undo(kit);
    for (std::size_t i = 1; i < std::min(first_step + count, slabs.size()); ++i) {
        slabs[i].before = i <= first_step ? Break::Forbidden : Break::Kept;
    }
}

Measured stacked(Kit& kit, const content::Columns& block, const Context& context) {
    const std::vector<Block> blocks = in_one_column(block);
    Measured result;
    result.before = kit.em(0.4);
    result.after = kit.em(0.8);
    result.slabs = measure_blocks(kit, blocks, context);
    keep_steps_with_drawing(kit, blocks, context, result.slabs);
    return result;
}

/// The share of the first column that is asked for, or that a drawing leaves; 0 where neither is.
double asked_share(const Kit& kit, const content::Columns& block, double width) {
    const double beside = share_beside_drawing(kit, block, width);
    return beside > 0.0 ? beside : block.first_share;
}

/// Drawings are made for one panel of 150 pt: at this a person stands 3 cm tall, which is seen from
/// the floor still (common practice).
constexpr double kSmallestScale = 0.55;

/// Whether a drawing would be too small in a column, which it may fill at its largest.
bool is_small_in(const Block& figure, double width) {
    const auto& drawing = std::get<content::Figure>(figure.value).drawing;
    return drawing == nullptr || width < drawing->width * (1.0 + kFlexShare) * kSmallestScale;
}

double wished_share(double asked) {
    return asked > 0.0 ? std::clamp(asked, 0.1, 0.9) : 0.5;
}

} // namespace

std::vector<Block> parted_after_steps(const Kit& kit, const content::Columns& block, double width) {
    const auto steps = std::find_if(block.first.begin(), block.first.end(), is_steps);
    if (steps == block.first.end() || block.second.empty() || !is_figure(block.second.front())) {
        return {};
    }
    const auto end = steps + (steps + 1 != block.first.end() && is_speed(*(steps + 1)) ? 2 : 1);
    content::Columns row{block.first_share, {block.first.begin(), end}, {block.second.front()}};
    const double room = width - kit.em(kGutter);
    const double share = wished_share(asked_share(kit, row, room));
    if (is_narrow(kit, row, room, share) || is_small_in(row.second.front(), room * (1.0 - share))) {
        return {};
    }
    content::Columns rest{
        0.0, {end, block.first.end()}, {block.second.begin() + 1, block.second.end()}};
    std::vector<Block> parted{Block{std::move(row)}};
    if (!rest.first.empty() && !rest.second.empty()) {
        parted.push_back(Block{std::move(rest)});
        return parted;
    }
    parted.insert(parted.end(), rest.first.begin(), rest.first.end());
    parted.insert(parted.end(), rest.second.begin(), rest.second.end());
    return parted;
}

Measured measure(Kit& kit, const content::Columns& block, const Context& context) {
    const double gutter = kit.em(kGutter);
    Context inner = context;
    inner.rigid = context.rigid || context.in_columns;
    inner.in_columns = true;
    const double asked = asked_share(kit, block, context.width - gutter);
    const double wished = wished_share(asked);
    if (kit.one_column || is_narrow(kit, block, (context.width - gutter), wished)) {
        return stacked(kit, block, context);
    }
    const double share = asked > 0.0 ? wished : balanced_share(kit, block, gutter, inner);
    const Trial trial(kit);
    inner.width = (context.width - gutter) * share;
    std::vector<Slab> first = measure_blocks(kit, block.first, inner);
    const double second_x = inner.width + gutter;
    inner.width = context.width - second_x;
    std::vector<Slab> second = measure_blocks(kit, block.second, inner);
    // Without a drawing nothing is gained by one block that fills most of a page and cannot be
    // broken.
    const bool drawing = std::any_of(block.first.begin(), block.first.end(), is_figure) ||
                         std::any_of(block.second.begin(), block.second.end(), is_figure);
    const double most = kit.page_height * (drawing || context.in_columns ? 1.0 : kTallestBlock);
    if (std::max(total_height(first, -1.0), total_height(second, -1.0)) > most) {
        trial.undo(kit);
        return stacked(kit, block, context);
    }
    Slab row = stack(std::move(first));
    Slab other = stack(std::move(second));
    shift(other, second_x, 0.0);
    row.extents.push_back(other.extents.front());
    if (row.where.empty()) {
        row.where = other.where;
        row.span = other.span;
    }
    append(row, std::move(other));
    Measured result;
    result.before = kit.em(0.4);
    result.after = kit.em(0.8);
    result.slabs.push_back(std::move(row));
    return result;
}

} // namespace tickleaf::layout
