// SPDX-License-Identifier: MIT
#include "content/build.h"

#include <algorithm>

namespace tickleaf::content {

Heading heading(int level, Words words, std::string badge) {
    Heading result;
    result.level = level;
    result.words = std::move(words);
    result.badge = std::move(badge);
    return result;
}

Heading page_heading(Words words, std::string badge) {
    Heading result = heading(1, std::move(words), std::move(badge));
    result.starts_page = true;
    return result;
}

Paragraph paragraph(Words words, Paragraph::Role role) {
    return Paragraph{role, std::move(words)};
}

void add_list(std::vector<Block>& blocks, Voice& voice, std::vector<Words> items, bool numbered) {
    for (std::size_t begin = 0; begin < items.size(); begin += kLongestList) {
        if (begin > 0) {
            add(blocks, Divider{});
        }
        List list;
        list.numbered = numbered;
        const std::size_t end = std::min(items.size(), begin + kLongestList);
        for (std::size_t i = begin; i < end; ++i) {
            if (numbered) {
                list.numbers.push_back(voice.first().number(static_cast<std::int64_t>(i) + 1));
            }
            list.items.push_back(std::move(items[i]));
        }
        add(blocks, std::move(list));
    }
}

void add_ticks(std::vector<Block>& blocks, std::vector<Words> items) {
    for (std::size_t begin = 0; begin < items.size(); begin += kLongestList) {
        if (begin > 0) {
            add(blocks, Divider{});
        }
        TickList list;
        const std::size_t end = std::min(items.size(), begin + kLongestList);
        for (std::size_t i = begin; i < end; ++i) {
            list.items.push_back(std::move(items[i]));
        }
        add(blocks, std::move(list));
    }
}

std::vector<Words> numbered_texts(Voice& voice, std::string_view prefix,
                                  const locale::Arguments& arguments) {
    return numbered_texts(voice, prefix, [&](Tongue&) { return arguments; });
}

std::vector<Words> numbered_texts(Voice& voice, std::string_view prefix,
                                  const ArgumentMaker& make) {
    std::vector<Words> result;
    const int count = voice.first().count(prefix);
    for (int i = 1; i <= count; ++i) {
        result.push_back(voice.say_with(std::string(prefix) + "." + std::to_string(i), make));
    }
    return result;
}

Cell header_cell(Words words) {
    Cell cell;
    cell.words = std::move(words);
    cell.header = true;
    return cell;
}

Cell text_cell(Words words) {
    Cell cell;
    cell.words = std::move(words);
    return cell;
}

Cell number_cell(Words words) {
    Cell cell = text_cell(std::move(words));
    cell.numeric = true;
    return cell;
}

Cell write_in_cell() {
    Cell cell;
    cell.write_in = true;
    return cell;
}

void Facts::add(Words label, Words value) {
    if (value.empty()) {
        return;
    }
    Row row;
    row.cells.push_back(header_cell(std::move(label)));
    row.cells.push_back(text_cell(std::move(value)));
    table_.rows.push_back(std::move(row));
}

Table Facts::take(Words caption) {
    table_.role = Table::Role::Facts;
    table_.caption = std::move(caption);
    return std::move(table_);
}

} // namespace tickleaf::content
