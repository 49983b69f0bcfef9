// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include <string>
#include <vector>

#include "pdf/painting_order.h"

using namespace tickleaf;
using Role = page::Tag::Role;

namespace {

/// A filled rectangle 10 points wide and high.
page::Item square(double x, double y, std::size_t tag) {
    page::Shape shape;
    shape.path = page::rectangle(x, y, 10.0, 10.0);
    shape.fill = page::Colour{};
    return {shape, tag, false};
}

/// A text 40 points wide on a baseline at y.
page::Item text(double x, double y, std::size_t tag) {
    page::GlyphRun run;
    run.size = 10.0;
    run.origin = {x, y};
    run.glyphs = {page::Glyph{1, 40.0, 0.0, 0.0, 0, 1}};
    return {run, tag, false};
}

std::vector<page::Tag> tags() {
    std::vector<page::Tag> made(3);
    made[0].role = Role::Document;
    made[1].role = Role::P;
    made[2].role = Role::Form;
    return made;
}

constexpr std::size_t kText = 1;
constexpr std::size_t kBox = 2;

std::vector<std::size_t> order_of(std::vector<page::Item> items) {
    page::Page page;
    page.width = 200.0;
    page.height = 200.0;
    page.items = std::move(items);
    return pdf::painting_order(page, tags());
}

using Order = std::vector<std::size_t>;

} // namespace

TEST_CASE("settings are painted first, tick boxes last, the rest as it is read") {
    CHECK(order_of({square(100, 20, kBox), text(10, 30, kText), square(10, 60, page::kArtifact),
                    text(10, 100, kText), square(100, 90, kBox), text(10, 130, kText)}) ==
          Order{2, 1, 3, 5, 0, 4});
    page::Item number = square(10, 190, page::kArtifact);
    number.pagination = true;
    CHECK(order_of({text(10, 30, kText), number}) == Order{0, 1});
    const page::Link link{10, 20, 40, 10, 0, "", "to page 1", 0};
    CHECK(order_of({square(100, 20, kBox), page::Item{link, kText}, text(10, 30, kText)}) ==
          Order{1, 2, 0});
}

TEST_CASE("nothing is painted past what it covers or is covered by") {
    // A background that stands over the text before it.
    CHECK(order_of({text(10, 30, kText), square(15, 22, page::kArtifact)}) == Order{0, 1});
    // A box under the text after it.
    CHECK(order_of({square(15, 22, kBox), text(10, 30, kText)}) == Order{0, 1});
    // A box that may not go holds what lies under it.
    CHECK(order_of({square(18, 22, kBox), square(15, 22, kBox), text(0, 30, kText)}) ==
          Order{0, 1, 2});
    CHECK(order_of({square(50, 22, kBox), square(41, 22, kBox), text(2, 30, kText)}) ==
          Order{0, 1, 2});
    CHECK(order_of({square(60, 22, kBox), square(41, 22, kBox), text(2, 30, kText)}) ==
          Order{1, 2, 0});
}
