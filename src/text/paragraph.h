// SPDX-License-Identifier: MIT
// A string in a language and style, shaped once, measured, and broken into lines of any width.
// Four steps: collect, prepare (bidi, itemise, shape), break, place. Text is never justified.
// Units: points. Errors: a character that no font covers, bidi controls, unassigned or private
// characters: findings. Source: UAX #9 (bidi), UAX #14 (line breaking, by ICU), UAX #24 (scripts);
// shaping by HarfBuzz.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "page/document.h"
#include "support/finding.h"
#include "text/fonts.h"

namespace tickleaf::text {

struct Style {
    double size = 12.0;
    Weight weight = Weight::Regular;
    page::Colour colour{};
};

/// One line. Runs stand in reading order, each where it is drawn: origins are relative to the
/// line's left end, baseline y = 0.
struct Line {
    std::vector<page::GlyphRun> runs;
    double width = 0.0; ///< without trailing spaces
    double ascent = 0.0;
    double descent = 0.0; ///< positive
};

/// How a paragraph wants to be broken.
struct BreakOptions {
    double width = 0.0;
    double first_indent = 0.0;
};

/// A shaped paragraph. Cheap to move, breaks into lines as often as asked without reshaping
/// (but where a break is unsafe).
class Paragraph {
  public:
    Paragraph();
    ~Paragraph();
    Paragraph(Paragraph&&) noexcept;
    Paragraph& operator=(Paragraph&&) noexcept;

    /// Width on one line.
    double natural_width() const;
    /// Width of the widest part that cannot be broken.
    double least_width() const;
    /// Distance from baseline to baseline this text asks for ...
    double line_height() const;
    /// ... and the one that no page may go below; 0 where the page decides.
    double closest_lines() const;
    bool right_to_left() const;
    /// Lines of least raggedness. A part wider than the width is broken between graphemes.
    std::vector<Line> lines(const BreakOptions& options) const;

    struct Impl;
    std::unique_ptr<Impl> impl_;
};

/// What a paragraph is made from. `where` is used in findings: the key or the YAML position of the
/// text.
struct ParagraphSource {
    std::string_view text;
    std::string_view language;  ///< BCP 47; gives script features, break rules and base direction
    bool right_to_left = false; ///< base direction of the paragraph
    Style style{};
    std::string_view where;
    support::Span span{};
};

Paragraph prepare(FontSet& fonts, const ParagraphSource& source, support::Findings& findings);

/// True for languages written from right to left (by their likely script).
bool is_right_to_left(std::string_view language);

} // namespace tickleaf::text
