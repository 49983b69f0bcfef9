// SPDX-License-Identifier: MIT
// Words, numbers and signs of a short notation (dose, tempo, limit, length) and a reader that walks
// them, so that every mistake points into the text. Shapes: Token is a piece of the text with its
// column; Phrase is the walk. The grammars are in dose_form.h and limit.h. Units: columns count
// code points from 0 within the text; spans are 1-based in the file. Errors: Phrase::error reports
// `what "text": message` at the column of a token.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "support/finding.h"
#include "yaml/tree.h"

namespace tickleaf::prescription {

struct Token {
    enum class Kind { Word, Number, Times, Dash, Comma, Slash, Other, End };
    Kind kind = Kind::End;
    std::string_view text;
    int column = 0;
    std::size_t offset = 0; ///< in bytes
};

/// Cuts a text into tokens; the last one is always End. "x", "X" and the multiplication sign
/// standing alone are Times, a hyphen, an en dash and a minus sign are Dash.
std::vector<Token> tokenize(std::string_view text);

/// A walk over the tokens of one scalar.
class Phrase {
  public:
    /// `what` names the notation in messages, `id` is the finding's; the node must outlive the
    /// phrase.
    Phrase(const yaml::Node& node, std::string what, std::string id, support::Findings& findings);

    const Token& peek(std::size_t ahead = 0) const;
    const Token& take();
    bool at_end() const { return peek().kind == Token::Kind::End; }
    bool at(Token::Kind kind) const { return peek().kind == kind; }
    /// The next token is this word, in any case of letters.
    bool at_word(std::string_view word) const;
    /// Takes the next token if it fits.
    bool accept(Token::Kind kind);
    bool accept_word(std::string_view word);
    /// Goes on to the next comma or the end, so that the next clause is still read.
    void skip_to_comma();

    /// What stands at the token, for messages: `"word"` or `the end`.
    std::string found(const Token& token) const;
    /// The last token that was taken, in quotes.
    std::string last() const;
    void error(const Token& token, const std::string& message, std::string hint = {});
    support::Span span_of(const Token& token) const;
    const yaml::Node& node() const { return *node_; }

  private:
    const yaml::Node* node_;
    std::string what_;
    std::string id_;
    support::Findings* findings_;
    std::vector<Token> tokens_;
    std::size_t next_ = 0;
};

/// No notation of ours is longer (bytes); a longer text is one token that fits nowhere.
inline constexpr std::size_t kLongestNotation = 400;

/// A text in quotes for messages, or "a long text" where it would flood them.
std::string quoted(std::string_view text);
/// Lower case of ASCII letters; other bytes stay.
std::string lower_case(std::string_view text);
/// The nearest of the words, as a hint, or empty.
std::string did_you_mean(std::string_view word, const std::vector<std::string>& candidates);

} // namespace tickleaf::prescription
