// SPDX-License-Identifier: MIT
// The specimen is made whole: no finding, no rule of PDF/UA broken, bold headings in every script,
// every warning and number readable in its order.
#include <catch2/catch.hpp>

#include "cli/disk.h"
#include "pdf/writer.h"
#include "tests/specimen/make_specimen.h"
#include "tests/specimen/specimen_texts.h"
#include "tests/support/pdf_check.h"
#include "tests/support/pdf_text.h"
#include "tests/text/set_pages.h"

namespace tickleaf::testing {

TEST_CASE("the specimen of every script is made whole") {
    const cli::Disk disk{TICKLEAF_ROOT};
    support::Sources sources;
    support::Findings findings;
    const auto fonts = text::Fonts::load(disk, sources, findings);
    const auto document = make_specimen(fonts, TICKLEAF_DECLARATION, findings);
    for (const auto& finding : findings.sorted()) {
        FAIL_CHECK(finding.message);
    }
    const auto bytes = pdf::write(document, findings);
    REQUIRE(bytes);
    CHECK(failed_clauses(*bytes) == std::vector<std::string>{});
    PdfReader reader(*bytes);
    const std::string text = folded(reader.structure()->text());
    for (const Specimen& specimen : kSpecimens) {
        INFO(specimen.language);
        std::string warning = specimen.warning;
        warning.replace(warning.find("{tel}"), 5, "+44 1632 960123");
        CHECK(text.find(folded(warning)) != std::string::npos);
        CHECK(text.find(folded(specimen.name)) != std::string::npos);
    }
    for (const page::Font& font : document.fonts) {
        INFO(font.postscript_name);
        CHECK(font.bold == (font.postscript_name.find("-Bold") != std::string::npos));
    }
}

} // namespace tickleaf::testing
