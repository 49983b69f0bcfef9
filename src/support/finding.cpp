// SPDX-License-Identifier: MIT
#include "support/finding.h"

#include <algorithm>
#include <numeric>
#include <stdexcept>
#include <tuple>
#include <utility>

#include "support/json.h"
#include "support/utf8.h"

namespace tickleaf::support {

namespace {

const char* word(Severity severity) {
    switch (severity) {
    case Severity::Error:
        return "error";
    case Severity::Warning:
        return "warning";
    case Severity::Note:
        return "note";
    }
    return "error";
}

auto order(const Finding& finding) {
    return std::tie(finding.span, finding.severity, finding.id, finding.message, finding.hint);
}

/// The caret line below a source line: tabs are kept, so that the caret stands under its column.
std::string caret_line(std::string_view line, int column) {
    std::string caret = "    ";
    int at = 1;
    for (std::size_t offset = 0; offset < line.size() && at < column; ++at) {
        const auto decoded = decode_utf8(line.substr(offset));
        caret += line[offset] == '\t' ? '\t' : ' ';
        offset += decoded ? decoded->length : 1;
    }
    return caret + '^';
}

/// Edits between two words, where two letters swapped count as one (optimal string alignment).
std::size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> before_last(b.size() + 1);
    std::vector<std::size_t> last(b.size() + 1);
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 1; i <= a.size(); ++i) {
        before_last.swap(last);
        last.swap(row);
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t replaced = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            row[j] = std::min({replaced, last[j] + 1, row[j - 1] + 1});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
                row[j] = std::min(row[j], before_last[j - 2] + 1);
            }
        }
    }
    return row[b.size()];
}

/// Longer lines are shown only around the caret, so that a hostile file cannot flood the terminal.
constexpr std::size_t kLongestShownLine = 400;

} // namespace

void Findings::add(Finding finding) {
    findings_.push_back(std::move(finding));
}

void Findings::error(const Span& span, std::string id, std::string message, std::string hint) {
    add({Severity::Error, span, std::move(id), std::move(message), std::move(hint)});
}

void Findings::warning(const Span& span, std::string id, std::string message, std::string hint) {
    add({Severity::Warning, span, std::move(id), std::move(message), std::move(hint)});
}

void Findings::note(const Span& span, std::string id, std::string message, std::string hint) {
    add({Severity::Note, span, std::move(id), std::move(message), std::move(hint)});
}

bool Findings::has_errors() const {
    return std::any_of(findings_.begin(), findings_.end(),
                       [](const Finding& finding) { return finding.severity == Severity::Error; });
}

std::vector<Finding> Findings::sorted() const {
    std::vector<Finding> result = findings_;
    std::stable_sort(result.begin(), result.end(),
                     [](const Finding& a, const Finding& b) { return order(a) < order(b); });
    const auto same = [](const Finding& a, const Finding& b) { return order(a) == order(b); };
    result.erase(std::unique(result.begin(), result.end(), same), result.end());
    return result;
}

std::string to_text(const Finding& finding, const Sources& sources) {
    std::string text = sources.describe(finding.span);
    text += text.empty() ? "" : ": ";
    text += word(finding.severity);
    text += ": " + finding.message + " [" + finding.id + "]\n";
    const std::string_view line = sources.line(finding.span);
    if (!line.empty() && finding.span.column > 0 && line.size() <= kLongestShownLine) {
        text += "    " + std::string(line) + '\n' + caret_line(line, finding.span.column) + '\n';
    }
    if (!finding.hint.empty()) {
        text += "    hint: " + finding.hint + '\n';
    }
    return text;
}

std::string to_json_line(const Finding& finding, const Sources& sources) {
    Json json;
    if (sources.contains(finding.span.file)) {
        json["file"] = sources.at(finding.span.file).path;
        json["line"] = finding.span.line;
        json["column"] = finding.span.column;
    }
    json["severity"] = word(finding.severity);
    json["id"] = finding.id;
    json["message"] = finding.message;
    if (!finding.hint.empty()) {
        json["hint"] = finding.hint;
    }
    return json.dump(-1, ' ', false, Json::error_handler_t::replace) + '\n';
}

std::string closest(std::string_view word, std::span<const std::string> candidates) {
    std::string best;
    // A third of the letters may differ: enough for a slip of the finger, too little for another
    // word.
    std::size_t allowed = std::max<std::size_t>(1, word.size() / 3) + 1;
    for (const std::string& candidate : candidates) {
        const std::size_t distance = edit_distance(word, candidate);
        if (distance < allowed) {
            allowed = distance;
            best = candidate;
        }
    }
    return best;
}

void internal_error_if(bool condition, const char* what) {
    if (condition) {
        throw std::logic_error(what);
    }
}

} // namespace tickleaf::support
