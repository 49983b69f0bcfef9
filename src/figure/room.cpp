// SPDX-License-Identifier: MIT
#include "figure/room.h"

#include <algorithm>
#include <cmath>

#include "support/angle.h"

namespace tickleaf::figure {
namespace {

constexpr double kChairBackAboveSeat = 430;
constexpr double kSeatThickness = 40;
constexpr double kBackThickness = 30;
constexpr double kTopThickness = 30;
constexpr double kSitBack = 0.16; // of the seat's depth behind its middle
constexpr double kBehindTheWall = 2000;
constexpr double kCalfSkin = 0.027; // of stature
constexpr double kDoorHeight = 2000;
constexpr double kTableHeight = 730;
constexpr double kSideTableDepth = 360; // a heavy table, drawn where a band is tied to its leg
constexpr double kSideTableWidth = 500;
constexpr double kLegInset = 49; // middle of a leg from the edge, as drawn

void set_size(Prop& prop) {
    switch (prop.kind) {
    case Prop::Kind::Chair:
        prop.width = 420;
        prop.depth = 420;
        prop.back_height = prop.height + kChairBackAboveSeat;
        break;
    case Prop::Kind::Step:
        prop.width = 600;
        prop.depth = 320;
        break;
    case Prop::Kind::Wall:
        prop.width = 1200;
        prop.depth = 60;
        break;
    case Prop::Kind::Table:
        prop.width = 1000;
        prop.depth = 600;
        break;
    case Prop::Kind::Rail:
        prop.width = 1000;
        prop.depth = 40;
        break;
    case Prop::Kind::Door:
        prop.width = 800;
        prop.depth = 45;
        break;
    case Prop::Kind::Cushion:
        prop.width = 380;
        prop.depth = 380;
        break;
    case Prop::Kind::Stick:
        prop.width = 900;
        prop.depth = prop.height;
        break;
    case Prop::Kind::Weight:
        prop.width = 180;
        prop.depth = prop.height;
        break;
    case Prop::Kind::Bolster:
    case Prop::Kind::Ball:
    case Prop::Kind::Towel:
        prop.width = 300;
        prop.depth = prop.height;
        break;
    }
}

/// Direction from the body to a site.
Point3 towards(PropSite site) {
    switch (site) {
    case PropSite::Front:
        return {1, 0, 0};
    case PropSite::Behind:
        return {-1, 0, 0};
    case PropSite::Work:
        return {0, 0, 1};
    case PropSite::Other:
        return {0, 0, -1};
    case PropSite::Under:
    case PropSite::WorkHand:
    case PropSite::OtherHand:
    case PropSite::BothHands:
        break;
    }
    return {0, 0, 0};
}

/// A chair to hold on to turns its back rest to the body, a chair to sit down on its seat; walls
/// face the body.
double yaw_of(const PropSpec& spec) {
    const bool faces_body = spec.kind == Prop::Kind::Wall || spec.kind == Prop::Kind::Table ||
                            spec.kind == Prop::Kind::Rail;
    switch (spec.site) {
    case PropSite::Front:
        return faces_body ? 180 : 0;
    case PropSite::Work:
        return faces_body ? 90 : -90;
    case PropSite::Other:
        return faces_body ? -90 : 90;
    case PropSite::Behind:
    case PropSite::Under:
    case PropSite::WorkHand:
    case PropSite::OtherHand:
    case PropSite::BothHands:
        break;
    }
    return 0;
}

Prop placed(const PropSpec& spec, double stature) {
    Prop prop;
    prop.kind = spec.kind;
    prop.height = spec.height;
    prop.yaw_degrees = yaw_of(spec);
    set_size(prop);
    prop.width = spec.width > 0.0 ? spec.width : prop.width;
    prop.depth = spec.depth > 0.0 ? spec.depth : prop.depth;
    const Point3 away = towards(spec.site);
    const double reach = spec.gap * stature + prop.depth / 2;
    prop.at = {away.x * reach, 0, away.z * reach};
    const Point3 across{away.z, 0, away.x};
    prop.at.x += across.x * spec.along * stature;
    prop.at.z += across.z * spec.along * stature;
    if (spec.site == PropSite::Under && spec.kind == Prop::Kind::Chair) {
        // Well back on it, unless the file says where its front edge is.
        prop.at.x = spec.gap > 0.0 ? spec.gap * stature - prop.depth / 2 : prop.depth * kSitBack;
    }
    if (spec.site == PropSite::Under && spec.kind == Prop::Kind::Step) {
        prop.at.x = spec.gap * stature - prop.depth / 2; // the gap is to its front edge
    }
    return prop;
}

constexpr double kInFist = 0.016; // of stature: what is held, before the palm

/// Where the fingers close, and the way across the palm.
struct Grip {
    Point3 at{};
    Point3 across{};
};

Grip grip_of(const Body& body, std::size_t right) {
    const Point3& wrist = body.at(left_or_right(Landmark::WristL, right));
    const Point3& knuckle = body.at(left_or_right(Landmark::KnuckleL, right));
    const Point3& thumb = body.at(left_or_right(Landmark::ThumbL, right));
    const Point3 to_thumb{thumb.x - knuckle.x, thumb.y - knuckle.y, thumb.z - knuckle.z};
    const Point3 along{knuckle.x - wrist.x, knuckle.y - wrist.y, knuckle.z - wrist.z};
    // Both cross products point to the palm: the right hand is the left one in a mirror.
    const double sign = right == 1 ? -1.0 : 1.0;
    const Point3 palm{sign * (along.y * to_thumb.z - along.z * to_thumb.y),
                      sign * (along.z * to_thumb.x - along.x * to_thumb.z),
                      sign * (along.x * to_thumb.y - along.y * to_thumb.x)};
    const double size = std::max(std::hypot(palm.x, palm.y, palm.z), 1e-9);
    const double before = kInFist * body.stature / size;
    return {{knuckle.x - 0.1 * along.x + before * palm.x,
             knuckle.y - 0.1 * along.y + before * palm.y,
             knuckle.z - 0.1 * along.z + before * palm.z},
            {to_thumb.x, 0.0, to_thumb.z}};
}

/// Where the ball lies under a calf: its own height, its surface along the shank.
double ball_under_calf(const Prop& ball, const Body& body, std::size_t right) {
    const Point3& knee = body.at(left_or_right(Landmark::KneeL, right));
    const Point3& ankle = body.at(left_or_right(Landmark::AnkleL, right));
    const double radius = ball.height / 2;
    const double length = std::max(std::hypot(ankle.x - knee.x, ankle.y - knee.y), 1e-9);
    const double nx = -(ankle.y - knee.y) / length;
    const double ny = (ankle.x - knee.x) / length;
    const double sign = ny < 0 ? -1.0 : 1.0;
    const double away = radius + kCalfSkin * body.stature;
    // Down from the shank by radius and skin, at the height of the ball's middle.
    const double x = knee.x - sign * nx * away;
    const double y = knee.y - sign * ny * away;
    const double rise = ankle.y - knee.y;
    const double t = std::abs(rise) < 1e-6 ? 0.62 * length : (radius - y) / rise * length;
    return x + (ankle.x - knee.x) / length * t;
}

/// A box in the prop's own frame (x front, z right) turned into the room; turns are quarter turns.
Solid box(const Prop& prop, const Point3& low, const Point3& high) {
    const Point3 f = front_of(prop);
    const Point3 r = right_of(prop);
    const auto corner = [&](const Point3& p) {
        return Point3{prop.at.x + f.x * p.x + r.x * p.z, p.y, prop.at.z + f.z * p.x + r.z * p.z};
    };
    const Point3 a = corner(low);
    const Point3 b = corner(high);
    Solid solid;
    solid.low = {std::min(a.x, b.x), std::min(a.y, b.y), std::min(a.z, b.z)};
    solid.high = {std::max(a.x, b.x), std::max(a.y, b.y), std::max(a.z, b.z)};
    return solid;
}

} // namespace

bool is_held(PropSite site) {
    return site == PropSite::WorkHand || site == PropSite::OtherHand || site == PropSite::BothHands;
}

Prop held_prop(const PropSpec& spec, const Body& body) {
    Prop prop = placed(spec, body.stature);
    Grip grip = grip_of(body, spec.site == PropSite::OtherHand ? 0 : 1);
    if (spec.site == PropSite::BothHands) {
        const Grip other = grip_of(body, 0);
        grip.across = {grip.at.x - other.at.x, 0.0, grip.at.z - other.at.z};
        grip.at = {(grip.at.x + other.at.x) / 2, (grip.at.y + other.at.y) / 2,
                   (grip.at.z + other.at.z) / 2};
    }
    prop.at = grip.at;
    if (prop.kind != Prop::Kind::Weight) {
        prop.at.y -= prop.height / 2;
    }
    prop.yaw_degrees = support::arc_tangent(grip.across.x, grip.across.z).degrees();
    return prop;
}

Prop rolled_ball(const Prop& ball, const Body& body, std::size_t right) {
    Prop prop = ball;
    prop.at.x = ball_under_calf(ball, body, right);
    prop.at.y = ball.height / 2;
    return prop;
}

Prop at_anchor(Prop::Kind kind, PropSite side, const Point3& anchor) {
    PropSpec spec;
    spec.kind = kind;
    spec.site = side;
    spec.height = kind == Prop::Kind::Door ? kDoorHeight : kTableHeight;
    Prop prop = placed(spec, 1.0);
    const Point3 away = towards(side);
    const bool is_table = kind == Prop::Kind::Table;
    if (is_table) {
        prop.depth = kSideTableDepth;
        prop.width = kSideTableWidth;
    }
    const double reach = prop.depth / 2 - (is_table ? kLegInset : 0.0);
    const double aside = is_table ? prop.width / 2 - kLegInset : 0.0;
    prop.at = {anchor.x + away.x * reach - std::abs(away.z) * aside, 0.0,
               anchor.z + away.z * reach - std::abs(away.x) * aside};
    return prop;
}

Point3 front_of(const Prop& prop) {
    const auto yaw = support::Angle::from_degrees(prop.yaw_degrees);
    return {std::round(support::cosine(yaw)), 0, -std::round(support::sine(yaw))};
}

Point3 right_of(const Prop& prop) {
    const Point3 f = front_of(prop);
    return {-f.z, 0, f.x};
}

std::vector<Prop> place_props(const Exercise::Impl& impl, double stature,
                              std::optional<double> step_height) {
    std::vector<Prop> props;
    for (PropSpec spec : impl.props) {
        if (spec.kind == Prop::Kind::Step && step_height) {
            spec.height = *step_height;
        }
        props.push_back(placed(spec, stature));
    }
    if (impl.facts.position == "sitting" && find_prop(props, Prop::Kind::Chair) == nullptr) {
        PropSpec chair;
        chair.site = PropSite::Under;
        chair.height = 450;
        props.insert(props.begin(), placed(chair, stature));
    }
    return props;
}

const Prop* find_prop(const std::vector<Prop>& props, Prop::Kind kind) {
    const auto it =
        std::find_if(props.begin(), props.end(), [kind](const Prop& p) { return p.kind == kind; });
    return it == props.end() ? nullptr : &*it;
}

std::vector<Solid> solids_of(const Prop& prop) {
    const double d = prop.depth / 2;
    const double w = prop.width / 2;
    switch (prop.kind) {
    case Prop::Kind::Chair:
        return {box(prop, {-d, prop.height - kSeatThickness, -w}, {d, prop.height, w}),
                box(prop, {-d, prop.height, -w}, {-d + kBackThickness, prop.back_height, w})};
    case Prop::Kind::Wall:
        return {box(prop, {-d - kBehindTheWall, -100, -3000}, {d, 4000, 3000})};
    case Prop::Kind::Table:
    case Prop::Kind::Rail:
        return {box(prop, {-d, prop.height - kTopThickness, -w}, {d, prop.height, w})};
    case Prop::Kind::Step:
    case Prop::Kind::Cushion:
    case Prop::Kind::Bolster:
        return {box(prop, {-d, -100, -w}, {d, prop.height, w})};
    case Prop::Kind::Ball:
    case Prop::Kind::Door:
    case Prop::Kind::Towel:
    case Prop::Kind::Stick:
    case Prop::Kind::Weight:
        break;
    }
    return {};
}

Surface surface_of(Place place, const std::vector<Prop>& props) {
    const auto kind = prop_of(place);
    if (!kind) {
        return {};
    }
    const Prop* prop = find_prop(props, *kind);
    support::internal_error_if(prop == nullptr, "a contact without its prop");
    if (place != Place::Wall) {
        return {Axis::Y, prop->height, 1.0};
    }
    const Point3 front = front_of(*prop);
    const bool along_x = front.x != 0.0;
    const double sign = along_x ? front.x : front.z;
    const double middle = along_x ? prop->at.x : prop->at.z;
    return {along_x ? Axis::X : Axis::Z, middle + sign * prop->depth / 2, sign};
}

} // namespace tickleaf::figure
