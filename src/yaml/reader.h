// SPDX-License-Identifier: MIT
// Typed access to a map of the tree: asks for keys by name and type, reports missing and mistyped
// values with position and hint, and at the end every key nobody asked for, with the nearest known
// key.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "support/finding.h"
#include "yaml/tree.h"

namespace tickleaf::yaml {

/// Reads one map. Call finish() last: it reports the unknown keys.
class MapReader {
  public:
    /// `what` names the thing in messages, such as "the patient".
    MapReader(const Node& node, std::string what, support::Findings& findings);
    bool is_map() const { return node_ != nullptr; }
    support::Span span() const { return span_; }

    /// The value under a key, or nullptr; a missing required key is an error.
    const Node* optional_node(std::string_view key);
    const Node* required_node(std::string_view key);
    std::optional<support::Located<std::string>> optional_text(std::string_view key);
    std::optional<support::Located<std::string>> required_text(std::string_view key);
    std::optional<support::Located<std::int64_t>> optional_integer(std::string_view key);
    std::optional<support::Located<std::int64_t>> required_integer(std::string_view key);
    std::optional<support::Located<double>> optional_number(std::string_view key);
    std::optional<support::Located<double>> required_number(std::string_view key);
    std::optional<support::Located<bool>> optional_flag(std::string_view key);
    /// A list of texts; a single text is taken as a list of one.
    std::vector<support::Located<std::string>> optional_texts(std::string_view key);
    void finish();

  private:
    const Node* node_ = nullptr;
    support::Span span_{};
    std::string what_;
    support::Findings* findings_;
    std::vector<std::string> asked_;
};

/// Scalar conversions that report what was found and what was expected.
std::optional<std::string> as_text(const Node& node, std::string_view what,
                                   support::Findings& findings);
std::optional<std::int64_t> as_integer(const Node& node, std::string_view what,
                                       support::Findings& findings);
std::optional<double> as_number(const Node& node, std::string_view what,
                                support::Findings& findings);
std::optional<bool> as_flag(const Node& node, std::string_view what, support::Findings& findings);
/// How a node is named in messages: `"text"`, "a list", "a map", "nothing".
std::string describe(const Node& node);

} // namespace tickleaf::yaml
