// SPDX-License-Identifier: MIT
#include "locale/pattern.h"

#include <algorithm>
#include <cstdint>
#include <utility>

#include <unicode/messagepattern.h>
#include <unicode/unistr.h>

namespace tickleaf::locale {
namespace {

std::string utf8(const icu::UnicodeString& text) {
    std::string out;
    text.toUTF8String(out);
    return out;
}

/// Walks ICU's flat list of parts and builds the tree.
class TreeBuilder {
  public:
    TreeBuilder(const icu::MessagePattern& parts, PatternProblem& problem)
        : parts_(parts), problem_(problem) {}

    /// The message whose MSG_START is part `start`.
    Pattern message(std::int32_t start) {
        Pattern pattern;
        icu::UnicodeString literal;
        std::int32_t from = parts_.getPart(start).getLimit();
        const std::int32_t limit = parts_.getLimitPartIndex(start);
        for (std::int32_t i = start + 1; i <= limit; ++i) {
            const icu::MessagePattern::Part& part = parts_.getPart(i);
            literal.append(parts_.getPatternString(), from, part.getIndex() - from);
            from = part.getLimit();
            if (part.getType() == UMSGPAT_PART_TYPE_INSERT_CHAR) {
                literal.append(static_cast<char16_t>(part.getValue()));
            } else if (part.getType() == UMSGPAT_PART_TYPE_REPLACE_NUMBER) {
                flush(literal, pattern);
                pattern.push_back({CountSign{}});
            } else if (part.getType() == UMSGPAT_PART_TYPE_ARG_START) {
                flush(literal, pattern);
                argument(i, pattern);
                i = parts_.getLimitPartIndex(i);
                from = parts_.getPart(i).getLimit();
            }
        }
        flush(literal, pattern);
        return pattern;
    }

  private:
    static void flush(icu::UnicodeString& literal, Pattern& pattern) {
        if (!literal.isEmpty()) {
            pattern.push_back({Literal{utf8(literal)}});
            literal.remove();
        }
    }

    void argument(std::int32_t start, Pattern& pattern) {
        const std::string name = utf8(parts_.getSubstring(parts_.getPart(start + 1)));
        switch (parts_.getPart(start).getArgType()) {
        case UMSGPAT_ARG_TYPE_NONE:
            pattern.push_back({Placeholder{name}});
            return;
        case UMSGPAT_ARG_TYPE_PLURAL:
            pattern.push_back({choice(Choice::Kind::Plural, name, start)});
            return;
        case UMSGPAT_ARG_TYPE_SELECTORDINAL:
            pattern.push_back({choice(Choice::Kind::Ordinal, name, start)});
            return;
        case UMSGPAT_ARG_TYPE_SELECT:
            pattern.push_back({choice(Choice::Kind::Select, name, start)});
            return;
        case UMSGPAT_ARG_TYPE_SIMPLE:
        case UMSGPAT_ARG_TYPE_CHOICE:
            problem_ = {"message-format",
                        "placeholder {" + name + "} has a format of its own; found \"" +
                            utf8(parts_.getSubstring(parts_.getPart(start + 2))) +
                            "\", expected plural, select or nothing after the name"};
            return;
        }
    }

    Choice choice(Choice::Kind kind, const std::string& name, std::int32_t start) {
        Choice out{kind, name, 0, {}};
        const std::int32_t limit = parts_.getLimitPartIndex(start);
        if (kind != Choice::Kind::Select) {
            out.offset = static_cast<int>(parts_.getPluralOffset(start + 2));
        }
        for (std::int32_t i = start + 2; i < limit; ++i) {
            const icu::MessagePattern::Part& part = parts_.getPart(i);
            if (part.getType() == UMSGPAT_PART_TYPE_ARG_SELECTOR) {
                out.branches.push_back({utf8(parts_.getSubstring(part)), {}});
            } else if (part.getType() == UMSGPAT_PART_TYPE_MSG_START) {
                out.branches.back().pieces = message(i);
                i = parts_.getLimitPartIndex(i);
            }
        }
        return out;
    }

    const icu::MessagePattern& parts_;
    PatternProblem& problem_;
};

// ICU's parser recurses; a bound on braces bounds its stack.
bool too_deep(std::string_view text) {
    int depth = 0;
    for (const char c : text) {
        depth += c == '{' ? 1 : (c == '}' ? -1 : 0);
        if (depth > kMaxBraceDepth) {
            return true;
        }
    }
    return false;
}

PatternProblem refused(UErrorCode code, const UParseError& where) {
    if (code == U_DEFAULT_KEYWORD_MISSING) {
        return {"message-other", "a plural or select has no branch \"other\""};
    }
    std::string near = utf8(icu::UnicodeString(where.preContext)) + "⟨here⟩" +
                       utf8(icu::UnicodeString(where.postContext));
    const bool braces = code == U_UNMATCHED_BRACES;
    return {"message-syntax",
            (braces ? "the braces do not match, near \"" : "this is not a message, near \"") +
                near + "\""};
}

} // namespace

std::optional<Pattern> parse_pattern(std::string_view text, PatternProblem& problem) {
    if (text.find_first_of("{}'") == std::string_view::npos) {
        return text.empty() ? Pattern{} : Pattern{{Literal{std::string(text)}}};
    }
    if (too_deep(text)) {
        problem = {"message-syntax",
                   "braces are nested more than " + std::to_string(kMaxBraceDepth) + " deep"};
        return std::nullopt;
    }
    UErrorCode code = U_ZERO_ERROR;
    UParseError where{};
    const icu::MessagePattern parts(icu::UnicodeString::fromUTF8(icu::StringPiece(
                                        text.data(), static_cast<std::int32_t>(text.size()))),
                                    &where, code);
    if (U_FAILURE(code)) {
        problem = refused(code, where);
        return std::nullopt;
    }
    problem = {};
    Pattern pattern = TreeBuilder(parts, problem).message(0);
    if (!problem.id.empty()) {
        return std::nullopt;
    }
    return pattern;
}

} // namespace tickleaf::locale
