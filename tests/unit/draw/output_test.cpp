// SPDX-License-Identifier: MIT
// What leaves the room: SVG, PNG, PDF, contact sheet.
#include "draw/draw.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "draw/pixels.h"
#include "hand_made.h"

namespace draw = tickleaf::draw;
namespace page = tickleaf::page;
namespace figure = tickleaf::figure;
namespace draw_test = tickleaf::draw_test;
using draw_test::heel_raise;
using draw_test::knee_straighten;

namespace {

// Share of pixels that differ by more than `most`.
double difference(const draw::Pixels& a, const draw::Pixels& b, int most) {
    REQUIRE(a.width == b.width);
    REQUIRE(a.height == b.height);
    std::size_t count = 0;
    for (std::size_t i = 0; i < a.grey.size(); ++i) {
        count +=
            std::abs(static_cast<int>(a.grey[i]) - static_cast<int>(b.grey[i])) > most ? 1U : 0U;
    }
    return static_cast<double>(count) / static_cast<double>(a.grey.size());
}

std::string file(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

std::filesystem::path scratch(const std::string& name) {
    return std::filesystem::temp_directory_path() / ("tickleaf_draw_" + name);
}

page::Drawing without_text(page::Drawing drawing) {
    drawing.labels.clear();
    return drawing;
}

} // namespace

TEST_CASE("two renders are the same bytes") {
    const page::Drawing a = draw::draw(knee_straighten(), {});
    const page::Drawing b = draw::draw(knee_straighten(), {});
    CHECK(draw::to_svg(a) == draw::to_svg(b));
    CHECK(draw::to_png(a, 2.0) == draw::to_png(b, 2.0));
}

TEST_CASE("SVG is well formed, escaped and has a point in every number") {
    draw::Options options;
    options.hold_text = "<5 & \"6\">";
    const std::string svg = draw::to_svg(draw::draw(heel_raise(), options));
    CHECK(svg.rfind("<svg xmlns=\"http://www.w3.org/2000/svg\"", 0) == 0);
    CHECK(svg.find("&lt;5 &amp; ") != std::string::npos);
    CHECK(svg.find("nan") == std::string::npos);
    for (std::size_t at = svg.find("e-"); at != std::string::npos; at = svg.find("e-", at + 1)) {
        CHECK_FALSE((svg[at - 1] >= '0' && svg[at - 1] <= '9')); // no exponents
    }
    CHECK(svg.size() < 40000);
}

TEST_CASE("SVG read by a general library gives the picture of our PNG") {
    if (std::system("rsvg-convert --version > /dev/null 2>&1") != 0) {
        WARN("rsvg-convert is not installed: the outside reader was not asked");
        return;
    }
    const page::Drawing drawing = without_text(draw::draw(heel_raise(), {}));
    const auto svg = scratch("in.svg");
    const auto png = scratch("out.png");
    std::ofstream(svg, std::ios::binary) << draw::to_svg(drawing);
    const draw::Pixels ours = draw::read_png(draw::to_png(drawing, 2.0));
    const std::string command = "rsvg-convert -b white -w " + std::to_string(ours.width) + " -h " +
                                std::to_string(ours.height) + " -o " + png.string() + " " +
                                svg.string();
    REQUIRE(std::system(command.c_str()) == 0);
    const draw::Pixels theirs = draw::read_png(file(png));
    CHECK(difference(ours, theirs, 96) < 0.01);
    std::filesystem::remove(svg);
    std::filesystem::remove(png);
}

TEST_CASE("pictures agree with the references") {
    // Other versions of cairo smooth edges a little differently, so decoded pixels are compared
    // with tolerance.
    struct Row {
        const char* name;
        figure::Scene scene;
    };
    for (const Row& row : {Row{"heel_raise_side", heel_raise()},
                           Row{"knee_straighten_front", knee_straighten(figure::View::Front)}}) {
        INFO(row.name);
        const std::string png = draw::to_png(without_text(draw::draw(row.scene, {})), 1.0);
        const std::filesystem::path reference = std::filesystem::path(TICKLEAF_ROOT) /
                                                "tests/pictures" / (std::string(row.name) + ".png");
        if (std::getenv("TICKLEAF_UPDATE_PICTURES") != nullptr) {
            std::ofstream(reference, std::ios::binary) << png;
        }
        REQUIRE(std::filesystem::exists(reference));
        CHECK(std::filesystem::file_size(reference) <= 20 * 1024);
        CHECK(difference(draw::read_png(png), draw::read_png(file(reference)), 40) < 0.002);
    }
}

TEST_CASE("bytes that are no picture are refused") {
    CHECK_THROWS_AS(draw::read_png("no picture"), std::runtime_error);
}

TEST_CASE("the PDF is one page of the drawing's size") {
    const std::string pdf = draw::to_pdf(draw::draw(heel_raise(), {}));
    CHECK(pdf.rfind("%PDF-", 0) == 0);
    CHECK(pdf.find("%%EOF") != std::string::npos);
}

TEST_CASE("the contact sheet holds every drawing and title in its grid") {
    std::vector<draw::SheetEntry> entries;
    for (int i = 0; i < 7; ++i) {
        entries.push_back({"exercise " + std::to_string(i), draw::draw(heel_raise(), {})});
    }
    const page::Drawing sheet = draw::contact_sheet(entries, 3);
    std::size_t shapes = 3; // a rule under each row
    for (const draw::SheetEntry& entry : entries) {
        shapes += entry.drawing.shapes.size();
    }
    CHECK(sheet.shapes.size() == shapes);
    for (const page::Label& label : sheet.labels) {
        CHECK(label.at.x >= 0.0);
        CHECK(label.at.x <= sheet.width);
        CHECK(label.at.y <= sheet.height);
    }
    CHECK(draw::contact_sheet({}, 3).shapes.empty());
}
