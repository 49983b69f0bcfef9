// SPDX-License-Identifier: MIT
#include "layout/blocks.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace tickleaf::layout {

using page::Tag;

std::size_t Kit::tag(Tag::Role role, std::size_t parent, const content::Words* words) {
    Tag made;
    made.role = role;
    made.parent = parent;
    if (words != nullptr && words->language != booklet->language) {
        made.language = words->language;
    }
    tags->push_back(std::move(made));
    return tags->size() - 1;
}

void tighten(Kit& kit, int level) {
    constexpr double kSpaces[] = {1.0, 0.75, 0.6, 0.5, 0.35};
    constexpr double kLines[] = {1.0, 1.0, 0.96, 0.925, 0.925};
    const int step = std::clamp(level, 0, kTightestSheet);
    kit.tightness = step;
    kit.space = kSpaces[step];
    kit.type->tighten(kLines[step]);
}

void Trial::undo(Kit& kit) const {
    kit.tags->resize(tags_);
    kit.flow->heads.resize(heads_);
    kit.said.resize(said_);
}

text::Style Kit::style(double size, text::Weight weight, page::Colour colour) const {
    text::Style style;
    style.size = size;
    style.weight = weight;
    style.colour = colour;
    return style;
}

void Kit::say(support::Severity severity, const support::Span& span, std::string id,
              std::string message, std::string hint) {
    said.push_back({severity, span, std::move(id), std::move(message), std::move(hint)});
}

void shift(Slab& slab, double x, double y) {
    for (Fragment& fragment : slab.fragments) {
        fragment.x += x;
        fragment.y.fixed += y;
    }
}

void append(Slab& slab, Slab&& other) {
    std::move(other.fragments.begin(), other.fragments.end(), std::back_inserter(slab.fragments));
    std::move(other.outline.begin(), other.outline.end(), std::back_inserter(slab.outline));
    slab.anchors.insert(slab.anchors.end(), other.anchors.begin(), other.anchors.end());
}

std::string in_digits(const content::Booklet& booklet, std::size_t number) {
    std::string result;
    for (const char digit : std::to_string(number)) {
        const auto index = static_cast<std::size_t>(digit - '0');
        result += index < booklet.digits.size() ? booklet.digits[index] : std::string(1, digit);
    }
    return result;
}

std::string page_number_text(const content::Booklet& booklet, std::size_t number) {
    return "\u00A0" + in_digits(booklet, number);
}

double total_height(const std::vector<Slab>& slabs, double k) {
    double result = 0.0;
    for (std::size_t i = 0; i < slabs.size(); ++i) {
        result += slabs[i].height(k) + (i == 0 ? 0.0 : slabs[i].space_before);
    }
    return result;
}

Slab stack(std::vector<Slab> slabs) {
    Slab result;
    Extent y{};
    for (std::size_t i = 0; i < slabs.size(); ++i) {
        Slab& slab = slabs[i];
        y.fixed += i == 0 ? 0.0 : slab.space_before;
        for (Fragment& fragment : slab.fragments) {
            fragment.y.fixed += y.fixed;
            fragment.y.flex += y.flex;
        }
        // A row of flexible columns has several extents; its height at rest stands for them.
        const bool simple = slab.extents.size() == 1;
        y.fixed += simple ? slab.extents.front().fixed : slab.height();
        y.flex += simple ? slab.extents.front().flex : 0.0;
        append(result, std::move(slab));
    }
    result.extents = {y};
    if (!slabs.empty()) {
        result.where = slabs.front().where;
        result.span = slabs.front().span;
    }
    return result;
}

void add_shape(Slab& slab, page::Shape shape, Placement at) {
    Fragment fragment;
    fragment.x = at.x;
    fragment.width = at.width;
    fragment.y.fixed = at.y;
    fragment.tag = at.tag;
    fragment.part = ShapePart{std::move(shape)};
    slab.fragments.push_back(std::move(fragment));
}

void add_shapes(Slab& slab, const Shapes& shapes, Placement at) {
    for (const page::Shape& shape : shapes) {
        add_shape(slab, shape, at);
    }
}

std::string first_words(const content::Words& words) {
    constexpr std::size_t kMost = 80;
    if (words.text.size() <= kMost) {
        return words.text;
    }
    const std::size_t space = words.text.rfind(' ', kMost);
    std::size_t end = space == std::string::npos || space == 0 ? kMost : space;
    const auto continues = [&](std::size_t i) {
        return (static_cast<unsigned char>(words.text[i]) & 0xC0u) == 0x80u;
    };
    while (end > 0 && continues(end)) {
        --end;
    }
    return words.text.substr(0, end) + "\u2026";
}

double add_words(Kit& kit, Slab& slab, const TextRequest& request) {
    if (slab.where.empty()) {
        slab.where = first_words(*request.words);
        slab.span = request.words->span;
    }
    const bool plain = request.role == Tag::Role::Span;
    double height = 0.0;
    const content::Words* words = request.words;
    text::Style style = request.style;
    for (bool first = true; words != nullptr; first = false, words = words->second.get()) {
        if (words->empty()) {
            continue;
        }
        Placement at = request.at;
        at.y += height;
        at.tag = plain && first ? request.at.tag : kit.tag(request.role, request.at.tag, words);
        TextBox box = kit.type->set(*words, style, at.width);
        height += box.height();
        place_lines(slab, std::move(box), at);
        // The second language: smaller and quieter, never under the small size.
        style.size = std::max(kit.page->small_size, request.style.size * 0.86);
        style.weight = text::Weight::Regular;
        style.colour = request.second_colour;
    }
    return height;
}

namespace {

template <class Measure>
double widest(Kit& kit, const content::Words& words, const text::Style& style,
              Measure measure_one) {
    double result = 0.0;
    for (const content::Words* w = &words; w != nullptr; w = w->second.get()) {
        if (!w->empty()) {
            result = std::max(result, measure_one(kit.type->paragraph(*w, style)));
        }
    }
    return result;
}

/// How a block wants what follows it to begin.
struct Wish {
    bool keep = false;
    bool near = false;
    bool leads = false;
};

/// A heading and a line or two under it do not stay behind: what follows them is kept, too.
constexpr double kFewLines = 4.2; // of the body size: a line in two languages

void keep(Slab& slab) {
    const bool free = slab.before != Break::Forced && slab.before != Break::Forbidden;
    slab.before = free ? Break::Kept : slab.before;
}

void join(const Kit& kit, std::vector<Slab>& all, Measured&& next, double& space_after,
          Wish& wish) {
    if (next.slabs.empty()) {
        return;
    }
    Slab& first = next.slabs.front();
    first.space_before = std::max(space_after, next.before) * kit.space;
    const bool few = wish.leads && total_height(next.slabs, 0.0) <= kit.em(kFewLines);
    for (std::size_t i = 0; wish.keep && i < (few ? next.slabs.size() : 1); ++i) {
        keep(next.slabs[i]);
    }
    if (wish.near && first.before == Break::Allowed) {
        first.before = Break::Discouraged;
    }
    std::move(next.slabs.begin(), next.slabs.end(), std::back_inserter(all));
    space_after = next.after;
    wish = {next.keep_with_next || few, next.near_next, next.leads};
}

} // namespace

double natural_width(Kit& kit, const content::Words& words, const text::Style& style) {
    return widest(kit, words, style, [](const text::Paragraph& p) { return p.natural_width(); });
}

double least_width(Kit& kit, const content::Words& words, const text::Style& style) {
    return widest(kit, words, style, [](const text::Paragraph& p) { return p.least_width(); });
}

double width_in_lines(Kit& kit, const content::Words& words, const text::Style& style,
                      std::size_t lines) {
    double result = 0.0;
    for (const content::Words* w = &words; w != nullptr; w = w->second.get()) {
        if (w->empty()) {
            continue;
        }
        const text::Paragraph& paragraph = kit.type->paragraph(*w, style);
        const double natural = paragraph.natural_width() + 0.01;
        double width =
            lines > 1 ? std::max(paragraph.least_width() + 0.01, natural / 2.0) : natural;
        while (width < natural && kit.type->set(*w, style, width).lines.size() > lines) {
            width = std::min(natural, width + natural / 20.0);
        }
        result = std::max(result, width);
    }
    return result;
}

namespace {

/// How many exercises stand side by side from here on; 0 where they do not.
std::size_t cells_from(const Kit& kit, const std::vector<content::Block>& blocks, std::size_t at) {
    std::size_t count = 0;
    while (kit.abreast > 1 && count < kit.abreast && at + count < blocks.size() &&
           is_cell(blocks[at + count])) {
        ++count;
    }
    return count;
}

} // namespace

std::vector<Slab> measure_blocks(Kit& kit, const std::vector<content::Block>& blocks,
                                 const Context& context) {
    std::vector<Slab> all;
    double space_after = 0.0;
    Wish wish;
    bool forced = false;
    for (std::size_t i = 0; i < blocks.size(); ++i) {
        const content::Block& block = blocks[i];
        if (std::holds_alternative<content::PageBreak>(block.value)) {
            forced = true;
            continue;
        }
        const std::size_t cells = cells_from(kit, blocks, i);
        Measured measured =
            cells > 0 ? measure_abreast(kit, &block, cells, context)
                      : std::visit([&](const auto& value) { return measure(kit, value, context); },
                                   block.value);
        i += cells > 0 ? cells - 1 : 0;
        if (forced && !measured.slabs.empty()) {
            measured.slabs.front().before = Break::Forced;
            forced = false;
        }
        join(kit, all, std::move(measured), space_after, wish);
    }
    return all;
}

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

/// A group taller than a page goes on under its name, where it best breaks: never between the
/// drawing and the start of the steps.
std::vector<Slab> over_pages(Kit& kit, const Blocks& blocks, const Context& context) {
    const bool has_name = std::holds_alternative<content::Heading>(blocks.front().value);
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

Measured measure(Kit&, const content::PageBreak&, const Context&) {
    return {};
}

Measured measure(Kit& kit, const content::Divider&, const Context& context) {
    Measured result;
    Slab slab;
    page::Shape rule = outlined(page::line({0, 0}, {context.width, 0}), kit.page->rule, 0.6);
    Placement at;
    at.width = context.width;
    add_shape(slab, std::move(rule), at);
    slab.extents = {Extent{0.6, 0.0}};
    slab.before = Break::Forbidden;
    result.slabs.push_back(std::move(slab));
    result.before = kit.em(0.9);
    result.after = kit.em(0.9);
    return result;
}

} // namespace tickleaf::layout
