// SPDX-License-Identifier: MIT
// Values that several parts share: texts, free texts by language, dates, sides, counts.
#include "prescription/parts.h"

#include <algorithm>

#include "prescription/language_tag.h"
#include "prescription/notation.h"
#include "support/number.h"

namespace tickleaf::prescription {

namespace {

using support::Findings;

bool is_blank(std::string_view text) {
    return text.find_first_not_of(" \t\r\n") == std::string_view::npos;
}

/// `count` digits of a date starting at `at`, or -1.
int digits(std::string_view text, std::size_t at, std::size_t count) {
    int value = 0;
    for (const char c : text.substr(at, count)) {
        if (c < '0' || c > '9') {
            return -1;
        }
        value = value * 10 + (c - '0');
    }
    return value;
}

struct DateParts {
    int year = -1;
    int month = -1;
    int day = -1;
};

std::optional<DateParts> date_parts(std::string_view text) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') {
        return std::nullopt;
    }
    const DateParts parts{digits(text, 0, 4), digits(text, 5, 2), digits(text, 8, 2)};
    const bool good = parts.year >= 0 && parts.month >= 0 && parts.day >= 0;
    return good ? std::optional<DateParts>(parts) : std::nullopt;
}

/// Why a date of the right shape is none.
std::string why_not(const DateParts& parts) {
    if (parts.year < kFirstYear || parts.year > kLastYear) {
        return "the year must lie between " + std::to_string(kFirstYear) + " and " +
               std::to_string(kLastYear);
    }
    if (parts.month < 1 || parts.month > 12) {
        return "there is no month " + std::to_string(parts.month);
    }
    const std::chrono::year_month_day_last last{
        std::chrono::year{parts.year},
        std::chrono::month_day_last{std::chrono::month{static_cast<unsigned>(parts.month)}}};
    return "that month has " + std::to_string(static_cast<unsigned>(last.day())) + " days";
}

} // namespace

bool is_key(const std::string& text) {
    const auto fits = [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
    };
    return !text.empty() && text.front() != '-' && text.back() != '-' &&
           std::all_of(text.begin(), text.end(), fits);
}

Located<std::string> required_words(FieldReader& reader, std::string_view key, Findings& findings) {
    auto text = reader.text(key);
    if (text && is_blank(text->value)) {
        findings.error(text->span, "empty-value", '"' + std::string(key) + "\" is empty",
                       "it is printed in the booklet: write it out");
        text->value.clear();
    }
    return text.value_or(Located<std::string>{});
}

FreeText read_free_text(const yaml::Node& node, const std::string& what, Findings& findings) {
    FreeText free;
    if (node.kind == yaml::Node::Kind::Scalar) {
        if (is_blank(node.text)) {
            findings.error(node.span, "empty-value", what + " is empty",
                           "write the text or remove the line");
            return free;
        }
        free.by_language.push_back({"", {node.text, node.span}});
        return free;
    }
    if (node.kind != yaml::Node::Kind::Map) {
        findings.error(node.span, "wrong-type",
                       what + " is " + yaml::describe(node) +
                           ", but a text or a map of languages was expected",
                       "write " + what + ": {en: ..., es: ...}");
        return free;
    }
    if (node.entries.empty()) {
        findings.error(node.span, "empty-value", what + " is empty",
                       "write the text, or a map of languages such as {en: ..., es: ...}");
    }
    for (const yaml::Entry& entry : node.entries) {
        if (!is_language_tag(entry.key.value)) {
            findings.error(entry.key.span, "language-tag",
                           quoted(entry.key.value) + " is no language tag",
                           language_tag_hint(entry.key.value));
            continue;
        }
        auto text = yaml::as_text(entry.value, what + " in " + entry.key.value, findings);
        if (text && is_blank(*text)) {
            findings.error(entry.value.span, "empty-value",
                           what + " in " + entry.key.value + " is empty",
                           "write the text or remove the language");
        } else if (text) {
            free.by_language.push_back({entry.key.value, {std::move(*text), entry.value.span}});
        }
    }
    return free;
}

bool Watch::has_errors() const {
    const auto& all = findings_->all();
    return std::any_of(all.begin() + static_cast<std::ptrdiff_t>(begin_), all.end(),
                       [](const support::Finding& finding) {
                           return finding.severity == support::Severity::Error;
                       });
}

FreeText free_text(FieldReader& reader, std::string_view key, Findings& findings) {
    const yaml::Node* node = reader.node(key);
    return node == nullptr ? FreeText{} : read_free_text(*node, std::string(key), findings);
}

std::optional<Located<Date>> read_date(const yaml::Node& node, const std::string& what,
                                       Findings& findings) {
    const auto parts = node.kind == yaml::Node::Kind::Scalar ? date_parts(node.text) : std::nullopt;
    if (!parts) {
        findings.error(node.span, "date-syntax",
                       what + " is " + yaml::describe(node) + ", but a date was expected",
                       "write year, month and day as 2026-03-02");
        return std::nullopt;
    }
    const Date date{std::chrono::year{parts->year},
                    std::chrono::month{static_cast<unsigned>(parts->month)},
                    std::chrono::day{static_cast<unsigned>(parts->day)}};
    if (!date.ok() || parts->year < kFirstYear || parts->year > kLastYear) {
        findings.error(node.span, "date-does-not-exist",
                       what + " is " + node.text + ", but " + why_not(*parts),
                       "write a day that is in the calendar, as year-month-day");
        return std::nullopt;
    }
    return Located<Date>{date, node.span};
}

std::optional<Located<support::Side>> read_side(const yaml::Node& node, Findings& findings) {
    const auto side =
        node.kind == yaml::Node::Kind::Scalar ? support::side_from_word(node.text) : std::nullopt;
    if (!side) {
        const std::string near =
            node.kind == yaml::Node::Kind::Scalar
                ? did_you_mean(lower_case(node.text), {"left", "right", "both", "none"})
                : std::string();
        findings.error(node.span, "side-word",
                       "side is " + yaml::describe(node) +
                           ", but left, right, both or none was expected",
                       near.empty() ? "write the patient's own side as left, right or both" : near);
        return std::nullopt;
    }
    return Located<support::Side>{*side, node.span};
}

std::optional<Located<std::int64_t>> optional_count(FieldReader& reader, std::string_view key,
                                                    std::int64_t most, Findings& findings) {
    const auto count = reader.integer(key);
    if (count && (count->value < 1 || count->value > most)) {
        findings.error(count->span, "out-of-range",
                       std::string(key) + " is " + std::to_string(count->value) +
                           ", but it must lie between 1 and " + std::to_string(most),
                       "look for a wrong digit");
        return std::nullopt;
    }
    return count;
}

const Located<std::string>* FreeText::for_all() const {
    const auto found = std::find_if(by_language.begin(), by_language.end(),
                                    [](const auto& item) { return item.first.empty(); });
    return found == by_language.end() ? nullptr : &found->second;
}

const Located<std::string>* FreeText::in(std::string_view language) const {
    // RFC 4647 lookup: es-MX takes es where there is no es-MX.
    for (std::string_view tag = language; !tag.empty();) {
        for (const auto& [name, text] : by_language) {
            if (!name.empty() && is_same_tag(name, tag)) {
                return &text;
            }
        }
        const std::size_t dash = tag.rfind('-');
        tag = tag.substr(0, dash == std::string_view::npos ? 0 : dash);
    }
    return for_all();
}

} // namespace tickleaf::prescription
