// SPDX-License-Identifier: MIT
#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>

#include <catch2/catch.hpp>

#include "pdf/writer.h"
#include "support/utf8.h"
#include "tests/support/breakage.h"
#include "tests/support/pdf_check.h"
#include "tests/support/pdf_text.h"
#include "tests/support/shaped_run.h"

using namespace tickleaf;
using testing::written;

namespace {

struct LineCase {
    const char* font;
    unsigned face;
    const char* language;
    bool right_to_left;
    const char* text;
};

constexpr const char* kTrueType = "/usr/share/fonts/truetype/noto/";
constexpr const char* kOpenType = "/usr/share/fonts/opentype/noto/";

const std::vector<LineCase>& lines() {
    static const std::vector<LineCase> kLines{
        {"truetype/NotoSans-Regular.ttf", 0, "en", false, "Lift 8 to 12 times. Office fi ffl."},
        {"truetype/NotoSans-Regular.ttf", 0, "es", false, "Mantenga la rodilla quieta: ¿señal?"},
        {"truetype/NotoSansArabic-Regular.ttf", 0, "ar", true, "لا تثن ركبتك الآن إلى الأعلى"},
        {"truetype/NotoSansHebrew-Regular.ttf", 0, "he", true, "עמדו זקוף והרימו את העקב"},
        {"truetype/NotoSansDevanagari-Regular.ttf", 0, "hi", false, "हिन्दी में क्षेत्र स्थिति कि"},
        {"truetype/NotoSansThai-Regular.ttf", 0, "th", false, "ยืนตัวตรง กำลัง น้ำ"},
        {"truetype/NotoSansKhmer-Regular.ttf", 0, "km", false, "ខ្ញុំ ក្រោម ស្រី"},
        {"truetype/NotoNastaliqUrdu-Regular.ttf", 0, "ur", true, "سیدھے کھڑے ہوں"},
        {"opentype/NotoSansCJK-Regular.ttc", 2, "zh-CN", false, "站直，抬起脚跟。"},
    };
    return kLines;
}

std::string path_of(const LineCase& line) {
    const std::string name = line.font;
    const std::string file = name.substr(name.find('/') + 1);
    return (name.starts_with("opentype") ? kOpenType : kTrueType) + file;
}

page::Tag tag(page::Tag::Role role, std::size_t parent, const std::string& language = {}) {
    page::Tag made;
    made.role = role;
    made.parent = parent;
    made.language = language;
    return made;
}

/// One page with every line as a paragraph of its own language, and a page number.
page::Document all_scripts(testing::TestFonts& fonts, std::string& expected) {
    page::Document document;
    document.title = "All scripts";
    document.language = "en";
    document.tags.push_back(tag(page::Tag::Role::Document, page::kArtifact));
    page::Page page{595.276, 841.89, {}};
    for (std::size_t i = 0; i < lines().size(); ++i) {
        const LineCase& line = lines()[i];
        REQUIRE(fonts.add(path_of(line), line.face));
        page::GlyphRun run = fonts.shape(i, line.text, line.language, line.right_to_left, 14.0);
        run.origin = {60.0, 80.0 + 50.0 * static_cast<double>(i)};
        document.tags.push_back(tag(page::Tag::Role::P, 0, line.language));
        page.items.push_back({run, document.tags.size() - 1});
        expected += std::string(line.text) + "\n";
    }
    page::GlyphRun number = fonts.shape(0, "Page 1 of 1", "en", false, 9.0);
    number.origin = {60.0, 800.0};
    page.items.push_back({number, page::kArtifact, true});
    document.pages.push_back(page);
    fonts.embed(document);
    return document;
}

/// What a command prints, its standard error included.
std::string output_of(const std::string& command) {
    FILE* pipe = popen((command + " 2>&1").c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::string output;
    std::array<char, 4096> buffer{};
    while (const std::size_t count = fread(buffer.data(), 1, buffer.size(), pipe)) {
        output.append(buffer.data(), count);
    }
    pclose(pipe);
    return output;
}

/// A file that is gone when the test is over.
class TemporaryFile {
  public:
    explicit TemporaryFile(const std::string& bytes)
        : path_(std::filesystem::temp_directory_path() /
                ("tickleaf-pdf-" + std::to_string(std::hash<std::string>{}(bytes)) + ".pdf")) {
        std::ofstream(path_, std::ios::binary) << bytes;
    }
    ~TemporaryFile() { std::filesystem::remove(path_); }
    TemporaryFile(const TemporaryFile&) = delete;
    TemporaryFile& operator=(const TemporaryFile&) = delete;
    std::string path() const { return path_.string(); }

  private:
    std::filesystem::path path_;
};

} // namespace

TEST_CASE("text of every script comes back in logical order, by content and by structure") {
    testing::TestFonts fonts;
    std::string expected;
    const page::Document document = all_scripts(fonts, expected);
    const std::string bytes = written(document);
    testing::PdfReader reader(bytes);
    CHECK(reader.warnings().empty());
    REQUIRE(reader.pages().size() == 1);
    CHECK(reader.pages()[0].mark_errors.empty());
    CHECK(reader.pages()[0].text() == expected);
    CHECK(reader.pages()[0].artifact_text() == "Page 1 of 1\n");
    CHECK(reader.structure()->text() == expected);
    const auto structure = reader.structure();
    REQUIRE(structure->kids.size() == lines().size());
    CHECK(structure->kids[2].element->language == "ar");
}

TEST_CASE("the same document gives the same bytes") {
    testing::TestFonts fonts;
    std::string expected;
    const page::Document document = all_scripts(fonts, expected);
    CHECK(written(document) == written(document));
}

TEST_CASE("other readers open the file without a warning and find the text") {
    testing::TestFonts fonts;
    std::string expected;
    const TemporaryFile file(written(all_scripts(fonts, expected)));
    const std::string check = output_of("qpdf --check " + file.path());
    CHECK(check.find("No syntax or stream encoding errors found") != std::string::npos);
    CHECK(check.find("WARNING") == std::string::npos);
    const std::string poppler = output_of("pdftotext -layout " + file.path() + " -");
    const std::string mupdf = output_of("mutool draw -q -F txt " + file.path());
    for (const std::size_t i : {0U, 1U, 4U, 6U, 8U}) {
        INFO(lines()[i].language);
        CHECK(poppler.find(lines()[i].text) != std::string::npos);
        // mutool 1.21 ignores ActualText and puts the surplus-glyph spaces into the text.
        CHECK(testing::as_copied(mupdf).find(testing::as_copied(lines()[i].text)) !=
              std::string::npos);
    }
    CHECK(poppler.find("עמדו זקוף והרימו את העקב") != std::string::npos);
    CHECK(testing::as_copied(poppler).find(lines()[2].text) != std::string::npos);
    CHECK(poppler.find("Error") == std::string::npos);
    CHECK(output_of("pdftoppm -r 20 " + file.path() + " >/dev/null").empty());
}

TEST_CASE("a whole font program that was not subset is written too") {
    testing::TestFonts fonts;
    REQUIRE(fonts.add(path_of(lines()[0])));
    page::Document document;
    document.title = "Whole font";
    document.language = "en";
    document.tags.push_back(tag(page::Tag::Role::Document, page::kArtifact));
    document.tags.push_back(tag(page::Tag::Role::P, 0));
    page::GlyphRun run = fonts.shape(0, "Heel up, count to three.", "en", false, 12.0);
    run.origin = {50.0, 50.0};
    document.pages.push_back({300.0, 200.0, {{run, 1}}});
    document.fonts.push_back(fonts.whole(0));
    testing::PdfReader reader(written(document));
    CHECK(reader.structure()->text() == "Heel up, count to three.\n");
}

TEST_CASE("a font of hundreds of characters mixes codes of one and of two bytes") {
    testing::TestFonts fonts;
    REQUIRE(fonts.add(path_of(lines()[0])));
    page::Document document;
    document.title = "Many characters";
    document.language = "en";
    document.tags.push_back(tag(page::Tag::Role::Document, page::kArtifact));
    page::Page page{595.276, 841.89, {}};
    std::string expected;
    // Latin and Cyrillic letters, 32 a line.
    for (char32_t first = 0x100; first < 0x500; first += 32) {
        if (first >= 0x2A0 && first < 0x400) {
            continue;
        }
        std::string line;
        for (char32_t c = first; c < first + 32; ++c) {
            support::append_utf8(line, c);
        }
        page::GlyphRun run = fonts.shape(0, line, "en", false, 10.0);
        run.origin = {40.0, 40.0 + 25.0 * static_cast<double>(page.items.size())};
        document.tags.push_back(tag(page::Tag::Role::P, 0));
        page.items.push_back({run, document.tags.size() - 1});
        expected += line + "\n";
    }
    document.pages.push_back(page);
    fonts.embed(document);
    const std::string bytes = written(document);
    testing::PdfReader reader(bytes);
    CHECK(reader.pages()[0].codes.begin()->second.size() > 500);
    CHECK(reader.structure()->text() == expected);
    CHECK(testing::failed_clauses(bytes).empty());
    const TemporaryFile file(bytes);
    const auto without_breaks = [](std::string text) {
        std::erase_if(text, [](char c) { return c == '\n' || c == '\f' || c == ' '; });
        return text;
    };
    CHECK(without_breaks(output_of("pdftotext -raw " + file.path() + " -")) ==
          without_breaks(expected));
    CHECK(without_breaks(output_of("mutool draw -q -F txt " + file.path()))
              .find(without_breaks(expected)) != std::string::npos);
}
