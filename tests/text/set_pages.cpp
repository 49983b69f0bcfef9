// SPDX-License-Identifier: MIT
#include "tests/text/set_pages.h"

#include <stdexcept>

#include <unicode/uchar.h>
#include <unicode/unorm2.h>
#include <unicode/ustring.h>

#include "pdf/writer.h"
#include "tests/support/pdf_text.h"

namespace tickleaf::testing {

namespace {

constexpr double kMargin = 60.0;
constexpr double kPageWidth = kTextWidth + 2.0 * kMargin;
constexpr double kPageHeight = 842.0;

std::u16string utf16(const std::string& utf8) {
    std::u16string text(utf8.size() + 1, u'\0');
    int32_t length = 0;
    UErrorCode status = U_ZERO_ERROR;
    u_strFromUTF8(text.data(), static_cast<int32_t>(text.size()), &length, utf8.data(),
                  static_cast<int32_t>(utf8.size()), &status);
    if (U_FAILURE(status) != 0) {
        throw std::runtime_error("a text is not UTF-8");
    }
    text.resize(static_cast<std::size_t>(length));
    return text;
}

std::string utf8(const std::u16string& text) {
    std::string result(text.size() * 3 + 1, '\0');
    int32_t length = 0;
    UErrorCode status = U_ZERO_ERROR;
    u_strToUTF8(result.data(), static_cast<int32_t>(result.size()), &length, text.data(),
                static_cast<int32_t>(text.size()), &status);
    result.resize(static_cast<std::size_t>(length));
    return result;
}

std::u16string composed(const std::u16string& text) {
    UErrorCode status = U_ZERO_ERROR;
    std::u16string result(text.size() * 3 + 1, u'\0');
    const int32_t length = unorm2_normalize(unorm2_getNFCInstance(&status), text.data(),
                                            static_cast<int32_t>(text.size()), result.data(),
                                            static_cast<int32_t>(result.size()), &status);
    if (U_FAILURE(status) != 0) {
        throw std::runtime_error("ICU cannot normalise a text");
    }
    result.resize(static_cast<std::size_t>(length));
    return result;
}

bool steers_only(char16_t c) {
    return c == 0x00AD || c == 0x061C || c == 0x200B || c == 0x200E || c == 0x200F ||
           (c >= 0x202A && c <= 0x202E) || (c >= 0x2060 && c <= 0x2069) || c == 0xFEFF;
}

} // namespace

page::Document set_pages(text::FontSet& fonts, const std::vector<std::string>& paragraphs,
                         const std::string& language, support::Findings& findings) {
    page::Document document;
    document.title = "Declaration";
    document.language = language;
    document.right_to_left = text::is_right_to_left(language);
    page::Tag root;
    root.role = page::Tag::Role::Document;
    document.tags.push_back(root);
    for (const std::string& source : paragraphs) {
        const auto paragraph = text::prepare(
            fonts, {source, language, document.right_to_left, {}, source, {}}, findings);
        page::Tag tag;
        tag.parent = 0;
        document.tags.push_back(tag);
        page::Page page{kPageWidth, kPageHeight, {}};
        double y = kMargin;
        for (const text::Line& line : paragraph.lines({kTextWidth, 0.0})) {
            y += paragraph.line_height();
            const double left =
                kMargin + (paragraph.right_to_left() ? kTextWidth - line.width : 0.0);
            for (page::GlyphRun run : line.runs) {
                run.origin = {left + run.origin.x, y};
                page.items.push_back({std::move(run), document.tags.size() - 1, false});
            }
        }
        document.pages.push_back(std::move(page));
    }
    text::embed(fonts, document, findings);
    return document;
}

std::optional<std::string> make_pdf(const std::shared_ptr<const text::Fonts>& fonts,
                                    const std::vector<std::string>& paragraphs,
                                    const std::string& language, support::Findings& findings) {
    text::FontSet set(fonts);
    const page::Document document = set_pages(set, paragraphs, language, findings);
    return findings.has_errors() ? std::nullopt : pdf::write(document, findings);
}

std::string folded(const std::string& text) {
    std::u16string result;
    for (const char16_t c : composed(utf16(as_copied(text)))) {
        if (u_isUWhiteSpace(c) != 0) {
            if (!result.empty() && result.back() != u' ') {
                result += u' ';
            }
        } else if (!steers_only(c)) {
            result += c;
        }
    }
    while (!result.empty() && result.back() == u' ') {
        result.pop_back();
    }
    return utf8(result);
}

} // namespace tickleaf::testing
