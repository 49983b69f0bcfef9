// SPDX-License-Identifier: MIT
#include "tests/specimen/make_specimen.h"

#include <array>
#include <fstream>
#include <iterator>

#include <unicode/ucal.h>
#include <unicode/udat.h>
#include <unicode/udatpg.h>
#include <unicode/unum.h>
#include <unicode/ustring.h>

#include "tests/specimen/specimen_texts.h"
#include "text/paragraph.h"

namespace tickleaf::testing {

namespace {

constexpr double kPageWidth = 595.0;
constexpr double kPageHeight = 842.0;
constexpr double kMargin = 40.0;
constexpr double kWidth = kPageWidth - 2.0 * kMargin;

std::string utf8(const std::array<char16_t, 200>& text, int32_t length) {
    std::array<char, 800> buffer{};
    UErrorCode status = U_ZERO_ERROR;
    int32_t size = 0;
    u_strToUTF8(buffer.data(), static_cast<int32_t>(buffer.size()), &size, text.data(), length,
                &status);
    return {buffer.data(), static_cast<std::size_t>(size)};
}

std::string number(const std::string& language, double value) {
    UErrorCode status = U_ZERO_ERROR;
    UNumberFormat* format = unum_open(UNUM_DECIMAL, nullptr, 0, language.c_str(), nullptr, &status);
    std::array<char16_t, 200> text{};
    const int32_t length = unum_formatDouble(format, value, text.data(), 200, nullptr, &status);
    unum_close(format);
    return utf8(text, length);
}

/// 21 March 2026 in the calendar and words of the language.
std::string date(const std::string& language) {
    constexpr UDate kDay = 1774094400000.0; // 2026-03-21 12:00 UTC
    UErrorCode status = U_ZERO_ERROR;
    UDateTimePatternGenerator* patterns = udatpg_open(language.c_str(), &status);
    std::array<char16_t, 100> pattern{};
    const int32_t size =
        udatpg_getBestPattern(patterns, u"yMMMMEEEEd", -1, pattern.data(), 100, &status);
    udatpg_close(patterns);
    // ICU 72 has no order of its own for the Persian calendar; this one is from memory.
    const bool persian = language == "fa";
    UDateFormat* format =
        udat_open(UDAT_PATTERN, UDAT_PATTERN, language.c_str(), u"UTC", -1,
                  persian ? u"EEEE d MMMM y" : pattern.data(), persian ? -1 : size, &status);
    std::array<char16_t, 200> text{};
    const int32_t length = udat_format(format, kDay, text.data(), 200, nullptr, &status);
    udat_close(format);
    return utf8(text, length);
}

/// First strong isolate, as the program sets every inserted value apart.
std::string isolated(const std::string& value) {
    return "\u2068" + value + "\u2069";
}

std::string with(std::string text, const std::string& name, const std::string& value) {
    return text.replace(text.find(name), name.size(), value);
}

std::string first_article(const std::string& folder, const std::string& file) {
    std::ifstream stream(folder + "/" + file + ".html", std::ios::binary);
    const std::string html(std::istreambuf_iterator<char>(stream), {});
    const std::size_t article = html.find("data-number=\"1\"");
    const std::size_t begin = html.find("<p>", article);
    return begin == std::string::npos
               ? std::string()
               : html.substr(begin + 3, html.find('<', begin + 3) - begin - 3);
}

class Setter {
  public:
    Setter(const std::shared_ptr<const text::Fonts>& fonts, support::Findings& findings)
        : set_(fonts), findings_(findings) {
        document_.title = "Specimen";
        document_.language = std::string("en");
        page::Tag root;
        root.role = page::Tag::Role::Document;
        document_.tags.push_back(root);
        document_.pages.push_back({kPageWidth, kPageHeight, {}});
    }
    void put(const Specimen& specimen, const std::string& paragraph);
    page::Document finish() {
        text::embed(set_, document_, findings_);
        return std::move(document_);
    }

  private:
    struct Block {
        std::string text;
        text::Style style{};
        double left = 0.0; ///< from the reading side
        double width = kWidth;
        page::Tag::Role role = page::Tag::Role::P;
    };
    /// Height of the block; nothing is drawn where `draw` is false.
    double put_block(const std::string& language, const Block& block, double top, bool draw);
    double put_all(const Specimen& specimen, const std::string& paragraph, double top, bool draw);

    text::FontSet set_;
    support::Findings& findings_;
    page::Document document_;
    double y_ = kMargin;
};

double Setter::put_block(const std::string& language, const Block& block, double top, bool draw) {
    const bool rtl = text::is_right_to_left(language);
    const auto paragraph =
        text::prepare(set_, {block.text, language, rtl, block.style, language, {}}, findings_);
    const auto lines = paragraph.lines({block.width, 0.0});
    if (!draw) {
        return paragraph.line_height() * static_cast<double>(lines.size());
    }
    page::Tag tag;
    tag.role = block.role;
    tag.parent = 0;
    tag.language = language;
    document_.tags.push_back(tag);
    double y = top;
    for (const text::Line& line : lines) {
        const double lead = paragraph.line_height() - line.ascent - line.descent;
        const double left =
            rtl ? kPageWidth - kMargin - block.left - line.width : kMargin + block.left;
        for (page::GlyphRun run : line.runs) {
            run.origin = {left + run.origin.x, y + lead / 2.0 + line.ascent};
            document_.pages.back().items.push_back(
                {std::move(run), document_.tags.size() - 1, false});
        }
        y += paragraph.line_height();
    }
    return y - top;
}

double Setter::put_all(const Specimen& s, const std::string& paragraph, double top, bool draw) {
    const std::string language = s.language;
    const auto red = page::Colour{150, 0, 0};
    double y = top;
    y += put_block(language,
                   {s.name, {15.0, text::Weight::Bold, {}}, 0.0, kWidth, page::Tag::Role::H1}, y,
                   draw);
    y += put_block(language, {paragraph}, y, draw) + 3.0;
    const std::array<std::string, 3> labels = {s.sets, s.repetitions, s.weight};
    const std::array<std::string, 3> values = {
        isolated(number(language, 3)),
        with(with(s.range, "{low}", isolated(number(language, 10))), "{high}",
             isolated(number(language, 12))),
        isolated(number(language, 2.5) + "\u00A0" + s.kilograms)};
    double height = 0.0;
    for (std::size_t i = 0; i < labels.size(); ++i) {
        const double left = static_cast<double>(i) * kWidth / 3.0;
        const double head = put_block(
            language, {labels.at(i), {10.0, text::Weight::Bold, {}}, left, kWidth / 3.0 - 6.0}, y,
            draw);
        const double cell =
            put_block(language, {values.at(i), {14.0}, left, kWidth / 3.0 - 6.0}, y + head, draw);
        height = std::max(height, head + cell);
    }
    y += height + 3.0;
    const std::string warning = with(s.warning, "{tel}", isolated("+44 1632 960123"));
    y += put_block(language, {warning, {12.0, text::Weight::Bold, red}}, y, draw);
    y += put_block(language, {date(language) + " · " + isolated("12:30")}, y, draw) + 12.0;
    return y - top;
}

void Setter::put(const Specimen& specimen, const std::string& paragraph) {
    const double height = put_all(specimen, paragraph, 0.0, false);
    if (y_ + height > kPageHeight - kMargin && y_ > kMargin) {
        document_.pages.push_back({kPageWidth, kPageHeight, {}});
        y_ = kMargin;
    }
    y_ += put_all(specimen, paragraph, y_, true);
}

} // namespace

page::Document make_specimen(const std::shared_ptr<const text::Fonts>& fonts,
                             const std::string& declaration, support::Findings& findings) {
    Setter setter(fonts, findings);
    for (const Specimen& specimen : kSpecimens) {
        const std::string paragraph = first_article(declaration, specimen.file);
        support::internal_error_if(paragraph.empty(), "the texts of the Declaration are not there");
        setter.put(specimen, paragraph);
    }
    return setter.finish();
}

} // namespace tickleaf::testing
