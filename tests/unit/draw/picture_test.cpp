// SPDX-License-Identifier: MIT
// A clinic's logo: what is read as what pixels, and what is refused.
#include "draw/picture.h"

#include <catch2/catch.hpp>

#include <array>

#include "draw/draw.h"

using namespace tickleaf;

namespace {

/// 40 x 20 points, the left half dark red.
std::string red_png() {
    page::Drawing drawing;
    drawing.width = 40;
    drawing.height = 20;
    page::Shape half;
    half.path = page::rectangle(0, 0, 20, 20);
    half.fill = page::Colour{128, 0, 0};
    drawing.shapes.push_back(half);
    return draw::to_png(drawing, 2.0);
}

std::string svg(const std::string& inside, const std::string& attributes = "") {
    return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 60 20\"" + attributes + ">" +
           inside + "</svg>";
}

struct Read {
    std::optional<page::Picture> picture;
    support::Findings findings;
    std::string said() const {
        return findings.size() == 0
                   ? ""
                   : findings.all().front().message + " / " + findings.all().front().hint;
    }
};

Read read(const std::string& name, std::string bytes) {
    Read read;
    read.picture = draw::read_picture({name, std::move(bytes), {}, 72.0, 36.0}, read.findings);
    CHECK(read.picture.has_value() == (read.findings.size() == 0));
    return read;
}

std::array<int, 3> pixel(const page::Picture& picture, int x, int y) {
    const auto at = static_cast<std::size_t>(y * picture.width + x) * 3;
    return {picture.samples.at(at), picture.samples.at(at + 1), picture.samples.at(at + 2)};
}

} // namespace

TEST_CASE("a PNG keeps its pixels, on white") {
    const Read made = read("logo.png", red_png());
    CAPTURE(made.said());
    REQUIRE(made.picture);
    CHECK(made.picture->width == 80);
    CHECK(made.picture->height == 40);
    CHECK_FALSE(made.picture->grey);
    CHECK(pixel(*made.picture, 10, 20) == std::array{128, 0, 0});
    CHECK(pixel(*made.picture, 70, 20) == std::array{255, 255, 255});
}

TEST_CASE("an SVG is drawn at 300 dots an inch, in its proportions, grey where it is grey") {
    const Read made = read("logo.SVG", svg("<rect width=\"30\" height=\"20\" fill=\"#333\"/>"));
    CAPTURE(made.said());
    REQUIRE(made.picture);
    CHECK(made.picture->width == 300); // the box is an inch wide
    CHECK(made.picture->height == 100);
    REQUIRE(made.picture->grey);
    REQUIRE(made.picture->samples.size() == 300u * 100u);
    CHECK(made.picture->samples[50 * 300 + 20] == 0x33);
    CHECK(made.picture->samples[50 * 300 + 280] == 0xFF);
}

TEST_CASE("the same reference inside an SVG is followed, one that leads out is refused") {
    CHECK(read("a.svg", svg("<defs><rect id=\"r\" width=\"9\" height=\"9\"/></defs>"
                            "<use href=\"#r\"/><rect width=\"9\" height=\"9\" fill=\"url(#g)\"/>"))
              .picture);
    const std::vector<std::pair<std::string, std::string>> refused = {
        {"<use href=\"other.svg#r\"/>", "refers to \"other.svg#r\" outside"},
        {"<use xlink:href = 'file:///etc/hostname'/>", "refers to \"file:///etc/hostname\""},
        {"<use href=\"&#104;ttp://example.org/a.svg\"/>", "refers to \"&#104;ttp:"},
        {"<rect style=\"fill:url( 'data:text/css,a')\"/>", "refers to \"data:text/css,a\""},
        {"<image href=\"#r\"/>", "a picture of its own"},
        {"<s:image xmlns:s=\"http://www.w3.org/2000/svg\"/>", "a picture of its own"},
        {"\n<script>1</script>", "holds a script (its line 2)"},
        {"<style>@import 'x.css';</style>", "loads a style sheet"},
        {"<style>rect{fill:\\75rl(x)}</style>", "hides letters"},
        {"<text>Clinic</text>", "holds text in a font"},
        {"<foreignObject/>", "a foreign document"},
        {"<animateTransform/>", "moves"},
    };
    for (const auto& [inside, what] : refused) {
        CAPTURE(inside);
        const Read made = read("a.svg", svg(inside));
        CAPTURE(made.said());
        CHECK_FALSE(made.picture);
        CHECK(made.said().find(what) != std::string::npos);
    }
    const Read entity = read("a.svg", "<!DOCTYPE svg [<!ENTITY a \"b\">]>" + svg("&a;"));
    CHECK(entity.said().find("declares entities") != std::string::npos);
    std::string wide;
    for (const char letter : svg("<script/>")) {
        wide += {letter, '\0'};
    }
    CHECK(read("a.svg", wide).said().find("UTF-8") != std::string::npos);
    CHECK(read("a.svg", "<?xml version=\"1.0\" encoding=\"UTF-7\"?>" + svg(""))
              .said()
              .find("UTF-8") != std::string::npos);
    CHECK(
        read("a.svg", "<?xml version=\"1.0\" encoding=\"UTF-8\"?>" + svg("<path d=\"M0 0h9v9z\"/>"))
            .picture);
}

TEST_CASE("what is no picture, or too large, is refused before it costs anything") {
    const std::string png = red_png();
    std::string huge = png.substr(0, 16) + std::string("\0\0\x27\x10\0\0\x27\x10", 8) + // 10000^2
                       png.substr(24);
    std::string empty = png.substr(0, 16) + std::string(8, '\0') + png.substr(24);
    std::string endless = png.substr(0, 16) + std::string(8, '\xFF') + png.substr(24);
    const std::vector<std::tuple<std::string, std::string, std::string>> refused = {
        {"a.png", huge, "10000 x 10000 pixels, 100 million; at most 16 million"},
        {"a.png", endless, "million"},
        {"a.png", empty, "has no size: 0 x 0"},
        {"a.png", png.substr(0, png.size() / 2), "is no whole PNG file"},
        {"a.png", png.substr(0, 20), "is no whole PNG file"},
        {"a.png", "", "is no whole PNG file"},
        {"a.png", svg(""), "is no whole PNG file"},
        {"a.svg", png, "is not in UTF-8"},
        {"a.svg", "", "is no SVG that can be drawn"},
        {"a.svg", "<svg", "is no SVG that can be drawn"},
        {"a.svg", "<html/>", "is no SVG that can be drawn"},
        {"a.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 0 5\"/>", "has no size"},
        {"a.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 1 500\"/>",
         "more than a hundred times"},
        {"a.svg", std::string(draw::kMostPictureBytes + 1, ' '), "is larger than 4 MiB"},
    };
    for (const auto& [name, bytes, what] : refused) {
        CAPTURE(name, what, bytes.size());
        const Read made = read(name, bytes);
        CAPTURE(made.said());
        CHECK_FALSE(made.picture);
        CHECK(made.said().find(what) != std::string::npos);
        CHECK(made.findings.has_errors());
    }
}
