// SPDX-License-Identifier: MIT
// Source texts and positions in them. A value read from a file keeps a Span through every stage, so
// that even "does not fit the page" can point at a line of YAML. Units: line and column are
// 1-based; columns count Unicode code points; 0 means unknown.
#pragma once

#include <compare>
#include <deque>
#include <mutex>
#include <string>
#include <string_view>

namespace tickleaf::support {

/// A position in one of the sources of a run.
struct Span {
    int file = -1;  ///< index into Sources; -1 means no file
    int line = 0;   ///< 1-based, 0 unknown
    int column = 0; ///< 1-based, in code points, 0 unknown
    auto operator<=>(const Span&) const = default;
};

/// A value and the place it was read from.
template <class T>
struct Located {
    T value{};
    Span span{};
};

/// One text as it was read: its name for messages and its UTF-8 bytes.
struct Source {
    std::string path;
    std::string text;
};

/// All texts of one run, so that findings can show the line they speak of. May be used from several
/// threads; references to a source stay good until it is forgotten.
class Sources {
  public:
    /// Adds a text and returns its file index.
    int add(std::string path, std::string text);
    const Source& at(int file) const;
    bool contains(int file) const;
    /// The line a span points at, without its line end; empty where unknown.
    std::string_view line(const Span& span) const;
    /// "path:line:column", as far as known.
    std::string describe(const Span& span) const;
    /// Frees a text that no finding will point at any more, so that memory stays flat over a batch.
    void forget(int file);

  private:
    mutable std::mutex mutex_;
    std::deque<Source> sources_;
};

} // namespace tickleaf::support
