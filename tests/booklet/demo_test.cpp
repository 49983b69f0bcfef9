// SPDX-License-Identifier: MIT
// The demo booklet held against what issue and design promise: on the Document, and on the finished
// file with general-purpose readers (poppler, qpdf, mutool).
#include <catch2/catch.hpp>

#include <algorithm>
#include <fstream>

#include "cli/disk.h"
#include "fold.h"
#include "layout/verify.h"
#include "shell.h"
#include "workspace/workspace.h"
#include "yaml/tree.h"

using namespace tickleaf;
using tests::folded;
using tests::Folder;
using tests::run;
using tests::without_spaces;

namespace {

struct Made {
    workspace::Plan plan;
    content::Booklet booklet;
    page::Document document;
    std::string pdf;
};

Made make(const std::string& language) {
    static const cli::Disk disk{TICKLEAF_ROOT};
    static support::Sources sources;
    static const workspace::Workspace workspace(disk, sources);
    std::string why;
    const auto text = cli::read_file(
        std::string(TICKLEAF_ROOT) + "/templates/starters/ankle-sprain.yaml", 1u << 20, why);
    REQUIRE(text);
    support::Findings findings;
    workspace::Choice choice;
    choice.language = language;
    const auto plan = workspace.plan(sources.add("ankle-sprain.yaml", *text), findings);
    const auto booklet = plan ? workspace.booklet(*plan, choice, findings) : std::nullopt;
    const auto document = booklet ? workspace.document(*booklet, choice, findings) : std::nullopt;
    const auto pdf = document ? workspace.pdf(*document, findings) : std::nullopt;
    for (const auto& finding : findings.sorted()) {
        UNSCOPED_INFO(support::to_text(finding, sources));
    }
    CHECK(findings.size() == 0);
    REQUIRE(pdf);
    return {*plan, *booklet, *document, *pdf};
}

layout::PageTemplate standard() {
    const cli::Disk disk{TICKLEAF_ROOT};
    support::Sources sources;
    support::Findings findings;
    const auto text = disk.read_data("templates/pages/standard.yaml");
    REQUIRE(text);
    const auto root = yaml::read(sources, sources.add("standard.yaml", *text), findings);
    REQUIRE(root);
    const auto page_template = layout::read_template(*root, "standard", findings);
    REQUIRE(page_template);
    return *page_template;
}

} // namespace

TEST_CASE("nothing overlaps, leaves the margins or is split that belongs together") {
    for (const char* language : {"en", "es"}) {
        const Made made = make(language);
        CHECK(made.document.pages.size() >= 8);
        INFO(language << '\n' << layout::to_text(layout::verify(made.document, standard())));
        CHECK(layout::verify(made.document, standard()).empty());
    }
}

TEST_CASE("every string of the booklet is found in the file's text") {
    for (const char* language : {"en", "es"}) {
        const Made made = make(language);
        const Folder folder;
        const std::string path = folder.file("demo.pdf");
        std::ofstream(path, std::ios::binary) << made.pdf;
        const auto text = run("pdftotext -raw " + path + " -");
        REQUIRE(text.code == 0);
        // Lines of narrow cells may come interleaved from a reader that guesses columns; -raw keeps
        // the file's order.
        const std::string all = without_spaces(folded(text.output));
        for (const std::string& string : content::all_strings(made.booklet)) {
            CAPTURE(language, string);
            CHECK(all.find(without_spaces(folded(string))) != std::string::npos);
        }
    }
}

TEST_CASE("general readers take the file without a word") {
    for (const char* language : {"en", "es"}) {
        const Made made = make(language);
        const Folder folder;
        const std::string path = folder.file("demo.pdf");
        std::ofstream(path, std::ios::binary) << made.pdf;
        const auto qpdf = run("qpdf --check " + path);
        CAPTURE(qpdf.output);
        CHECK(qpdf.code == 0);
        CHECK(qpdf.output.find("WARNING") == std::string::npos);
        const auto poppler = run("pdftoppm -r 20 -png " + path + " " + folder.file("page"));
        CHECK(poppler.code == 0);
        CHECK(poppler.output == "");
        const auto mutool = run("mutool draw -q -r 20 -o " + folder.file("m%d.png") + " " + path);
        CHECK(mutool.code == 0);
        // Debian's mutool is built without colour management and says so of every file.
        CHECK(
            (mutool.output.empty() || mutool.output == "warning: ICC support is not available\n"));
        // The budget of the demo in a Latin script, tags included.
        CHECK(made.pdf.size() <= 80'000);
    }
}

TEST_CASE("the side of the prescription is the side of the booklet") {
    const Made made = make("en");
    int right = 0;
    for (const std::string& string : content::all_strings(made.booklet)) {
        CAPTURE(string);
        CHECK(string.find(" left ") == std::string::npos);
        right += string.find("right") != std::string::npos ? 1 : 0;
    }
    CHECK(right > 10);
    for (const auto& stage : made.plan.solutions) {
        for (const figure::Solution& solution : stage) {
            for (const figure::WorkingPart& part : solution.scene.working) {
                CHECK(part.side != support::Side::Left);
            }
        }
    }
}

TEST_CASE("safety texts and the numbers to call are on paper") {
    const Made made = make("es");
    std::string all;
    for (const std::string& string : content::all_strings(made.booklet)) {
        all += string + '\n';
    }
    CHECK(all.find("112") != std::string::npos);
    CHECK(all.find("+44 1632 960123") != std::string::npos);
    CHECK(all.find("Adeyemi") != std::string::npos);
}
