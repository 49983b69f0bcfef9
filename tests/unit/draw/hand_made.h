// SPDX-License-Identifier: MIT
// Hand-made bodies and scenes for the drawing tests, so that they need no solver: a standing and a
// sitting body, and scenes with everything a panel can hold. Millimetres; the left side is the
// mirrored right.
#pragma once

#include "figure/scene.h"

namespace tickleaf::draw_test {

using figure::Body;
using figure::Landmark;
using figure::Point3;
using support::Side;

inline void both(Body& body, Landmark left, Point3 right) {
    body.at(left) = {right.x, right.y, -right.z};
    body.at(static_cast<Landmark>(static_cast<std::size_t>(left) + 1)) = right;
}

inline void foot(Body& body, Point3 heel, double rise) {
    both(body, Landmark::AnkleL, {heel.x + 55, heel.y + 66, heel.z});
    both(body, Landmark::HeelL, heel);
    both(body, Landmark::BallInnerL, {heel.x + 180, rise, heel.z - 35});
    both(body, Landmark::BallOuterL, {heel.x + 165, rise, heel.z + 40});
    both(body, Landmark::ToeL, {heel.x + 250, rise, heel.z});
}

inline void hand(Body& body, Point3 wrist, Point3 along) {
    both(body, Landmark::WristL, wrist);
    both(body, Landmark::KnuckleL,
         {wrist.x + along.x * 90, wrist.y + along.y * 90, wrist.z + along.z * 90});
    both(body, Landmark::FingertipL,
         {wrist.x + along.x * 180, wrist.y + along.y * 180, wrist.z + along.z * 180});
    both(body, Landmark::ThumbL,
         {wrist.x + along.x * 95 + 50, wrist.y + along.y * 95 + 20, wrist.z + along.z * 95 - 20});
}

inline void trunk(Body& body, double hip_height, double forward) {
    body.at(Landmark::Pelvis) = {0, hip_height, 0};
    body.at(Landmark::Waist) = {5, hip_height + 150, 0};
    body.at(Landmark::Chest) = {forward * 0.5, hip_height + 270, 0};
    body.at(Landmark::NeckBase) = {forward, hip_height + 545, 0};
    body.at(Landmark::HeadBase) = {forward + 15, hip_height + 610, 0};
    body.at(Landmark::HeadCentre) = {forward + 30, hip_height + 690, 0};
    body.at(Landmark::Nose) = {forward + 135, hip_height + 690, 0};
    body.at(Landmark::Vertex) = {forward + 30, hip_height + 800, 0};
    both(body, Landmark::ShoulderL, {forward, hip_height + 490, 150});
    both(body, Landmark::HipL, {0, hip_height, 85});
}

/// Standing; with `rise` the heels are up.
inline Body standing(double rise = 0.0) {
    Body body;
    trunk(body, 901 + rise, 0);
    both(body, Landmark::ElbowL, {-10, 1090 + rise, 210});
    hand(body, {20, 845 + rise, 235}, {0.1, -0.99, 0});
    both(body, Landmark::KneeL, {15, 484 + rise, 88});
    foot(body, {-55, rise, 90}, 0.0);
    return body;
}

/// Sitting on a seat 430 high; with `lift` the right lower leg is raised by so many millimetres.
inline Body sitting(double lift = 0.0) {
    Body body;
    trunk(body, 520, 20);
    both(body, Landmark::ElbowL, {30, 720, 200});
    hand(body, {250, 610, 140}, {0.97, -0.2, -0.1});
    both(body, Landmark::KneeL, {415, 500, 95});
    foot(body, {370, 0, 95}, 0.0);
    if (lift > 0.0) {
        body.at(Landmark::AnkleR) = {760, 66 + lift, 95};
        body.at(Landmark::HeelR) = {770, lift - 10, 95};
        body.at(Landmark::BallInnerR) = {850, lift + 140, 60};
        body.at(Landmark::BallOuterR) = {850, lift + 130, 135};
        body.at(Landmark::ToeR) = {860, lift + 215, 95};
    }
    return body;
}

/// The same scene for the other side.
inline figure::Scene mirrored(figure::Scene scene) {
    const auto flip = [](Point3& p) { p.z = -p.z; };
    const auto flip_body = [&](Body& body) {
        for (Point3& p : body.points) {
            flip(p);
        }
        for (std::size_t i = static_cast<std::size_t>(Landmark::ShoulderL);
             i + 1 < figure::kLandmarks; i += 2) {
            std::swap(body.points[i], body.points[i + 1]);
        }
    };
    scene.side = support::opposite(scene.side);
    scene.near_side = support::opposite(scene.near_side);
    for (figure::WorkingPart& part : scene.working) {
        part.side = support::opposite(part.side);
    }
    for (figure::Prop& prop : scene.props) {
        flip(prop.at);
        prop.yaw_degrees = -prop.yaw_degrees;
    }
    for (figure::Panel& panel : scene.panels) {
        flip_body(panel.body);
        if (panel.ghost) {
            flip_body(*panel.ghost);
        }
        for (auto& band : panel.bands) {
            for (Point3& p : band.points) {
                flip(p);
            }
        }
        for (auto& arrow : panel.arrows) {
            for (Point3& p : arrow.path) {
                flip(p);
            }
        }
        for (auto* list : {&panel.press_at, &panel.press_to}) {
            for (Point3& p : *list) {
                flip(p);
            }
        }
    }
    for (figure::Detail& detail : scene.details) {
        flip(detail.centre);
    }
    return scene;
}

/// Heels up and down, standing behind a chair; the right leg works.
inline figure::Scene heel_raise(figure::View view = figure::View::Side) {
    figure::Scene scene;
    scene.exercise = "heel-raise";
    scene.side = Side::Right;
    scene.view = view;
    scene.working = {{figure::Segment::Shank, Side::Right}, {figure::Segment::Foot, Side::Right}};
    scene.props = {{figure::Prop::Kind::Chair, {480, 0, 0}, 0.0, 430, 420, 450}};
    figure::Panel down;
    down.body = standing();
    figure::Panel up;
    up.body = standing(85);
    up.ghost = standing();
    up.arrows = {{{{-55, 0, 90}, {-55, 40, 90}, {-55, 85, 90}}, false}};
    up.hold_seconds = 5;
    up.repeats = true;
    scene.panels = {down, up};
    return scene;
}

/// Sitting, one knee straightened against a band that is fixed to the chair leg.
inline figure::Scene knee_straighten(figure::View view = figure::View::Side) {
    figure::Scene scene;
    scene.exercise = "knee-straighten";
    scene.side = Side::Right;
    scene.view = view;
    scene.working = {{figure::Segment::Thigh, Side::Right}, {figure::Segment::Shank, Side::Right}};
    scene.props = {{figure::Prop::Kind::Chair, {40, 0, 0}, 0.0, 430, 420, 450}};
    figure::Panel start;
    start.body = sitting();
    start.bands = {{{{415, 120, 95}, {-150, 60, 95}}, 570.0, false, true}};
    figure::Panel end;
    end.body = sitting(330);
    end.ghost = sitting();
    end.bands = {{{{740, 400, 95}, {-150, 60, 95}}, 950.0, false, true}};
    end.arrows = {{{{430, 66, 95}, {600, 110, 95}, {710, 240, 95}, {760, 396, 95}}, false},
                  {{{760, 396, 95}, {710, 240, 95}, {600, 110, 95}, {430, 66, 95}}, true}};
    end.press_at = {{20, 1010, 0}};
    end.press_to = {{-1, 0, 0}};
    scene.panels = {start, end};
    scene.details = {{1, {740, 400, 95}, 130.0, figure::View::Front}};
    return scene;
}

} // namespace tickleaf::draw_test
