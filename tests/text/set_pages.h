// SPDX-License-Identifier: MIT
// Texts through the real way to a finished file: prepared, broken into lines, placed one paragraph
// a page, fonts embedded, written. And how texts are made alike before they are compared.
// Units: points. Errors: findings of the program.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "page/document.h"
#include "support/finding.h"
#include "text/fonts.h"
#include "text/paragraph.h"

namespace tickleaf::testing {

inline constexpr double kTextWidth = 460.0;

/// One paragraph a page, each in a P of its own.
page::Document set_pages(text::FontSet& fonts, const std::vector<std::string>& paragraphs,
                         const std::string& language, support::Findings& findings);
std::optional<std::string> make_pdf(const std::shared_ptr<const text::Fonts>& fonts,
                                    const std::vector<std::string>& paragraphs,
                                    const std::string& language, support::Findings& findings);

/// In NFC, with every stretch of white space as one space and none at the ends, without characters
/// that are not drawn and steer only (bidi controls, break controls), lam-alef forms taken apart.
std::string folded(const std::string& utf8);

} // namespace tickleaf::testing
