// SPDX-License-Identifier: MIT
#include "cli/exit_code.h"

#include <catch2/catch.hpp>

#include "cli/disk.h"
#include "workspace/workspace.h"

using namespace tickleaf;

namespace {

/// The disk of a machine on which no font is installed.
class WithoutFonts : public cli::Disk {
  public:
    using Disk::Disk;
    std::unique_ptr<support::Bytes> map_file(const std::string& /*path*/) const override {
        return nullptr;
    }
};

/// Findings of the demo made in English on a disk.
support::Findings made_on(const support::Environment& disk, workspace::Choice choice) {
    support::Sources sources;
    const workspace::Workspace workspace(disk, sources);
    support::Findings findings;
    const auto text = disk.read_data("templates/starters/ankle-sprain.yaml");
    REQUIRE(text);
    const auto plan = workspace.plan(sources.add("rx.yaml", *text), findings);
    const auto booklet = plan ? workspace.booklet(*plan, choice, findings) : std::nullopt;
    const auto document = booklet ? workspace.document(*booklet, choice, findings) : std::nullopt;
    CHECK((document.has_value() || findings.has_errors()));
    return findings;
}

workspace::Choice in(const std::string& language) {
    workspace::Choice choice;
    choice.language = language;
    return choice;
}

} // namespace

TEST_CASE("a missing font, language or template is a missing thing, with a way to mend it") {
    const WithoutFonts bare{TICKLEAF_ROOT};
    const cli::Disk disk{TICKLEAF_ROOT};
    workspace::Choice posh = in("en");
    posh.page_template = "posh";
    for (const auto& findings :
         {made_on(bare, in("en")), made_on(disk, in("tlh")), made_on(disk, posh)}) {
        REQUIRE(findings.size() > 0);
        CAPTURE(findings.all().front().message);
        CHECK(cli::exit_code(findings) == cli::kSomethingMissing);
        CHECK_FALSE(findings.all().front().hint.empty());
    }
}

TEST_CASE("an error of the prescription outweighs a missing thing, a warning is no error") {
    support::Findings findings;
    CHECK(cli::exit_code(findings) == cli::kDone);
    findings.warning({}, "rest-days", "no rest");
    CHECK(cli::exit_code(findings) == cli::kDone);
    findings.error({}, "unknown-exercise", "there is none");
    CHECK(cli::exit_code(findings) == cli::kSomethingMissing);
    findings.error({}, "dose-syntax", "cut short");
    CHECK(cli::exit_code(findings) == cli::kWrongPrescription);
}

TEST_CASE("a page template that is wrong is not the prescription's fault") {
    support::Findings findings;
    findings.error({}, "template-range", "body of the type is 2 pt");
    CHECK(cli::exit_code(findings) == cli::kSomethingMissing);
    findings.error({}, "dose-syntax", "cut short");
    CHECK(cli::exit_code(findings) == cli::kWrongPrescription);
}
