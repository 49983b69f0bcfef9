// SPDX-License-Identifier: MIT
// Every file of cases/ is a prescription with its expected findings in comments, in the order a
// clinician reads them: "# expect LINE:COLUMN SEVERITY ID". A finding not expected fails, and so
// does an expected one not found.
#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <sstream>

#include "cli/disk.h"
#include "workspace/workspace.h"

using namespace tickleaf;
namespace fs = std::filesystem;

namespace {

const fs::path kCases = fs::path(TICKLEAF_ROOT) / "tests" / "findings" / "cases";

std::string expected_findings(const std::string& text) {
    std::istringstream lines(text);
    std::string expected;
    for (std::string line; std::getline(lines, line);) {
        if (line.starts_with("# expect ")) {
            expected += line.substr(9) + '\n';
        }
    }
    return expected;
}

std::string found_findings(const support::Findings& findings) {
    const char* words[] = {"error", "warning", "note"};
    std::string found;
    for (const support::Finding& finding : findings.sorted()) {
        found += std::to_string(finding.span.line) + ':' + std::to_string(finding.span.column) +
                 ' ' + words[static_cast<int>(finding.severity)] + ' ' + finding.id + '\n';
    }
    return found;
}

} // namespace

TEST_CASE("bad prescriptions give the findings a clinician would want, in order, in one run") {
    const cli::Disk disk{TICKLEAF_ROOT};
    support::Sources sources;
    const workspace::Workspace workspace(disk, sources);
    int cases = 0;
    for (const auto& entry : fs::directory_iterator(kCases)) {
        std::string why;
        const auto text = cli::read_file(entry.path().string(), 1u << 20, why);
        REQUIRE(text);
        support::Findings findings;
        const int file = sources.add(entry.path().filename().string(), *text);
        static_cast<void>(workspace.plan(file, findings));
        std::string shown;
        for (const support::Finding& finding : findings.sorted()) {
            shown += support::to_text(finding, sources);
            CHECK_FALSE(finding.message.empty());
        }
        INFO(shown);
        CHECK(found_findings(findings) == expected_findings(*text));
        ++cases;
    }
    CHECK(cases >= 11);
}
