// SPDX-License-Identifier: MIT
#include "cli/exit_code.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace tickleaf::cli {

namespace {

constexpr std::array<std::string_view, 8> kMissingThings = {
    "unknown-exercise", "unknown-language", "unknown-template", "text-missing",
    "text-unreviewed",  "font-file",        "font-coverage",    "font-table"};

/// A page template that cannot be used is as good as missing: the prescription is not to blame.
constexpr std::string_view kTemplateTrouble = "template-";

bool is_missing_thing(const support::Finding& finding) {
    return finding.id.compare(0, kTemplateTrouble.size(), kTemplateTrouble) == 0 ||
           std::find(kMissingThings.begin(), kMissingThings.end(), finding.id) !=
               kMissingThings.end();
}

} // namespace

int exit_code(const support::Findings& findings) {
    if (!findings.has_errors()) {
        return kDone;
    }
    const auto is_other_error = [](const support::Finding& finding) {
        return finding.severity == support::Severity::Error && !is_missing_thing(finding);
    };
    const auto& all = findings.all();
    return std::any_of(all.begin(), all.end(), is_other_error) ? kWrongPrescription
                                                               : kSomethingMissing;
}

} // namespace tickleaf::cli
