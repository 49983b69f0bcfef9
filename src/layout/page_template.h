// SPDX-License-Identifier: MIT
// A page template (templates/pages/NAME.yaml): paper, margins, type scale, spacing, greys, accent,
// parts, folding. Units: lengths in mm or pt as written in the file, kept as Length. Errors:
// findings with position.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "content/booklet.h"
#include "page/document.h"
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

/// A clinic's own picture at the top of the first page.
struct Logo {
    enum class Place { Start, Centre, End };
    std::string file; ///< beside the template
    support::Span span{};
    std::string name; ///< the clinic's, for screen readers; decoration where empty
    support::Length width = support::Length::from_mm(45.0);  ///< of the box it has to fit
    support::Length height = support::Length::from_mm(15.0); ///< the same
    Place place = Place::Start;
    std::shared_ptr<const page::Picture> picture; ///< read by the workspace
};

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
    std::optional<Paper> fold_on; ///< pages are printed two and two on this paper and folded
    std::optional<Logo> logo;
    /// Of the text area, in points.
    double text_width() const { return paper.width.pt() - margin_inner.pt() - margin_outer.pt(); }
    double text_height() const { return paper.height.pt() - margin_top.pt() - margin_bottom.pt(); }
};

/// The template on another paper ("a4", "letter", "a5"): a folded one on that paper with pages half
/// as large. False with a finding where the paper is unknown or its margins leave too little.
bool set_paper(PageTemplate& page_template, std::string_view name, support::Findings& findings);

/// Contrast ratio of two colours. Source: WCAG 2.x, relative luminance and contrast ratio.
double contrast(page::Colour one, page::Colour other);

/// Every line of the file checked: ranges, contrast, space left on the paper, parts that no
/// template may drop.
std::optional<PageTemplate> read_template(const yaml::Node& root, std::string_view name,
                                          support::Findings& findings);

} // namespace tickleaf::layout
