// SPDX-License-Identifier: MIT
#include "figure/contacts.h"

#include <algorithm>
#include <cmath>

namespace tickleaf::figure {
namespace {

using L = Landmark;

constexpr double kStayWeight = 0.3; // what touches does not slide from pose to pose, within reason
constexpr double kGuideWeight = 0.2;
constexpr double kGripApart = 0.085; // of stature, each hand from the middle of the back rest
constexpr double kGripEdge = 35;     // mm, from the end of the back rest
constexpr double kGripSkin = 0.010;
constexpr double kOnThigh = 0.70; // hands lie this far along the thigh
constexpr double kThighSkin = 0.046;
constexpr double kShinAway = 0.15; // of the thigh's length beyond the knee

constexpr std::uint64_t bit(std::size_t i) {
    return std::uint64_t{1} << i;
}

Landmark touched(const PartInfo& part, const Touch& touch, std::size_t right) {
    return part.paired ? left_or_right(touch.landmark, right) : touch.landmark;
}

Goal equal(Landmark landmark, Axis axis, double value, double weight, int contact) {
    Goal goal;
    goal.terms[0] = {landmark, 1.0};
    goal.axis = axis;
    goal.value = value;
    goal.weight = weight;
    goal.contact = contact;
    return goal;
}

/// Flesh points that may come nearer than their radius because their landmark touches.
std::uint64_t flesh_of(const Contact& contact) {
    std::uint64_t bits = 0;
    const auto& points = flesh();
    const bool hand = contact.part->word == "hand" || contact.part->word == "forearm";
    const bool seat = contact.part->word == "seat" || contact.part->word == "hip" ||
                      contact.part->word == "buttocks";
    for (std::size_t i = 0; i < points.size(); ++i) {
        const FleshPoint& point = points[i];
        for (const Touch& touch : contact.part->touches) {
            const Landmark landmark = touched(*contact.part, touch, contact.right);
            const bool same = point.a == landmark && point.b == landmark;
            const bool near = (hand && point.b == landmark) || (seat && point.a == landmark);
            if (same || near) {
                bits |= bit(i);
            }
        }
        if (seat && point.a == L::Pelvis) {
            bits |= bit(i);
        }
        if (contact.part->word == "shoulder" && point.a == L::Chest && point.b == L::NeckBase) {
            bits |= bit(i);
        }
        if (contact.part->word == "back" && (point.a == L::Chest || point.a == L::Waist)) {
            bits |= bit(i);
        }
    }
    return bits;
}

/// A spot of the body as a sum of landmarks, and a shift in the room as a share of stature.
struct BodySpot {
    std::vector<Term> terms;
    Point3 shift{};
};

BodySpot body_spot(Place place, std::size_t limb, std::size_t hand) {
    const auto of = [limb](L left) { return left_or_right(left, limb); };
    const double aside = limb == 1 ? 1.0 : -1.0;
    switch (place) {
    case Place::Shin: // in front of it, below the knee
        return {
            {{of(L::KneeL), 0.92 + kShinAway}, {of(L::AnkleL), 0.08}, {of(L::HipL), -kShinAway}}};
    case Place::Foot: // round the instep
        return {{{of(L::AnkleL), 0.55}, {of(L::BallInnerL), 0.225}, {of(L::BallOuterL), 0.225}}};
    case Place::Hip: // beside it, at the rim of the pelvis
        return {{{of(L::HipL), 1.0},
                 {L::HipR, 0.34 * aside},
                 {L::HipL, -0.34 * aside},
                 {L::Waist, 0.62},
                 {L::Pelvis, -0.62}}};
    case Place::Hand: // on its back, where the wrist is bent
        return {{{of(L::KnuckleL), 0.8},
                 {of(L::FingertipL), 0.2},
                 {of(L::WristL), 0.13},
                 {of(L::ElbowL), -0.13}}};
    case Place::Wrist:
        return {{{of(L::WristL), 1.0}}};
    case Place::Elbow:
        return {{{of(L::ElbowL), 1.0}}};
    case Place::Shoulder:
        return {{{of(L::ShoulderL), 1.0}}, {0.035, 0.02, 0.0}};
    case Place::Weight: // under its end on the side of the thumb
        return {{{of(L::ThumbL), 1.3}, {of(L::KnuckleL), -0.3}}, {0.0, -0.03, 0.0}};
    case Place::Head: { // its side, above the ear
        const double to_hand = hand == 1 ? 0.36 : -0.36;
        return {{{L::HeadCentre, 1.0}, {L::ShoulderR, to_hand}, {L::ShoulderL, -to_hand}},
                {0.012, 0.008, 0.0}};
    }
    default:
        break;
    }
    return {};
}

class Builder {
  public:
    Builder(Problem& problem, const std::vector<ActiveContact>& contacts,
            const std::vector<Prop>& props, const Body* before)
        : problem_(problem), contacts_(contacts), props_(props), before_(before) {}

    void run() {
        for (std::size_t i = 0; i < contacts_.size(); ++i) {
            index_ = static_cast<int>(i);
            const Contact& contact = contacts_[i].contact;
            if (contact.place == Place::Thigh || contact.place == Place::Knee) {
                on_thigh(contact);
            } else if (is_on_body(contact.place)) {
                on_body(contact);
            } else if (contact.place == Place::ChairBack && contact.part->word == "hand") {
                grip(contact);
            } else {
                on_surface(contact, contacts_[i].carried);
            }
        }
    }

  private:
    void on_surface(const Contact& contact, bool carried) {
        const Surface surface = surface_of(contact.place, props_);
        for (const Touch& touch : contact.part->touches) {
            const Landmark landmark = touched(*contact.part, touch, contact.right);
            const double skin = touch.skin * problem_.stature;
            Goal goal =
                equal(landmark, surface.axis, surface.value + surface.sign * skin, 1.0, index_);
            if (touch.end) {
                goal.terms[0].weight = 1.0 - touch.share;
                goal.terms[1] = {left_or_right(*touch.end, contact.right), touch.share};
                goal.count = 2;
            }
            problem_.goals.push_back(goal);
            if (carried && before_ != nullptr && !slides(contact)) {
                for (const Axis axis : {Axis::X, Axis::Y, Axis::Z}) {
                    if (axis != surface.axis) {
                        problem_.goals.push_back(equal(landmark, axis,
                                                       along(before_->at(landmark), axis),
                                                       kStayWeight, index_));
                        problem_.goals.back().stays = true;
                    }
                }
            }
            if (contact.place != Place::ChairBack) {
                problem_.support.push_back(landmark);
            }
        }
        stay_over(contact);
        mark(contact);
        if (!carried) {
            guide(contact);
        }
    }

    /// A heel that lies or stands alone rolls as the foot turns about it.
    bool pivots(const Contact& contact) const {
        return contact.part->word == "heel" &&
               std::none_of(contacts_.begin(), contacts_.end(),
                            [&contact](const ActiveContact& active) {
                                return active.contact.part->word == "ball" &&
                                       active.contact.right == contact.right;
                            });
    }

    /// What stands or lies on a thing is above it, not beside it.
    void stay_over(const Contact& contact) {
        const auto kind = prop_of(contact.place);
        if (!kind || contact.place == Place::Wall || contact.place == Place::Ball ||
            contact.place == Place::Rail ||  // thinner than a hand is broad
            contact.place == Place::Table) { // a wrist may hang over a table's edge
            return;
        }
        const Prop& prop = *find_prop(props_, *kind);
        const bool turned = front_of(prop).x == 0.0;
        const double half_x = (turned ? prop.width : prop.depth) / 2;
        const double half_z = (turned ? prop.depth : prop.width) / 2;
        for (const Touch& touch : contact.part->touches) {
            if (touch.end) {
                continue;
            }
            const Landmark landmark = touched(*contact.part, touch, contact.right);
            for (const double sign : {1.0, -1.0}) {
                at_least(landmark, Axis::X, sign, sign * prop.at.x - half_x);
                at_least(landmark, Axis::Z, sign, sign * prop.at.z - half_z);
            }
        }
    }

    void at_least(Landmark landmark, Axis axis, double sign, double value) {
        Goal goal = equal(landmark, axis, value, 1.0, index_);
        goal.terms[0].weight = sign;
        goal.at_least = true;
        problem_.goals.push_back(goal);
    }

    /// A calf on a ball rolls, a back on a wall slides, a lone heel turns.
    bool slides(const Contact& contact) const {
        const std::string_view word = contact.part->word;
        return pivots(contact) || contact.place == Place::Ball ||
               (contact.place == Place::Wall && (word == "back" || word == "buttocks"));
    }

    bool has_heel(const Contact& contact) const {
        return std::any_of(contacts_.begin(), contacts_.end(), [&contact](const ActiveContact& c) {
            return c.contact.part->word == "heel" && c.contact.right == contact.right &&
                   c.contact.place == contact.place;
        });
    }

    /// Puts what newly touches a prop onto the middle of it.
    void guide(const Contact& contact) {
        const auto kind = prop_of(contact.place);
        const Prop* prop = kind ? find_prop(props_, *kind) : nullptr;
        if (prop == nullptr) {
            return;
        }
        if (contact.part->word == "seat" && contact.place == Place::ChairSeat) {
            // Well back, or farther forward where the chair stands farther back.
            const double front = front_of(*prop).x;
            const double deepest = prop->at.x - 0.16 * prop->depth * front;
            const double edge = prop->at.x + 0.4 * prop->depth * front;
            const double x = front > 0.5 ? std::clamp(0.0, deepest, edge) : deepest;
            problem_.goals.push_back(equal(L::Pelvis, Axis::X, x, 1.0, -1));
            problem_.goals.push_back(equal(L::Pelvis, Axis::Z, prop->at.z, 1.0, -1));
        }
        if (contact.part->word == "toe" && has_heel(contact) &&
            (contact.place == Place::Step || contact.place == Place::Cushion)) {
            Goal goal = equal(left_or_right(L::HeelL, contact.right), Axis::X, prop->at.x,
                              kGuideWeight * 5, -1);
            goal.terms[0].weight = 0.5;
            goal.terms[1] = {left_or_right(L::ToeL, contact.right), 0.5};
            goal.count = 2;
            problem_.goals.push_back(goal);
        }
    }

    /// Fingers round the top of the back rest, hands apart where both hold.
    void grip(const Contact& contact) {
        const Prop& chair = *find_prop(props_, Prop::Kind::Chair);
        const Point3 front = front_of(chair);
        const Point3 right = right_of(chair);
        const double back = chair.depth / 2 - 15;
        const double apart = holding_hands() == 2 ? std::min(kGripApart * problem_.stature,
                                                             chair.width / 2 - kGripEdge)
                                                  : 0.0;
        const double side = contact.right == 1 ? apart : -apart;
        const L knuckle = left_or_right(L::KnuckleL, contact.right);
        const L wrist = left_or_right(L::WristL, contact.right);
        const double top = chair.back_height + kGripSkin * problem_.stature;
        problem_.goals.push_back(
            equal(knuckle, Axis::X, chair.at.x - front.x * back + right.x * side, 1.0, index_));
        problem_.goals.push_back(equal(knuckle, Axis::Y, top, 1.0, index_));
        problem_.goals.push_back(
            equal(knuckle, Axis::Z, chair.at.z - front.z * back + right.z * side, 1.0, index_));
        Goal palm_down = equal(wrist, Axis::Y, 0.004 * problem_.stature, kGuideWeight, -1);
        palm_down.terms[1] = {knuckle, -1.0};
        palm_down.count = 2;
        palm_down.at_least = true;
        problem_.goals.push_back(palm_down);
        mark(contact);
    }

    std::size_t holding_hands() const {
        return static_cast<std::size_t>(
            std::count_if(contacts_.begin(), contacts_.end(), [](const auto& active) {
                return active.contact.place == Place::ChairBack &&
                       active.contact.part->word == "hand";
            }));
    }

    /// A part laid on a thigh (or its knee end).
    void on_thigh(const Contact& contact) {
        const std::size_t limb = contact.place_limb == Limb::None
                                     ? contact.right
                                     : limb_indexes(contact.place_limb).front();
        const double t = contact.place == Place::Knee ? 0.94 : kOnThigh;
        const Touch& touch = contact.part->word == "hand" ? contact.part->touches.at(1)
                                                          : contact.part->touches.front();
        for (const Axis axis : {Axis::X, Axis::Y, Axis::Z}) {
            Goal goal = equal(touched(*contact.part, touch, contact.right), axis,
                              axis == Axis::Y ? kThighSkin * problem_.stature : 0.0, 1.0, index_);
            goal.terms[1] = {left_or_right(L::HipL, limb), t - 1.0};
            goal.terms[2] = {left_or_right(L::KneeL, limb), -t};
            goal.count = 3;
            problem_.goals.push_back(goal);
        }
    }

    /// A hand on another part of the body: the knuckles are at a spot that moves with that part.
    void on_body(const Contact& contact) {
        const std::size_t limb = contact.place_limb == Limb::None
                                     ? contact.right
                                     : limb_indexes(contact.place_limb).front();
        const Touch& touch = contact.part->word == "hand" ? contact.part->touches.at(1)
                                                          : contact.part->touches.front();
        const BodySpot spot = body_spot(contact.place, limb, contact.right);
        for (const Axis axis : {Axis::X, Axis::Y, Axis::Z}) {
            Goal goal = equal(touched(*contact.part, touch, contact.right), axis,
                              along(spot.shift, axis) * problem_.stature, 1.0, index_);
            for (const Term& term : spot.terms) {
                goal.terms.at(goal.count++) = {term.landmark, -term.weight};
            }
            problem_.goals.push_back(goal);
        }
    }

    void mark(const Contact& contact) {
        const std::uint64_t bits = flesh_of(contact);
        const auto kind = prop_of(contact.place);
        if (!kind) {
            problem_.on_floor |= bits;
            return;
        }
        std::size_t at = 0;
        for (const Prop& prop : props_) {
            const std::size_t count = solids_of(prop).size();
            for (std::size_t i = 0; i < count; ++i, ++at) {
                if (prop.kind == *kind) {
                    problem_.solids.at(at).touching |= bits;
                }
            }
        }
    }

    Problem& problem_;
    const std::vector<ActiveContact>& contacts_;
    const std::vector<Prop>& props_;
    const Body* before_;
    int index_ = 0;
};

} // namespace

void add_contacts(Problem& problem, const std::vector<ActiveContact>& contacts,
                  const std::vector<Prop>& props, const Body* before) {
    problem.solids.clear();
    for (const Prop& prop : props) {
        const auto solids = solids_of(prop);
        problem.solids.insert(problem.solids.end(), solids.begin(), solids.end());
    }
    Builder(problem, contacts, props, before).run();
}

std::string contact_name(const Contact& contact, bool right_is_right) {
    std::string name;
    if (contact.part->paired) {
        name = (contact.right == 1) == right_is_right ? "right " : "left ";
    }
    return name + std::string(contact.part->word) + " on " + std::string(to_word(contact.place));
}

std::vector<Setting> usual_arm(const Contact& contact, const std::vector<Prop>& props) {
    if (contact.part->word != "hand") {
        return {};
    }
    const auto arm = [&contact](double flexion, double abduction, double elbow, double pronation,
                                double wrist) {
        const std::size_t right = contact.right;
        return std::vector<Setting>{{limb_dof(right, kShoulderFlexion), flexion},
                                    {limb_dof(right, kShoulderAbduction), abduction},
                                    {limb_dof(right, kElbowFlexion), elbow},
                                    {limb_dof(right, kForearmPronation), pronation},
                                    {limb_dof(right, kWristFlexion), wrist}};
    };
    switch (contact.place) {
    case Place::ChairBack:
        return std::abs(front_of(*find_prop(props, Prop::Kind::Chair)).x) > 0.5
                   ? arm(25, 10, 50, 75, 0)
                   : arm(5, 28, 45, 40, 0);
    case Place::Wall:
        return arm(75, 8, 20, 80, -68);
    case Place::Table:
    case Place::Rail:
        return arm(30, 10, 70, 75, 0);
    case Place::Foot:
        return arm(-35, 12, 25, 0, 0);
    case Place::Shin:
        return arm(40, 12, 50, 30, 0);
    case Place::Hip:
        return arm(-18, 42, 95, 20, 40);
    case Place::Hand:
    case Place::Wrist:
    case Place::Elbow:
    case Place::Weight:
        return arm(55, 0, 70, 60, 20);
    case Place::Shoulder:
        return arm(50, -20, 120, 40, 10);
    case Place::Head:
        return arm(60, 70, 135, 0, -10);
    case Place::Floor:
    case Place::ChairSeat:
    case Place::Step:
    case Place::Cushion:
    case Place::Bolster:
    case Place::Ball:
    case Place::Thigh:
    case Place::Knee:
        break;
    }
    return {};
}

} // namespace tickleaf::figure
