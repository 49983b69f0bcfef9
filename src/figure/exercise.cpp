// SPDX-License-Identifier: MIT
#include "figure/exercise.h"

#include <algorithm>

#include <array>
#include <cmath>
#include <utility>

#include "figure/authored.h"
#include "figure/read_pose.h"
#include "figure/read_words.h"
#include "support/number.h"
#include "yaml/reader.h"

namespace tickleaf::figure {
namespace {

using support::Findings;
using support::Located;
using support::Span;

constexpr std::size_t kMostPoses = 6;

template <class T, std::size_t N>
using Words = std::array<std::pair<std::string_view, T>, N>;

constexpr Words<WeightBearing, 4> kWeightBearing{{{"none", WeightBearing::None},
                                                  {"partial", WeightBearing::Partial},
                                                  {"both", WeightBearing::Both},
                                                  {"single", WeightBearing::Single}}};
constexpr Words<DoseKind, 6> kDoseKinds{{{"hold", DoseKind::Hold},
                                         {"strength", DoseKind::Strength},
                                         {"mobility", DoseKind::Mobility},
                                         {"stretch", DoseKind::Stretch},
                                         {"balance", DoseKind::Balance},
                                         {"walk", DoseKind::Walk}}};
constexpr Words<Prop::Kind, 2> kAnchorProps{
    {{"table", Prop::Kind::Table}, {"door", Prop::Kind::Door}}};
constexpr Words<PropSite, 8> kSites{{{"front", PropSite::Front},
                                     {"behind", PropSite::Behind},
                                     {"work-side", PropSite::Work},
                                     {"other-side", PropSite::Other},
                                     {"under", PropSite::Under},
                                     {"work-hand", PropSite::WorkHand},
                                     {"other-hand", PropSite::OtherHand},
                                     {"both-hands", PropSite::BothHands}}};

template <class T, std::size_t N>
void choose(const Words<T, N>& table, std::string_view kind,
            const std::optional<Located<std::string>>& text, T& out, Findings& findings) {
    if (!text) {
        return;
    }
    std::vector<std::string> known;
    for (const auto& [word, value] : table) {
        if (word == text->value) {
            out = value;
            return;
        }
        known.emplace_back(word);
    }
    unknown_word(kind, text->value, known, text->span, findings);
}

template <class T, std::size_t N>
void choose_optional(const Words<T, N>& table, std::string_view kind,
                     const std::optional<Located<std::string>>& text, std::optional<T>& out,
                     Findings& findings) {
    if (text) {
        T value{};
        choose(table, kind, text, value, findings);
        out = value;
    }
}

/// A number between bounds, or the default with a finding.
double bounded(const std::optional<Located<double>>& value, std::string_view what, double low,
               double high, double otherwise, Findings& findings) {
    if (!value) {
        return otherwise;
    }
    if (!(value->value >= low && value->value <= high)) {
        const std::string bounds = support::fixed(low, 2) + " to " + support::fixed(high, 2);
        findings.error(value->span, "figure-range", std::string(what) + " is outside " + bounds,
                       "write a number from " + bounds);
        return otherwise;
    }
    return value->value;
}

double usual_height(Prop::Kind kind) {
    switch (kind) {
    case Prop::Kind::Chair:
        return 450;
    case Prop::Kind::Step:
        return 150;
    case Prop::Kind::Wall:
        return 2100;
    case Prop::Kind::Table:
        return 730;
    case Prop::Kind::Rail:
        return 900;
    case Prop::Kind::Door:
        return 2000;
    case Prop::Kind::Ball:
        return 550;
    case Prop::Kind::Towel:
        return 90;
    case Prop::Kind::Stick:
        return 28;
    case Prop::Kind::Weight:
        return 70;
    case Prop::Kind::Cushion:
        return 60;
    case Prop::Kind::Bolster:
        break;
    }
    return 150;
}

void read_props(Exercise::Impl& impl, const yaml::Node* node, Findings& findings) {
    if (node == nullptr) {
        return;
    }
    if (node->kind != yaml::Node::Kind::Map) {
        findings.error(node->span, "figure-props",
                       "props should be a map, found " + yaml::describe(*node),
                       "write it as in \"props: {chair: {place: front, gap: 0.2}}\"");
        return;
    }
    for (const yaml::Entry& entry : node->entries) {
        const auto kind = prop_from_word(entry.key.value);
        if (!kind) {
            unknown_word("prop", entry.key.value, prop_words(), entry.key.span, findings);
            continue;
        }
        yaml::MapReader map(entry.value, "the " + entry.key.value, findings);
        if (!map.is_map()) {
            continue;
        }
        PropSpec prop;
        prop.kind = *kind;
        choose(kSites, "place of a prop", map.required_text("place"), prop.site, findings);
        prop.gap = bounded(map.optional_number("gap"), "gap", 0.0, 1.5, 0.2, findings);
        prop.along = bounded(map.optional_number("along"), "along", -1.0, 1.0, 0.0, findings);
        prop.height = 10.0 * bounded(map.optional_number("height_cm"), "height_cm", 1, 250,
                                     usual_height(*kind) / 10, findings);
        prop.width =
            10.0 * bounded(map.optional_number("width_cm"), "width_cm", 1, 300, 0, findings);
        prop.depth =
            10.0 * bounded(map.optional_number("depth_cm"), "depth_cm", 1, 300, 0, findings);
        map.finish();
        impl.props.push_back(prop);
    }
}

void read_band(Exercise::Impl& impl, const yaml::Node* node, Findings& findings) {
    if (node == nullptr) {
        return;
    }
    yaml::MapReader map(*node, "the band", findings);
    if (!map.is_map()) {
        return;
    }
    BandSpec band;
    band.span = node->span;
    const auto from = map.required_text("from");
    const auto to = map.optional_text("to");
    const auto anchor = map.optional_text("anchor");
    const auto anchor_on = map.optional_text("anchor_on");
    band.anchor_height =
        bounded(map.optional_number("anchor_height"), "anchor_height", 0.0, 1.2, 0.06, findings);
    band.strands =
        static_cast<int>(bounded(map.optional_number("strands"), "strands", 1, 4, 1, findings));
    band.start_stretch =
        bounded(map.optional_number("start_stretch"), "start_stretch", 0.02, 1, 0.1, findings);
    band.most_stretch =
        bounded(map.optional_number("most_stretch"), "most_stretch", 0.1, 2.5, 1.5, findings);
    map.finish();
    if (from) {
        band.from = read_band_spots(from->value, from->span, findings);
    }
    choose_optional(kAnchorProps, "anchor", anchor_on, band.anchor_on, findings);
    if (to.has_value() == anchor.has_value()) {
        findings.error(node->span, "figure-band",
                       "the band needs either \"to\" or \"anchor\" for its other end",
                       "write to: other forefoot, or anchor: front");
        return;
    }
    if (to) {
        const std::vector<BandSpot> ends = read_band_spots(to->value, to->span, findings);
        if (ends.empty() || band.from.empty()) {
            return;
        }
        const BandSpot& start = band.from.front();
        const BandSpot& end = ends.front();
        if (band.from.size() > 1 || ends.size() > 1 ||
            (start.info == end.info && start.right == end.right)) {
            findings.error(to->span, "figure-band",
                           "the band does not run between two places of the body",
                           "write as in from: other forefoot, to: work forefoot");
            return;
        }
        band.to = end;
    } else {
        PropSite site = PropSite::Front;
        choose(kSites, "side of the anchor", anchor, site, findings);
        band.anchor = site;
    }
    if (!band.from.empty()) {
        impl.band = band;
    }
}

void read_strap(Exercise::Impl& impl, const yaml::Node* node, Findings& findings) {
    if (node == nullptr) {
        return;
    }
    yaml::MapReader map(*node, "the strap", findings);
    if (!map.is_map()) {
        return;
    }
    const auto from = map.required_text("from");
    const auto round = map.required_text("round");
    map.finish();
    if (impl.band) {
        findings.error(node->span, "figure-band", "there is a band and a strap",
                       "write only one of them");
        return;
    }
    if (!from || !round) {
        return;
    }
    BandSpec strap;
    strap.span = node->span;
    strap.from = read_band_spots(from->value, from->span, findings);
    const std::vector<BandSpot> loop = read_band_spots(round->value, round->span, findings);
    if (!strap.from.empty() && !loop.empty()) {
        strap.round = loop.front();
        impl.band = strap;
    }
}

std::vector<std::string> plain(const std::vector<Located<std::string>>& texts) {
    std::vector<std::string> out;
    for (const auto& text : texts) {
        out.push_back(text.value);
    }
    return out;
}

void read_facts(Exercise::Impl& impl, yaml::MapReader& map, Findings& findings) {
    Facts& facts = impl.facts;
    if (const auto region = map.required_text("region")) {
        facts.region = region->value;
    }
    if (const auto family = map.required_text("family")) {
        facts.family = family->value;
    }
    if (const auto position = map.required_text("position")) {
        facts.position = position->value;
        impl.start = start_from_word(position->value);
        if (impl.start == nullptr) {
            unknown_word("start position", position->value, start_words(), position->span,
                         findings);
        }
    }
    facts.equipment = plain(map.optional_texts("equipment"));
    choose(kWeightBearing, "weight bearing", map.required_text("weight_bearing"),
           facts.weight_bearing, findings);
    choose(kDoseKinds, "dose kind", map.required_text("dose_kind"), facts.dose_kind, findings);
    const auto flag = [&map](std::string_view key, bool otherwise) {
        const auto value = map.optional_flag(key);
        return value ? value->value : otherwise;
    };
    facts.impact = flag("impact", false);
    facts.has_sides = flag("sides", true);
    facts.passing = flag("passing", false);
    facts.support_needed = flag("support_needed", false);
    facts.easier = plain(map.optional_texts("easier"));
    facts.harder = plain(map.optional_texts("harder"));
}

void read_poses(Exercise::Impl& impl, const yaml::Node* node, Findings& findings) {
    if (node == nullptr) {
        return;
    }
    if (node->kind != yaml::Node::Kind::List || node->items.empty() ||
        node->items.size() > kMostPoses) {
        findings.error(node->span, "figure-poses",
                       "poses should be a list of 1 to " + std::to_string(kMostPoses) + ", found " +
                           yaml::describe(*node),
                       "start each pose on a line of its own with \"- \"");
        return;
    }
    for (const yaml::Node& item : node->items) {
        impl.poses.push_back(read_pose(item, findings));
    }
}

/// What is touched must be in the room.
/// At least one picture; a close-up and signs belong to one.
void check_panels(const Exercise::Impl& impl, Findings& findings) {
    const bool any = std::any_of(impl.poses.begin(), impl.poses.end(),
                                 [](const KeyPose& pose) { return pose.has_panel; });
    if (!any && !impl.poses.empty()) {
        findings.error(impl.poses.front().span, "figure-poses", "no pose has a picture",
                       "take panel: false out of one of them");
    }
}

void check_places(const Exercise::Impl& impl, Findings& findings) {
    for (const KeyPose& pose : impl.poses) {
        const auto is_there = [&impl](Prop::Kind kind) {
            for (const PropSpec& prop : impl.props) {
                if (prop.kind == kind) {
                    return true;
                }
            }
            return impl.facts.position == "sitting" && kind == Prop::Kind::Chair;
        };
        for (const Contact& contact : pose.contacts) {
            const auto kind = prop_of(contact.place);
            if (kind && !is_there(*kind)) {
                findings.error(contact.span, "figure-prop",
                               "there is no " + std::string(to_word(*kind)) + " for this contact",
                               "add it under props");
            }
        }
        if (pose.press && pose.press->against && !is_there(*pose.press->against)) {
            findings.error(pose.span, "figure-prop",
                           "there is no " + std::string(to_word(*pose.press->against)) +
                               " to press against",
                           "add it under props");
        }
    }
}

} // namespace

const Facts& Exercise::facts() const {
    support::internal_error_if(!impl, "an exercise without content");
    return impl->facts;
}

std::optional<Exercise> read_exercise(const yaml::Node& root, std::string_view id,
                                      Findings& findings) {
    Findings own;
    auto impl = std::make_shared<Exercise::Impl>();
    impl->facts.id = std::string(id);
    impl->span = root.span;
    yaml::MapReader map(root, "the exercise", own);
    if (map.is_map()) {
        read_facts(*impl, map, own);
        View view = View::Side;
        if (const auto word = map.optional_text("view")) {
            const auto known = view_from_word(word->value);
            if (!known) {
                unknown_word("view", word->value, view_words(), word->span, own);
            }
            view = known.value_or(View::Side);
        }
        impl->view = view;
        if (const auto near = map.optional_text("near")) {
            impl->other_side_near = near->value == "other";
            if (near->value != "other" && near->value != "work") {
                unknown_word("side", near->value, {"work", "other"}, near->span, own);
            }
        }
        read_props(*impl, map.optional_node("props"), own);
        for (const auto& text : map.optional_texts("working")) {
            const auto working = read_working(text.value, text.span, own);
            impl->working.insert(impl->working.end(), working.begin(), working.end());
        }
        read_band(*impl, map.optional_node("band"), own);
        read_strap(*impl, map.optional_node("strap"), own);
        read_poses(*impl, map.required_node("poses"), own);
        map.finish();
        check_places(*impl, own);
        check_panels(*impl, own);
    }
    for (const support::Finding& finding : own.all()) {
        findings.add(finding);
    }
    if (own.has_errors()) {
        return std::nullopt;
    }
    Exercise exercise;
    exercise.impl = std::move(impl);
    return exercise;
}

} // namespace tickleaf::figure
