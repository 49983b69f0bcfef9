// SPDX-License-Identifier: MIT
// What is wrong (or worth a look) in what the user gave us. Stages take a Findings& and return
// std::optional<T>: they carry on after an error, so that one run reports everything.
// Errors: findings are for the user's mistakes; our own bugs throw std::logic_error
// (internal_error_if).
#pragma once

#include <span>
#include <string>
#include <vector>

#include "support/source.h"

namespace tickleaf::support {

enum class Severity { Error, Warning, Note };

/// One thing found. Fields stay apart; text is made only when printing.
struct Finding {
    Severity severity = Severity::Error;
    Span span{};
    std::string id; ///< rule id in kebab case, such as "dose-syntax"
    std::string
        message; ///< one lower-case sentence without a full stop: what was found, what was expected
    std::string hint; ///< an action that mends it; may be empty
};

/// The sink every stage reports into.
class Findings {
  public:
    void add(Finding finding);
    void error(const Span& span, std::string id, std::string message, std::string hint = {});
    void warning(const Span& span, std::string id, std::string message, std::string hint = {});
    void note(const Span& span, std::string id, std::string message, std::string hint = {});
    bool has_errors() const;
    std::size_t size() const { return findings_.size(); }
    /// In order of position, duplicates removed.
    std::vector<Finding> sorted() const;
    const std::vector<Finding>& all() const { return findings_; }

  private:
    std::vector<Finding> findings_;
};

/// "path:12:9: error: message [id]", the line with a caret, and the hint.
std::string to_text(const Finding& finding, const Sources& sources);
/// The same as one JSON object on one line.
std::string to_json_line(const Finding& finding, const Sources& sources);

/// The closest of the candidates by edit distance, or empty where nothing is near enough to
/// suggest.
std::string closest(std::string_view word, std::span<const std::string> candidates);

/// Throws std::logic_error when the condition holds: a bug of ours, never the user's.
void internal_error_if(bool condition, const char* what);

} // namespace tickleaf::support
