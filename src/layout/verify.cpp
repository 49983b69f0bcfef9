// SPDX-License-Identifier: MIT
#include "layout/verify.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <set>

#include "page/bounds.h"
#include "support/number.h"

namespace tickleaf::layout {

namespace {

using page::Box;
using page::Item;
using page::Tag;

// Ink of letters without their tallest marks: enough to find text over text, not a false alarm for
// close lines.
constexpr page::Reach kInk{0.72, 0.2};
constexpr double kTolerance = 0.6;
// A drawing printed at 115 % may have been 85 %: what it could give up of its height.
constexpr double kGives = 1.0 - 0.85 / 1.15;

bool is_inside(const Box& box, const Box& other) {
    return box.x0 > other.x0 - kTolerance && box.y0 > other.y0 - kTolerance &&
           box.x1 < other.x1 + kTolerance && box.y1 < other.y1 + kTolerance;
}

std::optional<Box> box_of(const Item& item) {
    return page::bounds_of(item.content, kInk);
}

std::string words_of(const Item& item) {
    if (const auto* run = std::get_if<page::GlyphRun>(&item.content)) {
        return "\"" + run->text + "\"";
    }
    return std::holds_alternative<page::PlacedDrawing>(item.content)   ? "a drawing"
           : std::holds_alternative<page::PlacedPicture>(item.content) ? "a picture"
                                                                       : "a shape";
}

bool is_blank(const Item& item) {
    const auto* run = std::get_if<page::GlyphRun>(&item.content);
    return run != nullptr && run->text.find_first_not_of(' ') == std::string::npos;
}

class Verifier {
  public:
    Verifier(const page::Document& document, const PageTemplate& page_template)
        : document_(&document), template_(&page_template) {}

    std::vector<Fault> run() {
        check_tags();
        for (std::size_t i = 0; i < document_->pages.size(); ++i) {
            check_page(i);
            check_fill(i);
        }
        check_groups();
        return std::move(faults_);
    }

  private:
    void add(Fault::Kind kind, std::size_t page, std::string what) {
        faults_.push_back({kind, page, std::move(what)});
    }

    Box margins(std::size_t index) const {
        const page::Page& page = document_->pages[index];
        const double start = template_->margin_inner.pt();
        const double end = template_->margin_outer.pt();
        const bool facing = template_->fold_on && index % 2 == 1;
        const bool mirrored = document_->right_to_left != facing;
        return {mirrored ? end : start, template_->margin_top.pt(),
                page.width - (mirrored ? start : end), page.height - template_->margin_bottom.pt()};
    }

    void check_page(std::size_t index) {
        const page::Page& page = document_->pages[index];
        const Box paper{0, 0, page.width, page.height};
        const Box inner = margins(index);
        std::vector<std::pair<Box, const Item*>> solid;
        for (const Item& item : page.items) {
            const auto box = box_of(item);
            if (!box) {
                continue;
            }
            if (!is_inside(*box, paper)) {
                add(Fault::Kind::OutsidePage, index, words_of(item));
            } else if (!item.pagination && !is_inside(*box, inner)) {
                add(Fault::Kind::OutsideMargins, index, words_of(item));
            }
            const bool text = std::holds_alternative<page::GlyphRun>(item.content);
            if (text && item.tag == page::kArtifact && !item.pagination) {
                add(Fault::Kind::NoTag, index, words_of(item));
            }
            const bool drawing = std::holds_alternative<page::PlacedDrawing>(item.content) ||
                                 std::holds_alternative<page::PlacedPicture>(item.content);
            if ((text && !is_blank(item)) || drawing || is_form(item)) {
                solid.emplace_back(*box, &item);
            }
        }
        check_overlaps(index, solid);
    }

    bool is_form(const Item& item) const {
        return item.tag < document_->tags.size() &&
               document_->tags[item.tag].role == Tag::Role::Form;
    }

    /// Labels belong to their drawing and numbers to their scale: same element, no overlap.
    static bool may_meet(const Item& one, const Item& other) {
        const bool both_text = std::holds_alternative<page::GlyphRun>(one.content) &&
                               std::holds_alternative<page::GlyphRun>(other.content);
        return !both_text && one.tag == other.tag && one.tag != page::kArtifact;
    }

    void check_overlaps(std::size_t index, std::vector<std::pair<Box, const Item*>>& solid) {
        std::sort(solid.begin(), solid.end(),
                  [](const auto& a, const auto& b) { return a.first.y0 < b.first.y0; });
        for (std::size_t i = 0; i < solid.size(); ++i) {
            for (std::size_t j = i + 1; j < solid.size() && solid[j].first.y0 < solid[i].first.y1;
                 ++j) {
                if (solid[i].first.meets(solid[j].first, kTolerance) &&
                    !may_meet(*solid[i].second, *solid[j].second)) {
                    add(Fault::Kind::Overlap, index,
                        words_of(*solid[i].second) + " and " + words_of(*solid[j].second));
                }
            }
        }
    }

    /// The section an item belongs to.
    std::size_t section_of(std::size_t tag) const {
        while (tag < document_->tags.size() && document_->tags[tag].role != Tag::Role::Sect) {
            tag = document_->tags[tag].parent;
        }
        return tag;
    }

    std::size_t first_section(std::size_t page) const {
        for (const Item& item : document_->pages[page].items) {
            if (item.tag != page::kArtifact) {
                return section_of(item.tag);
            }
        }
        return page::kArtifact;
    }

    std::size_t last_section(std::size_t page) const {
        const auto& items = document_->pages[page].items;
        for (auto item = items.rbegin(); item != items.rend(); ++item) {
            if (item->tag != page::kArtifact) {
                return section_of(item->tag);
            }
        }
        return page::kArtifact;
    }

    /// The outermost kept group an item stands in.
    std::size_t group_of(std::size_t tag) const {
        std::size_t group = page::kArtifact;
        for (; tag < document_->tags.size(); tag = document_->tags[tag].parent) {
            group = document_->tags[tag].role == Tag::Role::Div ? tag : group;
        }
        return group;
    }

    /// What a drawing could give up of the page's height: no more than down to the text beside it.
    static double gives(const page::Page& page, std::size_t tag, const Box& drawing) {
        double beside = drawing.y0;
        for (const Item& item : page.items) {
            const auto box = box_of(item);
            const bool text = std::holds_alternative<page::GlyphRun>(item.content);
            if (!text || !box || item.tag == tag || item.pagination) {
                continue;
            }
            const bool apart = box->x0 > drawing.x1 || box->x1 < drawing.x0;
            beside = apart && box->y0 < drawing.y1 ? std::max(beside, box->y1) : beside;
        }
        return std::clamp(drawing.y1 - beside, 0.0, (drawing.y1 - drawing.y0) * kGives);
    }

    /// Height of the kept group that a page begins with, with its drawings as small as they may be.
    double next_group_height(std::size_t page) const {
        std::size_t group = page::kArtifact;
        double top = 1e9;
        double bottom = 0.0;
        double given = 0.0;
        bool first = true;
        double frame = 0.0; // frames stand before what they hold and belong to it
        for (const Item& item : document_->pages[page].items) {
            const auto box = box_of(item);
            if (item.pagination || !box) {
                continue;
            }
            if (item.tag == page::kArtifact) {
                frame = std::max(frame, box->y1);
                continue;
            }
            group = first ? group_of(item.tag) : group;
            first = false;
            if (group != page::kArtifact && group_of(item.tag) == group) {
                top = std::min(top, box->y0);
                bottom = std::max({bottom, box->y1, frame});
                const bool drawing = std::holds_alternative<page::PlacedDrawing>(item.content);
                given += drawing ? gives(document_->pages[page], item.tag, *box) : 0.0;
            }
        }
        // At the least there is a gap before a group; and lines are taller than their ink, here and
        // at the end of the page before.
        const double ink = kInk.up + kInk.down;
        const double gap = template_->body_size * (1.5 + 2.0 * (template_->line_spacing - ink));
        return group == page::kArtifact ? 0.0 : bottom - top - given + gap;
    }

    void check_fill(std::size_t index) {
        if (index + 1 == document_->pages.size() ||
            last_section(index) != first_section(index + 1)) {
            return;
        }
        const Box inner = margins(index);
        double bottom = inner.y0;
        for (const Item& item : document_->pages[index].items) {
            const auto box = box_of(item);
            bottom = box && !item.pagination ? std::max(bottom, box->y1) : bottom;
        }
        const double left = inner.y1 - bottom;
        if (bottom - inner.y0 < (inner.y1 - inner.y0) / 3.0 &&
            next_group_height(index + 1) <= left) {
            add(Fault::Kind::ThinPage, index,
                support::fixed((bottom - inner.y0) / (inner.y1 - inner.y0) * 100.0, 0) +
                    " % full, the next group needs " +
                    support::fixed(next_group_height(index + 1), 0) + " of " +
                    support::fixed(left, 0) + " pt");
        }
    }

    void check_tags() {
        const auto& tags = document_->tags;
        if (tags.empty() || tags[0].role != Tag::Role::Document) {
            add(Fault::Kind::BrokenTags, 0, "the first element is not Document");
        }
        for (std::size_t i = 1; i < tags.size(); ++i) {
            if (tags[i].parent >= i) {
                add(Fault::Kind::BrokenTags, 0,
                    "element " + std::to_string(i) + " stands before its parent");
            }
            // What a box in the label of a list item is for, the item says.
            const bool described =
                tags[i].role == Tag::Role::Figure ||
                (tags[i].role == Tag::Role::Form && tags[tags[i].parent].role != Tag::Role::Lbl);
            if (described && tags[i].alternative.empty()) {
                add(Fault::Kind::BrokenTags, 0,
                    "element " + std::to_string(i) + " has no alternative");
            }
        }
    }

    /// A Group of the booklet is a Div: all that stands in it is on one page.
    void check_groups() {
        std::map<std::size_t, std::size_t> page_of;
        std::set<std::size_t> reported;
        for (std::size_t page = 0; page < document_->pages.size(); ++page) {
            for (const Item& item : document_->pages[page].items) {
                for (std::size_t tag = item.tag; tag < document_->tags.size();
                     tag = document_->tags[tag].parent) {
                    if (document_->tags[tag].role != Tag::Role::Div) {
                        continue;
                    }
                    const auto known = page_of.emplace(tag, page).first;
                    if (known->second != page && reported.insert(tag).second) {
                        add(Fault::Kind::SplitGroup, page,
                            "group begun on page " + std::to_string(known->second + 1));
                    }
                }
            }
        }
    }

    const page::Document* document_;
    const PageTemplate* template_;
    std::vector<Fault> faults_;
};

const char* name_of(Fault::Kind kind) {
    switch (kind) {
    case Fault::Kind::Overlap:
        return "overlap";
    case Fault::Kind::OutsideMargins:
        return "outside the margins";
    case Fault::Kind::OutsidePage:
        return "outside the page";
    case Fault::Kind::SplitGroup:
        return "group split";
    case Fault::Kind::ThinPage:
        return "page under a third full";
    case Fault::Kind::NoTag:
        return "text without a structure element";
    case Fault::Kind::BrokenTags:
        return "structure";
    }
    return "";
}

} // namespace

std::vector<Fault> verify(const page::Document& document, const PageTemplate& page_template) {
    return Verifier(document, page_template).run();
}

std::string to_text(const std::vector<Fault>& faults) {
    std::string text;
    for (const Fault& fault : faults) {
        text += "page " + std::to_string(fault.page + 1) + ": " + name_of(fault.kind) + ": " +
                fault.what + "\n";
    }
    return text;
}

} // namespace tickleaf::layout
