// SPDX-License-Identifier: MIT
#include "content/draft_notice.h"

#include <algorithm>
#include <utility>

#include "content/build.h"

namespace tickleaf::content {
namespace {

// As in compose.cpp: staff read English, and no second catalog is loaded for three words. A test
// holds it against the English catalog.
constexpr const char* kEnglish = "en";
constexpr const char* kShort = "Not yet checked";
constexpr const char* kShortKey = "notice.draft_title";
constexpr double kHalf = 0.5;

class Marker {
  public:
    Marker(Voice& voice, bool marks_headings) : voice_(voice), marks_headings_(marks_headings) {}

    void walk(std::vector<Block>& blocks) {
        for (std::size_t i = 0; i < blocks.size(); ++i) {
            if (auto* callout = std::get_if<Callout>(&blocks[i].value)) {
                if (holds(*callout)) {
                    add_note(callout->blocks, callout->blocks.size());
                }
            } else if (auto* group = std::get_if<Group>(&blocks[i].value)) {
                walk(group->blocks);
            } else if (auto* columns = std::get_if<Columns>(&blocks[i].value)) {
                walk(columns->first);
                walk(columns->second);
            } else if (const auto* heading = std::get_if<Heading>(&blocks[i].value)) {
                if (marks_headings_ && is_unreviewed(heading->words)) {
                    add_note(blocks, i + 1);
                }
            }
        }
    }

  private:
    bool is_unreviewed(const Words& words) {
        const auto& tongues = voice_.tongues();
        return std::any_of(tongues.begin(), tongues.end(), [&words](const Tongue& tongue) {
            return tongue.unreviewed_safety().count(words.key) > 0;
        });
    }

    bool holds(const Callout& callout) {
        return is_unreviewed(callout.title) ||
               std::any_of(callout.blocks.begin(), callout.blocks.end(),
                           [this](const Block& block) {
                               const auto* paragraph = std::get_if<Paragraph>(&block.value);
                               return paragraph != nullptr && is_unreviewed(paragraph->words);
                           });
    }

    /// One line: the reader's words, and the English beside them.
    void add_note(std::vector<Block>& blocks, std::size_t at) {
        const auto small = [](Words words) {
            return Block{paragraph(std::move(words), Paragraph::Role::Small)};
        };
        const auto& tongues = voice_.tongues();
        const bool has_english =
            std::any_of(tongues.begin(), tongues.end(),
                        [](const Tongue& tongue) { return tongue.tag() == kEnglish; });
        Block note = small(voice_.say(kShortKey));
        if (!has_english) {
            Columns columns{kHalf, {}, {}};
            columns.first.push_back(std::move(note));
            columns.second.push_back(small(Words{kShort, kEnglish, kShortKey, {}, nullptr}));
            note = Block{std::move(columns)};
        }
        blocks.insert(blocks.begin() + static_cast<std::ptrdiff_t>(at), std::move(note));
    }

    Voice& voice_;
    bool marks_headings_;
};

} // namespace

void mark_unreviewed(Voice& voice, Part& part) {
    Marker(voice, true).walk(part.blocks);
}

void mark_unreviewed_frames(Voice& voice, Part& part) {
    Marker(voice, false).walk(part.blocks);
}

} // namespace tickleaf::content
