// SPDX-License-Identifier: MIT
#include "layout/lay_out.h"

#include <algorithm>
#include <iterator>
#include <utility>

#include "layout/blocks.h"
#include "layout/paginate.h"
#include "layout/place.h"
#include "layout/typesetter.h"
#include "layout/worth.h"

namespace tickleaf::layout {

namespace {

using content::Booklet;
using page::Tag;
using Kind = content::Part::Kind;

constexpr page::Colour kWhite{255, 255, 255};

/// The booklet's parts that the template asks for, in its order.
std::vector<const content::Part*> chosen_parts(const Booklet& booklet,
                                               const PageTemplate& page_template) {
    std::vector<const content::Part*> parts;
    for (const Kind kind : page_template.parts) {
        for (const content::Part& part : booklet.parts) {
            if (part.kind == kind) {
                parts.push_back(&part);
            }
        }
    }
    return parts;
}

bool is_title(const content::Block& block) {
    if (const auto* heading = std::get_if<content::Heading>(&block.value)) {
        return heading->level == 1;
    }
    return std::holds_alternative<content::Paragraph>(block.value);
}

/// Title and lead of the cover on a panel of the accent colour.
std::vector<Slab> cover(Kit& kit, const content::Part& part, const Context& context) {
    std::size_t count = 0;
    while (count < part.blocks.size() && is_title(part.blocks[count])) {
        ++count;
    }
    const auto middle = part.blocks.begin() + static_cast<std::ptrdiff_t>(count);
    Context inside = context;
    const double pad = kit.gap(1.6);
    inside.width -= pad * 2.0;
    inside.text = kWhite;
    inside.muted = kWhite;
    inside.on_accent = true;
    inside.rigid = true;
    std::vector<Slab> slabs;
    std::vector<Slab> title = measure_blocks(kit, {part.blocks.begin(), middle}, inside);
    if (!title.empty()) {
        Slab words = stack(std::move(title));
        shift(words, pad, pad * 1.4);
        Slab panel;
        panel.where = words.where;
        panel.span = words.span;
        const double height = words.height() + pad * 2.6;
        Placement at;
        at.width = context.width;
        add_shape(panel,
                  filled(page::rounded_rectangle(0, 0, context.width, height, kit.em(0.7)),
                         kit.page->accent),
                  at);
        append(panel, std::move(words));
        panel.extents = {Extent{height, 0.0}};
        slabs.push_back(std::move(panel));
    }
    std::vector<Slab> rest = measure_blocks(kit, {middle, part.blocks.end()}, context);
    if (!rest.empty() && !slabs.empty()) {
        rest.front().space_before = std::max(rest.front().space_before, kit.gap(1.6));
    }
    std::move(rest.begin(), rest.end(), std::back_inserter(slabs));
    return slabs;
}

/// The clinic's logo, in its own proportions, as large as its box.
Slab logo_slab(Kit& kit, const Logo& logo, const Context& context) {
    const page::Picture& picture = *logo.picture;
    const double width = std::min(logo.width.pt(), context.width);
    const double scale = std::min(width / picture.width, logo.height.pt() / picture.height);
    Fragment fragment;
    fragment.width = picture.width * scale;
    fragment.x = (context.width - fragment.width) * (logo.place == Logo::Place::Start    ? 0.0
                                                     : logo.place == Logo::Place::Centre ? 0.5
                                                                                         : 1.0);
    if (!logo.name.empty()) {
        fragment.tag = kit.tag(Tag::Role::Figure, context.tag);
        kit.tags->back().alternative = logo.name;
    }
    fragment.part = PicturePart{logo.picture, picture.height * scale};
    Slab slab;
    slab.where = logo.file;
    slab.span = logo.span;
    slab.extents = {Extent{picture.height * scale, 0.0}};
    slab.fragments.push_back(std::move(fragment));
    return slab;
}

std::vector<Slab> words_of_part(Kit& kit, const content::Part& part, const Context& context) {
    return part.kind == Kind::Cover ? cover(kit, part, context)
                                    : measure_blocks(kit, part.blocks, context);
}

/// The first part has the logo over it.
std::vector<Slab> part_slabs(Kit& kit, const content::Part& part, const Context& context) {
    const auto& logo = kit.page->logo;
    if (!kit.is_first_part || !logo || logo->picture == nullptr) {
        return words_of_part(kit, part, context);
    }
    std::vector<Slab> slabs{logo_slab(kit, *logo, context)};
    std::vector<Slab> words = words_of_part(kit, part, context);
    if (!words.empty()) {
        words.front().before = Break::Forbidden;
        words.front().space_before = std::max(words.front().space_before, kit.gap(1.1));
    }
    std::move(words.begin(), words.end(), std::back_inserter(slabs));
    return slabs;
}

/// These are taken in at a glance, so everything in them stands closer if that brings them on one
/// page.
bool wants_one_page(Kind kind) {
    return kind == Kind::Cover || kind == Kind::Safety || kind == Kind::Sheet;
}

/// Smaller than clear print: a clinician's, at a desk.
bool is_dense(const Kit& kit) {
    return kit.page->body_size < 12.0;
}

/// How a part over several pages is tried: how close it stands, and how large drawings are where an
/// exercise goes over two pages anyway.
struct Setting {
    int tightness = 0;
    double split_share = 1.0;
    /// Weighed against what it saves.
    double cost() const { return 25.0 * tightness + (split_share < 1.0 ? 100.0 : 0.0); }
};

/// Whether a part set as usual leaves something to be better.
bool wastes_paper(const Kit& kit, const content::Part& part, const std::vector<Slab>& slabs,
                  const Worth& worth) {
    return worth.trouble >= kThinCost || worth.pages > least_pages(slabs, kit) ||
           wants_one_page(part.kind) || is_dense(kit);
}

/// A part with pages that hold little, or with an exercise over two of them, stands closer or has
/// smaller drawings where that saves a page or fills the thin one.
std::vector<Slab> on_better_pages(Kit& kit, const content::Part& part, const Context& context) {
    const Trial trial(kit);
    const std::size_t said = kit.said.size();
    const auto measured = [&](const Setting& setting) {
        trial.undo(kit);
        tighten(kit, setting.tightness);
        kit.split_share = setting.split_share;
        std::vector<Slab> slabs = part_slabs(kit, part, context);
        kit.split_share = 1.0;
        tighten(kit, 0);
        return slabs;
    };
    std::vector<Slab> slabs = measured({});
    const Worth usual = worth_now(slabs, kit);
    const bool split = kit.said.size() > said;
    if (usual.pages == 1 || (!split && !wastes_paper(kit, part, slabs, usual))) {
        return slabs;
    }
    Setting best;
    double least = usual.cost();
    const auto pays = [&](const Setting& setting) {
        slabs = measured(setting);
        const double cost = worth_now(slabs, kit).cost() + setting.cost();
        const bool better = cost < least;
        best = better ? setting : best;
        least = std::min(least, cost);
        return better;
    };
    // Small type has no lines to give away, only space between blocks.
    const int closest = is_dense(kit) ? 1 : kTightest;
    for (const double share : {1.0, kSmallSplitDrawing}) {
        // What the closest does not better nothing looser does.
        const bool worth_a_look = share == 1.0 || split;
        for (int tightness = closest; worth_a_look && tightness >= 0; --tightness) {
            if (!pays({tightness, share})) {
                break;
            }
        }
    }
    return measured(best);
}

std::vector<Slab> fitted_slabs(Kit& kit, const content::Part& part, const Context& context) {
    if (part.kind == Kind::Logbook || part.kind == Kind::Refill) {
        return on_log_pages(kit, part, context, part_slabs);
    }
    if (!wants_one_page(part.kind)) {
        return on_better_pages(kit, part, context);
    }
    if (part.kind == Kind::Sheet) {
        return on_a_sheet(kit, part, context, part_slabs);
    }
    const Trial trial(kit);
    for (int tightness = 0; tightness <= kTightest; ++tightness) {
        tighten(kit, tightness);
        std::vector<Slab> slabs = part_slabs(kit, part, context);
        tighten(kit, 0);
        if (total_height(slabs, -1.0) <= kit.page_height) {
            return slabs;
        }
        trial.undo(kit);
    }
    return on_better_pages(kit, part, context);
}

/// These are looked up by leafing through, so they start a page whatever the headings say.
bool starts_page(Kind kind) {
    return kind == Kind::Stage || kind == Kind::Logbook || kind == Kind::ClinicianCopy ||
           kind == Kind::Notes || kind == Kind::SpareLog || kind == Kind::Sheet ||
           kind == Kind::Refill;
}

/// The slabs of part number `index`; the first of them begins a page where `forced`.
std::vector<Slab> laid_part(Kit& kit, const content::Part& part, std::size_t index, bool forced) {
    Context context;
    context.width = kit.page->text_width();
    context.tag = kit.tag(Tag::Role::Sect, 0, part.title.empty() ? nullptr : &part.title);
    context.text = kit.page->text;
    context.muted = kit.page->muted;
    kit.is_first_part = index == 0;
    std::vector<Slab> slabs = fitted_slabs(kit, part, context);
    if (slabs.empty()) {
        return slabs;
    }
    Slab& first = slabs.front();
    first.before = index == 0                         ? Break::Allowed
                   : forced || starts_page(part.kind) ? Break::Forced
                                                      : first.before;
    first.space_before = std::max(first.space_before, kit.em(1.6));
    if (!part.title.empty()) {
        first.outline.insert(first.outline.begin(), {part.title.text, 1, 0, 0.0});
    }
    for (Slab& slab : slabs) {
        slab.part = index;
    }
    return slabs;
}

/// Whether all that stands so far and this together take no more than a page.
bool fits_under(const Kit& kit, const std::vector<Slab>& slabs) {
    const std::vector<Slab>& above = kit.flow->slabs;
    return !slabs.empty() &&
           total_height(above, 0.0) + slabs.front().space_before + total_height(slabs, 0.0) <=
               kit.page_height;
}

using Parts = std::vector<const content::Part*>;

bool is_spare(const content::Part* part) {
    return part->kind == Kind::Notes || part->kind == Kind::SpareLog;
}

/// A folded booklet has a multiple of four pages. What is missing is put before its last part, so
/// that this ends on the back: a week of the logbook where that fits, lines to write on.
void fill_fold(Kit& kit, Parts& parts, const Parts& spare, std::size_t pages) {
    std::size_t missing = (4 - pages % 4) % 4;
    const std::size_t last = parts.size() - 1;
    std::vector<Slab> filling;
    const auto use = [&](const content::Part* part) {
        const Trial trial(kit);
        std::vector<Slab> slabs = laid_part(kit, *part, parts.size(), true);
        const std::size_t needed = slabs.empty() ? missing + 1 : pages_of(slabs, kit);
        if (needed > missing) {
            trial.undo(kit);
            return false;
        }
        parts.push_back(part);
        missing -= needed;
        std::move(slabs.begin(), slabs.end(), std::back_inserter(filling));
        return true;
    };
    for (const content::Part* part : spare) {
        bool again = missing > 0;
        while (again) {
            again = use(part) && missing > 0 && part->kind == Kind::Notes;
        }
    }
    auto& slabs = kit.flow->slabs;
    const auto at = std::find_if(slabs.begin(), slabs.end(),
                                 [last](const Slab& slab) { return slab.part == last; });
    slabs.insert(at, std::make_move_iterator(filling.begin()),
                 std::make_move_iterator(filling.end()));
}

/// The pages of a folded booklet stand in the file as they are printed, not as they are read.
void say_print_only(Kit& kit) {
    kit.say(support::Severity::Note, {}, "fold-print-only",
            "template \"" + kit.page->name +
                "\" is for printing and folding: its pages are not in reading order",
            "print on both sides, turned over the short edge, at full size; for a screen or a "
            "screen reader make the booklet with template \"standard\"");
}

std::string stage_number(const content::Part& part, const Booklet& booklet) {
    // The number a reader sees in the stage's own heading.
    for (const content::Block& block : part.blocks) {
        const auto* heading = std::get_if<content::Heading>(&block.value);
        if (heading != nullptr && heading->level == 1 && !heading->badge.empty()) {
            return heading->badge;
        }
    }
    return in_digits(booklet, part.stage + 1);
}

std::vector<PartLook> looks_of(const std::vector<const content::Part*>& parts,
                               const Booklet& booklet) {
    std::size_t stages = 1;
    for (const content::Part* part : parts) {
        stages = part->kind == Kind::Stage ? std::max(stages, part->stage + 1) : stages;
    }
    std::vector<PartLook> looks;
    for (const content::Part* part : parts) {
        PartLook look;
        look.running_head = part->kind != Kind::Cover && part->kind != Kind::Sheet;
        if (part->kind == Kind::Stage) {
            look.tab = stage_number(*part, booklet);
            look.tab_slot = part->stage;
            look.tab_slots = stages;
        }
        looks.push_back(std::move(look));
    }
    return looks;
}

page::Document frame_of(const Booklet& booklet) {
    page::Document document;
    document.title = booklet.title.text;
    document.author = booklet.author;
    document.subject = booklet.subject;
    document.language = booklet.language;
    document.right_to_left = booklet.right_to_left;
    document.date = booklet.date;
    Tag root;
    root.role = Tag::Role::Document;
    root.language = booklet.language;
    document.tags.push_back(std::move(root));
    return document;
}

} // namespace

std::optional<page::Document> lay_out(const Booklet& booklet, const PageTemplate& page_template,
                                      text::FontSet& fonts, support::Findings& findings) {
    page::Document document = frame_of(booklet);
    Typesetter typesetter(page_template, fonts, findings);
    Flow flow;
    Kit kit;
    kit.page = &page_template;
    kit.booklet = &booklet;
    kit.type = &typesetter;
    kit.tags = &document.tags;
    kit.flow = &flow;
    kit.page_height = page_template.text_height();
    Parts parts = chosen_parts(booklet, page_template);
    Parts spare;
    if (page_template.fold_on) {
        std::copy_if(parts.begin(), parts.end(), std::back_inserter(spare), is_spare);
        std::erase_if(parts, is_spare);
    }
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const bool after_front =
            i > 0 && (parts[i - 1]->kind == Kind::Cover || parts[i - 1]->kind == Kind::Contents);
        const bool forced = after_front || (page_template.fold_on && i + 1 == parts.size());
        std::vector<Slab> slabs = laid_part(kit, *parts[i], i, forced);
        if (parts[i]->kind == Kind::Contents && fits_under(kit, slabs)) {
            slabs.front().before = Break::Allowed;
        }
        std::move(slabs.begin(), slabs.end(), std::back_inserter(flow.slabs));
    }
    if (page_template.fold_on && !flow.slabs.empty()) {
        fill_fold(kit, parts, spare, pages_of(flow.slabs, kit));
        say_print_only(kit);
    }
    for (support::Finding& finding : kit.said) {
        findings.add(std::move(finding));
    }
    if (flow.slabs.empty()) {
        findings.error({}, "layout-empty",
                       "the booklet has nothing to print with template \"" + page_template.name +
                           "\"");
        return std::nullopt;
    }
    const std::vector<PageCut> cuts = paginate(flow, kit.page_height, findings);
    if (cuts.size() > kMaxPages) {
        findings.error({}, "layout-pages",
                       "the booklet has " + std::to_string(cuts.size()) + " pages; at most " +
                           std::to_string(kMaxPages) + " can be made");
        return std::nullopt;
    }
    place_pages(kit, cuts, looks_of(parts, booklet), document);
    return document;
}

} // namespace tickleaf::layout
