// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "pdf/content_stream.h"
#include "pdf/round_shapes.h"
#include "pdf/run_text.h"
#include "pdf/text_string.h"

using namespace tickleaf;

TEST_CASE("numbers in content streams have no exponent, no minus zero, no trailing zeros") {
    struct Row {
        double value;
        int decimals;
        const char* text;
    };
    for (const Row& row : {Row{0.0, 2, "0"}, Row{-0.0, 2, "0"}, Row{-0.001, 2, "0"},
                           Row{0.5, 2, ".5"}, Row{-0.25, 2, "-.25"}, Row{841.89, 2, "841.89"},
                           Row{12.30, 2, "12.3"}, Row{100.0, 2, "100"}, Row{0.05, 2, ".05"},
                           Row{1e-7, 5, "0"}, Row{30000.0, 3, "30000"}, Row{0.005, 3, ".005"}}) {
        std::string out;
        pdf::append_number(out, row.value, row.decimals);
        CHECK(out == row.text);
    }
}

TEST_CASE("text strings take the short encoding where it can carry them") {
    // ISO 32000-1, D.2: 0xE9 is e acute in PDFDocEncoding; 0xAD is not assigned.
    CHECK(pdf::pdf_doc_encoded(U"Caf\u00E9") == "Caf\xE9");
    CHECK_FALSE(pdf::pdf_doc_encoded(U"\u00AD").has_value());
    CHECK_FALSE(pdf::pdf_doc_encoded(U"\u0644").has_value());
    CHECK(pdf::hex(pdf::utf16be(U"\u0644")) == "0644");
    // The Unicode Standard 15, 3.9, table 3-5: U+10302 is D800 DF02 in UTF-16.
    CHECK(pdf::hex(pdf::utf16be(U"\U00010302")) == "D800DF02");
    std::string out;
    pdf::append_literal(out, "a(b)\\\r");
    CHECK(out == "(a\\(b\\)\\\\\\r)");
}

TEST_CASE("XML keeps no markup and no illegal characters") {
    CHECK(pdf::xml_escaped(U"<a & \"b\">\x01") == "&lt;a &amp; &quot;b&quot;&gt;");
    // What is said or listed has no controls, and plain spaces only.
    CHECK(pdf::spoken("\u20682\u00A0\u2060Mar\u2069\nMon\u200F\u202Fkg") == U"2 Mar Mon kg");
}

TEST_CASE("language tags are those of PDF/UA-1, 7.2") {
    for (const char* good : {"en", "zh-Hans-CN", "ar-EG", "es-419", "x-tickleaf"}) {
        CHECK(pdf::is_language_tag(good));
    }
    for (const char* bad : {"", "en_US", "-en", "en-", "1en", "english-toolonghere", "e n"}) {
        CHECK_FALSE(pdf::is_language_tag(bad));
    }
}

namespace {

page::GlyphRun run_of(const std::string& text, bool right_to_left,
                      const std::vector<std::pair<unsigned, unsigned>>& ranges) {
    page::GlyphRun run;
    run.text = text;
    run.right_to_left = right_to_left;
    for (const auto& [begin, end] : ranges) {
        run.glyphs.push_back(page::Glyph{.id = 1, .text_begin = begin, .text_end = end});
    }
    return run;
}

} // namespace

TEST_CASE("the text of a cluster is spread over its glyphs") {
    using Texts = std::vector<std::u32string>;
    SECTION("a ligature keeps all its characters and needs no help") {
        const auto text = pdf::distribute_text(run_of("fi", false, {{0, 2}}));
        CHECK(text.glyphs == Texts{U"fi"});
        CHECK(text.words.empty());
    }
    SECTION("surplus glyphs are zero-width spaces and the word says its text once") {
        const auto text = pdf::distribute_text(run_of("ab", false, {{0, 1}, {0, 1}, {1, 2}}));
        CHECK(text.glyphs == Texts{U"a", U"\u200B", U"b"});
        REQUIRE(text.words.size() == 1);
        CHECK(text.words[0].text == U"ab");
        CHECK(text.words[0].end == 3);
    }
    SECTION("a reordered Devanagari cluster has its word's text, its neighbour has not") {
        const auto text = pdf::distribute_text(
            run_of("\u0915\u093F \u0915", false, {{0, 6}, {0, 6}, {6, 7}, {7, 10}}));
        REQUIRE(text.words.size() == 1);
        CHECK(text.words[0].begin == 0);
        CHECK(text.words[0].end == 2);
        CHECK(text.words[0].text == U"\u0915\u093F");
    }
    SECTION("right to left, characters are given out from the right and words say nothing") {
        const auto text = pdf::distribute_text(run_of("\u05D1\u05B0", true, {{0, 4}, {0, 4}}));
        CHECK(text.glyphs == Texts{U"\u05B0", U"\u05D1"});
        CHECK(text.words.empty());
    }
    SECTION("lam-alef is its presentation form: isolated, and final after a joining letter") {
        // The Unicode Standard 15, Arabic Presentation Forms-B.
        CHECK(pdf::distribute_text(run_of("\u0644\u0627", true, {{0, 4}})).glyphs ==
              Texts{U"\uFEFB"});
        CHECK(pdf::distribute_text(run_of("\u0633\u0644\u0627", true, {{2, 6}, {0, 2}})).glyphs ==
              Texts{U"\uFEFC", U"\u0633"});
        CHECK(pdf::distribute_text(run_of("\u0627\u0644\u0623", true, {{2, 6}, {0, 2}})).glyphs ==
              Texts{U"\uFEF7", U"\u0627"});
    }
    SECTION("bidi controls never reach the text; a glyph for one alone is not shown") {
        const auto text =
            pdf::distribute_text(run_of("\u2068a\u2069", false, {{0, 3}, {3, 4}, {4, 7}}));
        CHECK(text.glyphs == Texts{U"", U"a", U""});
    }
}

TEST_CASE("marks and text objects are nested properly whatever comes") {
    pdf::ContentStream stream;
    stream.begin_mark("P", "<</MCID 0>>", true);
    stream.font(0, 12.0);
    stream.move_to({10.0, 20.0});
    stream.code({1, 2}, 0);
    stream.code({2, 1}, -40);
    stream.end_mark();
    stream.begin_mark("Artifact", "", false);
    page::Shape line;
    line.path = {{.kind = page::PathStep::Kind::Move, .to = {0, 0}},
                 {.kind = page::PathStep::Kind::Line, .to = {5, 5}}};
    line.stroke = page::Stroke{};
    stream.shape(line, pdf::Placement{});
    stream.end_mark();
    static constexpr char kExpected[] =
        "BT\n/P<</MCID 0>>BDC\n/F0 12 Tf\n10 20 Td\n[(\0\1)40(\2)]TJ\nEMC\nET\n"
        "/Artifact BMC\n0 G\n1 w\n1 J\n[]0 d\n0 0 m\n5 5 l\nS\nEMC\n";
    CHECK(stream.finish() == std::string(kExpected, sizeof(kExpected) - 1));
}

TEST_CASE("bold of a face without a bold file is filled and stroked, and ends with its run") {
    // Source: ISO 32000-1:2008, table 106 (text rendering mode 2: fill, then stroke) and table 57.
    pdf::ContentStream stream;
    const page::Colour red{255, 0, 0};
    stream.font(0, 10.0);
    stream.fill_colour(red);
    stream.outline(0.3, red);
    stream.move_to({10.0, 20.0});
    stream.code({1, 1}, 0);
    stream.outline(0.3, red);
    stream.code({2, 1}, 0);
    stream.outline(0.0, red);
    stream.code({3, 1}, 0);
    CHECK(stream.finish() == "BT\n/F0 10 Tf\n1 0 0 rg\n2 Tr\n1 0 0 RG\n.3 w\n1 j\n[]0 d\n10 20 Td\n"
                             "(\1)Tj\n(\2)Tj\n0 Tr\n(\3)Tj\nET\n");
}

TEST_CASE("round corners and dots are strokes that paint the same points") {
    page::Shape card;
    card.path = page::rounded_rectangle(10.0, 20.0, 100.0, 50.0, 4.0);
    card.fill = page::Colour{1, 2, 3};
    const auto box = pdf::with_round_stroke(card);
    REQUIRE(box);
    // The rectangle and all points within 4 of it.
    CHECK(box->path == page::rectangle(14.0, 24.0, 92.0, 42.0));
    CHECK(box->stroke->width == Approx(8.0));
    CHECK(box->stroke->cap == page::Stroke::Cap::Round);
    CHECK(box->stroke->colour == *card.fill);
    CHECK(box->fill == card.fill);
    page::Shape disc;
    disc.path = page::circle({30.0, 40.0}, 6.0);
    disc.fill = page::Colour{1, 2, 3};
    const auto dot = pdf::with_round_stroke(disc);
    REQUIRE(dot);
    CHECK(dot->path == page::line({30.0, 40.0}, {30.0, 40.0}));
    CHECK(dot->stroke->width == Approx(12.0));
    CHECK_FALSE(dot->fill);
    SECTION("but not where there is a stroke, or another curve") {
        card.stroke = page::Stroke{};
        CHECK_FALSE(pdf::with_round_stroke(card));
        disc.path[2].a.x += 1.0;
        CHECK_FALSE(pdf::with_round_stroke(disc));
        page::Shape square;
        square.path = page::rectangle(0.0, 0.0, 9.0, 9.0);
        square.fill = page::Colour{};
        CHECK_FALSE(pdf::with_round_stroke(square));
    }
}
