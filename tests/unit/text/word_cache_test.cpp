// SPDX-License-Identifier: MIT
// Words recalled from other texts come out as if the whole text were shaped at once by HarfBuzz.
#include "text/word_cache.h"

#include <random>

#include <catch2/catch.hpp>

#include "disk.h"
#include "text/prepared.h"

namespace tickleaf::text {

namespace {

/// Glyphs and places of a text on one line and in narrow lines.
std::string drawn(FontSet& set, const std::string& text, const std::string& language) {
    support::Findings findings;
    const auto paragraph =
        prepare(set, {text, language, is_right_to_left(language), {}, "", {}}, findings);
    std::string result;
    for (const double width : {1e6, 150.0, 60.0, 45.0, 90.0}) {
        for (const Line& line : paragraph.lines({width, 0.0})) {
            for (const page::GlyphRun& run : line.runs) {
                for (const page::Glyph& glyph : run.glyphs) {
                    result += std::to_string(glyph.id) + "+" + std::to_string(glyph.advance) + "," +
                              std::to_string(glyph.x_offset) + "," +
                              std::to_string(glyph.y_offset) + "@" +
                              std::to_string(glyph.text_begin) + " ";
                }
            }
            result += "\n";
        }
    }
    return result;
}

struct Vocabulary {
    const char* language;
    std::vector<std::string> words;
};

// Words of our own choice; with kerning pairs at word ends, marks, conjuncts, digits and brackets.
const std::vector<Vocabulary> kWords = {
    {"en", {"AV", "To", "Yes,", "fi", "(5–10", "s)", "W.", "\u201Cstop\u201D", "T", "12:30"}},
    {"vi", {"Ngừng", "ngay", "nếu", "đau", "nhiều", "hơn."}},
    {"ar", {"اجلس", "على", "كرسي،", "(45", "ثانية)", "لا", "ثم", "بقدمك", "و", "Rosa"}},
    {"ur", {"کرسی", "پر", "بیٹھیں", "اور", "دائیں", "پاؤں", "کو", "45", "سیکنڈ", "ے"}},
    {"he", {"שָׁלוֹם", "שבו", "על", "כיסא", "(טל'", "112)."}},
    {"hi", {"कुर्सी", "पर", "सीधे", "45", "सेकंड", "क्षि", "र्क", "।"}},
    {"bn", {"কি", "কো", "পা", "দেয়ালে", "চাপুন"}},
    {"th", {"หยุด", "ทันที", "น้ำ", "ถ้า", "ปวด"}},
    {"km", {"ឈប់", "រី", "កែ", "បើ", "ឈឺខ្លាំង", "កែង", "រែង", "ខ្មែរ", "ព្រះ"}},
    {"my", {"နာကျင်မှု", "ပိုလာပါက", "ရပ်ပါ", "ကြွ"}},
    {"bo", {"ལུས་རྩལ", "བྱེད་", "སྐྱེས་"}},
};

std::string random_text(const Vocabulary& vocabulary, std::mt19937& random) {
    std::string text;
    const auto count = 1 + random() % 14;
    for (std::size_t i = 0; i < count; ++i) {
        text += vocabulary.words[random() % vocabulary.words.size()];
        text += random() % 20 == 0 ? "  " : " ";
    }
    return text;
}

} // namespace

TEST_CASE("recalled words stand as HarfBuzz sets the whole text") {
    constexpr unsigned kSeed = 20261126;
    INFO("seed " << kSeed);
    std::mt19937 random(kSeed);
    support::Sources sources;
    support::Findings findings;
    const auto cached = Fonts::load(Desk::environment(), sources, findings);
    for (const Vocabulary& vocabulary : kWords) {
        FontSet recalling(cached);
        FontSet plain(Desk::shared());
        plain.impl().extra_buffer_flags = HB_BUFFER_FLAG_VERIFY;
        // Enough text that the face's rules are read and words recalled.
        for (std::size_t seen = 0; seen < 40000;) {
            const std::string text = random_text(vocabulary, random);
            seen += text.size() / 2;
            drawn(recalling, text, vocabulary.language);
        }
        for (int i = 0; i < 200; ++i) {
            const std::string text = random_text(vocabulary, random);
            INFO(vocabulary.language << " " << text);
            CHECK(drawn(recalling, text, vocabulary.language) ==
                  drawn(plain, text, vocabulary.language));
        }
    }
}

TEST_CASE("faces whose rules see a space are known") {
    struct Row {
        const char* language;
        bool apart;
        bool watches;
    };
    // Source: GSUB and GPOS of fonts-noto-core 20201225 and fonts-noto-cjk 20220127, read with
    // hb_ot_layout_lookup_collect_glyphs: Georgian kerns the space; Khmer moves U+17C2 and U+179A
    // after a space, Devanagari Vedic signs.
    const Row rows[] = {{"en", true, false}, {"ar", true, false}, {"ur", true, false},
                        {"km", true, true},  {"hi", true, true},  {"ka", false, false},
                        {"ja", false, false}};
    for (const Row& row : rows) {
        INFO(row.language);
        const auto& shared = Desk::shared()->impl();
        const auto& opened =
            shared.open(shared.main_family(describe_language(row.language)), Weight::Regular);
        const SpaceRules rules = read_space_rules(*opened.face);
        CHECK(rules.words_apart == row.apart);
        CHECK((rules.words_apart && !rules.watchful.empty()) == row.watches);
    }
}

} // namespace tickleaf::text
