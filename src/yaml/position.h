// SPDX-License-Identifier: MIT
// From byte positions (yaml-cpp's marks) to line and column in code points.
// Units: marks are 0-based lines and byte columns; spans are 1-based with columns in code points.
// Source: measured with yaml-cpp 0.7.0 (marks count bytes and leave a byte order mark out).
#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

#include "support/source.h"
#include "support/utf8.h"

namespace tickleaf::yaml {

class LineIndex {
  public:
    /// `text` must outlive the index.
    LineIndex(std::string_view text, int file);
    support::Span start() const { return {file_, 1, 1}; }
    support::Span span(int line, int byte_column) const;
    support::Span span_of_byte(std::size_t offset) const;

  private:
    std::string_view text_;
    int file_;
    std::vector<std::size_t> starts_;
};

} // namespace tickleaf::yaml
