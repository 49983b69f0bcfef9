// SPDX-License-Identifier: MIT
#include "prescription/notation.h"

#include <algorithm>
#include <utility>

#include "support/utf8.h"

namespace tickleaf::prescription {

namespace {

using Kind = Token::Kind;

constexpr std::size_t kLongestQuoted = 80;
constexpr char32_t kMultiplicationSign = 0x00D7;
constexpr char32_t kEnDash = 0x2013;
constexpr char32_t kMinusSign = 0x2212;

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

bool is_space(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

/// Bytes of the word at the start: letters, with hyphens between letters.
std::size_t word_length(std::string_view text) {
    std::size_t length = 0;
    while (length < text.size() &&
           (is_letter(text[length]) || (text[length] == '-' && length + 1 < text.size() &&
                                        length > 0 && is_letter(text[length + 1])))) {
        ++length;
    }
    return length;
}

std::size_t number_length(std::string_view text) {
    std::size_t length = 0;
    while (length < text.size() &&
           (is_digit(text[length]) ||
            (text[length] == '.' && length + 1 < text.size() && is_digit(text[length + 1])))) {
        ++length;
    }
    return length;
}

Kind kind_of_sign(char32_t sign) {
    switch (sign) {
    case U'-':
    case kEnDash:
    case kMinusSign:
        return Kind::Dash;
    case U',':
        return Kind::Comma;
    case U'/':
        return Kind::Slash;
    case kMultiplicationSign:
        return Kind::Times;
    default:
        return Kind::Other;
    }
}

Token next_token(std::string_view rest) {
    Token token;
    if (is_digit(rest.front())) {
        token.kind = Kind::Number;
        token.text = rest.substr(0, number_length(rest));
    } else if (is_letter(rest.front())) {
        token.text = rest.substr(0, word_length(rest));
        token.kind = token.text == "x" || token.text == "X" ? Kind::Times : Kind::Word;
    } else {
        const auto decoded = support::decode_utf8(rest);
        token.text = rest.substr(0, decoded ? decoded->length : 1);
        token.kind = decoded ? kind_of_sign(decoded->code_point) : Kind::Other;
    }
    return token;
}

} // namespace

std::vector<Token> tokenize(std::string_view text) {
    std::vector<Token> tokens;
    if (text.size() > kLongestNotation) {
        return {Token{Kind::Other, text, 0, 0}, Token{}};
    }
    std::size_t offset = 0;
    int column = 0;
    while (offset < text.size()) {
        if (is_space(text[offset])) {
            ++offset;
            ++column;
            continue;
        }
        Token token = next_token(text.substr(offset));
        token.column = column;
        token.offset = offset;
        offset += token.text.size();
        column += static_cast<int>(support::count_code_points(token.text));
        tokens.push_back(token);
    }
    // The end stands right behind the last sign, not behind trailing spaces.
    Token end;
    if (!tokens.empty()) {
        const Token& last = tokens.back();
        end.column = last.column + static_cast<int>(support::count_code_points(last.text));
        end.offset = last.offset + last.text.size();
    }
    tokens.push_back(end);
    return tokens;
}

Phrase::Phrase(const yaml::Node& node, std::string what, std::string id,
               support::Findings& findings)
    : node_(&node),
      what_(std::move(what)),
      id_(std::move(id)),
      findings_(&findings),
      tokens_(tokenize(node.text)) {}

const Token& Phrase::peek(std::size_t ahead) const {
    return tokens_.at(std::min(next_ + ahead, tokens_.size() - 1));
}

const Token& Phrase::take() {
    const Token& token = peek();
    next_ = std::min(next_ + 1, tokens_.size() - 1);
    return token;
}

bool Phrase::at_word(std::string_view word) const {
    return peek().kind == Kind::Word && lower_case(peek().text) == word;
}

bool Phrase::accept(Kind kind) {
    if (!at(kind) || kind == Kind::End) {
        return false;
    }
    take();
    return true;
}

bool Phrase::accept_word(std::string_view word) {
    if (!at_word(word)) {
        return false;
    }
    take();
    return true;
}

void Phrase::skip_to_comma() {
    while (!at_end() && !at(Kind::Comma)) {
        take();
    }
}

std::string Phrase::found(const Token& token) const {
    return token.kind == Kind::End ? "the end" : quoted(token.text);
}

std::string Phrase::last() const {
    return next_ == 0 ? "the start" : found(tokens_.at(next_ - 1));
}

support::Span Phrase::span_of(const Token& token) const {
    support::Span span = node_->span;
    // Texts over several lines do not keep their columns; their start is the honest position.
    if (span.column > 0 && node_->text.find('\n') == std::string::npos) {
        span.column += token.column + (node_->quoted ? 1 : 0);
    }
    return span;
}

void Phrase::error(const Token& token, const std::string& message, std::string hint) {
    findings_->error(span_of(token), id_, what_ + ' ' + quoted(node_->text) + ": " + message,
                     std::move(hint));
}

std::string quoted(std::string_view text) {
    return text.size() > kLongestQuoted ? "a long text" : '"' + std::string(text) + '"';
}

std::string lower_case(std::string_view text) {
    std::string result(text);
    for (char& c : result) {
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    return result;
}

std::string did_you_mean(std::string_view word, const std::vector<std::string>& candidates) {
    if (word.size() > kLongestQuoted) {
        return {}; // no slip of the finger, and slow to compare
    }
    const std::string near = support::closest(word, candidates);
    return near.empty() ? std::string() : "did you mean \"" + near + "\"?";
}

} // namespace tickleaf::prescription
