// SPDX-License-Identifier: MIT
// What a text may not hold, what fonts must have, and in which order mixed directions are printed.
#include "text/paragraph.h"

#include <catch2/catch.hpp>
#include <unicode/ubidi.h>

#include "disk.h"
#include "support/utf8.h"
#include "text/collect.h"

namespace tickleaf::text {

namespace {

struct BadRow {
    const char* text;
    const char* id;
    const char* named; ///< part of the message
    const char* drawn; ///< what is left
};

const BadRow kBad[] = {
    {"a\xFF b", "text-encoding", "byte 2 in the test is not UTF-8", "a b"},
    {"a\xED\xA0\x80 b", "text-encoding", "byte 2 in the test is not UTF-8", "a b"},
    {"a\u0007b", "text-control", "U+0007", "ab"},
    {"a\u202Eb", "text-bidi-control", "U+202E RIGHT-TO-LEFT OVERRIDE in the test", "ab"},
    {"a\u202Ab\u202C", "text-bidi-control", "U+202A LEFT-TO-RIGHT EMBEDDING", "ab"},
    {"a\u2067b", "text-bidi-control", "begun but not ended", "ab"},
    {"a\u2069b", "text-bidi-control", "not begun", "ab"},
    {"a\uE000b", "text-private-use", "U+E000", "ab"},
    {"a\uFEFFb", "text-zero-width", "U+FEFF ZERO WIDTH NO-BREAK SPACE in the test", "ab"},
    {"a\u2062b", "text-zero-width", "U+2062 INVISIBLE TIMES", "ab"},
    {"1\u200B5", "text-split-number", "U+200B ZERO WIDTH SPACE", "15"},
    {"1\u00AD5", "text-split-number", "U+00AD SOFT HYPHEN", "15"},
    {"5\u200B-10", "text-split-number", "U+200B ZERO WIDTH SPACE", "5-10"},
    {"5-\u200B10", "text-split-number", "U+200B ZERO WIDTH SPACE", "5-10"},
    {"1\u200F5", "text-split-number", "U+200F RIGHT-TO-LEFT MARK", nullptr},
    {"5\u200F-10", "text-split-number", "U+200F RIGHT-TO-LEFT MARK", nullptr},
    {"-\u061C5", "text-split-number", "U+061C ARABIC LETTER MARK", nullptr},
    {"a\uFFFDb", "text-lost", "U+FFFD REPLACEMENT CHARACTER", "ab"},
    {"a\u2800b", "text-zero-width", "U+2800 BRAILLE PATTERN BLANK", "ab"},
    {"a\u3164b", "text-zero-width", "U+3164 HANGUL FILLER", "ab"},
    {"a\u0378b", "text-unassigned", "U+0378", "ab"},
    {"a\U0010FFFFb", "text-unassigned", "U+10FFFF", "ab"},
    {"\u0301a", "text-lone-mark", "U+0301 COMBINING ACUTE ACCENT", "a"},
    {"a \u0301b", "text-lone-mark", "U+0301", "a b"},
    {"a\U00012000b", "font-coverage", "U+12000 CUNEIFORM SIGN A in the test", "ab"},
    {"\u0915\u093E\u093E\u0902\u093F", "text-broken-syllable", "makes no syllable", nullptr},
};

std::string drawn(const Paragraph& paragraph) {
    std::string text;
    for (const Line& line : paragraph.lines({1e6, 0.0})) {
        for (const page::GlyphRun& run : as_seen(line)) {
            text += run.text;
            for (const page::Glyph& glyph : run.glyphs) {
                CHECK(glyph.id != 0);
            }
        }
    }
    return text;
}

} // namespace

TEST_CASE("characters that do not belong in a patient's text are reported and not drawn") {
    for (const BadRow& row : kBad) {
        INFO(row.named);
        Desk desk;
        const Paragraph paragraph = desk.prepare_text(row.text, "en");
        REQUIRE(desk.findings.has_errors());
        const auto findings = desk.findings.sorted();
        CHECK(findings.front().id == row.id);
        CHECK(findings.front().message.find(row.named) != std::string::npos);
        CHECK_FALSE(findings.front().hint.empty());
        const std::string text = drawn(paragraph);
        if (row.drawn != nullptr) {
            CHECK(text == row.drawn);
        }
    }
}

TEST_CASE("invisible characters that do something are taken without a word") {
    for (const char* text :
         {"5 km\u200F.", "word\u200Bword 5", "5\u200E-10", "5 \u200B10", "Pa\u00ADin", "5.\u200F",
          "می\u200Cروم", "a\u2060b", "No.\u200B5", "well-\u200B5"}) {
        INFO(text);
        Desk desk;
        desk.prepare_text(text, "en");
        CHECK(desk.complaints().empty());
    }
}

TEST_CASE("ten thousand marks on one letter are cut off with one finding") {
    Desk desk;
    std::string text = "a";
    for (int i = 0; i < 10000; ++i) {
        text += "\u0301";
    }
    const Paragraph paragraph = desk.prepare_text(text, "en");
    REQUIRE(desk.findings.size() == 1);
    CHECK(desk.findings.all().front().id == "text-marks");
    CHECK(drawn(paragraph).size() == 1 + 30 * 2);
}

TEST_CASE("an empty text has no lines and the height of its language") {
    Desk desk;
    const Paragraph paragraph = desk.prepare_text("", "ur");
    CHECK(paragraph.lines({100.0, 0.0}).empty());
    CHECK(paragraph.natural_width() == 0.0);
    CHECK(paragraph.line_height() == Approx(Desk::shared()->line_height("ur") * 12.0));
    // Measured, see templates/fonts.yaml: closer lines of this hand touch.
    CHECK(paragraph.closest_lines() == paragraph.line_height());
    CHECK(Paragraph().lines({100.0, 0.0}).empty());
}

TEST_CASE("a missing font file is an error that names its package") {
    DiskEnvironment environment;
    environment.hidden.insert("/usr/share/fonts/opentype/noto/NotoSansCJK-Regular.ttc");
    support::Sources sources;
    support::Findings findings;
    const auto fonts = Fonts::load(environment, sources, findings);
    REQUIRE(fonts);
    CHECK_FALSE(fonts->state("ja").ready);
    CHECK(fonts->state("ja").missing_packages == std::vector<std::string>{"fonts-noto-cjk"});
    CHECK(fonts->state("es").ready);
    FontSet set(fonts);
    const Paragraph paragraph = prepare(set, {"痛み", "ja", false, {}, "the test", {}}, findings);
    REQUIRE(findings.has_errors());
    CHECK(findings.sorted().front().hint.find("fonts-noto-cjk") != std::string::npos);
    CHECK(paragraph.lines({100.0, 0.0}).size() <= 1);
}

TEST_CASE("a font table that is wrong is refused with the place") {
    DiskEnvironment environment;
    environment.table =
        "format: 1\npackages:\n  p:\n    folder: /x\n    families:\n"
        "      sans: {regular: a.ttf, line_height: 1.3}\nscripts: {Latn: snas}\nfallback: [sans]\n";
    support::Sources sources;
    support::Findings findings;
    Fonts::load(environment, sources, findings);
    REQUIRE(findings.size() == 1);
    CHECK(findings.all().front().message == "there is no font family \"snas\"");
    CHECK(findings.all().front().span.line == 7);
    environment.table =
        "format: 1\npackages:\n  p:\n    folder: /x\n    families:\n"
        "      sans: {regular: a.ttf, bold: b.ttf, bold_stroke: 0.03, line_height: 1.3}\n"
        "scripts: {Latn: sans}\nfallback: [sans]\n";
    Fonts::load(environment, sources, findings);
    REQUIRE(findings.size() == 2);
    CHECK(findings.all().back().message.find("bold_stroke") == 0);
    environment.table = "format: 2\npackages: {}\nscripts: {}\n";
    CHECK(Fonts::load(environment, sources, findings) == nullptr);
}

TEST_CASE("every file of the font table is there and every language of its own finds its hand") {
    for (const Family& family : Desk::shared()->impl().table.families) {
        INFO(family.name);
        CHECK(std::ifstream(family.regular).good());
        CHECK((family.bold.empty() || std::ifstream(family.bold).good()));
        std::string bold = family.regular;
        bold.replace(bold.rfind("-Regular"), 8, "-Bold");
        CHECK(family.bold.empty() == (family.bold_stroke > 0.0));
        // Every bold file there is, is used, but for the large ones of Chinese, Japanese, Korean.
        CHECK(std::ifstream(bold).good() ==
              (!family.bold.empty() || family.package == "fonts-noto-cjk"));
    }
    struct Row {
        const char* language;
        const char* family;
    };
    const Row rows[] = {{"en", "sans"},        {"ar", "arabic"},        {"ur", "nastaliq"},
                        {"pa", "gurmukhi"},    {"pa-Arab", "nastaliq"}, {"pa-PK", "nastaliq"},
                        {"sd", "arabic"},      {"ja", "cjk-ja"},        {"ko", "cjk-ko"},
                        {"zh", "cjk-sc"},      {"zh-TW", "cjk-tc"},     {"zh-HK", "cjk-hk"},
                        {"zh-Hant", "cjk-tc"}, {"th", "thai"},          {"am", "ethiopic"},
                        {"sr", "sans"},        {"ckb", "arabic"},       {"my", "burmese"}};
    for (const Row& row : rows) {
        INFO(row.language);
        const auto& shared = Desk::shared()->impl();
        CHECK(shared.table.families[shared.main_family(describe_language(row.language))].name ==
              row.family);
    }
}

TEST_CASE("12 pt body text has an x-height of at least 2 mm") {
    // Source: RNIB clear print (x-height at least 2 mm); 1 pt = 25.4/72 mm.
    for (const char* language : {"en", "es", "pl", "ru", "el", "vi", "tr"}) {
        CHECK(Desk::shared()->x_height(language) * 12.0 * 25.4 / 72.0 >= 2.0);
    }
}

TEST_CASE("directions of languages") {
    // Source: CLDR likely subtags and the directions of their scripts (UCD 15).
    for (const char* language :
         {"ar", "fa", "ur", "he", "ps", "ckb", "ug", "dv", "yi", "sd", "pa-PK"}) {
        CHECK(is_right_to_left(language));
    }
    for (const char* language : {"en", "hi", "th", "zh-Hant", "pa", "ku", "az", "so", "tr"}) {
        CHECK_FALSE(is_right_to_left(language));
    }
}

namespace {

/// What is printed, read from left to right: glyphs in their order, each by the text it stands for.
std::string printed(const std::vector<Line>& lines) {
    std::string result;
    for (const Line& line : lines) {
        for (const page::GlyphRun& run : as_seen(line)) {
            std::uint32_t last = static_cast<std::uint32_t>(-1);
            for (const page::Glyph& glyph : run.glyphs) {
                if (glyph.text_begin != last) {
                    result += run.text.substr(glyph.text_begin, glyph.text_end - glyph.text_begin);
                }
                last = glyph.text_begin;
            }
        }
    }
    return result;
}

struct OrderRow {
    const char* text;
    const char* alone;
    const char* hebrew;
    const char* arabic;
    const char* isolated; ///< between Arabic, inside LRI ... PDI
};

// Source: UAX #9 rules W1 to W7, N1, N2, L2, with ICU 72 as reference (the project's table of dose
// strings).
const OrderRow kOrders[] = {
    {"3×15", "15×3", "15×3", "15×3", "3×15"},
    {"3 × 15", "15 × 3", "15 × 3", "15 × 3", "3 × 15"},
    {"3x15", "3x15", "3x15", "3x15", "3x15"},
    {"3-0-1-0", "3-0-1-0", "3-0-1-0", "0-1-0-3", "3-0-1-0"},
    {"5-10", "5-10", "5-10", "10-5", "5-10"},
    {"5–10", "10–5", "10–5", "10–5", "5–10"},
    {"5‑10", "10‑5", "10‑5", "10‑5", "5‑10"},
    {"2026-03-21", "2026-03-21", "2026-03-21", "21-03-2026", "2026-03-21"},
    {"21/03/2026", "21/03/2026", "21/03/2026", "21/03/2026", "21/03/2026"},
    {"0/10", "0/10", "0/10", "0/10", "0/10"},
    {"12:30", "12:30", "12:30", "12:30", "12:30"},
    {"2.5", "2.5", "2.5", "2.5", "2.5"},
    {"2,5", "2,5", "2,5", "2,5", "2,5"},
    {"10%", "10%", "10%", "%10", "10%"},
    {"45°", "45°", "45°", "°45", "45°"},
    {"10 %", "% 10", "% 10", "% 10", "10 %"},
    {"2 kg", "kg 2", "kg 2", "kg 2", "2 kg"},
    {"+5", "5+", "5+", "5+", "+5"},
    {"−5", "5−", "5−", "5−", "−5"},
    {"٣×١٥", "١٥×٣", "١٥×٣", "١٥×٣", "١٥×٣"},
    {"٣-٠-١", "١-٠-٣", "١-٠-٣", "١-٠-٣", "١-٠-٣"},
    {"٣/١٠", "٣/١٠", "٣/١٠", "٣/١٠", "٣/١٠"},
    {"۳-۰-۱", "۳-۰-۱", "۳-۰-۱", "۱-۰-۳", "۳-۰-۱"},
    {"۳×۱۵", "۱۵×۳", "۱۵×۳", "۱۵×۳", "۳×۱۵"},
};

std::string printed_in(const std::string& text, const char* language) {
    Desk desk;
    const Paragraph paragraph =
        prepare(desk.set, {text, language, true, {}, "the test", {}}, desk.findings);
    CHECK(desk.complaints() == "");
    return printed(paragraph.lines({1e6, 0.0}));
}

} // namespace

TEST_CASE("dose strings in right-to-left text stand in the order of UAX #9") {
    for (const OrderRow& row : kOrders) {
        INFO(row.text);
        const std::string text = row.text;
        CHECK(printed_in(text, "ar") == row.alone);
        CHECK(printed_in("א " + text + " א", "he") == "א " + std::string(row.hebrew) + " א");
        CHECK(printed_in("د " + text + " د", "ar") == "د " + std::string(row.arabic) + " د");
        CHECK(printed_in("د \u2066" + text + "\u2069 د", "ar") ==
              "د " + std::string(row.isolated) + " د");
    }
}

namespace {

/// As printed(), with brackets as they are drawn: a run from right to left shows the glyph of the
/// other one.
std::string seen_in(const std::string& text, const char* language) {
    Desk desk;
    const Paragraph paragraph = desk.prepare_text(text, language);
    CHECK(desk.complaints() == "");
    std::string result;
    for (const Line& line : paragraph.lines({1e6, 0.0})) {
        for (const page::GlyphRun& run : as_seen(line)) {
            for (const page::Glyph& glyph : run.glyphs) {
                const std::string own =
                    run.text.substr(glyph.text_begin, glyph.text_end - glyph.text_begin);
                const std::string brackets = "()[]";
                const std::size_t place = own.size() == 1 ? brackets.find(own) : std::string::npos;
                const char other = place == std::string::npos ? '\0' : brackets[place ^ 1];
                const Face& face = *desk.set.impl().used.at(run.font).face;
                const bool mirrored =
                    other != '\0' && glyph.id == face.glyph(static_cast<char32_t>(other));
                result += mirrored ? std::string(1, other) : own;
            }
        }
    }
    return result;
}

} // namespace

TEST_CASE("brackets and their contents keep together") {
    // Source: UAX #9, N0 (paired brackets), worked by hand for right-to-left paragraphs: brackets
    // take the direction of the paragraph where their contents have it, else that of their contents
    // where what stands before agrees.
    struct Row {
        const char* language;
        const char* text;
        const char* printed;
    };
    const Row rows[] = {
        {"he", "א book(s)", "book(s) א"},
        {"he", "א (book) ב", "ב (book) א"},
        {"he", "Rosa (ab א) ב", "ב (א ab) Rosa"},
        {"ar", "د (5) د", "د (5) د"},
        {"ar", "د (Rosa, 5) د", "د (Rosa, 5) د"},
        {"ar", "د [\u20663×15\u2069]", "[3×15] د"},
        {"ar", "د \u2068Rosa M. (PT)\u2069، \u2068+44 1632 960123\u2069.",
         ".+44 1632 960123 ،Rosa M. (PT) د"},
    };
    for (const Row& row : rows) {
        INFO(row.text);
        CHECK(seen_in(row.text, row.language) == row.printed);
    }
}

TEST_CASE("runs of a line come in reading order, wherever they are drawn") {
    Desk desk;
    const auto lines = desk.prepare_text("المادة 12: Rosa ثم", "ar").lines({1e6, 0.0});
    REQUIRE(lines.size() == 1);
    std::string text;
    for (const page::GlyphRun& run : lines.front().runs) {
        text += run.text;
    }
    CHECK(text == "المادة 12: Rosa ثم");
    CHECK(lines.front().runs.front().origin.x > lines.front().runs.back().origin.x);
}

TEST_CASE("bidi levels of dose strings") {
    // Source: UAX #9, worked with ICU 72.
    struct Row {
        const char16_t* text;
        UBiDiLevel base;
        const char* levels;
    };
    const Row rows[] = {{u"\u05D0 5-10 \u05D0", 1, "11222211"},
                        {u"\u0627 5-10 \u0627", 1, "11212211"},
                        {u"\u0627 \u20665-10\u2069 \u0627", 1, "1112222111"},
                        {u"abc \u05D0\u05D1\u05D2 def", 0, "00001110000"}};
    for (const Row& row : rows) {
        const std::u16string text = row.text;
        UErrorCode status = U_ZERO_ERROR;
        UBiDi* bidi = ubidi_open();
        ubidi_setPara(bidi, text.data(), static_cast<int32_t>(text.size()), row.base, nullptr,
                      &status);
        const UBiDiLevel* levels = ubidi_getLevels(bidi, &status);
        std::string found;
        for (std::size_t i = 0; i < text.size(); ++i) {
            found += static_cast<char>('0' + levels[i]);
        }
        CHECK(found == row.levels);
        ubidi_close(bidi);
    }
}

TEST_CASE("a text that was shaped before comes out the same, in any document and size") {
    Desk first;
    Desk second;
    first.set.impl().extra_buffer_flags = 0;
    second.set.impl().extra_buffer_flags = 0;
    const char* text = "اجلس 45 ثانية (Rosa M.)";
    const ParagraphSource source{text, "ar", true, {}, "the test", {}};
    const auto shaped = prepare(first.set, source, first.findings);
    const auto recalled = prepare(first.set, source, first.findings);
    // The other document has used another face before, so its numbers differ.
    second.prepare_text("ひ", "ja");
    auto large = source;
    large.style.size = 24.0;
    const auto elsewhere = prepare(second.set, large, second.findings);
    const auto a = shaped.lines({80.0, 0.0});
    const auto b = recalled.lines({80.0, 0.0});
    const auto c = elsewhere.lines({160.0, 0.0});
    REQUIRE(a.size() == b.size());
    REQUIRE(a.size() == c.size());
    CHECK(printed(a) == printed(b));
    CHECK(printed(a) == printed(c));
    for (std::size_t i = 0; i < a.size(); ++i) {
        CHECK(a[i].width == b[i].width);
        CHECK(a[i].width * 2.0 == Approx(c[i].width));
        for (std::size_t k = 0; k < a[i].runs.size(); ++k) {
            CHECK(a[i].runs[k].font == b[i].runs[k].font);
            const auto& face_a = first.set.impl().used.at(a[i].runs[k].font).face;
            CHECK(face_a == second.set.impl().used.at(c[i].runs[k].font).face);
        }
    }
}

TEST_CASE("a complaint is made again each time") {
    Desk desk;
    desk.set.impl().extra_buffer_flags = 0;
    desk.prepare_text("a\u202Eb", "en");
    desk.prepare_text("a\u202Eb", "en");
    CHECK(desk.findings.size() == 2);
}

} // namespace tickleaf::text
