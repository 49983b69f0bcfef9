// SPDX-License-Identifier: MIT
// What is to be drawn of one exercise for one side and stature: posed bodies, props, bands, arrows.
// In 3D, without paths, colours or paper: draw/ projects and styles it. Units and axes as in
// figure/body.h.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "figure/body.h"

namespace tickleaf::figure {

/// Where the camera stands. Side views look at the near side named by `near_side`.
enum class View { Side, Front, Back, ThreeQuarter, Above };

enum class Segment { Head, Trunk, UpperArm, Forearm, Hand, Thigh, Shank, Foot };

/// A limb or part that works in this exercise: drawn by weight and pattern as well as tone.
struct WorkingPart {
    Segment segment = Segment::Shank;
    support::Side side = support::Side::Both; ///< Both also for head and trunk
};

/// A thing in the room.
struct Prop {
    enum class Kind {
        Chair,
        Step,
        Wall,
        Bolster,
        Ball,
        Cushion,
        Table,
        Rail, ///< a hand rail on posts
        Door,
        Towel,
        Stick,
        Weight
    };
    Kind kind = Kind::Chair;
    Point3 at{};              ///< centre of its footprint on the floor (a ball: its centre)
    double yaw_degrees = 0.0; ///< turn about the vertical; 0: its front looks along +x
    double width = 0.0;       ///< along its own z
    double depth = 0.0;       ///< along its own x
    double height = 0.0;      ///< a chair: seat height; a ball or bolster: diameter
    double back_height =
        0.0; ///< of a chair: top of its back rest, which stands on the edge away from its front
};

/// An elastic band or strap: the points it runs through, and where it is wrapped or fixed.
struct BandLine {
    std::vector<Point3> points;
    double length = 0.0;         ///< in this pose
    bool anchored_start = false; ///< fixed to something that cannot move
    bool anchored_end = false;
    bool is_strap = false; ///< a towel or strap: it does not stretch
};

/// The way a body point travels from the pose before to this one, sampled along the solved
/// movement.
struct MovementArrow {
    std::vector<Point3> path;
    bool is_return = false;                     ///< drawn dashed
    std::optional<Point3> about = std::nullopt; ///< a turn about this point, which stands still in
                                                ///< `path`: drawn as a bow round it
};

/// One numbered picture.
struct Panel {
    Body body;
    std::optional<View> view;  ///< where it is not the scene's
    std::optional<Body> ghost; ///< the pose before, pale
    std::vector<Prop> props; ///< things that move with the body: held in a hand, or a rolling ball
    std::vector<BandLine> bands;
    std::vector<MovementArrow> arrows;
    std::optional<int> hold_seconds; ///< a clock mark where the pose is held
    bool repeats = false;            ///< a loop arrow: go back to the first picture and again
    std::optional<int>
        push_seconds; ///< an isometric press held this long: short straight arrows against the prop
    std::vector<Point3>
        press_at; ///< where force is pressed without movement, with direction `press_to`
    std::vector<Point3> press_to; ///< unit direction of the push at the same index
};

/// A close-up beside the panels: a part shown large.
struct Detail {
    std::size_t panel = 0;
    Point3 centre{};
    double radius = 120.0;
    View view = View::Side;
};

struct Scene {
    std::string exercise;
    support::Side side = support::Side::None;
    View view = View::Side;
    support::Side near_side =
        support::Side::Right; ///< the side turned to the reader in side and three-quarter views
    std::vector<WorkingPart> working;
    std::vector<Prop> props;
    std::vector<Panel> panels;
    std::vector<Detail> details;
};

} // namespace tickleaf::figure
