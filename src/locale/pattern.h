// SPDX-License-Identifier: MIT
// A message text as a tree: literals, placeholders, plural and select with their branches. Read by
// ICU's own parser, so that what it refuses is refused here; kept without ICU types, so that
// rendering and lint share it. Errors: what cannot be read is told in a sentence; {n, number}, {d,
// date} and choice are refused, because values are put in ready made. Cost: a text without braces
// and apostrophes is one literal and never reaches ICU. Source: ICU MessageFormat syntax
// (icu::MessagePattern, ICU 72).
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace tickleaf::locale {

struct Piece;
using Pattern = std::vector<Piece>;

/// Text that stands as it is.
struct Literal {
    std::string text;
};
/// `{name}`: a value put in.
struct Placeholder {
    std::string name;
};
/// `#`: the count of the plural around it.
struct CountSign {};

/// One branch of a plural or select: "one", "=0", "left"... and its text.
struct Branch {
    std::string selector;
    std::vector<Piece> pieces;
};
/// `{name, plural, ...}`, `{name, selectordinal, ...}` or `{name, select, ...}`.
struct Choice {
    enum class Kind { Plural, Ordinal, Select };
    Kind kind = Kind::Plural;
    std::string name;
    int offset = 0;
    std::vector<Branch> branches;
};

struct Piece {
    std::variant<Literal, Placeholder, CountSign, Choice> value;
};

/// Braces may be nested this deep; plural in select in plural needs 6.
inline constexpr int kMaxBraceDepth = 12;

/// What is wrong with a text: the rule and a sentence.
struct PatternProblem {
    std::string id; ///< "message-syntax", "message-other" or "message-format"
    std::string message;
};

/// Reads a text. Nothing, and the problem, where it is not a message.
std::optional<Pattern> parse_pattern(std::string_view text, PatternProblem& problem);

} // namespace tickleaf::locale
