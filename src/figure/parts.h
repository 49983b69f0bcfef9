// SPDX-License-Identifier: MIT
// The words of exercise files: sides, body parts, places, start positions, and what they stand for.
// Shapes: everything is written for the right limb as the working one.
// Units: distances of the skin from the landmark are fractions of stature.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "figure/optimise.h"
#include "figure/scene.h"
#include "figure/skeleton.h"

namespace tickleaf::figure {

/// Which limbs a word of a file speaks of.
enum class Limb { Work, Other, Both, None };

std::optional<Limb> limb_from_word(std::string_view word);
/// 1 for the working (right) limb, 0 for the other; both in that order.
std::vector<std::size_t> limb_indexes(Limb limb);

/// A landmark that touches when a part touches, and the thickness of flesh there.
struct Touch {
    Landmark landmark{}; ///< the left one of a pair
    double skin = 0.0;
    std::optional<Landmark> end = std::nullopt; ///< where the spot lies between two landmarks
    double share = 0.0;                         ///< of the way to the end
};

/// A part of the body that can touch things.
struct PartInfo {
    std::string_view word;
    bool paired = true;
    std::vector<Touch> touches;
    std::vector<std::string_view>
        made_of; ///< parts it stands for, such as heel and ball for a foot
};

const std::vector<PartInfo>& parts();
const PartInfo* part_from_word(std::string_view word);

/// Where a part can be put.
enum class Place {
    Floor,
    ChairSeat,
    ChairBack,
    Step,
    Wall,
    Table,
    Rail,
    Cushion,
    Bolster,
    Ball,
    Thigh,
    Knee,
    Shin,
    Foot,
    Hip,
    Hand,
    Wrist,
    Elbow,
    Shoulder,
    Head,
    Weight
};
/// Whether the place is on the body itself, or on what is in its hand.
bool is_on_body(Place place);
std::optional<Place> place_from_word(std::string_view word);
std::string_view to_word(Place place);
/// The kind of prop a place belongs to; nothing for the floor and the body.
std::optional<Prop::Kind> prop_of(Place place);
std::optional<Prop::Kind> prop_from_word(std::string_view word);
std::string_view to_word(Prop::Kind kind);

/// A landmark that can be followed by an arrow or shown close up; the left one of a pair.
struct SpotInfo {
    std::string_view word;
    bool paired = true;
    Landmark landmark{};
};
const SpotInfo* spot_from_word(std::string_view word);

/// Where a band sits: on the line between two landmarks, the left ones of a pair.
struct BandSpotInfo {
    std::string_view word;
    Landmark from{};
    Landmark towards{};
    double share = 0.0;
};
const BandSpotInfo* band_spot_from_word(std::string_view word);
std::vector<std::string> band_spot_words();
std::optional<Segment> segment_from_word(std::string_view word);
std::optional<View> view_from_word(std::string_view word);

/// Words for "did you mean" hints.
std::vector<std::string> part_words();
std::vector<std::string> place_words();
std::vector<std::string> prop_words();
std::vector<std::string> spot_words();
std::vector<std::string> segment_words();
std::vector<std::string> view_words();
std::vector<std::string> joint_words();

/// One angle of a pose.
struct Setting {
    std::size_t dof = 0;
    double degrees = 0.0;
};

/// Index of a degree of freedom (of the right limb) and its sign by joint and movement.
struct NamedDof {
    std::size_t dof = 0;
    double sign = 1.0;
};
std::optional<NamedDof> find_dof(std::string_view joint, std::string_view movement);
std::vector<std::string> movement_words(std::string_view joint);
/// The one movement of a hinge that may be written as a bare number, or empty.
std::string_view only_movement(std::string_view joint);
bool is_axial(std::string_view joint);

/// A named position to start from.
struct StartPosition {
    std::string_view word;
    double height = 0.0; ///< of the pelvis, fraction of stature
    double pitch = 0.0;
    double roll = 0.0;
    bool upright = true;                    ///< the gaze goes level by itself
    std::vector<Setting> settings;          ///< for the right limb, copied to the left where paired
    std::vector<std::string_view> contacts; ///< as in a file
};
const std::vector<StartPosition>& start_positions();
const StartPosition* start_from_word(std::string_view word);
std::vector<std::string> start_words();

} // namespace tickleaf::figure
