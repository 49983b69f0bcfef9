// SPDX-License-Identifier: MIT
// Parts on pages: how close things stand, what is said of what does not fit, where boxes stand.
#include <algorithm>
#include <catch2/catch.hpp>

#include "layout/lay_out.h"
#include "layout/verify.h"
#include "tests/unit/layout/house.h"
#include "tests/unit/layout/sample.h"

using namespace tickleaf;
using namespace tickleaf::layout;

namespace {

struct Laid {
    support::Findings findings;
    std::optional<page::Document> document;
};

Laid lay(const content::Booklet& booklet, const PageTemplate& page_template) {
    static const test::SourceTree tree;
    support::Sources sources;
    Laid laid;
    static const auto fonts = text::Fonts::load(tree, sources, laid.findings);
    text::FontSet set(fonts);
    laid.document = lay_out(booklet, page_template, set, laid.findings);
    return laid;
}

/// One exercise in a stage of its own.
content::Booklet one_exercise(test::Sampler& sampler, const content::Group& group) {
    content::Booklet booklet = sampler.booklet();
    booklet.parts.resize(1);
    booklet.parts[0].kind = content::Part::Kind::Stage;
    booklet.parts[0].blocks = {{group}};
    return booklet;
}

} // namespace

TEST_CASE("a finding calls an exercise by the name that is printed, not by a key") {
    test::Sampler sampler({});
    content::Heading name;
    name.level = 2;
    name.words = sampler.line("Heel raise on two legs", "");
    name.words.key = "exercise.heel-raise.name";
    content::Group group;
    group.blocks = {
        {name},
        {content::Columns{0.43, {{sampler.steps(40)}}, {{test::Sampler::figure_of(sampler)}}}}};
    const Laid laid = lay(one_exercise(sampler, group), test::template_of("large-print"));
    REQUIRE(laid.document);
    const auto& all = laid.findings.all();
    const auto split = std::find_if(all.begin(), all.end(), [](const support::Finding& finding) {
        return finding.id == "layout-group-split";
    });
    REQUIRE(split != all.end());
    CHECK(split->message.find("\"Heel raise on two legs\" is taller") == 0);
    CHECK(split->message.find("exercise.") == std::string::npos);
}
