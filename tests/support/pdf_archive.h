// SPDX-License-Identifier: MIT
// Tests a finished file against the rules of PDF/A-2 that a machine can test, levels U and A.
// Each failure names the clause. Fonts and tags are tested with PDF/UA (pdf_check.h), whose rules
// on them are stricter. Source: ISO 19005-2:2011, clause numbers from memory; ICC.1:2004-10, 7.2
// (header of profiles).
#pragma once

#include <string>
#include <vector>

#include "tests/support/pdf_check.h"

namespace tickleaf::testing {

std::vector<ClauseFailure> check_pdf_a(const std::string& bytes);
/// The clauses alone, sorted, without repeats.
std::vector<std::string> failed_archive_clauses(const std::string& bytes);

} // namespace tickleaf::testing
