// SPDX-License-Identifier: MIT
// What is looked at before a Document is written: that it can be written at all, and that it may
// claim to be accessible. Errors: is_writable reports errors; may_claim_accessibility reports a
// warning for each reason not to. Source: ISO 32000-1:2008, annex C (limits); ISO
// 14289-1:2014, 7.1-7.5, 7.18.
#pragma once

#include "page/document.h"
#include "support/finding.h"

namespace tickleaf::pdf {

bool is_writable(const page::Document& document, support::Findings& findings);
bool may_claim_accessibility(const page::Document& document, support::Findings& findings);

} // namespace tickleaf::pdf
