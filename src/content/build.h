// SPDX-License-Identifier: MIT
// Small makers of blocks, so that the parts read as the page does.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "content/booklet.h"
#include "content/voice.h"

namespace tickleaf::content {

/// Longest list without a break (CDC Clear Communication Index, item 8: Baur and Prue 2014).
inline constexpr std::size_t kLongestList = 7;

/// Columns share the width so that both end together.
inline constexpr double kBalanced = 0.0;

template <class T>
void add(std::vector<Block>& blocks, T value) {
    blocks.push_back(Block{std::move(value)});
}

inline void add_all(std::vector<Block>& blocks, std::vector<Block> more) {
    for (Block& block : more) {
        blocks.push_back(std::move(block));
    }
}

Heading heading(int level, Words words, std::string badge = {});
/// The heading of a part, at the top of a page.
Heading page_heading(Words words, std::string badge = {});
Paragraph paragraph(Words words, Paragraph::Role role = Paragraph::Role::Body);
/// Items as lists of at most kLongestList, with a divider between; numbers run on.
void add_list(std::vector<Block>& blocks, Voice& voice, std::vector<Words> items, bool numbered);
/// Sentences with a box each, in lists of at most kLongestList.
void add_ticks(std::vector<Block>& blocks, std::vector<Words> items);
/// The texts "prefix.1", "prefix.2"... that the source has, as list items.
std::vector<Words> numbered_texts(Voice& voice, std::string_view prefix,
                                  const locale::Arguments& arguments = {});
std::vector<Words> numbered_texts(Voice& voice, std::string_view prefix, const ArgumentMaker& make);

/// Cells of a table.
Cell header_cell(Words words);
Cell text_cell(Words words);
Cell number_cell(Words words);
Cell write_in_cell();

/// A table of labels and values, one pair a row; pairs without a value are left out.
class Facts {
  public:
    void add(Words label, Words value);
    bool empty() const { return table_.rows.empty(); }
    Table take(Words caption);

  private:
    Table table_;
};

} // namespace tickleaf::content
