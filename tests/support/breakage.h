// SPDX-License-Identifier: MIT
// A file broken on purpose, to prove that a checker can fail.
#pragma once

#include <catch2/catch.hpp>

#include <functional>
#include <string>

#include <qpdf/QPDF.hh>

#include "page/document.h"
#include "pdf/writer.h"
#include "support/finding.h"

namespace tickleaf::testing {

/// One damage and the clause that forbids it.
struct Breakage {
    const char* clause;
    std::function<void(QPDF&)> damage;
};

/// The document's bytes, written without a finding.
inline std::string written(const page::Document& document) {
    support::Findings findings;
    const auto bytes = pdf::write(document, findings);
    for (const auto& finding : findings.all()) {
        UNSCOPED_INFO(finding.message);
    }
    REQUIRE(findings.size() == 0);
    REQUIRE(bytes.has_value());
    return *bytes;
}

} // namespace tickleaf::testing
