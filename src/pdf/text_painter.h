// SPDX-License-Identifier: MIT
// A glyph run to text operators: codes, exact positions, language and replacement-text spans.
// Units: points; positions inside a line to 1/1000 of the type size, without error building up.
// Errors: a glyph the embedded font does not have is a finding; the glyph is left out.
// Source: ISO 32000-1:2008, 9.4.3 text showing, 14.8.2.3.3 reverse-order show strings, 14.9.2
// language.
#pragma once

#include <string>

#include "page/document.h"
#include "pdf/font_codes.h"
#include "support/finding.h"

namespace tickleaf::pdf {

class ContentStream;

struct TextPlace {
    double page_height = 0.0;
    const std::string& language; ///< that holds around the run
    FontCodes& codes;
    support::Findings& findings;
};

void paint_run(ContentStream& stream, const page::GlyphRun& run, const TextPlace& place);

} // namespace tickleaf::pdf
