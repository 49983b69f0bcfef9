// SPDX-License-Identifier: MIT
// A clinic's own template with its own logo, from file to finished PDF.
#include <catch2/catch.hpp>

#include <map>

#include "cli/exit_code.h"
#include "layout/verify.h"
#include "tests/support/pdf_archive.h"
#include "tests/support/pdf_check.h"
#include "way.h"

using namespace tickleaf;

namespace {

const std::string kPages = "templates/pages/";
const std::string kLogo =
    "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 60 20\">"
    "<circle cx=\"10\" cy=\"10\" r=\"9\" fill=\"#0F4C5C\"/><path d=\"M24 6h34v8h-34z\"/></svg>";

/// The house's data with some files of a clinic's beside them.
class ClinicDisk : public cli::Disk {
  public:
    using Disk::Disk;
    std::map<std::string, std::string> own; ///< path below the data folder, text
    std::optional<std::string> read_data(const std::string& path) const override {
        const auto found = own.find(path);
        return found != own.end() ? std::optional(found->second) : Disk::read_data(path);
    }
    std::vector<std::string> list_data(const std::string& folder) const override {
        auto names = Disk::list_data(folder);
        for (const auto& [path, text] : own) {
            if (path.starts_with(folder + "/")) {
                names.push_back(path.substr(folder.size() + 1));
            }
        }
        return names;
    }
};

struct Made {
    support::Findings findings;
    std::optional<page::Document> document;
    std::string pdf;
};

Made made_with(const ClinicDisk& disk, const std::string& language,
               const std::string& name = "clinic") {
    support::Sources sources;
    const workspace::Workspace workspace(disk, sources);
    std::string why;
    const auto text = cli::read_file(std::string(TICKLEAF_ROOT) +
                                         "/tests/booklet/cases/ankle-sprain-all-languages.yaml",
                                     1U << 20U, why);
    REQUIRE(text);
    Made made;
    workspace::Choice choice;
    choice.language = language;
    choice.page_template = name;
    const auto plan = workspace.plan(sources.add("rx.yaml", *text), made.findings);
    REQUIRE(plan);
    const auto booklet = workspace.booklet(*plan, choice, made.findings);
    for (const auto& finding : made.findings.all()) {
        UNSCOPED_INFO(support::to_text(finding, sources));
    }
    REQUIRE(booklet);
    made.document = workspace.document(*booklet, choice, made.findings);
    const auto pdf = made.document ? workspace.pdf(*made.document, made.findings) : std::nullopt;
    made.pdf = pdf.value_or("");
    return made;
}

ClinicDisk disk_with(const std::string& logo_line, const std::string& from = "standard") {
    ClinicDisk disk{TICKLEAF_ROOT};
    const auto text = disk.read_data(kPages + from + ".yaml");
    REQUIRE(text);
    disk.own[kPages + "clinic.yaml"] = *text + logo_line + "\n";
    disk.own[kPages + "mark.svg"] = kLogo;
    return disk;
}

std::vector<const page::Item*> pictures_of(const page::Page& page) {
    std::vector<const page::Item*> found;
    for (const auto& item : page.items) {
        if (std::holds_alternative<page::PlacedPicture>(item.content)) {
            found.push_back(&item);
        }
    }
    return found;
}

} // namespace

TEST_CASE(
    "a clinic's logo stands on the first page, in its proportions, and has the clinic's name") {
    for (const char* language : {"en", "ar"}) {
        CAPTURE(language);
        const Made made = made_with(
            disk_with("logo: {file: mark.svg, name: Riverside Community Clinic, width: 45 mm, "
                      "height: 15 mm, place: end}"),
            language);
        REQUIRE(made.document);
        const auto pictures = pictures_of(made.document->pages.front());
        REQUIRE(pictures.size() == 1);
        const auto& placed = std::get<page::PlacedPicture>(pictures.front()->content);
        CHECK(placed.width / placed.height == Approx(3.0).epsilon(0.01));
        CHECK(placed.width == Approx(45.0 / 25.4 * 72.0).epsilon(0.001));
        // The end of a line is on the left where the page runs from right to left.
        const double middle = made.document->pages.front().width / 2.0;
        CHECK((placed.origin.x > middle) == (std::string(language) == "en"));
        CHECK(made.document->tags.at(pictures.front()->tag).alternative ==
              "Riverside Community Clinic");
        for (std::size_t i = 1; i < made.document->pages.size(); ++i) {
            CHECK(pictures_of(made.document->pages[i]).empty());
        }
        CHECK(testing::failed_clauses(made.pdf).empty());
        CHECK(testing::failed_archive_clauses(made.pdf).empty());
        CHECK(made.pdf.find("/Subtype /Image") != std::string::npos);
    }
}

TEST_CASE(
    "a logo without a name is decoration, and one sheet or a folded booklet have theirs, too") {
    for (const char* from : {"standard", "fold-booklet", "one-sheet", "log-refill"}) {
        CAPTURE(from);
        const Made made = made_with(disk_with("logo: {file: mark.svg}", from), "en");
        REQUIRE(made.document);
        std::size_t count = 0;
        for (const auto& page : made.document->pages) {
            for (const auto* item : pictures_of(page)) {
                ++count;
                CHECK(item->tag == page::kArtifact);
            }
        }
        CHECK(count == 1);
    }
}

TEST_CASE("a logo that cannot be read stops the booklet at its line of the template") {
    for (const char* line : {"logo: {file: lost.png}", "logo: {file: broken.svg}"}) {
        CAPTURE(line);
        ClinicDisk disk = disk_with(line);
        disk.own[kPages + "broken.svg"] = "<svg";
        const Made made = made_with(disk, "en");
        CHECK_FALSE(made.document);
        REQUIRE(made.findings.has_errors());
        const auto all = made.findings.sorted();
        const auto found = std::find_if(all.begin(), all.end(), [](const auto& finding) {
            return finding.id == "template-logo";
        });
        REQUIRE(found != all.end());
        CHECK(found->span.line > 20);
        CHECK_FALSE(found->hint.empty());
    }
}

TEST_CASE("without a logo nothing of the file changes") {
    const ClinicDisk disk{TICKLEAF_ROOT};
    CHECK(made_with(disk, "en", "standard").pdf.find("/Subtype /Image") == std::string::npos);
}
