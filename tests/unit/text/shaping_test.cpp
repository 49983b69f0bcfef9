// SPDX-License-Identifier: MIT
// Glyphs against hb-shape, shaping facts of the scripts, visual order, and the subsets that are
// embedded.
#include "text/paragraph.h"

#include <algorithm>
#include <map>
#include <numeric>

#include <catch2/catch.hpp>
#include <harfbuzz/hb-ot.h>

#include "disk.h"
#include "text/prepared.h"

namespace tickleaf::text {

namespace {

struct ShapeRow {
    const char* language;
    const char* text;
    std::vector<std::uint32_t> glyphs; ///< visual order
    int advance;                       ///< font units
};

// Source: hb-shape 6.0.0 (Debian 12, libharfbuzz-bin) on the same file and face, with --language
// and
// --direction given, --no-glyph-names --no-positions --no-clusters; advances summed from
// --output-format=json.
const std::vector<ShapeRow> kShapes = {
    {"en", "office AVATAR", {82, 1969, 70, 72, 3, 36, 57, 36, 55, 36, 53}, 6330},
    {"en",
     "Hold 30 s, then rest.",
     {43, 82, 79, 71, 3, 22, 19, 3, 86, 15, 3, 87, 75, 72, 81, 3, 85, 72, 86, 87, 17},
     9376},
    {"es",
     "Levántese despacio. ¿Duele?",
     {47, 72, 89, 163, 81, 87, 72,  86, 72, 3,  71, 72, 86, 83,
      68, 70, 76, 82,  17, 3,  129, 39, 88, 72, 79, 72, 34},
     13290},
    {"vi",
     "Ngừng ngay nếu đau nhiều hơn",
     {49, 74,  836, 81, 74, 3,  81, 74, 68,  92, 3, 81, 792, 88,
      3,  211, 68,  88, 3,  81, 75, 76, 794, 88, 3, 75, 581, 81},
     15010},
    {"tr", "fizik", {1967, 93, 76, 78}, 1864},
    {"ro", "şi ţară", {329, 76, 3, 292, 68, 85, 197}, 2873},
    {"ru",
     "Повторите упражнение",
     {440, 471, 459, 475, 471, 473, 465, 475, 462, 3,
      476, 472, 473, 457, 463, 470, 462, 470, 465, 462},
     11636},
    {"bg", "вдигнете", {459, 461, 465, 460, 470, 462, 475, 462}, 4464},
    {"sr", "подигните", {472, 471, 461, 465, 460, 470, 465, 475, 462}, 5196},
    {"el",
     "Σταματήστε αμέσως",
     {367, 400, 381, 392, 381, 400, 378, 399, 400, 385, 3, 381, 392, 377, 399, 405, 398},
     9442},
    {"ar", "ببب", {36, 37, 38}, 1384},
    {"ar", "سلام", {482, 1565, 448, 250}, 1757},
    {"ar", "دار", {211, 3, 181}, 1038},
    {"fa", "می‌روم", {482, 536, 211, 1364, 596, 485}, 2486},
    {"ur",
     "ورزش روزانہ کریں",
     {235, 15, 973, 312, 341, 972, 414, 3,   279, 11,  972, 319,
      224, 11, 239, 249, 239, 3,   13,  240, 11,  239, 239, 249},
     6399},
    {"he", "שָׁלוֹם", {23, 46, 124, 55, 79, 100, 96}, 2227},
    {"hi", "कि क्षि र्क", {607, 25, 3, 610, 179, 3, 25, 181}, 3274},
    {"mr", "व्यायाम", {557, 66, 51, 66, 50}, 2618},
    {"bn", "কি কো", {55, 20, 3, 450, 20, 54}, 2752},
    {"pa", "ਕਸਰਤ", {17, 48, 43, 32}, 2339},
    {"ta", "உடற்பயிற்சி", {10, 23, 91, 28, 30, 165, 91, 20, 167}, 6486},
    {"te", "వ్యాయామం", {169, 496, 164, 47, 6}, 4647},
    {"ml", "വ്യായാമം", {55, 160, 64, 49, 64, 48, 6}, 4420},
    {"si", "ව්‍යායාම", {58, 128, 66, 55, 66, 53}, 3748},
    {"th", "น้ำหนัก", {72, 60, 50, 87, 20, 72, 46, 30}, 3009},
    {"lo", "ອອກກຳລັງກາຍ", {29, 29, 4, 4, 35, 25, 58, 7, 4, 34, 10}, 5557},
    {"km", "ឈប់បើឈឺខ្លាំង", {33, 46, 122, 107, 46, 85, 33, 89, 214, 198, 113, 29}, 5618},
    {"my", "နာကျင်မှု", {24, 368, 4, 382, 8, 381, 29, 178}, 3732},
    {"am", "እንቅስቃሴ", {104, 272, 330, 374, 329, 376}, 3674},
    {"bo", "ལུས་རྩལ", {970, 43, 1261, 928, 40}, 2927},
    {"ka", "ვარჯიში", {211, 112, 192, 159, 155, 196, 155}, 4222},
    {"hy", "վարժություն", {85, 55, 87, 64, 79, 63, 75, 79, 76}, 6066},
    {"ja", "骨盤を直す", {45132, 27845, 1541, 27873, 1484}, 5000},
    {"ko", "통증이", {57264, 55192, 54639}, 2760},
    {"zh-Hans", "直骨，停止。", {27874, 45133, 59058, 10406, 22619, 1398}, 6000},
    {"zh-Hant", "直骨，停止。", {27874, 45134, 63148, 10406, 22619, 63146}, 6000},
    {"zh-HK", "直骨，停止。", {27875, 45132, 63148, 10406, 22619, 63146}, 6000},
};

std::vector<std::uint32_t> ids_of(const Line& line) {
    std::vector<std::uint32_t> ids;
    for (const page::GlyphRun& run : as_seen(line)) {
        for (const page::Glyph& glyph : run.glyphs) {
            ids.push_back(glyph.id);
        }
    }
    return ids;
}

Line one_line(const Paragraph& paragraph) {
    const auto lines = paragraph.lines({1e6, 0.0});
    REQUIRE(lines.size() == 1);
    return lines.front();
}

} // namespace

TEST_CASE("glyph runs equal hb-shape") {
    for (const ShapeRow& row : kShapes) {
        INFO(row.language << " " << row.text);
        Desk desk;
        const Paragraph paragraph = desk.prepare_text(row.text, row.language);
        const Line line = one_line(paragraph);
        CHECK(desk.complaints() == "");
        CHECK(ids_of(line) == row.glyphs);
        CHECK(line.width == Approx(row.advance * 12.0 / 1000.0).margin(1e-6));
        CHECK(paragraph.natural_width() == Approx(line.width).margin(1e-6));
    }
}

TEST_CASE("East Asian text is set in the face of its language") {
    struct Row {
        const char* language;
        const char* text;
        const char* family;
    };
    const Row rows[] = {{"ja", "直骨、痛みカ3回", "cjk-ja"},
                        {"zh-Hans", "直骨，3次", "cjk-sc"},
                        {"zh-TW", "直骨，3次", "cjk-tc"},
                        {"zh-HK", "直骨，3次", "cjk-hk"},
                        {"ko", "통증 痛 3회", "cjk-ko"}};
    for (const Row& row : rows) {
        INFO(row.language);
        Desk desk;
        desk.prepare_text(row.text, row.language);
        const auto& used = desk.set.impl().used;
        REQUIRE(used.size() == 1);
        CHECK(desk.set.fonts().impl().table.families.at(used[0].family).name == row.family);
    }
}

TEST_CASE("a bold without a file of its own is the regular with a line along its edges") {
    struct Row {
        const char* language;
        const char* text;
        bool stroked;
    };
    const Row rows[] = {{"zh-Hans", "腿后拉伸", true}, {"ja", "体操", true},
                        {"ko", "운동", true},          {"nqo", "ߒߞߏ", true},
                        {"en", "Exercise", false},     {"ur", "ورزش", false}};
    for (const Row& row : rows) {
        INFO(row.language);
        Desk desk;
        Style style;
        style.size = 20.0;
        const Line regular = one_line(desk.prepare_text(row.text, row.language, style));
        style.weight = Weight::Bold;
        const Line bold = one_line(desk.prepare_text(row.text, row.language, style));
        CHECK(regular.runs.at(0).outline == 0.0);
        CHECK((bold.runs.at(0).font == regular.runs.at(0).font) == row.stroked);
        CHECK((bold.width == regular.width) == row.stroked);
        CHECK(bold.runs.at(0).outline == Approx(row.stroked ? 0.6 : 0.0));
    }
}

TEST_CASE("letters of one word take the forms of their neighbours") {
    // Source: check of the joining types in ArabicShaping.txt (UCD 15): beh joins on both sides,
    // alef, dal and reh on one; lam before alef has a form of its own; ZWNJ parts.
    Desk desk;
    const auto beh = ids_of(one_line(desk.prepare_text("ببب", "ar")));
    CHECK(beh.size() == 3);
    CHECK(beh[0] != beh[1]);
    CHECK(beh[1] != beh[2]);
    const auto lam_alef = ids_of(one_line(desk.prepare_text("لا", "ar")));
    const auto lam_meem = ids_of(one_line(desk.prepare_text("لم", "ar")));
    CHECK(lam_alef.back() != lam_meem.back());
    const auto parted = ids_of(one_line(desk.prepare_text("می‌روم", "fa")));
    const auto joined = ids_of(one_line(desk.prepare_text("میروم", "fa")));
    CHECK(parted.size() == joined.size() + 1);
    CHECK(parted.back() == joined.back());
    CHECK(parted[parted.size() - 2] != joined[joined.size() - 2]);
}

TEST_CASE("Persian digits have their Persian shapes") {
    // Source: the cmap of the file, whose glyphs of U+06F0 to U+06F9 have the shapes of the Unicode
    // chart "Arabic"; core specification 9.2, "Glyph Variation in Eastern Arabic-Indic Digits":
    // Urdu draws 4, 6 and 7 another way.
    const std::string digits = "۰۱۲۳۴۵۶۷۸۹";
    Desk desk;
    for (const char* language : {"fa", "fa-AF", "ps"}) {
        for (const std::string& text :
             {digits, "هفتهٔ " + digits + " روز", "(" + digits + ")", "4 " + digits}) {
            INFO(language << " " << text);
            std::vector<std::uint32_t> found;
            for (const page::GlyphRun& run : one_line(desk.prepare_text(text, language)).runs) {
                const Face& face = *desk.set.impl().used.at(run.font).face;
                for (const page::Glyph& glyph : run.glyphs) {
                    for (char32_t digit = 0x6F0; digit <= 0x6F9; ++digit) {
                        if (face.glyph(digit) == glyph.id) {
                            found.push_back(digit);
                        }
                    }
                }
            }
            CHECK(found.size() == 10);
            CHECK(std::is_sorted(found.begin(), found.end()));
        }
    }
}

TEST_CASE("no word of the sloping hand is torn apart in bold") {
    // The bold file of Debian 12 gives HehDoIni.outD2Y 1500 units where its regular has 666.
    Desk desk;
    for (const char* word : {"سیڑھی", "چڑھیں", "نصیحت", "اصل", "گھٹنا", "درد"}) {
        INFO(word);
        const auto width = [&](Weight weight) {
            Style style;
            style.weight = weight;
            return one_line(desk.prepare_text(word, "ur", style)).width;
        };
        CHECK(width(Weight::Bold) < 1.3 * width(Weight::Regular));
        CHECK(width(Weight::Bold) > width(Weight::Regular));
    }
}

TEST_CASE("marks above a letter stand above each other, not in each other") {
    // Two marks that overlap are one mark to the reader: another vowel, or no tone. Words from
    // memory.
    struct Box {
        double left, right, bottom, top;
    };
    const auto boxes_of = [](Desk& desk, const Line& line, double size) {
        std::map<std::uint32_t, std::vector<Box>> clusters;
        for (const page::GlyphRun& run : line.runs) {
            const Face& face = *desk.set.impl().used.at(run.font).face;
            const double unit = size / face.units_per_em;
            double pen = 0.0;
            for (const page::Glyph& glyph : run.glyphs) {
                hb_glyph_extents_t box{};
                hb_font_get_glyph_extents(face.font.get(), glyph.id, &box);
                const double left = pen + glyph.x_offset + box.x_bearing * unit;
                const double top = glyph.y_offset + box.y_bearing * unit;
                clusters[glyph.text_begin].push_back(
                    {left, left + box.width * unit, top + box.height * unit, top});
                pen += glyph.advance;
            }
        }
        return clusters;
    };
    struct Row {
        const char* language;
        const char* text;
    };
    for (const Row& row : {Row{"th", "ที่ ทั้ง ขึ้น ปั้น ศักดิ์ เพื่อ ยื่น ครั้ง"}, Row{"lo", "ທີ່ ຄັ້ງ ຂຶ້ນ ຊົ່ວ ຕໍ່ ຈຶ່ງ"}}) {
        for (const Weight weight : {Weight::Regular, Weight::Bold}) {
            INFO(row.language << (weight == Weight::Bold ? " bold" : ""));
            Desk desk;
            Style style;
            style.size = 1000.0;
            style.weight = weight;
            const Line line = one_line(desk.prepare_text(row.text, row.language, style));
            int pairs = 0;
            for (const auto& [begin, boxes] : boxes_of(desk, line, style.size)) {
                // The letter, then its marks from below.
                for (std::size_t i = 2; i < boxes.size(); ++i) {
                    INFO(begin);
                    CHECK(boxes[i].bottom > boxes[i - 1].top - 25.0);
                    ++pairs;
                }
            }
            CHECK(pairs >= 5);
        }
    }
}

TEST_CASE("canonically equal texts give the same glyphs") {
    Desk desk;
    CHECK(ids_of(one_line(desk.prepare_text("e\u0301", "es"))) ==
          ids_of(one_line(desk.prepare_text("\u00E9", "es"))));
}

TEST_CASE("groups of a telephone number stand apart in every hand") {
    // Nastaliq's own space has 0.13 em, less than between two of its digits and the eye; a quarter
    // of the type size is common practice for a space between words.
    for (const char* language : {"ur", "ar", "he", "fa", "dv"}) {
        INFO(language);
        Desk desk;
        const std::string number = "+44 1632 960123";
        double space = 0.0;
        for (const page::GlyphRun& run :
             one_line(desk.prepare_text("\u2068" + number + "\u2069", language)).runs) {
            for (const page::Glyph& glyph : run.glyphs) {
                if (run.text.substr(glyph.text_begin, 1) == " ") {
                    space = glyph.advance / 12.0;
                }
            }
        }
        CHECK(space >= 0.24);
        CHECK(space <= 0.30);
    }
}

TEST_CASE("an isolate is neither drawn nor lost to the order") {
    Desk desk;
    const Line line = one_line(desk.prepare_text("\u2068Rosa\u2069 و\u206612:30\u2069", "ar"));
    CHECK(desk.complaints() == "");
    std::string text;
    for (const page::GlyphRun& run : as_seen(line)) {
        text += run.text + "|";
        for (const page::Glyph& glyph : run.glyphs) {
            CHECK(glyph.id != 0);
        }
    }
    CHECK(text == "12:30| و|Rosa|");
}

namespace {

/// A glyph's outline as text, with coordinates in font units.
struct Outline {
    std::string text;
    void add(char kind, float x, float y) {
        text += kind + std::to_string(static_cast<int>(x)) + "," +
                std::to_string(static_cast<int>(y)) + " ";
    }
};

std::string outline_of(hb_font_t* font, hb_codepoint_t glyph) {
    static hb_draw_funcs_t* const funcs = [] {
        hb_draw_funcs_t* made = hb_draw_funcs_create();
        hb_draw_funcs_set_move_to_func(
            made,
            [](hb_draw_funcs_t*, void* data, hb_draw_state_t*, float x, float y, void*) {
                static_cast<Outline*>(data)->add('M', x, y);
            },
            nullptr, nullptr);
        hb_draw_funcs_set_line_to_func(
            made,
            [](hb_draw_funcs_t*, void* data, hb_draw_state_t*, float x, float y, void*) {
                static_cast<Outline*>(data)->add('L', x, y);
            },
            nullptr, nullptr);
        hb_draw_funcs_set_quadratic_to_func(
            made,
            [](hb_draw_funcs_t*, void* data, hb_draw_state_t*, float a, float b, float x, float y,
               void*) {
                static_cast<Outline*>(data)->add('q', a, b);
                static_cast<Outline*>(data)->add('Q', x, y);
            },
            nullptr, nullptr);
        hb_draw_funcs_set_cubic_to_func(
            made,
            [](hb_draw_funcs_t*, void* data, hb_draw_state_t*, float a, float b, float c, float d,
               float x, float y, void*) {
                static_cast<Outline*>(data)->add('c', a, b);
                static_cast<Outline*>(data)->add('c', c, d);
                static_cast<Outline*>(data)->add('C', x, y);
            },
            nullptr, nullptr);
        return made;
    }();
    Outline outline;
    hb_font_get_glyph_shape(font, glyph, funcs, &outline);
    return outline.text;
}

page::Document document_of(const std::vector<Line>& lines) {
    page::Document document;
    document.pages.emplace_back();
    for (const Line& line : lines) {
        for (const page::GlyphRun& run : as_seen(line)) {
            document.pages.back().items.push_back({run, page::kArtifact, false});
        }
    }
    return document;
}

} // namespace

TEST_CASE("a TrueType subset draws and measures its glyphs as the file does") {
    for (const char* language : {"en", "ar", "hi", "th"}) {
        Desk desk;
        const std::map<std::string, std::string> texts = {
            {"en", "Hold for 30 s; office"}, {"ar", "سلام ببب"}, {"hi", "क्षि र्क"}, {"th", "น้ำหนัก"}};
        auto document =
            document_of(desk.prepare_text(texts.at(language), language).lines({1e6, 0}));
        embed(desk.set, document, desk.findings);
        CHECK(desk.complaints() == "");
        const page::Font& font = document.fonts.at(0);
        CHECK(font.kind == page::Font::Kind::TrueType);
        CHECK(font.program.size() < 20000);
        const void* bytes = font.program.data();
        const HbHandle<hb_blob_t> blob(hb_blob_create(static_cast<const char*>(bytes),
                                                      static_cast<unsigned>(font.program.size()),
                                                      HB_MEMORY_MODE_READONLY, nullptr, nullptr));
        const HbHandle<hb_face_t> face(hb_face_create(blob.get(), 0));
        const HbHandle<hb_font_t> subset(hb_font_create(face.get()));
        hb_font_t* original = desk.set.impl().used.at(0).face->font.get();
        REQUIRE_FALSE(font.glyphs.empty());
        bool some_outline = false;
        for (const auto& glyph : font.glyphs) {
            CHECK(glyph.subset < hb_face_get_glyph_count(face.get()));
            CHECK(outline_of(subset.get(), glyph.subset) == outline_of(original, glyph.original));
            some_outline = some_outline || !outline_of(subset.get(), glyph.subset).empty();
            CHECK(hb_font_get_glyph_h_advance(subset.get(), glyph.subset) ==
                  static_cast<int>(glyph.advance));
        }
        CHECK(some_outline);
        CHECK(std::is_sorted(font.glyphs.begin(), font.glyphs.end(),
                             [](const auto& a, const auto& b) { return a.original < b.original; }));
    }
}

TEST_CASE("a CJK subset is a bare CFF whose character ids are the file's glyph ids") {
    Desk desk;
    auto document = document_of(desk.prepare_text("直骨，停止。", "zh-Hans").lines({1e6, 0}));
    embed(desk.set, document, desk.findings);
    CHECK(desk.complaints() == "");
    const page::Font& font = document.fonts.at(0);
    CHECK(font.kind == page::Font::Kind::CffCid);
    REQUIRE(font.program.size() > 4);
    // Source: Adobe Technical Note 5176, section 6: major version 1, header size 4.
    CHECK(static_cast<int>(font.program[0]) == 1);
    CHECK(static_cast<int>(font.program[2]) == 4);
    CHECK(font.program.size() < 20000);
    for (const auto& glyph : font.glyphs) {
        CHECK(glyph.subset == glyph.original);
        CHECK(glyph.advance == 1000.0);
    }
    CHECK(font.postscript_name == "NotoSansCJKsc-Regular");
}

TEST_CASE("a font descriptor has the file's own metrics") {
    // Source: hhea, OS/2 and head of fonts-noto-core 20201225 as read by an own reader
    // (hb_ot_metrics).
    Desk desk;
    auto document = document_of(desk.prepare_text("Hold", "en").lines({1e6, 0}));
    embed(desk.set, document, desk.findings);
    const page::Font& font = document.fonts.at(0);
    CHECK(font.postscript_name == "NotoSans-Regular");
    CHECK(font.units_per_em == 1000.0);
    CHECK(font.ascent == 1069.0);
    CHECK(font.descent == -293.0);
    CHECK(font.cap_height == 714.0);
    CHECK(font.x_min < 0.0);
    CHECK(font.x_max > font.x_min);
    CHECK(font.y_max > font.y_min);
}

} // namespace tickleaf::text
