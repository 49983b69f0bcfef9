// SPDX-License-Identifier: MIT
// A page template (templates/pages/NAME.yaml): paper, margins, type scale, spacing, greys, accent,
// parts. Units: lengths in mm or pt as written in the file, kept as Length. Errors: findings with
// position.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "content/booklet.h"
#include "page/drawing.h"
#include "support/finding.h"
#include "support/units.h"
#include "yaml/tree.h"

namespace tickleaf::layout {

struct Paper {
    std::string name; ///< "a4", "letter", "a5"
    support::Length width{};
    support::Length height{};
};

/// ISO 216 and US sizes by name.
std::optional<Paper> paper(std::string_view name);

struct PageTemplate {
    std::string name;
    Paper paper{};
    support::Length margin_top{}, margin_bottom{}, margin_inner{}, margin_outer{};
    double body_size = 12.0; ///< points; the scale below is in points too
    double small_size = 10.0;
    double lead_size = 14.0;
    double heading_sizes[3] = {24.0, 17.0, 13.0};
    double dose_size = 21.0;    ///< of the numbers a patient looks for from a metre away
    double line_spacing = 1.35; ///< baseline to baseline over type size, at the least
    page::Colour text{}, muted{}, rule{}, tint{}, accent{};
    support::Length figure_height = support::Length::from_mm(62); ///< a drawing is never taller
    support::Length tick_box{};
    support::Length writing_row{};
    std::vector<content::Part::Kind> parts;
};

/// Contrast ratio of two colours. Source: WCAG 2.x, relative luminance and contrast ratio.
double contrast(page::Colour one, page::Colour other);

/// Every line of the file checked: ranges, contrast, space left on the paper, parts that no
/// template may drop.
std::optional<PageTemplate> read_template(const yaml::Node& root, std::string_view name,
                                          support::Findings& findings);

} // namespace tickleaf::layout
