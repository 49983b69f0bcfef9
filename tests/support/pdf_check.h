// SPDX-License-Identifier: MIT
// Tests a finished file against the rules of PDF/UA-1 that a machine can test.
// Each failure names clause and test number as the open PDF/UA-1 validation profile counts them.
// Source: ISO 14289-1:2014; ISO 32000-1:2008, 14.7-14.9.
#pragma once

#include <string>
#include <vector>

#include "tests/support/pdf_text.h"

namespace tickleaf::testing {

struct ClauseFailure {
    std::string clause; ///< such as "7.3-1"
    std::string message;
};

std::vector<ClauseFailure> check_pdf_ua(const std::string& bytes);
/// The clauses alone, sorted, without repeats.
std::vector<std::string> failed_clauses(const std::string& bytes);

/// The part on contents: their structure, and that way, printed number and heading agree.
void check_contents(PdfReader& reader, const StructureElement& root,
                    std::vector<ClauseFailure>& failures);
/// The part on fonts (7.21), in a file of its own.
void check_fonts(PdfReader& reader, std::vector<ClauseFailure>& failures);

} // namespace tickleaf::testing
