// SPDX-License-Identifier: MIT
#include "figure/mirror.h"

#include <utility>

namespace tickleaf::figure {

Landmark mirrored(Landmark landmark) {
    const auto index = static_cast<std::size_t>(landmark);
    const auto first = static_cast<std::size_t>(Landmark::ShoulderL);
    if (index < first) {
        return landmark;
    }
    return static_cast<Landmark>(first + ((index - first) ^ 1U));
}

Point3 mirrored(const Point3& point) {
    return {point.x, point.y, 0.0 - point.z};
}

Body mirrored(const Body& body) {
    Body out;
    out.stature = body.stature;
    out.fingers = {body.fingers[1], body.fingers[0]};
    for (std::size_t i = 0; i < kLandmarks; ++i) {
        const auto landmark = static_cast<Landmark>(i);
        out.at(mirrored(landmark)) = mirrored(body.at(landmark));
    }
    return out;
}

namespace {

Prop mirrored(Prop prop) {
    prop.at = figure::mirrored(prop.at);
    prop.yaw_degrees = 0.0 - prop.yaw_degrees;
    return prop;
}

void mirror_points(std::vector<Point3>& points) {
    for (Point3& point : points) {
        point = mirrored(point);
    }
}

Panel mirrored(Panel panel) {
    panel.body = figure::mirrored(panel.body);
    if (panel.ghost) {
        panel.ghost = figure::mirrored(*panel.ghost);
    }
    for (Prop& prop : panel.props) {
        prop = mirrored(prop);
    }
    for (BandLine& band : panel.bands) {
        mirror_points(band.points);
    }
    for (MovementArrow& arrow : panel.arrows) {
        mirror_points(arrow.path);
        if (arrow.about) {
            arrow.about = figure::mirrored(*arrow.about);
        }
    }
    mirror_points(panel.press_at);
    mirror_points(panel.press_to);
    return panel;
}

Scene mirrored(Scene scene) {
    scene.near_side = support::opposite(scene.near_side);
    for (WorkingPart& part : scene.working) {
        part.side = support::opposite(part.side);
    }
    for (Prop& prop : scene.props) {
        prop = mirrored(prop);
    }
    for (Panel& panel : scene.panels) {
        panel = mirrored(std::move(panel));
    }
    for (Detail& detail : scene.details) {
        detail.centre = figure::mirrored(detail.centre);
    }
    return scene;
}

} // namespace

Solution mirrored(Solution solution) {
    solution.scene = mirrored(std::move(solution.scene));
    for (SolvedPose& pose : solution.poses) {
        pose.body = figure::mirrored(pose.body);
        pose.centre_of_mass = figure::mirrored(pose.centre_of_mass);
        for (JointAngle& angle : pose.angles) {
            angle.side = support::opposite(angle.side);
        }
    }
    return solution;
}

} // namespace tickleaf::figure
