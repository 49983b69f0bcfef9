// SPDX-License-Identifier: MIT
// Looks at finished pages as a reader would: text over text, things outside the margins or the
// paper, kept groups split, thin pages. Used by tests, and to be run on any Document: it knows
// nothing of how the pages were made. Units: points. Shapes: a text's box is its ink height about
// the baseline, so that close lines are not overlaps.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "layout/page_template.h"
#include "page/document.h"

namespace tickleaf::layout {

/// One thing wrong on a page.
struct Fault {
    enum class Kind {
        Overlap,
        OutsideMargins,
        OutsidePage,
        SplitGroup,
        ThinPage,
        NoTag,
        BrokenTags
    };
    Kind kind = Kind::Overlap;
    std::size_t page = 0;
    std::string what;
};

/// All faults. A page may be thin (under a third full) where it is the last, where the next begins
/// a new section, or where the kept group that follows would not have fitted under it.
std::vector<Fault> verify(const page::Document& document, const PageTemplate& page_template);

/// "page 3: overlap: ..." one a line.
std::string to_text(const std::vector<Fault>& faults);

} // namespace tickleaf::layout
