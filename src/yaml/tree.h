// SPDX-License-Identifier: MIT
// YAML 1.2 text to a bounded tree in which every key and value keeps its position.
// Shapes: a Node is null, a scalar (as written, with whether it was quoted), a list or a map in
// file order. Errors: bad UTF-8, control bytes, syntax, duplicate keys (both places), aliases over
// the limit, merge keys, a second document, depth and size limits: each a finding; nothing is
// thrown out of here. Source: YAML 1.2.2 chapter 3; booleans are only `true` and `false` (core
// schema, 10.3.2, narrowed).
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "support/finding.h"
#include "support/source.h"

namespace tickleaf::yaml {

inline constexpr std::size_t kMaxBytes = 4u << 20;
inline constexpr int kMaxDepth = 64;
inline constexpr std::size_t kMaxNodes = 200'000;

struct Entry;

/// One value of the tree.
struct Node {
    enum class Kind { Null, Scalar, List, Map };
    Kind kind = Kind::Null;
    support::Span span{};
    std::string text;    ///< the scalar's text
    bool quoted = false; ///< it was written in quotes or as a block, so it is text and not a number
    std::vector<Node> items;    ///< of a list
    std::vector<Entry> entries; ///< of a map, in file order
    /// The value under a key of a map, or nullptr.
    const Node* find(std::string_view key) const;
};

/// A key and its value.
struct Entry {
    support::Located<std::string> key;
    Node value;
};

/// Reads the one document of `sources.at(file)`. Nothing where the text is not usable at all.
std::optional<Node> read(const support::Sources& sources, int file, support::Findings& findings);

} // namespace tickleaf::yaml
