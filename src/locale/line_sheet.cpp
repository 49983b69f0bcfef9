// SPDX-License-Identifier: MIT
#include "locale/line_sheet.h"

#include <algorithm>

namespace tickleaf::locale {
namespace {

using Lines = std::vector<std::string_view>;

/// Lines with their ends; a last line without an end stays without.
Lines lines_of(std::string_view text) {
    Lines out;
    while (!text.empty()) {
        const std::size_t end = text.find('\n');
        const std::size_t length = end == std::string_view::npos ? text.size() : end + 1;
        out.push_back(text.substr(0, length));
        text.remove_prefix(length);
    }
    return out;
}

/// Blank, or a comment and nothing else.
bool is_trivia(std::string_view line) {
    const std::size_t at = line.find_first_not_of(" \t\r\n");
    return at == std::string_view::npos || line[at] == '#';
}

std::size_t last_line(const yaml::Node& node) {
    std::size_t last = static_cast<std::size_t>(std::max(node.span.line, 0));
    for (const yaml::Node& item : node.items) {
        last = std::max(last, last_line(item));
    }
    for (const yaml::Entry& entry : node.entries) {
        last = std::max(last, last_line(entry.value));
    }
    return last;
}

/// The comment at the end of a line, with the blanks before it.
std::string_view trailing_comment(std::string_view line) {
    char open = '\0';
    char before = ':'; // the last character that is no blank
    for (std::size_t i = 0; i < line.size(); ++i) {
        const char c = line[i];
        if (open == '"' && c == '\\') {
            ++i;
        } else if (open != '\0') {
            open = c == open ? '\0' : open;
        } else if ((c == '"' || c == '\'') &&
                   std::string_view(":,{[").find(before) != std::string_view::npos) {
            open = c;
        } else if (c == '#' && i > 0 && (line[i - 1] == ' ' || line[i - 1] == '\t')) {
            const std::size_t from = line.find_last_not_of(" \t", i - 1);
            std::string_view comment = line.substr(from + 1);
            while (!comment.empty() && (comment.back() == '\n' || comment.back() == '\r')) {
                comment.remove_suffix(1);
            }
            return comment;
        }
        before = c == ' ' || c == '\t' ? before : c;
    }
    return {};
}

std::string joined(const Lines& lines, std::size_t begin, std::size_t end) {
    std::string out;
    for (std::size_t i = begin; i < end; ++i) {
        out += lines[i];
    }
    return out;
}

} // namespace

std::optional<LineSheet> LineSheet::of(std::string_view text, const yaml::Node& root,
                                       const yaml::Node& map) {
    const Lines lines = lines_of(text);
    // The map ends where the next key of the root begins.
    std::size_t end = lines.size();
    const std::size_t deepest = last_line(map);
    for (const yaml::Entry& entry : root.entries) {
        const auto line = static_cast<std::size_t>(entry.key.span.line);
        if (&map != &root && line > deepest) {
            end = std::min(end, line - 1);
        }
    }
    LineSheet sheet;
    std::vector<std::size_t> starts;
    for (const yaml::Entry& entry : map.entries) {
        const auto start = static_cast<std::size_t>(entry.key.span.line) - 1;
        const bool shares =
            (!starts.empty() && start <= starts.back()) ||
            (&map != &root && start + 1 == static_cast<std::size_t>(root.span.line));
        const std::size_t lead = start < lines.size() ? lines[start].find_first_not_of(" \t") : 0;
        if (start >= lines.size() || shares ||
            lead + 1 != static_cast<std::size_t>(entry.key.span.column)) {
            return std::nullopt;
        }
        starts.push_back(start);
    }
    std::size_t at = starts.empty() ? end : starts.front();
    sheet.blocks_.push_back({"", joined(lines, 0, at)});
    sheet.first_ = 1;
    for (std::size_t i = 0; i < starts.size(); ++i) {
        const std::size_t next = i + 1 < starts.size() ? starts[i + 1] : end;
        std::size_t stop = next;
        while (stop > starts[i] + 1 && is_trivia(lines[stop - 1])) {
            --stop;
        }
        sheet.blocks_.push_back({map.entries[i].key.value, joined(lines, starts[i], stop)});
        if (stop < next) {
            sheet.blocks_.push_back({"", joined(lines, stop, next)});
        }
        at = next;
    }
    if (at < lines.size()) {
        sheet.blocks_.push_back({"", joined(lines, at, lines.size())});
    }
    return sheet;
}

bool LineSheet::has(std::string_view key) const {
    return std::any_of(blocks_.begin(), blocks_.end(),
                       [key](const Block& block) { return block.key == key; });
}

std::vector<std::string> LineSheet::keys() const {
    std::vector<std::string> out;
    for (const Block& block : blocks_) {
        if (!block.key.empty()) {
            out.push_back(block.key);
        }
    }
    return out;
}

void LineSheet::put(const std::string& key, const std::string& lines, std::string_view after) {
    for (Block& block : blocks_) {
        if (block.key != key) {
            continue;
        }
        const bool one_line = block.lines.find('\n') + 1 >= block.lines.size();
        const std::string comment(one_line ? trailing_comment(block.lines) : std::string_view());
        block.lines = lines + comment + '\n';
        return;
    }
    std::size_t place = std::min(first_, blocks_.size());
    for (std::size_t i = 0; i < blocks_.size() && !after.empty(); ++i) {
        place = blocks_[i].key == after ? i + 1 : place;
    }
    if (place > 0 && !blocks_[place - 1].lines.empty() && blocks_[place - 1].lines.back() != '\n') {
        blocks_[place - 1].lines += '\n';
    }
    blocks_.insert(blocks_.begin() + static_cast<std::ptrdiff_t>(place), Block{key, lines + '\n'});
}

void LineSheet::drop(std::string_view key) {
    blocks_.erase(
        std::remove_if(blocks_.begin(), blocks_.end(),
                       [key](const Block& block) { return !key.empty() && block.key == key; }),
        blocks_.end());
}

std::string LineSheet::text() const {
    std::string out;
    for (const Block& block : blocks_) {
        out += block.lines;
    }
    return out;
}

std::string yaml_quoted(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') {
            out += '\\';
        }
        if (c == '\n') {
            out += "\\n";
        } else if (c == '\t') {
            out += "\\t";
        } else {
            out += c;
        }
    }
    return out + '"';
}

} // namespace tickleaf::locale
