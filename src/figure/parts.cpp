// SPDX-License-Identifier: MIT
#include "figure/parts.h"

#include <algorithm>
#include <array>
#include <utility>

namespace tickleaf::figure {
namespace {

using L = Landmark;

template <class T, std::size_t N>
using Words = std::array<std::pair<std::string_view, T>, N>;

constexpr Words<Limb, 3> kLimbs{
    {{"work", Limb::Work}, {"other", Limb::Other}, {"both", Limb::Both}}};

constexpr Words<Place, 21> kPlaces{{{"floor", Place::Floor},
                                    {"chair-seat", Place::ChairSeat},
                                    {"chair-back", Place::ChairBack},
                                    {"step", Place::Step},
                                    {"wall", Place::Wall},
                                    {"table", Place::Table},
                                    {"rail", Place::Rail},
                                    {"cushion", Place::Cushion},
                                    {"bolster", Place::Bolster},
                                    {"ball", Place::Ball},
                                    {"thigh", Place::Thigh},
                                    {"knee", Place::Knee},
                                    {"shin", Place::Shin},
                                    {"foot", Place::Foot},
                                    {"hip", Place::Hip},
                                    {"hand", Place::Hand},
                                    {"wrist", Place::Wrist},
                                    {"elbow", Place::Elbow},
                                    {"shoulder", Place::Shoulder},
                                    {"head", Place::Head},
                                    {"weight", Place::Weight}}};

constexpr Words<Prop::Kind, 12> kProps{{{"chair", Prop::Kind::Chair},
                                        {"step", Prop::Kind::Step},
                                        {"wall", Prop::Kind::Wall},
                                        {"table", Prop::Kind::Table},
                                        {"rail", Prop::Kind::Rail},
                                        {"cushion", Prop::Kind::Cushion},
                                        {"bolster", Prop::Kind::Bolster},
                                        {"ball", Prop::Kind::Ball},
                                        {"door", Prop::Kind::Door},
                                        {"towel", Prop::Kind::Towel},
                                        {"stick", Prop::Kind::Stick},
                                        {"weight", Prop::Kind::Weight}}};

constexpr Words<Segment, 8> kSegments{{{"head", Segment::Head},
                                       {"trunk", Segment::Trunk},
                                       {"upper-arm", Segment::UpperArm},
                                       {"forearm", Segment::Forearm},
                                       {"hand", Segment::Hand},
                                       {"thigh", Segment::Thigh},
                                       {"shank", Segment::Shank},
                                       {"foot", Segment::Foot}}};

constexpr Words<View, 5> kViews{{{"side", View::Side},
                                 {"front", View::Front},
                                 {"back", View::Back},
                                 {"three-quarter", View::ThreeQuarter},
                                 {"above", View::Above}}};

constexpr std::array<SpotInfo, 18> kSpots{{{"head", false, L::HeadCentre},
                                           {"nose", false, L::Nose},
                                           {"chest", false, L::Chest},
                                           {"pelvis", false, L::Pelvis},
                                           {"waist", false, L::Waist},
                                           {"shoulder", true, L::ShoulderL},
                                           {"elbow", true, L::ElbowL},
                                           {"wrist", true, L::WristL},
                                           {"hand", true, L::KnuckleL},
                                           {"fingertip", true, L::FingertipL},
                                           {"hip", true, L::HipL},
                                           {"knee", true, L::KneeL},
                                           {"ankle", true, L::AnkleL},
                                           {"heel", true, L::HeelL},
                                           {"foot", true, L::BallOuterL},
                                           {"forefoot", true, L::BallOuterL},
                                           {"inner-forefoot", true, L::BallInnerL},
                                           {"toe", true, L::ToeL}}};

constexpr std::array<BandSpotInfo, 8> kBandSpots{{{"forefoot", L::BallInnerL, L::BallOuterL, 0.5},
                                                  {"heel", L::AnkleL, L::HeelL, 0.6},
                                                  {"ankle", L::KneeL, L::AnkleL, 0.94},
                                                  {"shank", L::KneeL, L::AnkleL, 0.6},
                                                  {"knee", L::HipL, L::KneeL, 0.96},
                                                  {"thigh", L::HipL, L::KneeL, 0.82},
                                                  {"wrist", L::WristL, L::WristL, 0.0},
                                                  {"hand", L::WristL, L::KnuckleL, 0.85}}};

template <class T, std::size_t N>
std::optional<T> find_word(const Words<T, N>& table, std::string_view word) {
    const auto it = std::find_if(table.begin(), table.end(),
                                 [word](const auto& row) { return row.first == word; });
    return it == table.end() ? std::nullopt : std::optional<T>(it->second);
}

template <class T, std::size_t N>
std::vector<std::string> words_of(const Words<T, N>& table) {
    std::vector<std::string> out;
    for (const auto& row : table) {
        out.emplace_back(row.first);
    }
    return out;
}

template <class T, std::size_t N>
std::string_view word_of(const Words<T, N>& table, T value) {
    const auto it = std::find_if(table.begin(), table.end(),
                                 [value](const auto& row) { return row.second == value; });
    return it == table.end() ? std::string_view{"thing"} : it->first;
}

constexpr std::size_t r(std::size_t dof) {
    return limb_dof(1, dof);
}

std::vector<StartPosition> make_start_positions() {
    const Setting arm_out{r(kShoulderAbduction), 9};
    const Setting elbow{r(kElbowFlexion), 12};
    return {
        {"standing",
         0.530,
         0,
         0,
         true,
         {{r(kHipAbduction), 1}, arm_out, elbow},
         {"both foot on floor"}},
        {"sitting",
         0.32,
         0,
         0,
         true,
         {{r(kHipFlexion), 88},
          {r(kKneeFlexion), 88},
          {r(kHipAbduction), 3},
          {r(kShoulderFlexion), 20},
          {r(kShoulderAbduction), 8},
          {r(kElbowFlexion), 55},
          {r(kForearmPronation), 70}},
         {"seat on chair-seat", "both foot on floor", "both hand on thigh"}},
        {"long-sitting",
         0.048,
         12,
         0,
         true,
         {{r(kHipFlexion), 80},
          {r(kHipAbduction), 3},
          {r(kKneeFlexion), 4},
          {r(kShoulderFlexion), -38},
          {r(kShoulderAbduction), 12},
          {r(kElbowFlexion), 4},
          {r(kForearmPronation), -82},
          {r(kWristFlexion), -58}},
         {"seat on floor", "both heel on floor", "both hand on floor"}},
        {"lying-on-back",
         0.060,
         90,
         0,
         false,
         {{r(kHipAbduction), 4},
          {r(kShoulderAbduction), 18},
          {r(kElbowFlexion), 8},
          {r(kForearmPronation), 60}},
         {"buttocks on floor", "back on floor", "head on floor", "both heel on floor"}},
        {"lying-on-front",
         0.06,
         -90,
         0,
         false,
         {{r(kHipAbduction), 4},
          {r(kAnkleDorsiflexion), -45},
          {r(kShoulderAbduction), 16},
          {r(kElbowFlexion), 2},
          {r(kKneeFlexion), 12},
          {kNeckFlexion, -30}},
         {"seat on floor", "chest on floor", "both toe on floor"}},
        {"lying-on-side",
         0.10,
         0,
         -90,
         false,
         {{r(kHipFlexion), 15},
          {r(kKneeFlexion), 20},
          {r(kShoulderFlexion), 40},
          {r(kElbowFlexion), 60}},
         {"other hip on floor", "other shoulder on floor", "other knee on floor"}},
        {"four-point-kneeling",
         0.273,
         -80,
         0,
         false,
         {{r(kHipFlexion), 90},
          {r(kKneeFlexion), 95},
          {r(kAnkleDorsiflexion), -45},
          {r(kShoulderFlexion), 85},
          {r(kElbowFlexion), 4},
          {r(kForearmPronation), 75},
          {r(kWristFlexion), -65},
          {kNeckFlexion, -15}},
         {"both knee on floor", "both toe on floor", "both hand on floor"}},
        {"kneeling",
         0.273,
         0,
         0,
         true,
         {{r(kKneeFlexion), 92}, {r(kAnkleDorsiflexion), -45}, arm_out, elbow},
         {"both knee on floor", "both toe on floor"}},
        {"half-kneeling",
         0.273,
         0,
         0,
         true,
         {{r(kHipFlexion), 88}, {r(kKneeFlexion), 90}, arm_out, elbow},
         {"other knee on floor", "other toe on floor", "work foot on floor"}},
    };
}

} // namespace

std::optional<Limb> limb_from_word(std::string_view word) {
    return find_word(kLimbs, word);
}

std::vector<std::size_t> limb_indexes(Limb limb) {
    switch (limb) {
    case Limb::Work:
        return {1};
    case Limb::Other:
        return {0};
    case Limb::Both:
    case Limb::None:
        break;
    }
    return {1, 0};
}

const std::vector<PartInfo>& parts() {
    static const std::vector<PartInfo> table{
        {"heel", true, {{L::HeelL, 0.0}}, {}},
        {"ball", true, {{L::BallInnerL, 0.0}, {L::BallOuterL, 0.0}}, {}},
        {"toe", true, {{L::ToeL, 0.0}}, {}},
        {"foot", true, {}, {"heel", "ball", "toe"}},
        {"forefoot", true, {}, {"ball", "toe"}},
        {"outer-foot", true, {{L::BallOuterL, 0.0}}, {}},
        {"knee", true, {{L::KneeL, 0.028}}, {}},
        {"calf", true, {{L::KneeL, 0.027, L::AnkleL, 0.62}}, {}},
        {"hip", true, {{L::HipL, 0.060}}, {}},
        {"seat", false, {{L::HipL, 0.048}, {L::HipR, 0.048}}, {}},
        {"buttocks", false, {{L::HipL, 0.060}, {L::HipR, 0.060}}, {}},
        {"back", false, {{L::Chest, 0.052}}, {}},
        {"chest", false, {{L::Chest, 0.058}}, {}},
        {"head", false, {{L::HeadCentre, 0.052}}, {}},
        {"shoulder", true, {{L::ShoulderL, 0.045}}, {}},
        {"elbow", true, {{L::ElbowL, 0.020}}, {}},
        {"forearm", true, {{L::ElbowL, 0.020}, {L::WristL, 0.012}}, {}},
        {"hand", true, {{L::WristL, 0.018}, {L::KnuckleL, 0.010}, {L::FingertipL, 0.005}}, {}},
    };
    return table;
}

const PartInfo* part_from_word(std::string_view word) {
    const auto& table = parts();
    const auto it = std::find_if(table.begin(), table.end(),
                                 [word](const PartInfo& p) { return p.word == word; });
    return it == table.end() ? nullptr : &*it;
}

std::optional<Place> place_from_word(std::string_view word) {
    return find_word(kPlaces, word);
}

std::string_view to_word(Place place) {
    return word_of(kPlaces, place);
}

std::optional<Prop::Kind> prop_of(Place place) {
    switch (place) {
    case Place::ChairSeat:
    case Place::ChairBack:
        return Prop::Kind::Chair;
    case Place::Step:
        return Prop::Kind::Step;
    case Place::Wall:
        return Prop::Kind::Wall;
    case Place::Table:
        return Prop::Kind::Table;
    case Place::Rail:
        return Prop::Kind::Rail;
    case Place::Cushion:
        return Prop::Kind::Cushion;
    case Place::Bolster:
        return Prop::Kind::Bolster;
    case Place::Ball:
        return Prop::Kind::Ball;
    case Place::Weight:
        return Prop::Kind::Weight;
    case Place::Floor:
    case Place::Thigh:
    case Place::Knee:
    case Place::Shin:
    case Place::Foot:
    case Place::Hip:
    case Place::Hand:
    case Place::Wrist:
    case Place::Elbow:
    case Place::Shoulder:
    case Place::Head:
        break;
    }
    return std::nullopt;
}

bool is_on_body(Place place) {
    return place >= Place::Thigh;
}

std::optional<Prop::Kind> prop_from_word(std::string_view word) {
    return find_word(kProps, word);
}

std::string_view to_word(Prop::Kind kind) {
    return word_of(kProps, kind);
}

const SpotInfo* spot_from_word(std::string_view word) {
    const auto* it = std::find_if(kSpots.begin(), kSpots.end(),
                                  [word](const SpotInfo& s) { return s.word == word; });
    return it == kSpots.end() ? nullptr : it;
}

const BandSpotInfo* band_spot_from_word(std::string_view word) {
    const auto* it = std::find_if(kBandSpots.begin(), kBandSpots.end(),
                                  [word](const BandSpotInfo& s) { return s.word == word; });
    return it == kBandSpots.end() ? nullptr : it;
}

std::vector<std::string> band_spot_words() {
    std::vector<std::string> out;
    for (const BandSpotInfo& spot : kBandSpots) {
        out.emplace_back(spot.word);
    }
    return out;
}

std::optional<Segment> segment_from_word(std::string_view word) {
    return find_word(kSegments, word);
}

std::optional<View> view_from_word(std::string_view word) {
    return find_word(kViews, word);
}

std::vector<std::string> part_words() {
    std::vector<std::string> out;
    for (const PartInfo& part : parts()) {
        out.emplace_back(part.word);
    }
    return out;
}

std::vector<std::string> place_words() {
    return words_of(kPlaces);
}

std::vector<std::string> prop_words() {
    return words_of(kProps);
}

std::vector<std::string> segment_words() {
    return words_of(kSegments);
}

std::vector<std::string> view_words() {
    return words_of(kViews);
}

std::vector<std::string> spot_words() {
    std::vector<std::string> out;
    for (const SpotInfo& spot : kSpots) {
        out.emplace_back(spot.word);
    }
    return out;
}

std::vector<std::string> joint_words() {
    std::vector<std::string> out;
    for (std::size_t dof = kTrunkFlexion; dof < limb_dof(1, 0); ++dof) {
        const std::string joint(dof_info(dof).joint);
        if (out.empty() || out.back() != joint) {
            out.push_back(joint);
        }
    }
    return out;
}

std::optional<NamedDof> find_dof(std::string_view joint, std::string_view movement) {
    for (std::size_t dof = kTrunkFlexion; dof < kDofs; ++dof) {
        const DofInfo& info = dof_info(dof);
        if (info.joint != joint || limb_of(dof) == 0) {
            continue;
        }
        if (info.positive == movement) {
            return NamedDof{dof, 1.0};
        }
        if (info.negative == movement) {
            return NamedDof{dof, -1.0};
        }
    }
    return std::nullopt;
}

std::vector<std::string> movement_words(std::string_view joint) {
    std::vector<std::string> out;
    for (std::size_t dof = kTrunkFlexion; dof < kDofs; ++dof) {
        const DofInfo& info = dof_info(dof);
        if (info.joint == joint && limb_of(dof) != 0) {
            out.emplace_back(info.positive);
            out.emplace_back(info.negative);
        }
    }
    return out;
}

std::string_view only_movement(std::string_view joint) {
    if (joint == "knee" || joint == "elbow") {
        return "flexion";
    }
    return joint == "forearm" ? "pronation" : (joint == "toes" ? "extension" : "");
}

bool is_axial(std::string_view joint) {
    return joint == "trunk" || joint == "neck";
}

const std::vector<StartPosition>& start_positions() {
    static const std::vector<StartPosition> table = make_start_positions();
    return table;
}

const StartPosition* start_from_word(std::string_view word) {
    const auto& table = start_positions();
    const auto it =
        std::find_if(table.begin(), table.end(), [word](const auto& s) { return s.word == word; });
    return it == table.end() ? nullptr : &*it;
}

std::vector<std::string> start_words() {
    std::vector<std::string> out;
    for (const StartPosition& start : start_positions()) {
        out.emplace_back(start.word);
    }
    return out;
}

} // namespace tickleaf::figure
