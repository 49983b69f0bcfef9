// SPDX-License-Identifier: MIT
// A finished Document to PDF 1.7 bytes, tagged for PDF/UA-1, through libharu's object calls.
// Same document, same bytes. Errors: limits of the format or of libharu are findings; nothing is
// thrown. Source: ISO 32000-1:2008; ISO 14289-1:2014.
#pragma once

#include <optional>
#include <string>

#include "page/document.h"
#include "support/finding.h"

namespace tickleaf::pdf {

/// The bytes of the file, or nothing where a finding says why not.
std::optional<std::string> write(const page::Document& document, support::Findings& findings);

} // namespace tickleaf::pdf
