// SPDX-License-Identifier: MIT
// A group stays on one page in the first form that fits one: beside its drawing or under it,
// smaller, closer. Where no form does, it goes on under its name on the next page.
#include "layout/blocks.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <utility>

namespace tickleaf::layout {

using page::Tag;

namespace {

double least_height(const std::vector<Slab>& slabs) {
    double result = 0.0;
    for (std::size_t i = 0; i < slabs.size(); ++i) {
        result += slabs[i].height(-1.0) + (i == 0 ? 0.0 : slabs[i].space(-1.0));
    }
    return result;
}

/// How a group is tried: beside or under its drawing, how large that is, and how close all stands.
struct Form {
    double figure_share = 1.0;
    bool one_column = false;
    int tightness = 0;
};
// A drawing in a column of its own may shrink more than one over the whole width before the other
// form is better; below the last no drawing can be read.
constexpr Form kForms[] = {{1.0, false, 0}, {0.85, false, 0}, {0.7, false, 0}, {1.0, true, 0},
                           {0.85, true, 0}, {0.7, true, 0},   {0.7, false, 1}, {0.55, false, 1},
                           {0.55, true, 1}, {0.55, false, 2}, {0.55, true, 2}, {0.45, false, 3},
                           {0.45, true, 3}};
/// Share of the template's drawing height that is small.
constexpr double kSmallDrawing = 0.5;
/// Under a name that is repeated.
constexpr double kUnderName = 0.5;
/// For a group that fits no page in any form: the largest that holds all steps beside the drawing.
constexpr Form kBesideForms[] = {{0.85, false, 0}, {0.7, false, 0}, {0.55, false, 1}};
constexpr Form kSplitForms[] = {{0.85, true, 0}, {0.7, true, 0}, {0.55, true, 1}, {0.45, true, 2}};

std::vector<Slab> in_form(Kit& kit, const std::vector<content::Block>& blocks,
                          const Context& context, Form form) {
    kit.figure_share = form.figure_share;
    kit.one_column = form.one_column;
    const int before = kit.tightness; // a part may stand closer already
    tighten(kit, std::max(before, form.tightness));
    std::vector<Slab> slabs = measure_blocks(kit, blocks, context);
    kit.figure_share = 1.0;
    kit.one_column = false;
    tighten(kit, before);
    return slabs;
}

bool is_caution(const content::Block& block) {
    const auto* callout = std::get_if<content::Callout>(&block.value);
    return callout != nullptr && callout->kind == content::Callout::Kind::Caution;
}

bool has_drawing(const content::Block& block) {
    const auto is_figure = [](const content::Block& b) {
        return std::holds_alternative<content::Figure>(b.value);
    };
    const auto* columns = std::get_if<content::Columns>(&block.value);
    return columns != nullptr &&
           (std::any_of(columns->first.begin(), columns->first.end(), is_figure) ||
            std::any_of(columns->second.begin(), columns->second.end(), is_figure));
}

using Blocks = std::vector<content::Block>;

/// What is split says what to take care of before the drawing, not on the page after it. With
/// `drawing_last` all that is said about the dose comes before it too.
Blocks in_split_order(Blocks blocks, bool drawing_last) {
    const auto columns = std::find_if(blocks.begin(), blocks.end(), has_drawing);
    if (drawing_last && columns != blocks.end()) {
        std::rotate(columns, columns + 1, blocks.end());
        return blocks;
    }
    std::stable_partition(columns, blocks.end(), is_caution);
    return blocks;
}

/// A week that goes over two pages is not parted in its table, where a page holds that with all
/// before it: days are filled in from top to bottom.
void keep_logs_whole(const Kit& kit, std::vector<Slab>& slabs) {
    const auto first = std::find_if(slabs.begin(), slabs.end(),
                                    [](const Slab& slab) { return slab.log != nullptr; });
    const auto last =
        std::find_if(first, slabs.end(), [&](const Slab& slab) { return slab.log != first->log; });
    if (first == slabs.end() || least_height({slabs.begin(), last}) > kit.page_height) {
        return;
    }
    for (auto row = first + 1; row < last; ++row) {
        row->before = Break::Forbidden;
    }
}

/// The name again at the top of the next page, as decoration: it was read out once.
std::size_t keep_name(Kit& kit, const Slab& name) {
    Slab head = name;
    head.outline.clear();
    for (Fragment& fragment : head.fragments) {
        fragment.tag = page::kArtifact;
    }
    for (Extent& extent : head.extents) {
        extent.fixed += kit.em(kUnderName);
    }
    kit.flow->heads.push_back(std::move(head));
    return kit.flow->heads.size() - 1;
}

/// Height of slab `begin` and of all that must follow it.
double run_height(const std::vector<Slab>& slabs, std::size_t begin) {
    double height = slabs[begin].height(-1.0);
    for (std::size_t i = begin + 1;
         i < slabs.size() && (slabs[i].before == Break::Forbidden ||
                              slabs[i].before == Break::Paid || slabs[i].before == Break::Kept);
         ++i) {
        height += slabs[i].height(-1.0) + slabs[i].space(-1.0);
    }
    return height;
}

/// A group set for more than one page.
struct Split {
    std::vector<Slab> slabs;
    std::size_t drawing = 0; ///< the slab of the drawing; 0 where there is none
};

/// What stands together in a group that is set for more than one page, best first: all up to the
/// steps; what is said of the dose, then drawing and steps; drawing and steps.
enum class Together { Start, DoseAndDrawing, Drawing };

Split split_form(Kit& kit, const Blocks& blocks, const Context& context, Form form,
                 Together together) {
    const auto columns = std::find_if(blocks.begin(), blocks.end(), has_drawing);
    Split split;
    if (columns != blocks.end()) {
        const Trial trial(kit);
        split.drawing = in_form(kit, {blocks.begin(), columns}, context, form).size();
        trial.undo(kit);
    }
    split.slabs = in_form(kit, blocks, context, form);
    if (split.drawing == 0 || split.drawing >= split.slabs.size()) {
        return split;
    }
    for (std::size_t i = 1; i < split.drawing && together != Together::Drawing; ++i) {
        split.slabs[i].before = Break::Forbidden;
    }
    Slab& drawing = split.slabs[split.drawing];
    drawing.before = together == Together::Start ? Break::Paid : Break::Allowed;
    drawing.where = split.slabs.front().where;
    return split;
}

/// A name does not stay behind with nothing but the line under it, unless so much would go along
/// that the page could be left all but empty.
void keep_start(Kit& kit, std::vector<Slab>& slabs) {
    constexpr double kMostTaken = 0.6;
    constexpr std::size_t kThird = 2;
    if (slabs.size() <= kThird || slabs[kThird].before == Break::Forbidden) {
        return;
    }
    const Break usual = std::exchange(slabs[kThird].before, Break::Kept);
    if (run_height(slabs, 0) > kMostTaken * kit.page_height) {
        slabs[kThird].before = usual;
    }
}

/// A name is not repeated for a line or two: the last of a group stays with what is before it.
void keep_end(const Kit& kit, std::vector<Slab>& slabs) {
    constexpr double kLeastTail = 0.12;
    double tail = 0.0;
    for (std::size_t i = slabs.size(); i-- > 1;) {
        tail += slabs[i].height(-1.0) + slabs[i].space(-1.0);
        const bool may_break =
            slabs[i].before == Break::Allowed || slabs[i].before == Break::Discouraged;
        if (tail > kLeastTail * kit.page_height) {
            break;
        }
        slabs[i].before = may_break ? Break::Kept : slabs[i].before;
    }
}

/// The group with its drawing beside the steps, where a page may end after them; empty where there
/// is no room for that.
Blocks beside_drawing(const Kit& kit, Blocks blocks, const Context& context) {
    const auto columns = std::find_if(blocks.begin(), blocks.end(), has_drawing);
    const Blocks parted =
        columns == blocks.end()
            ? Blocks{}
            : parted_after_steps(kit, std::get<content::Columns>(columns->value), context.width);
    if (parted.empty()) {
        return {};
    }
    blocks.insert(blocks.erase(columns), parted.begin(), parted.end());
    return in_split_order(std::move(blocks), false);
}

/// The first form that has all up to the last step on one page and takes no more than so much
/// paper.
std::optional<Form> form_beside(Kit& kit, const Blocks& parted, const Context& context,
                                double most) {
    for (Form form : kBesideForms) {
        form.figure_share = std::min(form.figure_share, kit.split_share);
        const Trial trial(kit);
        const Split split = split_form(kit, parted, context, form, Together::Start);
        trial.undo(kit);
        if (run_height(split.slabs, 0) <= kit.page_height &&
            total_height(split.slabs, 0.0) <= most) {
            return form;
        }
    }
    return std::nullopt;
}

/// The drawing over the words, in the first form that keeps it and the start of the steps on one
/// page.
Split under_drawing(Kit& kit, const Blocks& blocks, const Context& context, bool has_name) {
    const Trial trial(kit);
    Split split;
    bool fits = false;
    for (const Together together : {Together::Start, Together::DoseAndDrawing, Together::Drawing}) {
        const Blocks ordered = in_split_order(blocks, together != Together::Start);
        for (Form form : kSplitForms) {
            form.figure_share = std::min(form.figure_share, kit.split_share);
            // Before the drawing gets too small to be seen from the floor it goes on a page with
            // the steps alone.
            const bool small = together == Together::Start && form.figure_share < kSmallDrawing;
            if (fits || small) {
                break;
            }
            trial.undo(kit);
            split = split_form(kit, ordered, context, form, together);
            const double name = has_name ? split.slabs.front().height() + kit.em(kUnderName) : 0.0;
            fits = run_height(split.slabs, 0) <= kit.page_height &&
                   run_height(split.slabs, split.drawing) + name <= kit.page_height;
        }
    }
    return split;
}

/// The split that takes less paper; of two that take as much the one with its drawing beside the
/// steps.
Split least_paper(Kit& kit, const Blocks& blocks, const Context& context, bool has_name) {
    const Trial trial(kit);
    Split under = under_drawing(kit, blocks, context, has_name);
    const Blocks parted = beside_drawing(kit, blocks, context);
    const double most = total_height(under.slabs, 0.0);
    const auto form = parted.empty() ? std::nullopt : form_beside(kit, parted, context, most);
    if (!form) {
        return under;
    }
    trial.undo(kit);
    return split_form(kit, parted, context, *form, Together::Start);
}

/// A group taller than a page goes on under its name, where it best breaks: never between the
/// drawing and the start of the steps.
std::vector<Slab> over_pages(Kit& kit, const Blocks& blocks, const Context& context) {
    const bool has_name = std::holds_alternative<content::Heading>(blocks.front().value);
    Split split = least_paper(kit, blocks, context, has_name);
    keep_logs_whole(kit, split.slabs);
    if (has_name) {
        keep_start(kit, split.slabs);
        keep_end(kit, split.slabs);
    }
    const std::size_t head = has_name ? keep_name(kit, split.slabs.front()) : kNone;
    for (std::size_t i = 1; i < split.slabs.size(); ++i) {
        Slab& slab = split.slabs[i];
        slab.repeat = slab.repeat == kNone ? head : slab.repeat;
    }
    const Slab& first = split.slabs.front();
    kit.say(support::Severity::Note, first.span, "layout-group-split",
            "\"" + first.where + "\" is taller than a page of template \"" + kit.page->name +
                "\" and goes on on the next page under its name",
            "shorten its notes, or use a template with smaller type");
    return std::move(split.slabs);
}

/// A group in the first form that fits a page; empty where none does.
std::vector<Slab> on_one_page(Kit& kit, const Blocks& blocks, const Context& context) {
    const Trial trial(kit);
    const auto fitting = [&](const Form& form) {
        std::vector<Slab> slabs = in_form(kit, blocks, context, form);
        if (least_height(slabs) > kit.page_height) {
            trial.undo(kit);
            slabs.clear();
        }
        return slabs;
    };
    std::vector<Slab> slabs = fitting(kForms[0]);
    // The closest of either kind tell whether there is anything to look for.
    constexpr std::size_t kClosestOnes = 2;
    const std::size_t rest = std::size(kForms) - kClosestOnes;
    bool any = !slabs.empty();
    for (std::size_t i = rest; !any && i < std::size(kForms); ++i) {
        any = !fitting(kForms[i]).empty();
        trial.undo(kit);
    }
    for (std::size_t i = 1; any && slabs.empty() && i < std::size(kForms); ++i) {
        slabs = fitting(kForms[i]);
    }
    return slabs;
}

} // namespace

Measured measure(Kit& kit, const content::Group& block, const Context& context) {
    Context inner = context;
    inner.tag = kit.tag(Tag::Role::Div, context.tag);
    Measured result;
    result.before = kit.em(1.5);
    result.after = kit.em(1.5);
    result.slabs = on_one_page(kit, block.blocks, inner);
    for (std::size_t i = 1; i < result.slabs.size(); ++i) {
        result.slabs[i].before = Break::Forbidden;
    }
    if (result.slabs.empty() && !block.blocks.empty()) {
        result.slabs = over_pages(kit, block.blocks, inner);
    }
    if (!result.slabs.empty()) {
        result.slabs.front().stretch = kit.em(1.5);
    }
    return result;
}

} // namespace tickleaf::layout
