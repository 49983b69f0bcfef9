// SPDX-License-Identifier: MIT
#include "figure/read_pose.h"

#include <array>
#include <cmath>
#include <functional>
#include <utility>

#include "figure/read_words.h"
#include "support/number.h"
#include "yaml/reader.h"

namespace tickleaf::figure {
namespace {

using support::Findings;
using support::Span;

constexpr double kMostShift = 1.0;  // of stature
constexpr double kMostTurn = 180.0; // degrees

/// Texts of a node that is one text or a list of them.
void for_each_text(const yaml::Node& node, std::string_view what, Findings& findings,
                   const std::function<void(const std::string&, const Span&)>& use) {
    if (node.kind == yaml::Node::Kind::List) {
        for (const yaml::Node& item : node.items) {
            for_each_text(item, what, findings, use);
        }
        return;
    }
    if (const auto text = yaml::as_text(node, what, findings)) {
        use(*text, node.span);
    }
}

bool in_range(const NamedDof& named, double degrees, std::string_view joint,
              std::string_view movement, const Span& span, Findings& findings) {
    const DofInfo& info = dof_info(named.dof);
    const double value = named.sign * degrees;
    if (value >= info.low - info.tolerance && value <= info.high + info.tolerance) {
        return true;
    }
    const double end = named.sign > 0 ? info.high : -info.low;
    findings.error(
        span, "figure-range",
        std::string(joint) + " " + std::string(movement) + " of " + support::fixed(degrees, 1) +
            " degrees is outside the normal range, which ends at " + support::fixed(end, 0),
        "write at most " + support::fixed(end, 0));
    return false;
}

void add_setting(KeyPose& pose, Limb limb, const NamedDof& named, double degrees) {
    const double value = named.sign * degrees;
    if (named.dof < kFirstLimbDof) {
        pose.settings.push_back({named.dof, value});
        return;
    }
    for (const std::size_t right : limb_indexes(limb)) {
        pose.settings.push_back({named.dof - (1 - right) * kLimbDofs, value});
    }
}

void read_movement(KeyPose& pose, Limb limb, std::string_view joint, std::string_view movement,
                   const yaml::Node& node, Findings& findings) {
    const auto named = find_dof(joint, movement);
    if (!named) {
        unknown_word("movement of the " + std::string(joint), movement, movement_words(joint),
                     node.span, findings);
        return;
    }
    const auto degrees =
        yaml::as_number(node, std::string(joint) + " " + std::string(movement), findings);
    if (degrees && in_range(*named, *degrees, joint, movement, node.span, findings)) {
        add_setting(pose, limb, *named, *degrees);
    }
}

void read_joint(KeyPose& pose, Limb limb, std::string_view joint, const yaml::Node& node,
                Findings& findings) {
    if (node.kind == yaml::Node::Kind::Map) {
        for (const yaml::Entry& entry : node.entries) {
            read_movement(pose, limb, joint, entry.key.value, entry.value, findings);
        }
        return;
    }
    const std::string_view only = only_movement(joint);
    if (only.empty()) {
        findings.error(node.span, "figure-movement",
                       "the " + std::string(joint) + " moves in more than one way, but only " +
                           yaml::describe(node) + " is given",
                       "name the movement, as in {" + movement_words(joint).front() + ": 10}");
        return;
    }
    read_movement(pose, limb, joint, only, node, findings);
}

constexpr double kFist = 90.0; // of the knuckles: AAOS 1965 (value from memory)

/// "work fingers": drawn, but nothing that the solver moves.
bool try_fingers(KeyPose& pose, const yaml::Entry& entry, Findings& findings) {
    const auto words = split_words(entry.key.value);
    const auto limb = words.size() == 2 ? limb_from_word(words[0]) : std::nullopt;
    if (!limb || words[1] != "fingers") {
        return false;
    }
    const auto flexion = yaml::as_number(entry.value, "the fingers' flexion", findings);
    if (flexion && !(*flexion >= 0.0 && *flexion <= kFist)) {
        findings.error(entry.value.span, "figure-range", "the fingers' flexion is outside 0 to 90",
                       "0 is a flat hand, 90 a fist");
    } else if (flexion) {
        for (const std::size_t right : limb_indexes(*limb)) {
            pose.fingers.push_back({right, *flexion});
        }
    }
    return true;
}

/// "work hip", "trunk": whether the key names a joint.
bool try_joint(KeyPose& pose, const yaml::Entry& entry, Findings& findings) {
    const auto words = split_words(entry.key.value);
    const bool sided = words.size() == 2 && limb_from_word(words[0]).has_value();
    if (!sided && words.size() != 1) {
        return false;
    }
    const std::string_view joint = words.back();
    if (movement_words(joint).empty()) {
        if (sided) {
            std::vector<std::string> known = joint_words();
            known.emplace_back("fingers");
            unknown_word("joint", joint, known, entry.key.span, findings);
        }
        return sided;
    }
    if (is_axial(joint) == sided) {
        findings.error(entry.key.span, "figure-side",
                       sided ? "the " + std::string(joint) + " has no sides"
                             : "\"" + entry.key.value + "\" does not say which side",
                       sided ? "leave the side word out"
                             : "write work, other or both in front of it");
        return true;
    }
    read_joint(pose, sided ? *limb_from_word(words[0]) : Limb::None, joint, entry.value, findings);
    return true;
}

void read_root(KeyPose& pose, const yaml::Node& node, Findings& findings) {
    struct Shift {
        std::string_view word;
        Dof dof;
        double sign;
        double most;
    };
    static constexpr std::array<Shift, 6> kShifts{{{"forward", kRootX, 1, kMostShift},
                                                   {"up", kRootY, 1, kMostShift},
                                                   {"to-work", kRootZ, 1, kMostShift},
                                                   {"lean-forward", kRootPitch, -1, kMostTurn},
                                                   {"lean-to-work", kRootRoll, 1, kMostTurn},
                                                   {"turn-to-work", kRootTurn, -1, kMostTurn}}};
    yaml::MapReader map(node, "the root", findings);
    if (!map.is_map()) {
        return;
    }
    for (const Shift& shift : kShifts) {
        const auto value = map.optional_number(shift.word);
        if (!value) {
            continue;
        }
        if (std::abs(value->value) > shift.most) {
            findings.error(value->span, "figure-range",
                           std::string(shift.word) + " of " + support::fixed(value->value, 3) +
                               " is too far",
                           "write at most " + support::fixed(shift.most, 0));
            continue;
        }
        pose.root.push_back({shift.dof, shift.sign * value->value});
    }
    map.finish();
}

constexpr double kSlant = 0.70710678118654752; // half a right angle

bool read_direction(Point3& out, const support::Located<std::string>& word, Findings& findings) {
    static constexpr std::array<std::pair<std::string_view, Point3>, 8> kDirections{
        {{"front", {1, 0, 0}},
         {"behind", {-1, 0, 0}},
         {"up", {0, 1, 0}},
         {"down", {0, -1, 0}},
         {"down-behind", {-kSlant, -kSlant, 0}},
         {"down-front", {kSlant, -kSlant, 0}},
         {"work-side", {0, 0, 1}},
         {"other-side", {0, 0, -1}}}};
    std::vector<std::string> known;
    for (const auto& [name, direction] : kDirections) {
        if (name == word.value) {
            out = direction;
            return true;
        }
        known.emplace_back(name);
    }
    unknown_word("direction", word.value, known, word.span, findings);
    return false;
}

void read_press(KeyPose& pose, const yaml::Node& node, Findings& findings) {
    yaml::MapReader map(node, "the press", findings);
    if (!map.is_map()) {
        return;
    }
    const auto part = map.required_text("part");
    const auto against = map.optional_text("against");
    const auto towards = map.optional_text("towards");
    map.finish();
    if (!part) {
        return;
    }
    if (against.has_value() == towards.has_value()) {
        findings.error(node.span, "figure-press",
                       "the press needs either \"against\" or \"towards\"",
                       "write against: wall, against: floor, or towards: work-side");
        return;
    }
    const std::vector<Landmark> spots = read_spots(part->value, part->span, findings);
    Press press;
    if (towards && !read_direction(press.towards, *towards, findings)) {
        return;
    }
    if (against && against->value != "floor") {
        press.against = prop_from_word(against->value);
        if (!press.against) {
            unknown_word("prop", against->value, prop_words(), against->span, findings);
            return;
        }
    }
    if (!spots.empty()) {
        press.at = spots.front();
        pose.press = press;
    }
}

std::optional<View> read_view(const support::Located<std::string>& word, Findings& findings) {
    const auto view = view_from_word(word.value);
    if (!view) {
        unknown_word("view", word.value, view_words(), word.span, findings);
    }
    return view;
}

void read_close_up(KeyPose& pose, const yaml::Node& node, Findings& findings) {
    yaml::MapReader map(node, "the detail", findings);
    if (!map.is_map()) {
        return;
    }
    const auto part = map.required_text("part");
    const auto view_word = map.optional_text("view");
    const auto radius = map.optional_number("radius");
    map.finish();
    if (!part) {
        return;
    }
    CloseUp close_up;
    const std::vector<Landmark> spots = read_spots(part->value, part->span, findings);
    if (view_word) {
        const auto view = read_view(*view_word, findings);
        if (!view) {
            return;
        }
        close_up.view = *view;
    }
    if (radius) {
        if (!(radius->value >= 0.02 && radius->value <= 0.5)) {
            findings.error(radius->span, "figure-range",
                           "the detail's radius is outside 0.02 to 0.5 of stature",
                           "0.1 shows a foot");
            return;
        }
        close_up.radius = radius->value;
    }
    if (!spots.empty()) {
        close_up.centre = spots.front();
        pose.close_up = close_up;
    }
}

void read_flag(bool& flag, const yaml::Entry& entry, Findings& findings) {
    if (const auto value = yaml::as_flag(entry.value, entry.key.value, findings)) {
        flag = *value;
    }
}

/// Keys other than joints; false where the key is not known.
bool try_key(KeyPose& pose, const yaml::Entry& entry, Findings& findings) {
    const std::string& key = entry.key.value;
    if (key == "contacts") {
        for_each_text(entry.value, key, findings, [&](const std::string& text, const Span& span) {
            const auto contacts = read_contact(text, span, findings);
            pose.contacts.insert(pose.contacts.end(), contacts.begin(), contacts.end());
        });
    } else if (key == "release") {
        for_each_text(entry.value, key, findings, [&](const std::string& text, const Span& span) {
            const auto names = read_part(text, span, findings);
            pose.releases.insert(pose.releases.end(), names.begin(), names.end());
        });
    } else if (key == "arrow") {
        for_each_text(entry.value, key, findings, [&](const std::string& text, const Span& span) {
            const auto spots = read_spots(text, span, findings);
            pose.arrows.insert(pose.arrows.end(), spots.begin(), spots.end());
        });
    } else if (key == "about") {
        if (const auto text = yaml::as_text(entry.value, key, findings)) {
            const auto spots = read_spots(*text, entry.value.span, findings);
            pose.about = spots.empty() ? std::nullopt : std::optional(spots.front());
        }
    } else if (key == "view") {
        if (const auto text = yaml::as_text(entry.value, key, findings)) {
            pose.view = read_view({*text, entry.value.span}, findings);
        }
    } else if (key == "root") {
        read_root(pose, entry.value, findings);
    } else if (key == "press") {
        read_press(pose, entry.value, findings);
    } else if (key == "detail") {
        read_close_up(pose, entry.value, findings);
    } else {
        const std::array<std::pair<std::string_view, bool*>, 7> flags{
            {{"hold", &pose.hold},
             {"panel", &pose.has_panel},
             {"ghost", &pose.has_ghost},
             {"return", &pose.return_arrow},
             {"begins", &pose.begins},
             {"repeats", &pose.repeats},
             {"passing", &pose.passing}}};
        for (const auto& [word, flag] : flags) {
            if (key == word) {
                read_flag(*flag, entry, findings);
                return true;
            }
        }
        return false;
    }
    return true;
}

} // namespace

KeyPose read_pose(const yaml::Node& node, Findings& findings) {
    KeyPose pose;
    pose.span = node.span;
    if (node.kind != yaml::Node::Kind::Map) {
        findings.error(node.span, "figure-pose",
                       "a pose is a map of joints and contacts, found " + yaml::describe(node),
                       "write it as in \"- work knee: 30\"");
        return pose;
    }
    for (const yaml::Entry& entry : node.entries) {
        if (try_key(pose, entry, findings) || try_fingers(pose, entry, findings) ||
            try_joint(pose, entry, findings)) {
            continue;
        }
        std::vector<std::string> known{"contacts", "release", "arrow",  "root",  "press",
                                       "detail",   "hold",    "panel",  "ghost", "return",
                                       "repeats",  "passing", "begins", "about", "view",
                                       "trunk",    "neck"};
        unknown_word("key of a pose", entry.key.value, known, entry.key.span, findings);
    }
    return pose;
}

} // namespace tickleaf::figure
