// SPDX-License-Identifier: MIT
#include "prescription/dose_form.h"

#include "prescription/dose_quantities.h"
#include "prescription/dose_text.h"
#include "prescription/fields.h"

namespace tickleaf::prescription {

namespace {

using support::Findings;
using support::Range;
using support::Seconds;
using yaml::Node;

constexpr const char* kSyntax = "dose-syntax";
constexpr const char* kConflict = "dose-conflict";

/// The map form while it is read. A key that is there but does not read is remembered in `good`.
struct DoseMap {
    const Node* repetitions = nullptr;
    const Node* hold = nullptr;
    const Node* holds = nullptr;
    const Node* time = nullptr;
    const Node* fatigue = nullptr;
    bool each_side = false;
    bool good = true;
};

std::optional<int> single(const Node& node, const Quantity& quantity, Findings& findings) {
    const auto range = read_counts(node, quantity, kSyntax, findings);
    if (range && !range->is_single()) {
        findings.error(node.span, kSyntax,
                       quantity.name + " are a range, " + node.text +
                           ", but one number was expected",
                       "write " + std::to_string(range->high));
        return std::nullopt;
    }
    return range ? std::optional<int>(range->low) : std::nullopt;
}

/// Exactly one of the four kinds of set, and nothing that belongs to another.
bool is_one_kind(const DoseMap& map, const Node& node, Findings& findings) {
    const bool has_holds = map.hold != nullptr || map.holds != nullptr;
    const int kinds = (map.repetitions != nullptr ? 1 : 0) + (has_holds ? 1 : 0) +
                      (map.time != nullptr ? 1 : 0) + (map.fatigue != nullptr ? 1 : 0);
    if (kinds > 1) {
        const bool both = map.repetitions != nullptr && has_holds;
        findings.error(
            both && map.hold != nullptr ? map.hold->span : node.span, kConflict,
            both ? "the dose has both repetitions and a hold"
                 : "the dose says in two ways what a set is",
            both ? "for several holds in a set write holds and hold; a pause inside a repetition "
                   "belongs in the tempo"
                 : "keep one of repetitions, hold, time and to_fatigue_at_most");
        return false;
    }
    if (kinds == 0) {
        findings.error(node.span, kSyntax, "the dose does not say what a set is",
                       "add repetitions, hold, time or to_fatigue_at_most");
        return false;
    }
    if (map.holds != nullptr && map.hold == nullptr) {
        findings.error(map.holds->span, kSyntax, "the holds have no length",
                       "add the length of one hold, such as hold: 10 s");
        return false;
    }
    if (map.time != nullptr && map.each_side) {
        findings.error(map.time->span, kConflict, "time spent has no sides",
                       "write a hold, or remove each_side");
        return false;
    }
    return true;
}

std::optional<SetContent> content_of(const DoseMap& map, Findings& findings) {
    if (map.repetitions != nullptr) {
        const auto count = read_counts(*map.repetitions, repetitions_quantity(), kSyntax, findings);
        return count ? std::optional<SetContent>(Repetitions{*count, map.each_side}) : std::nullopt;
    }
    if (map.hold != nullptr) {
        const auto length = read_duration(*map.hold, hold_quantity(), kSyntax, findings);
        const auto count = map.holds == nullptr ? std::optional<int>(1)
                                                : single(*map.holds, holds_quantity(), findings);
        return length && count ? std::optional<SetContent>(Holds{*length, *count, map.each_side})
                               : std::nullopt;
    }
    if (map.time != nullptr) {
        const auto length = read_duration(*map.time, time_quantity(), kSyntax, findings);
        return length ? std::optional<SetContent>(TimeSpent{*length}) : std::nullopt;
    }
    const auto cap = single(*map.fatigue, cap_quantity(), findings);
    return cap ? std::optional<SetContent>(ToFatigue{*cap, map.each_side}) : std::nullopt;
}

/// Counts under an optional key into `target`; false where the key is there and does not read.
bool counts_into(FieldReader& reader, const char* key, const Quantity& quantity,
                 std::optional<Range<int>>& target, Findings& findings) {
    const Node* node = reader.node(key);
    if (node == nullptr) {
        return true;
    }
    target = read_counts(*node, quantity, kSyntax, findings);
    return target.has_value();
}

bool rest_into(FieldReader& reader, Dose& dose, Findings& findings) {
    const Node* node = reader.node("rest");
    if (node == nullptr) {
        return true;
    }
    const auto rest = read_duration(*node, rest_quantity(), kSyntax, findings);
    if (rest) {
        dose.rest = *rest;
        dose.has_rest = true;
    }
    return rest.has_value();
}

std::optional<Dose> read_dose_map(const Node& node, Findings& findings) {
    FieldReader reader(node, dose_fields(), findings);
    Dose dose;
    dose.span = node.span;
    std::optional<Range<int>> sets;
    std::optional<Range<int>> per_day;
    DoseMap map;
    map.good = counts_into(reader, "sets", sets_quantity(), sets, findings);
    map.repetitions = reader.node("repetitions");
    map.hold = reader.node("hold");
    map.holds = reader.node("holds");
    map.time = reader.node("time");
    map.fatigue = reader.node("to_fatigue_at_most");
    map.good = rest_into(reader, dose, findings) && map.good;
    map.good = counts_into(reader, "per_day", per_day_quantity(), per_day, findings) && map.good;
    map.good = counts_into(reader, "days_per_week", days_per_week_quantity(), dose.days_per_week,
                           findings) &&
               map.good;
    const auto flag = reader.flag("each_side");
    map.each_side = flag && flag->value;
    reader.finish();
    const auto content =
        is_one_kind(map, node, findings) ? content_of(map, findings) : std::nullopt;
    if (!content || !map.good) {
        return std::nullopt;
    }
    dose.content = *content;
    dose.sets = sets.value_or(Range<int>{1, 1});
    dose.per_day = per_day.value_or(Range<int>{1, 1});
    return dose;
}

std::string counts_text(const Range<int>& range) {
    return std::to_string(range.low) + (range.is_single() ? "" : '-' + std::to_string(range.high));
}

std::string duration_text(const Range<Seconds>& range) {
    return std::to_string(range.low.count) +
           (range.is_single() ? "" : '-' + std::to_string(range.high.count)) + " s";
}

struct ContentText {
    std::string operator()(const Repetitions& set) const {
        return counts_text(set.count) + (set.each_side ? " each side" : "");
    }
    std::string operator()(const Holds& set) const {
        const std::string count = set.count == 1 ? "" : std::to_string(set.count) + " x ";
        return count + duration_text(set.length) + (set.each_side ? " each side" : "");
    }
    std::string operator()(const TimeSpent& set) const {
        return "time " + duration_text(set.length);
    }
    std::string operator()(const ToFatigue& set) const {
        return "to fatigue at most " + std::to_string(set.at_most) +
               (set.each_side ? " each side" : "");
    }
};

struct EachSide {
    bool operator()(const Repetitions& set) const { return set.each_side; }
    bool operator()(const Holds& set) const { return set.each_side; }
    bool operator()(const TimeSpent&) const { return false; }
    bool operator()(const ToFatigue& set) const { return set.each_side; }
};

} // namespace

std::optional<Dose> read_dose(const Node& node, Findings& findings) {
    if (node.kind == Node::Kind::Scalar) {
        return read_dose_text(node, findings);
    }
    if (node.kind == Node::Kind::Map) {
        return read_dose_map(node, findings);
    }
    findings.error(node.span, kSyntax,
                   "the dose is " + yaml::describe(node) + ", but a text or a map was expected",
                   "write a dose such as 3 x 8-12, rest 60 s, or a map with sets and repetitions");
    return std::nullopt;
}

bool is_each_side(const Dose& dose) {
    return std::visit(EachSide{}, dose.content);
}

std::string to_notation(const Dose& dose) {
    std::string text = counts_text(dose.sets) + " x " + std::visit(ContentText{}, dose.content);
    if (dose.has_rest) {
        text += ", rest " + duration_text(dose.rest);
    }
    if (!(dose.per_day == Range<int>{1, 1})) {
        text += ", " + counts_text(dose.per_day) + "/day";
    }
    if (dose.days_per_week) {
        text += ", " + counts_text(*dose.days_per_week) + " days/week";
    }
    return text;
}

} // namespace tickleaf::prescription
