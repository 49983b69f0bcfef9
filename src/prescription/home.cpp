// SPDX-License-Identifier: MIT
// What there is at home, and the pain rule.
#include "prescription/parts.h"

#include <algorithm>

#include "prescription/notation.h"
#include "prescription/quantity.h"

namespace tickleaf::prescription {

namespace {

using support::Findings;

/// Kinds that exercises ask for; others are taken too, but a near miss is pointed out.
const std::vector<std::string>& usual_kinds() {
    static const std::vector<std::string> kinds = {"chair",   "step",    "wall", "band",  "ball",
                                                   "cushion", "table",   "door", "towel", "stick",
                                                   "weight",  "bolster", "mat",  "bed"};
    return kinds;
}

void check_kind(const Located<std::string>& kind, Findings& findings) {
    if (!is_key(kind.value)) {
        findings.error(kind.span, "equipment-kind", quoted(kind.value) + " is no kind of equipment",
                       "write one lower-case word, such as chair, step or wall");
        return;
    }
    const auto& known = usual_kinds();
    const std::string near = did_you_mean(kind.value, known);
    if (std::find(known.begin(), known.end(), kind.value) == known.end() && !near.empty()) {
        findings.warning(kind.span, "equipment-kind", "no exercise asks for " + quoted(kind.value),
                         near);
    }
}

std::optional<Band> read_band(const yaml::Node& node, Findings& findings) {
    FieldReader reader(node, band_fields(), findings);
    if (!reader.is_map()) {
        return std::nullopt;
    }
    Band band;
    band.name = required_words(reader, "name", findings).value;
    band.title = free_text(reader, "title", findings);
    const yaml::Node* rest = reader.node("rest_length");
    const yaml::Node* force = reader.node("force_at_double_length");
    reader.finish();
    const auto length =
        rest == nullptr
            ? std::nullopt
            : read_length_mm(
                  *rest, {"the rest length of the band", kShortestBandMm, kLongestBandMm, "120 cm"},
                  findings);
    const auto newtons = force == nullptr
                             ? std::nullopt
                             : read_force_newtons(*force, "the force of the band", findings);
    if (band.name.empty() || !length || !newtons) {
        return std::nullopt;
    }
    band.rest_length_mm = *length;
    band.force_at_double_newtons = *newtons;
    return band;
}

std::optional<Equipment> read_measured_item(const yaml::Entry& entry, Findings& findings) {
    Equipment item;
    item.kind = entry.key;
    check_kind(item.kind, findings);
    if (entry.key.value == "band") {
        item.band = read_band(entry.value, findings);
        return item.band ? std::optional<Equipment>(item) : std::nullopt;
    }
    item.height_mm = read_length_mm(
        entry.value,
        {"the height of the " + entry.key.value, kLowestStepMm, kHighestStepMm, "15 cm"}, findings);
    return item.height_mm ? std::optional<Equipment>(item) : std::nullopt;
}

std::optional<Equipment> read_item(const yaml::Node& node, Findings& findings) {
    if (node.kind == yaml::Node::Kind::Map && node.entries.size() == 1) {
        return read_measured_item(node.entries.front(), findings);
    }
    if (node.kind != yaml::Node::Kind::Scalar) {
        findings.error(node.span, "wrong-type",
                       "a thing at home is " + yaml::describe(node) +
                           ", but a word, or one word with its size, was expected",
                       "write - chair, - step: 15 cm, each on a line of its own");
        return std::nullopt;
    }
    Equipment item;
    item.kind = {node.text, node.span};
    check_kind(item.kind, findings);
    if (item.kind.value == "band") {
        findings.error(
            node.span, "band-unmeasured", "the band has no name and no measures",
            "write - band: {name: light, rest_length: 120 cm, force_at_double_length: 22 N}");
        return std::nullopt;
    }
    return item;
}

/// Bands are told apart by name only.
void check_band_names(const std::vector<Equipment>& equipment, const yaml::Node& node,
                      Findings& findings) {
    std::vector<std::string> seen;
    for (const Equipment& item : equipment) {
        if (!item.band) {
            continue;
        }
        if (std::find(seen.begin(), seen.end(), item.band->name) != seen.end()) {
            findings.error(item.kind.span.line > 0 ? item.kind.span : node.span, "band-twice",
                           "two bands have the name " + quoted(item.band->name),
                           "give each band its own name");
        }
        seen.push_back(item.band->name);
    }
}

} // namespace

Home read_home(const yaml::Node& node, Findings& findings) {
    Home home;
    FieldReader reader(node, home_fields(), findings);
    home.minutes_per_day = optional_count(reader, "minutes_per_day", kMostMinutesADay, findings);
    const yaml::Node* list = reader.node("equipment");
    reader.finish();
    if (list == nullptr) {
        return home;
    }
    if (list->kind != yaml::Node::Kind::List) {
        findings.error(list->span, "wrong-type",
                       "equipment is " + yaml::describe(*list) + ", but a list was expected",
                       "write one thing a line, each after \"- \"");
        return home;
    }
    for (const yaml::Node& entry : list->items) {
        if (auto item = read_item(entry, findings)) {
            home.equipment.push_back(std::move(*item));
        }
    }
    check_band_names(home.equipment, *list, findings);
    return home;
}

PainRule read_pain_rule(const yaml::Node& node, Findings& findings) {
    PainRule rule;
    rule.span = node.span;
    FieldReader reader(node, pain_fields(), findings);
    const auto carry = reader.integer("carry_on_up_to");
    const auto ease = reader.integer("ease_off_up_to");
    reader.finish();
    const auto on_scale = [&](const std::optional<Located<std::int64_t>>& value, const char* key) {
        if (!value) {
            return false;
        }
        if (value->value < 0 || value->value > 10) {
            findings.error(value->span, "pain-scale",
                           std::string(key) + " is " + std::to_string(value->value) +
                               ", but pain runs from 0 to 10",
                           "write a whole number from 0 to 10");
            return false;
        }
        return true;
    };
    const bool carry_good = on_scale(carry, "carry_on_up_to");
    if (!on_scale(ease, "ease_off_up_to") || !carry_good) {
        return rule;
    }
    if (ease->value <= carry->value) {
        findings.error(ease->span, "pain-order",
                       "ease_off_up_to is " + std::to_string(ease->value) +
                           ", but it must be above carry_on_up_to, " + std::to_string(carry->value),
                       "write the smaller number under carry_on_up_to");
        return rule;
    }
    if (ease->value == 10) {
        findings.error(ease->span, "pain-order",
                       "ease_off_up_to is 10, which leaves no pain at which to stop",
                       "write 9 or less");
        return rule;
    }
    rule.carry_on_up_to = static_cast<int>(carry->value);
    rule.ease_off_up_to = static_cast<int>(ease->value);
    return rule;
}

} // namespace tickleaf::prescription
