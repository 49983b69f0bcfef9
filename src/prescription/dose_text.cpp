// SPDX-License-Identifier: MIT
#include "prescription/dose_text.h"

#include "prescription/dose_quantities.h"
#include "prescription/notation.h"

namespace tickleaf::prescription {

namespace {

using support::Range;
using support::Seconds;
using Kind = Token::Kind;

/// Tokens that "a" or "a-b" takes from here; 0 where no number stands here.
std::size_t range_width(const Phrase& phrase) {
    if (!phrase.at(Kind::Number)) {
        return 0;
    }
    return phrase.peek(1).kind == Kind::Dash && phrase.peek(2).kind == Kind::Number ? 3 : 1;
}

class DoseParser {
  public:
    DoseParser(const yaml::Node& node, support::Findings& findings)
        : phrase_(node, "dose", "dose-syntax", findings) {
        dose_.span = node.span;
    }

    std::optional<Dose> parse() {
        bool good = work() && end_of_clause();
        phrase_.skip_to_comma();
        while (phrase_.accept(Kind::Comma)) {
            good = clause() && end_of_clause() && good;
            phrase_.skip_to_comma();
        }
        return good ? std::optional<Dose>(dose_) : std::nullopt;
    }

  private:
    bool work() {
        if (phrase_.at_end()) {
            phrase_.error(
                phrase_.peek(), "nothing is written",
                "write sets x repetitions, such as 3 x 10, or sets x seconds, such as 5 x 45 s");
            return false;
        }
        const std::size_t width = range_width(phrase_);
        const Kind behind = phrase_.peek(width).kind;
        const bool is_negative = phrase_.at(Kind::Dash) && phrase_.peek(2).kind == Kind::Times;
        const bool has_sets = behind == Kind::Times || phrase_.at(Kind::Times) || is_negative;
        if (has_sets) {
            const auto sets = read_counts(phrase_, sets_quantity());
            if (!sets) {
                return false;
            }
            dose_.sets = *sets;
            phrase_.accept(Kind::Times);
        } else if (width > 0 && !is_unit_of_time(phrase_.peek(width)) &&
                   !is_unit_of_time(phrase_.peek(1))) {
            return report_bare_count();
        }
        return load(has_sets);
    }

    bool report_bare_count() {
        const std::string number(phrase_.peek().text);
        phrase_.error(phrase_.peek(), number + " could be repetitions or seconds",
                      "write 1 x " + number + " for repetitions or " + number + " s for time");
        return false;
    }

    bool load(bool has_sets) {
        if (phrase_.at_word("to")) {
            return fatigue();
        }
        if (phrase_.accept_word("time")) {
            return time();
        }
        if (phrase_.at_word("hold")) {
            return holds(1);
        }
        const std::size_t width = range_width(phrase_);
        if (width > 0 && phrase_.peek(width).kind == Kind::Times) {
            return counted_holds();
        }
        if (width > 0 &&
            (is_unit_of_time(phrase_.peek(width)) || is_unit_of_time(phrase_.peek(1)))) {
            return has_sets ? holds(1) : time();
        }
        return repetitions();
    }

    bool repetitions() {
        const auto count = read_counts(phrase_, repetitions_quantity());
        const auto sides = count ? each_side() : std::nullopt;
        if (sides) {
            dose_.content = Repetitions{*count, *sides};
        }
        return sides.has_value();
    }

    bool counted_holds() {
        const Token start = phrase_.peek();
        const auto count = read_counts(phrase_, holds_quantity());
        if (!count) {
            return false;
        }
        if (!count->is_single()) {
            phrase_.error(start,
                          "the number of holds in a set is a range, but one number was expected",
                          "let the sets or the length of the hold vary instead");
            return false;
        }
        phrase_.accept(Kind::Times);
        return holds(count->low);
    }

    bool holds(int count) {
        phrase_.accept_word("hold");
        const auto length = read_duration(phrase_, hold_quantity());
        const auto sides = length ? each_side() : std::nullopt;
        if (sides) {
            dose_.content = Holds{*length, count, *sides};
        }
        return sides.has_value();
    }

    bool time() {
        const auto length = read_duration(phrase_, time_quantity());
        if (!length) {
            return false;
        }
        dose_.content = TimeSpent{*length};
        if (phrase_.at_word("each")) {
            phrase_.error(phrase_.peek(), "time spent has no sides",
                          "write sets of a hold, such as 3 x 30 s each side");
            return false;
        }
        return true;
    }

    bool fatigue() {
        phrase_.take();
        if (!word("fatigue", "to fatigue at most 15") || !word("at", "to fatigue at most 15") ||
            !word("most", "to fatigue at most 15")) {
            return false;
        }
        const Token start = phrase_.peek();
        const auto cap = read_counts(phrase_, cap_quantity());
        if (cap && !cap->is_single()) {
            phrase_.error(start, "the cap is a range, but one number was expected",
                          "write to fatigue at most " + std::to_string(cap->high));
            return false;
        }
        const auto sides = cap ? each_side() : std::nullopt;
        if (sides) {
            dose_.content = ToFatigue{cap->low, *sides};
        }
        return sides.has_value();
    }

    /// Whether "each side" stands here; nothing where it is begun and not ended.
    std::optional<bool> each_side() {
        if (!phrase_.accept_word("each")) {
            return false;
        }
        if (!word("side", "each side")) {
            return std::nullopt;
        }
        return true;
    }

    bool word(const std::string& expected, const std::string& whole) {
        if (phrase_.accept_word(expected)) {
            return true;
        }
        phrase_.error(phrase_.peek(),
                      phrase_.found(phrase_.peek()) + " stands where \"" + expected +
                          "\" is expected",
                      "write " + whole);
        return false;
    }

    bool clause() {
        if (phrase_.accept_word("rest")) {
            const auto rest = read_duration(phrase_, rest_quantity());
            if (rest) {
                dose_.rest = *rest;
            }
            return rest.has_value() && once(dose_.has_rest, "rest");
        }
        if (phrase_.at(Kind::Number) || phrase_.at(Kind::Dash)) {
            return frequency();
        }
        const Token& token = phrase_.peek();
        phrase_.error(token,
                      phrase_.found(token) +
                          " stands where rest, times a day or days a week is expected",
                      clause_hint(token));
        return false;
    }

    std::string clause_hint(const Token& token) const {
        if (token.kind == Kind::End || token.kind == Kind::Comma) {
            return "remove the comma before it";
        }
        const std::string near = did_you_mean(lower_case(token.text), {"rest"});
        return near.empty() ? "write rest 60 s, 2/day or 3 days/week" : near;
    }

    bool frequency() {
        const std::size_t width = range_width(phrase_);
        const Token& behind = phrase_.peek(width);
        const std::string unit = lower_case(behind.text);
        if (width > 0 && (unit == "days" || unit == "day")) {
            return days_a_week();
        }
        const auto count = read_counts(phrase_, per_day_quantity());
        if (!count) {
            return false;
        }
        if (!phrase_.accept(Kind::Slash) || !phrase_.accept_word("day")) {
            const bool is_week = phrase_.at_word("week");
            phrase_.error(phrase_.peek(),
                          phrase_.found(phrase_.peek()) + " stands where \"/day\" is expected",
                          is_week ? "write 3 days/week" : "write rest 60 s, 2/day or 3 days/week");
            return false;
        }
        dose_.per_day = *count;
        return once(has_per_day_, "times a day");
    }

    bool days_a_week() {
        const auto count = read_counts(phrase_, days_per_week_quantity());
        if (!count) {
            return false;
        }
        phrase_.take();
        if (!phrase_.accept(Kind::Slash) || !phrase_.accept_word("week")) {
            phrase_.error(phrase_.peek(),
                          phrase_.found(phrase_.peek()) + " stands where \"/week\" is expected",
                          "write 3 days/week");
            return false;
        }
        dose_.days_per_week = *count;
        return once(has_days_, "days a week");
    }

    bool once(bool& seen, const std::string& name) {
        if (seen) {
            phrase_.error(phrase_.peek(), name + " is given twice", "keep one of the two");
            return false;
        }
        seen = true;
        return true;
    }

    bool end_of_clause() {
        if (phrase_.at_end() || phrase_.at(Kind::Comma)) {
            return true;
        }
        const Token& token = phrase_.peek();
        const std::string near = did_you_mean(
            lower_case(token.text), {"each side", "each", "seconds", "minutes", "min", "s"});
        phrase_.error(token, phrase_.found(token) + " was not understood after " + phrase_.last(),
                      near.empty() ? "put a comma before rest, times a day and days a week" : near);
        return false;
    }

    Phrase phrase_;
    Dose dose_;
    bool has_per_day_ = false;
    bool has_days_ = false;
};

} // namespace

std::optional<Dose> read_dose_text(const yaml::Node& node, support::Findings& findings) {
    return DoseParser(node, findings).parse();
}

} // namespace tickleaf::prescription
