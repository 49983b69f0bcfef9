// SPDX-License-Identifier: MIT
// The contents: what a patient looks for, in the order of the pages. Made from the headings that
// stand in the booklet, so that none can be wrong or missing.
#include "content/parts.h"

#include <algorithm>
#include <utility>

#include "content/build.h"

namespace tickleaf::content {
namespace {

/// With fewer entries a booklet is leafed through faster than it is looked up in, and the page
/// would be all but empty.
constexpr std::size_t kFewestEntries = 8;

/// The first heading of a level in the blocks and in what they hold, or nullptr.
Heading* first_heading(std::vector<Block>& blocks, int level) {
    for (Block& block : blocks) {
        if (auto* heading = std::get_if<Heading>(&block.value)) {
            if (heading->level == level) {
                return heading;
            }
        } else if (auto* group = std::get_if<Group>(&block.value)) {
            if (Heading* inside = first_heading(group->blocks, level)) {
                return inside;
            }
        }
    }
    return nullptr;
}

/// Filled in or hung up, not looked for; or no part of a booklet.
bool is_listed(Part::Kind kind) {
    using Kind = Part::Kind;
    return kind == Kind::Safety || kind == Kind::Stage || kind == Kind::Logbook ||
           kind == Kind::Contact;
}

class Lister {
  public:
    explicit Lister(Desk& desk) : desk_(desk) {}

    void list(Part& part) {
        if (Heading* heading = first_heading(part.blocks, 1)) {
            add_entry(*heading, part.title, 1);
        }
        if (part.kind == Part::Kind::Stage) {
            for (Block& block : part.blocks) {
                auto* group = std::get_if<Group>(&block.value);
                Heading* heading = group == nullptr ? nullptr : first_heading(group->blocks, 2);
                if (heading != nullptr && !heading->badge.empty()) {
                    add_entry(*heading, heading->words, 2);
                }
            }
        }
    }
    std::size_t count() const { return headings_.size(); }
    /// The headings are told what they are called.
    Contents take() {
        for (std::size_t i = 0; i < headings_.size(); ++i) {
            headings_[i]->anchor = contents_.entries[i].anchor;
        }
        return std::move(contents_);
    }

  private:
    void add_entry(Heading& heading, const Words& words, int level) {
        Contents::Entry entry;
        entry.level = level;
        entry.badge = level == 2 ? heading.badge : std::string();
        entry.words = words;
        entry.anchor = contents_.entries.size() + 1;
        entry.link =
            desk_.voice.first().say("contents.link", {{"title", words.text}, {"page", kPageHole}});
        contents_.entries.push_back(std::move(entry));
        headings_.push_back(&heading);
    }

    Desk& desk_;
    Contents contents_;
    std::vector<Heading*> headings_; ///< one an entry
};

} // namespace

void add_contents(Desk& desk, Booklet& booklet) {
    std::vector<Part*> parts;
    for (Part& part : booklet.parts) {
        if (is_listed(part.kind)) {
            parts.push_back(&part);
        }
    }
    const auto& order = desk.material.parts;
    const auto place = [&order](const Part* part) {
        return std::find(order.begin(), order.end(), part->kind) - order.begin();
    };
    std::stable_sort(parts.begin(), parts.end(),
                     [&](const Part* one, const Part* other) { return place(one) < place(other); });
    Lister lister(desk);
    for (Part* part : parts) {
        lister.list(*part);
    }
    if (lister.count() < kFewestEntries) {
        return;
    }
    Part part;
    part.kind = Part::Kind::Contents;
    part.title = desk.voice.say("contents.title");
    add(part.blocks, heading(1, part.title));
    add(part.blocks, lister.take());
    const auto cover =
        std::find_if(booklet.parts.begin(), booklet.parts.end(),
                     [](const Part& candidate) { return candidate.kind == Part::Kind::Cover; });
    booklet.parts.insert(cover == booklet.parts.end() ? booklet.parts.begin() : cover + 1,
                         std::move(part));
}

} // namespace tickleaf::content
