// SPDX-License-Identifier: MIT
#include "prescription/quantity.h"

#include <algorithm>

#include "support/number.h"
#include "yaml/reader.h"

namespace tickleaf::prescription {

namespace {

using support::Range;
using support::Seconds;
using Kind = Token::Kind;

constexpr double kWeakestBandNewtons = 1.0;
constexpr double kStrongestBandNewtons = 500.0;

/// Seconds in a unit of time, or 0.
int seconds_in(std::string_view unit) {
    const std::string word = lower_case(unit);
    if (word == "s" || word == "sec" || word == "secs" || word == "second" || word == "seconds") {
        return 1;
    }
    if (word == "min" || word == "mins" || word == "minute" || word == "minutes") {
        return 60;
    }
    return 0;
}

std::string be(const Quantity& quantity) {
    return quantity.name + (quantity.is_plural ? " are" : " is");
}

/// One whole number without bounds; reports what stands there instead.
std::optional<std::int64_t> whole(Phrase& phrase, const Quantity& quantity) {
    if (phrase.at(Kind::Dash) && phrase.peek(1).kind == Kind::Number) {
        phrase.error(phrase.peek(),
                     quantity.name + " cannot be negative, -" + std::string(phrase.peek(1).text),
                     "write a whole number from 1 up");
        return std::nullopt;
    }
    if (!phrase.at(Kind::Number)) {
        const std::string missing =
            phrase.at_end() || phrase.at(Kind::Comma) || phrase.at(Kind::Times)
                ? be(quantity) + " missing after " + phrase.last()
                : phrase.found(phrase.peek()) + " stands where " + be(quantity) + " expected";
        phrase.error(phrase.peek(), missing, "write a whole number, or a range such as 8-12");
        return std::nullopt;
    }
    const Token& token = phrase.take();
    const auto value = support::parse_integer(token.text);
    if (!value && token.text.find('.') != std::string_view::npos) {
        phrase.error(token,
                     be(quantity) + ' ' + std::string(token.text) +
                         ", but only whole numbers can be counted",
                     "write a whole number; for time a smaller unit, such as 90 s for 1.5 min");
        return std::nullopt;
    }
    // More digits than 64 bits hold: the bound check below says the rest.
    return value.value_or(INT64_MAX);
}

/// Both ends in a unit of `factor` base units against the bounds. The token is where the range
/// starts.
std::optional<Range<std::int64_t>> bounded(Phrase& phrase, const Token& token,
                                           Range<std::int64_t> raw, const Quantity& quantity,
                                           int factor) {
    const std::int64_t most = quantity.most / factor;
    const std::string unit = factor == 60 ? " min" : quantity.is_plural ? "" : " s";
    if (raw.low < 1 || raw.high < 1) {
        phrase.error(token, quantity.name + " must be at least 1" + unit + ", not 0",
                     "write 1" + unit + " or more, or leave the exercise out");
        return std::nullopt;
    }
    if (raw.low > most || raw.high > most) {
        phrase.error(token,
                     be(quantity) + " more than " + std::to_string(most) + unit +
                         ", the most this format takes",
                     "look for an extra digit or a wrong unit");
        return std::nullopt;
    }
    if (raw.low > raw.high) {
        phrase.error(token,
                     "the range of " + quantity.name + " runs from " + std::to_string(raw.low) +
                         " down to " + std::to_string(raw.high),
                     "write " + std::to_string(raw.high) + '-' + std::to_string(raw.low) + unit);
        return std::nullopt;
    }
    return Range<std::int64_t>{raw.low * factor, raw.high * factor};
}

/// "a" or "a-b" without unit and bounds.
std::optional<Range<std::int64_t>> raw_range(Phrase& phrase, const Quantity& quantity) {
    const auto low = whole(phrase, quantity);
    if (!low) {
        return std::nullopt;
    }
    if (phrase.at(Kind::Word) && seconds_in(phrase.peek().text) > 0 &&
        phrase.peek(1).kind == Kind::Dash) {
        phrase.error(phrase.peek(), "a unit stands inside the range of " + quantity.name,
                     "write the unit once, behind the range, such as 30-60 s");
        return std::nullopt;
    }
    if (!phrase.accept(Kind::Dash)) {
        return Range<std::int64_t>{*low, *low};
    }
    const auto high = whole(phrase, quantity);
    if (!high) {
        return std::nullopt;
    }
    return Range<std::int64_t>{*low, *high};
}

/// The unit behind a duration, in seconds.
std::optional<int> unit_of(Phrase& phrase, const Token& start, const Quantity& quantity) {
    const Token& token = phrase.peek();
    const int factor = token.kind == Kind::Word ? seconds_in(token.text) : 0;
    if (factor == 0) {
        const std::string number = std::string(start.text);
        phrase.error(token.kind == Kind::Word ? token : start,
                     token.kind == Kind::Word
                         ? '"' + std::string(token.text) + "\" is no unit of time for " +
                               quantity.name
                         : be(quantity) + " without a unit: " + number + " seconds or minutes",
                     "write " + number + " s or " + number + " min");
        return std::nullopt;
    }
    phrase.take();
    if (phrase.at(Kind::Number) && phrase.peek(1).kind == Kind::Word &&
        seconds_in(phrase.peek(1).text) > 0) {
        phrase.error(phrase.peek(), "two units are mixed in " + quantity.name,
                     "write one number with one unit, such as 150 s");
        return std::nullopt;
    }
    return factor;
}

bool at_end_or_report(Phrase& phrase, const std::string& name) {
    if (phrase.at_end()) {
        return true;
    }
    phrase.error(phrase.peek(), phrase.found(phrase.peek()) + " is left over behind " + name,
                 "remove it");
    return false;
}

bool is_scalar(const yaml::Node& node, const std::string& name, const std::string& id,
               support::Findings& findings) {
    if (node.kind == yaml::Node::Kind::Scalar) {
        return true;
    }
    findings.error(node.span, id,
                   name + " was expected to be a number, but it is " + yaml::describe(node));
    return false;
}

double mm_in(std::string_view unit) {
    return unit == "mm" ? 1.0 : unit == "cm" ? 10.0 : unit == "m" ? 1000.0 : 0.0;
}

/// A decimal number and its unit's word, the whole scalar.
struct Measured {
    double number = 0.0;
    std::string unit;
};

std::optional<Measured> read_measured(Phrase& phrase, const std::string& name,
                                      const std::string& example) {
    const std::string hint = "write a number with its unit, such as " + example;
    if (!phrase.at(Kind::Number)) {
        phrase.error(phrase.peek(),
                     phrase.found(phrase.peek()) + " stands where the number of " + name +
                         " is expected",
                     hint);
        return std::nullopt;
    }
    const auto number = support::parse_decimal(phrase.take().text);
    if (!number) {
        phrase.error(phrase.peek(), name + " is not a decimal number", hint);
        return std::nullopt;
    }
    if (!phrase.at(Kind::Word)) {
        phrase.error(phrase.peek(), name + " is given without a unit", hint);
        return std::nullopt;
    }
    Measured measured{*number, std::string(phrase.take().text)};
    if (!at_end_or_report(phrase, name)) {
        return std::nullopt;
    }
    return measured;
}

} // namespace

bool is_unit_of_time(const Token& token) {
    return token.kind == Kind::Word && seconds_in(token.text) > 0;
}

std::optional<Range<int>> read_counts(Phrase& phrase, const Quantity& quantity) {
    const Token start = phrase.peek();
    const auto raw = raw_range(phrase, quantity);
    const auto range = raw ? bounded(phrase, start, *raw, quantity, 1) : std::nullopt;
    if (!range) {
        return std::nullopt;
    }
    return Range<int>{static_cast<int>(range->low), static_cast<int>(range->high)};
}

std::optional<Range<Seconds>> read_duration(Phrase& phrase, const Quantity& quantity) {
    const Token start = phrase.peek();
    const auto raw = raw_range(phrase, quantity);
    const auto factor = raw ? unit_of(phrase, start, quantity) : std::nullopt;
    const auto range = factor ? bounded(phrase, start, *raw, quantity, *factor) : std::nullopt;
    if (!range) {
        return std::nullopt;
    }
    return Range<Seconds>{{range->low}, {range->high}};
}

std::optional<Range<int>> read_counts(const yaml::Node& node, const Quantity& quantity,
                                      const std::string& id, support::Findings& findings) {
    if (!is_scalar(node, quantity.name, id, findings)) {
        return std::nullopt;
    }
    Phrase phrase(node, quantity.name, id, findings);
    const auto range = read_counts(phrase, quantity);
    return range && at_end_or_report(phrase, quantity.name) ? range : std::nullopt;
}

std::optional<Range<Seconds>> read_duration(const yaml::Node& node, const Quantity& quantity,
                                            const std::string& id, support::Findings& findings) {
    if (!is_scalar(node, quantity.name, id, findings)) {
        return std::nullopt;
    }
    Phrase phrase(node, quantity.name, id, findings);
    const auto range = read_duration(phrase, quantity);
    return range && at_end_or_report(phrase, quantity.name) ? range : std::nullopt;
}

std::optional<double> read_length_mm(const yaml::Node& node, const LengthBounds& bounds,
                                     support::Findings& findings) {
    if (!is_scalar(node, bounds.name, "length-syntax", findings)) {
        return std::nullopt;
    }
    Phrase phrase(node, bounds.name, "length-syntax", findings);
    const auto measured = read_measured(phrase, bounds.name, bounds.example);
    if (!measured) {
        return std::nullopt;
    }
    const std::string hint = "write millimetres, centimetres or metres, such as " + bounds.example;
    const double factor = mm_in(measured->unit);
    if (factor <= 0.0) {
        findings.error(node.span, "length-syntax",
                       bounds.name + " has the unit \"" + measured->unit + "\", not mm, cm or m",
                       hint);
        return std::nullopt;
    }
    const double mm = measured->number * factor;
    if (mm < bounds.least_mm || mm > bounds.most_mm) {
        findings.error(node.span, "length-range",
                       bounds.name + " is " + node.text + ", but it must lie between " +
                           support::fixed(bounds.least_mm / 10.0, 1) + " cm and " +
                           support::fixed(bounds.most_mm / 10.0, 1) + " cm",
                       "look for a wrong unit or digit");
        return std::nullopt;
    }
    return mm;
}

std::optional<double> read_force_newtons(const yaml::Node& node, const std::string& name,
                                         support::Findings& findings) {
    if (!is_scalar(node, name, "force-syntax", findings)) {
        return std::nullopt;
    }
    Phrase phrase(node, name, "force-syntax", findings);
    const auto measured = read_measured(phrase, name, "22 N");
    if (!measured) {
        return std::nullopt;
    }
    if (measured->unit != "N") {
        findings.error(node.span, "force-syntax",
                       name + " has the unit \"" + measured->unit + "\", not N",
                       "write newtons, such as 22 N (1 kg pulls with about 9.8 N)");
        return std::nullopt;
    }
    if (measured->number < kWeakestBandNewtons || measured->number > kStrongestBandNewtons) {
        findings.error(node.span, "force-range",
                       name + " is " + node.text + ", but it must lie between 1 N and 500 N",
                       "look for a wrong digit");
        return std::nullopt;
    }
    return measured->number;
}

} // namespace tickleaf::prescription
