// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "support/angle.h"
#include "support/finding.h"
#include "support/number.h"
#include "support/side.h"
#include "support/units.h"
#include "support/utf8.h"

using namespace tickleaf::support;

TEST_CASE("numbers are written without exponent, trailing zeros or minus zero") {
    struct Row {
        double value;
        int decimals;
        const char* text;
    };
    const Row rows[] = {{0.0, 3, "0"},          {-0.0, 3, "0"},    {-0.0001, 3, "0"},
                        {1.5, 3, "1.5"},        {2.0, 0, "2"},     {1e6, 2, "1000000"},
                        {1.0 / 3, 4, "0.3333"}, {100.0, 2, "100"}, {-12.340, 2, "-12.34"}};
    for (const Row& row : rows) {
        CHECK(fixed(row.value, row.decimals) == row.text);
    }
    CHECK_THROWS_AS(fixed(1.0 / 0.0, 2), std::logic_error);
}

TEST_CASE("numbers are read whole or not at all") {
    CHECK(parse_integer("014") == 14);
    CHECK(parse_integer("-3") == -3);
    for (const char* bad :
         {"", " 1", "1 ", "1.0", "+1", "0x10", "1e3", "99999999999999999999", "1_000"}) {
        CAPTURE(bad);
        CHECK_FALSE(parse_integer(bad));
    }
    CHECK(parse_decimal("2.5") == 2.5);
    for (const char* bad : {"", "2,5", "nan", "inf", "1e3", "2.5 ", "--1"}) {
        CAPTURE(bad);
        CHECK_FALSE(parse_decimal(bad));
    }
}

TEST_CASE("lengths agree with the PDF user unit of 1/72 inch") {
    // Source: ISO 32000-1, 8.3.2.3; 3 mm = 8.50 pt, 5 mm = 14.17 pt, 20 mm = 56.69 pt (check on ISO
    // 216 sizes below).
    CHECK(Length::from_mm(25.4).pt() == Approx(72.0));
    CHECK(Length::from_mm(5).pt() == Approx(14.17).margin(0.005));
    // Source: ISO 216:2007, A4 = 210 mm x 297 mm.
    CHECK(Length::from_mm(210).pt() == Approx(595.276).margin(0.0005));
    CHECK(Length::from_mm(297).pt() == Approx(841.890).margin(0.0005));
    CHECK(Length::from_pt(12).mm() == Approx(4.233).margin(0.0005));
}

TEST_CASE("sides turn into words and back, and over") {
    for (const Side side : {Side::Left, Side::Right, Side::Both, Side::None}) {
        CHECK(side_from_word(to_word(side)) == side);
        CHECK(opposite(opposite(side)) == side);
    }
    CHECK(opposite(Side::Left) == Side::Right);
    CHECK_FALSE(side_from_word("Right"));
}

TEST_CASE("ill-formed UTF-8 is found at its first byte") {
    // Source: The Unicode Standard 15, table 3-7 and the examples of section 3.9 (overlong,
    // surrogate, too high, cut).
    struct Row {
        std::string text;
        std::optional<std::size_t> bad;
    };
    const Row rows[] = {{"abc", {}},
                        {"caf\xC3\xA9", {}},
                        {"a\xC0\xAF", 1},
                        {"\xED\xA0\x80", 0},
                        {"ab\xF4\x90\x80\x80", 2},
                        {"\xE2\x82", 0},
                        {"\xF0\x9F\x99\x82", {}},
                        {"\x80", 0},
                        {"\xE0\x9F\xBF", 0}};
    for (const Row& row : rows) {
        CAPTURE(row.text);
        CHECK(first_bad_utf8(row.text) == row.bad);
    }
}

TEST_CASE("every code point survives the way to UTF-8 and back") {
    for (char32_t code_point = 1; code_point <= 0x10FFFF; code_point += 7) {
        if (code_point >= 0xD800 && code_point <= 0xDFFF) {
            continue;
        }
        std::string text;
        append_utf8(text, code_point);
        const auto decoded = decode_utf8(text);
        REQUIRE(decoded);
        REQUIRE(decoded->code_point == code_point);
        REQUIRE(decoded->length == text.size());
    }
}

TEST_CASE("a finding prints its place, its line, a caret and the hint") {
    Sources sources;
    const int file = sources.add("rx.yaml", "clinic:\n  name: \xC3\x89lan \xE2\x9C\x93 dose\r\n");
    Findings findings;
    findings.error({file, 2, 15}, "dose-syntax", "the dose is cut short", "write 3 x 10");
    CHECK(to_text(findings.all()[0], sources) ==
          "rx.yaml:2:15: error: the dose is cut short [dose-syntax]\n"
          "      name: \xC3\x89lan \xE2\x9C\x93 dose\n"
          "                  ^\n"
          "    hint: write 3 x 10\n");
    CHECK(to_json_line(findings.all()[0], sources) ==
          "{\"file\":\"rx.yaml\",\"line\":2,\"column\":15,\"severity\":\"error\",\"id\":\"dose-"
          "syntax\","
          "\"message\":\"the dose is cut short\",\"hint\":\"write 3 x 10\"}\n");
}

TEST_CASE("findings come sorted by place and without doubles") {
    Findings findings;
    findings.warning({0, 5, 1}, "b", "later");
    findings.error({0, 2, 3}, "a", "first");
    findings.error({0, 2, 3}, "a", "first");
    const auto sorted = findings.sorted();
    REQUIRE(sorted.size() == 2);
    CHECK(sorted[0].message == "first");
    CHECK(findings.has_errors());
}

TEST_CASE("the nearest known word is offered only when it is near") {
    const std::vector<std::string> known = {"heel-raise", "step-up", "stand-one-leg"};
    CHECK(closest("heel-rise", known) == "heel-raise");
    CHECK(closest("stepup", known) == "step-up");
    CHECK(closest("plank", known).empty());
}

TEST_CASE("angles keep degrees and the quadrant") {
    CHECK(sine(Angle::from_degrees(30)) == Approx(0.5));
    CHECK(cosine(Angle::from_degrees(60)) == Approx(0.5));
    CHECK(arc_tangent(-1, -1).degrees() == Approx(-135));
}
