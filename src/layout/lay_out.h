// SPDX-License-Identifier: MIT
// Booklet and template to finished pages: blocks measured once, then broken into pages by dynamic
// programming. Nothing overlaps, nothing leaves the margins, a Group is never split, headings stay
// with what follows. Errors: what cannot be placed is a finding that names the block; never a clip.
// Cost: linear in pages.
#pragma once

#include <optional>

#include "content/booklet.h"
#include "layout/page_template.h"
#include "page/document.h"
#include "support/finding.h"
#include "text/fonts.h"

namespace tickleaf::layout {

/// The document without its font programs; text::embed() adds them when all runs are known.
std::optional<page::Document> lay_out(const content::Booklet& booklet,
                                      const PageTemplate& page_template, text::FontSet& fonts,
                                      support::Findings& findings);

} // namespace tickleaf::layout
