// SPDX-License-Identifier: MIT
#include "page/document.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace tickleaf;

namespace {

page::Tag tag(page::Tag::Role role, std::size_t parent = page::kArtifact) {
    page::Tag made;
    made.role = role;
    made.parent = parent;
    return made;
}

} // namespace

TEST_CASE("the width of a run is the sum of its advances") {
    page::GlyphRun run;
    run.glyphs = {page::Glyph{.id = 3, .advance = 5.5}, page::Glyph{.id = 4, .advance = 2.25}};
    CHECK(run.width() == 7.75);
    CHECK(page::GlyphRun{}.width() == 0.0);
}

TEST_CASE("a document is dumped with boxes, texts and tags") {
    page::Document document;
    document.title = "Plan";
    document.language = "en";
    document.tags.push_back(tag(page::Tag::Role::Document));
    document.tags.push_back(tag(page::Tag::Role::TH, 0));
    document.tags.back().scope = page::Tag::Scope::Row;
    page::GlyphRun run;
    run.text = "Sets";
    run.origin = {10.004, 20.0};
    page::Shape box;
    box.path = {{.kind = page::PathStep::Kind::Move, .to = {1, 2}},
                {.kind = page::PathStep::Kind::Line, .to = {4, 8}}};
    document.pages.push_back({100.0, 200.0, {{run, 1}, {box, page::kArtifact}}});
    const auto json = nlohmann::json::parse(page::dump(document));
    CHECK(json["pages"][0]["items"][0]["text"] == "Sets");
    CHECK(json["pages"][0]["items"][0]["at"] == nlohmann::json::array({10.0, 20.0}));
    CHECK(json["pages"][0]["items"][1]["shape"] == nlohmann::json::array({1.0, 2.0, 3.0, 6.0}));
    CHECK(json["pages"][0]["items"][1]["artifact"] == "layout");
    CHECK(json["tags"][1]["role"] == "TH");
    CHECK(json["tags"][1]["scope"] == "row");
    CHECK(json["tags"][1]["parent"] == 0);
    CHECK(page::dump(document) == page::dump(document));
}

TEST_CASE("every role has a name in the dump") {
    page::Document document;
    for (int role = 0; role <= static_cast<int>(page::Tag::Role::Div); ++role) {
        document.tags.push_back(tag(static_cast<page::Tag::Role>(role)));
    }
    const auto json = nlohmann::json::parse(page::dump(document));
    CHECK(json["tags"].size() == 24);
    CHECK(json["tags"].back()["role"] == "Div");
}
