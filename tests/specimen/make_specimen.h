// SPDX-License-Identifier: MIT
// The specimen: a heading, a paragraph, a dose table, a warning and a date in each script, so that
// letters can be looked at. Errors: findings.
#pragma once

#include <memory>
#include <string>

#include "page/document.h"
#include "support/finding.h"
#include "text/fonts.h"

namespace tickleaf::testing {

/// `declaration` is the folder of the texts that tests/text/fetch.sh brings.
page::Document make_specimen(const std::shared_ptr<const text::Fonts>& fonts,
                             const std::string& declaration, support::Findings& findings);

} // namespace tickleaf::testing
