// SPDX-License-Identifier: MIT
// An exercise as its author wrote it, words resolved: what solve.cpp works from.
// Units: degrees; lengths as fractions of stature, but props' sizes in mm.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "figure/exercise.h"
#include "figure/parts.h"

namespace tickleaf::figure {

/// A part put on a place; already split into single limbs and simple parts.
struct Contact {
    const PartInfo* part = nullptr;
    std::size_t right = 1; ///< which limb, for paired parts
    Place place = Place::Floor;
    Limb place_limb = Limb::None; ///< whose thigh or knee: none means the same side's
    support::Span span{};
};

/// What a release names.
struct PartName {
    const PartInfo* part = nullptr;
    std::size_t right = 1;
};

/// A push without movement: against a thing, or in a direction of the body.
struct Press {
    Landmark at{};
    std::optional<Prop::Kind> against;
    Point3 towards{0, -1, 0};
};

struct CloseUp {
    Landmark centre{};
    View view = View::Side;
    double radius = 0.1;
};

/// How far the fingers of a hand are closed.
struct Fingers {
    std::size_t right = 1;
    double flexion = 0.0;
};

/// One key pose; what it does not say stays as in the pose before.
struct KeyPose {
    support::Span span{};
    std::vector<Setting> settings;
    std::vector<Fingers> fingers;
    std::vector<Setting>
        root; ///< shifts in fractions of stature, turns in degrees, added to the start position
    std::vector<Contact> contacts;
    std::vector<PartName> releases;
    std::optional<View> view; ///< of its picture alone
    std::vector<Landmark> arrows;
    std::optional<Landmark> about; ///< the arrows turn about it
    bool return_arrow = false;
    bool hold = false;
    bool has_panel = true;
    bool has_ghost = true;
    bool begins =
        false; ///< without a picture of its own: the next picture's arrow and ghost begin here
    bool repeats = false;
    bool passing = false;
    std::optional<Press> press;
    std::optional<CloseUp> close_up;
};

/// A prop in a hand goes with it.
enum class PropSite { Front, Behind, Work, Other, Under, WorkHand, OtherHand, BothHands };
bool is_held(PropSite site);

struct PropSpec {
    Prop::Kind kind = Prop::Kind::Chair;
    PropSite site = PropSite::Front;
    double gap = 0.0;    ///< from the body's midline to the nearest face, fraction of stature
    double height = 0.0; ///< mm
    double along = 0.0;  ///< shift along the face, fraction of stature
    double width = 0.0;  ///< mm; 0: the usual one
    double depth = 0.0;
};

/// A place on the body that a band holds on to.
struct BandSpot {
    const BandSpotInfo* info = nullptr;
    std::size_t right = 1;
};

/// A band round two spots (a loop), or from one spot or both hands to an anchor; or a strap from
/// the hands round a spot, which does not stretch.
struct BandSpec {
    support::Span span{};
    std::vector<BandSpot> from;
    std::optional<BandSpot> to;          ///< nothing: anchored, or a strap
    std::optional<BandSpot> round;       ///< of a strap
    std::optional<Prop::Kind> anchor_on; ///< table or door, drawn at the anchor
    std::optional<PropSite> anchor;      ///< side of the body on which the anchor stands
    double anchor_height = 0.06;         ///< fraction of stature
    int strands = 1;
    double start_stretch = 0.1; ///< at the slackest point of the movement
    double most_stretch = 1.5;  ///< never beyond
};

struct Exercise::Impl {
    Facts facts;
    support::Span span{};
    const StartPosition* start = nullptr;
    View view = View::Side;
    bool other_side_near = false; ///< the camera stands on the side that does not work
    std::vector<PropSpec> props;
    std::vector<WorkingPart> working; ///< Right is the working side
    std::vector<KeyPose> poses;
    std::optional<BandSpec> band; ///< or strap
};

/// "work foot on floor" to simple contacts; reports unknown words at `span`.
std::vector<Contact> read_contact(std::string_view text, const support::Span& span,
                                  support::Findings& findings);

} // namespace tickleaf::figure
