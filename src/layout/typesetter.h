// SPDX-License-Identifier: MIT
// Words to lines in the styles of a page template. Each different text is shaped once per document.
// Units: points. Errors: those of text::prepare.
#pragma once

#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "content/booklet.h"
#include "layout/page_template.h"
#include "layout/slab.h"
#include "support/finding.h"
#include "text/paragraph.h"

namespace tickleaf::layout {

/// Lines of one text, all with the same distance between baselines.
struct TextBox {
    std::vector<text::Line> lines;
    double leading = 0.0;
    double baseline = 0.0; ///< of the first line, from the top
    double height() const { return leading * static_cast<double>(lines.size()); }
    double width() const;
};

enum class Align { Start, Centre, End };

class Typesetter {
  public:
    Typesetter(const PageTemplate& page_template, text::FontSet& fonts, support::Findings& findings)
        : template_(&page_template), fonts_(&fonts), findings_(&findings) {}

    TextBox set(const content::Words& words, const text::Style& style, double width);
    const text::Paragraph& paragraph(const content::Words& words, const text::Style& style);
    /// Lines this much of the template's spacing apart, where that stays clear print.
    void tighten(double share) { line_share_ = share; }

  private:
    bool is_right_to_left(const std::string& language);

    const PageTemplate* template_;
    text::FontSet* fonts_;
    support::Findings* findings_;
    double line_share_ = 1.0;
    std::unordered_map<std::string, text::Paragraph> shaped_;
    std::unordered_map<std::string, bool> directions_; ///< of each language, asked for once
};

/// Puts lines into a slab, the first line's top at (x, y) of a column so wide.
struct Placement {
    double x = 0.0;
    double y = 0.0;
    double width = 0.0;
    Align align = Align::Start;
    std::size_t tag = page::kArtifact;
};
void place_lines(Slab& slab, TextBox box, const Placement& at);

} // namespace tickleaf::layout
