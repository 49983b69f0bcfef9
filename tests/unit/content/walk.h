// SPDX-License-Identifier: MIT
// Walks a booklet and collects what tests ask about: every text, hidden ones too, and the blocks of
// one kind.
#pragma once

#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include "content/booklet.h"

namespace tickleaf::content::test {

/// Calls `visit` with every block in reading order, the outer one before those inside.
template <class Visit>
void each_block(const std::vector<Block>& blocks, const Visit& visit) {
    for (const Block& block : blocks) {
        visit(block);
        std::visit(
            [&](const auto& value) {
                using T = std::decay_t<decltype(value)>;
                if constexpr (std::is_same_v<T, Group> || std::is_same_v<T, Callout>) {
                    each_block(value.blocks, visit);
                } else if constexpr (std::is_same_v<T, Columns>) {
                    each_block(value.first, visit);
                    each_block(value.second, visit);
                }
            },
            block.value);
    }
}

template <class T>
std::vector<const T*> all(const std::vector<Block>& blocks) {
    std::vector<const T*> found;
    each_block(blocks, [&](const Block& block) {
        if (const T* value = std::get_if<T>(&block.value)) {
            found.push_back(value);
        }
    });
    return found;
}

template <class T>
std::vector<const T*> all(const Booklet& booklet) {
    std::vector<const T*> found;
    for (const Part& part : booklet.parts) {
        for (const T* value : all<T>(part.blocks)) {
            found.push_back(value);
        }
    }
    return found;
}

inline const Part* part(const Booklet& booklet, Part::Kind kind) {
    for (const Part& candidate : booklet.parts) {
        if (candidate.kind == kind) {
            return &candidate;
        }
    }
    return nullptr;
}

/// Every text, printed or read aloud, of blocks.
inline std::vector<const Words*> all_words(const std::vector<Block>& blocks) {
    std::vector<const Words*> words;
    auto take = [&](const Words& text) {
        if (!text.empty()) {
            words.push_back(&text);
        }
    };
    auto take_all = [&](const std::vector<Words>& texts) {
        for (const Words& text : texts) {
            take(text);
        }
    };
    each_block(blocks, [&](const Block& block) {
        std::visit(
            [&](const auto& value) {
                using T = std::decay_t<decltype(value)>;
                if constexpr (std::is_same_v<T, Heading> || std::is_same_v<T, Paragraph>) {
                    take(value.words);
                } else if constexpr (std::is_same_v<T, List> || std::is_same_v<T, TickList>) {
                    take_all(value.items);
                } else if constexpr (std::is_same_v<T, Table>) {
                    take(value.caption);
                    for (const Row& row : value.rows) {
                        for (const Cell& cell : row.cells) {
                            take(cell.words);
                            take_all(cell.tick_labels);
                        }
                    }
                } else if constexpr (std::is_same_v<T, Figure>) {
                    take(value.alternative);
                    take(value.caption);
                } else if constexpr (std::is_same_v<T, Callout>) {
                    take(value.title);
                } else if constexpr (std::is_same_v<T, PainScale>) {
                    for (const Words* text :
                         {&value.carry_on, &value.ease_off, &value.stop, &value.carry_on_action,
                          &value.ease_off_action, &value.stop_action, &value.alternative}) {
                        take(*text);
                    }
                } else if constexpr (std::is_same_v<T, StageBar>) {
                    for (const StageBar::Stage& stage : value.stages) {
                        take(stage.name);
                        take(stage.when);
                    }
                } else if constexpr (std::is_same_v<T, Contents>) {
                    for (const Contents::Entry& entry : value.entries) {
                        take(entry.words);
                    }
                } else if constexpr (std::is_same_v<T, WritingLines>) {
                    take(value.label);
                }
            },
            block.value);
    });
    return words;
}

inline std::vector<const Words*> all_words(const Booklet& booklet) {
    std::vector<const Words*> words;
    for (const Part& candidate : booklet.parts) {
        words.push_back(&candidate.title);
        for (const Words* text : all_words(candidate.blocks)) {
            words.push_back(text);
        }
    }
    words.push_back(&booklet.title);
    words.push_back(&booklet.running_head);
    return words;
}

/// All texts of blocks in one string, a line each.
inline std::string joined(const std::vector<const Words*>& words) {
    std::string result;
    for (const Words* text : words) {
        result += text->text + "\n";
    }
    return result;
}

/// A text for comparing: without the marks that isolate inserted values, its spaces plain ones.
inline std::string plain(std::string text) {
    for (const auto& [mark, instead] :
         {std::pair<std::string, std::string>{"\u2068", ""}, {"\u2069", ""}, {"\u00A0", " "}}) {
        for (auto at = text.find(mark); at != std::string::npos; at = text.find(mark)) {
            text.replace(at, mark.size(), instead);
        }
    }
    return text;
}

inline bool contains(const std::string& text, const std::string& part_of_it) {
    return text.find(part_of_it) != std::string::npos;
}

} // namespace tickleaf::content::test
