// SPDX-License-Identifier: MIT
#include "yaml/position.h"

#include <algorithm>

namespace tickleaf::yaml {

LineIndex::LineIndex(std::string_view text, int file) : text_(text), file_(file), starts_{0} {
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '\n') {
            starts_.push_back(i + 1);
        }
    }
}

support::Span LineIndex::span(int line, int byte_column) const {
    const auto index = std::min(static_cast<std::size_t>(std::max(line, 0)), starts_.size() - 1);
    const std::size_t begin = starts_[index];
    const auto length =
        std::min(static_cast<std::size_t>(std::max(byte_column, 0)), text_.size() - begin);
    const auto columns = support::count_code_points(text_.substr(begin, length));
    return {file_, static_cast<int>(index) + 1, static_cast<int>(columns) + 1};
}

support::Span LineIndex::span_of_byte(std::size_t offset) const {
    const auto next = std::upper_bound(starts_.begin(), starts_.end(), offset);
    const auto line = static_cast<std::size_t>(next - starts_.begin()) - 1;
    return span(static_cast<int>(line), static_cast<int>(offset - starts_[line]));
}

} // namespace tickleaf::yaml
