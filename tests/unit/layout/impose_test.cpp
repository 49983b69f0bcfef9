// SPDX-License-Identifier: MIT
// Sheets to fold: the order of pages against the arithmetic of saddle stitch, and what becomes of
// things on a page that moves to a sheet.
#include "layout/impose.h"

#include <catch2/catch.hpp>
#include <set>

using namespace tickleaf;
using namespace tickleaf::layout;

namespace {

/// Front and back as they are printed in tables of imposition: left, right, left, right.
struct Sheet {
    std::size_t pages;
    std::size_t sheet;
    std::size_t front_left, front_right, back_left, back_right;
};

page::Document pages(std::size_t count) {
    page::Document document;
    document.tags.push_back({});
    for (std::size_t i = 0; i < count; ++i) {
        page::Page page;
        page.width = paper("a5")->width.pt();
        page.height = paper("a5")->height.pt();
        page::Shape mark;
        mark.path = page::rectangle(10.0, 20.0, 5.0, 5.0);
        page.items.push_back({std::move(mark), page::kArtifact, false});
        page::GlyphRun run;
        run.text = std::to_string(i + 1);
        run.origin = {30.0, 40.0};
        page.items.push_back({std::move(run), 0, false});
        document.pages.push_back(std::move(page));
    }
    return document;
}

double x_of(const page::Item& item) {
    return std::get<page::GlyphRun>(item.content).origin.x;
}

} // namespace

TEST_CASE("pages stand on sheets as saddle stitch asks") {
    // Computed with front = (n - 2i | 1 + 2i), back = (2 + 2i | n - 1 - 2i); n = 8 is the common
    // example of printing handbooks.
    const Sheet sheets[] = {{4, 1, 4, 1, 2, 3},    {8, 1, 8, 1, 2, 7},    {8, 2, 6, 3, 4, 5},
                            {12, 1, 12, 1, 2, 11}, {12, 2, 10, 3, 4, 9},  {12, 3, 8, 5, 6, 7},
                            {16, 1, 16, 1, 2, 15}, {16, 2, 14, 3, 4, 13}, {16, 3, 12, 5, 6, 11},
                            {16, 4, 10, 7, 8, 9}};
    for (const Sheet& sheet : sheets) {
        CAPTURE(sheet.pages, sheet.sheet);
        const auto left_bound = saddle_stitch(sheet.pages, false);
        const auto right_bound = saddle_stitch(sheet.pages, true);
        const std::size_t front = (sheet.sheet - 1) * 2;
        CHECK(left_bound.at(front) == SheetSide{sheet.front_left - 1, sheet.front_right - 1});
        CHECK(left_bound.at(front + 1) == SheetSide{sheet.back_left - 1, sheet.back_right - 1});
        // Bound at the right, left and right change places on every side.
        CHECK(right_bound.at(front) == SheetSide{sheet.front_right - 1, sheet.front_left - 1});
        CHECK(right_bound.at(front + 1) == SheetSide{sheet.back_right - 1, sheet.back_left - 1});
    }
}

TEST_CASE("each page stands once, the two of a side add up, the middle lies open") {
    for (std::size_t count = 4; count <= 64; count += 4) {
        std::set<std::size_t> seen;
        const auto sides = saddle_stitch(count, false);
        CHECK(sides.size() == count / 2);
        for (const SheetSide& side : sides) {
            CHECK(side.left + 1 + side.right + 1 == count + 1);
            seen.insert(side.left);
            seen.insert(side.right);
        }
        CHECK(seen.size() == count);
        CHECK(sides.back() == SheetSide{count / 2 - 1, count / 2});
    }
}

TEST_CASE("a leaf's front and back are pages that follow each other") {
    // Turned over the short edge of the sheet, what lies left on the back is behind what lies right
    // on the front.
    for (const bool right_bound : {false, true}) {
        const auto sides = saddle_stitch(16, right_bound);
        for (std::size_t i = 0; i < sides.size(); i += 2) {
            const auto follow = [](std::size_t a, std::size_t b) {
                return a / 2 == b / 2 && a != b;
            };
            CHECK(follow(sides[i].right, sides[i + 1].left));
            CHECK(follow(sides[i].left, sides[i + 1].right));
        }
    }
}

TEST_CASE("pages move to their half of the sheet, with what leads to them") {
    page::Document document = pages(8);
    document.outline.push_back({"six", 1, 5, 100.0});
    page::Link link;
    link.x = 1.0;
    link.page = 5;
    document.pages[0].items.push_back({link, 0, false});
    const page::Document folded = impose(document, *paper("a4"), {0, 0, 0});
    REQUIRE(folded.pages.size() == 4);
    CHECK(folded.pages[0].width == Approx(841.890).margin(0.001)); // ISO 216: A4 on its long side
    CHECK(folded.pages[0].height == Approx(595.276).margin(0.001));
    // Page 8 lies left and page 1 right of the fold; two A5 pages leave 1 mm of A4, half at each
    // end.
    const double half_mm = 72.0 / 25.4 / 2.0;
    const double a5 = paper("a5")->width.pt();
    CHECK(std::get<page::GlyphRun>(folded.pages[0].items[1].content).text == "8");
    CHECK(x_of(folded.pages[0].items[1]) == Approx(half_mm + 30.0));
    CHECK(std::get<page::GlyphRun>(folded.pages[0].items[3].content).text == "1");
    CHECK(x_of(folded.pages[0].items[3]) == Approx(half_mm + a5 + 30.0));
    // Page 6 is on the front of the second sheet.
    CHECK(folded.outline[0].page == 2);
    const auto& moved = std::get<page::Link>(folded.pages[0].items[4].content);
    CHECK(moved.page == 2);
    CHECK(moved.x == Approx(half_mm + a5 + 1.0));
    CHECK(folded.duplex_short_edge);
    CHECK(folded.no_print_scaling);
    CHECK_FALSE(folded.claims_accessibility);
}
