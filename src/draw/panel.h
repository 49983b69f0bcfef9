// SPDX-License-Identifier: MIT
// One panel of a scene on paper, at a given scale, before the panels are set side by side.
#pragma once

#include <cstddef>
#include <string>

#include "draw/camera.h"
#include "draw/canvas.h"
#include "draw/draw.h"

namespace tickleaf::draw {

struct PanelRequest {
    std::size_t index = 0;
    std::string number;
    std::string clock_text; ///< empty: no clock
    bool signs_on_right = false;
};

/// Looks at a panel, from where it asks for or else from where the scene does.
Camera camera_for(const figure::Scene& scene, std::size_t panel, double scale);
/// What a panel of a scene covers, in millimetres of the view (scale 1).
Box content_box(const figure::Scene& scene, std::size_t panel);
Canvas paint_panel(const figure::Scene& scene, const PanelRequest& request, const Camera& camera);

/// A close-up is a circle of this radius, whatever it shows.
inline constexpr double kDetailRadius = 31.0;
Canvas paint_detail(const figure::Scene& scene, const figure::Detail& detail, Point centre);
/// Ring round what is shown large, and the line to the close-up.
Canvas paint_leader(Point seen, double ring, Point centre);

} // namespace tickleaf::draw
