// SPDX-License-Identifier: MIT
#include "pdf/text_string.h"

#include <algorithm>

#include "support/utf8.h"

namespace tickleaf::pdf {

namespace {

constexpr char32_t kReplacement = 0xFFFD;

bool is_surrogate(char32_t c) {
    return c >= 0xD800 && c <= 0xDFFF;
}

void append_unit(std::string& out, char32_t unit) {
    out.push_back(static_cast<char>((unit >> 8U) & 0xFFU));
    out.push_back(static_cast<char>(unit & 0xFFU));
}

bool is_xml_character(char32_t c) {
    return c == 0x9 || c == 0xA || c == 0xD || (c >= 0x20 && c <= 0xFFFD && !is_surrogate(c)) ||
           c >= 0x10000;
}

bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}
bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

} // namespace

std::u32string decode(std::string_view utf8) {
    std::u32string text;
    text.reserve(utf8.size());
    while (!utf8.empty()) {
        const auto decoded = support::decode_utf8(utf8);
        text.push_back(decoded ? decoded->code_point : kReplacement);
        utf8.remove_prefix(decoded ? decoded->length : 1);
    }
    return text;
}

std::optional<std::string> pdf_doc_encoded(const std::u32string& text) {
    std::string bytes;
    for (const char32_t c : text) {
        const bool ascii = c >= 0x20 && c <= 0x7E;
        const bool latin = c >= 0xA1 && c <= 0xFF && c != 0xAD;
        if (!ascii && !latin) {
            return std::nullopt;
        }
        bytes.push_back(static_cast<char>(static_cast<unsigned char>(c)));
    }
    // FE FF and EF BB BF would be read as marks of another encoding.
    if (bytes.starts_with("\xFE\xFF") || bytes.starts_with("\xEF\xBB\xBF")) {
        return std::nullopt;
    }
    return bytes;
}

std::string utf16be(std::u32string_view text) {
    std::string out;
    out.reserve(text.size() * 2);
    for (char32_t c : text) {
        if (c > 0x10FFFF || is_surrogate(c)) {
            c = kReplacement;
        }
        if (c >= 0x10000) {
            append_unit(out, 0xD800U + ((c - 0x10000U) >> 10U));
            append_unit(out, 0xDC00U + ((c - 0x10000U) & 0x3FFU));
        } else {
            append_unit(out, c);
        }
    }
    return out;
}

std::string hex(std::string_view bytes) {
    constexpr std::string_view kDigits = "0123456789ABCDEF";
    std::string out;
    out.reserve(bytes.size() * 2);
    for (const char byte : bytes) {
        const auto value = static_cast<unsigned char>(byte);
        out.push_back(kDigits[value >> 4U]);
        out.push_back(kDigits[value & 0xFU]);
    }
    return out;
}

void append_literal(std::string& out, std::string_view bytes) {
    out.push_back('(');
    for (const char byte : bytes) {
        if (byte == '(' || byte == ')' || byte == '\\') {
            out.push_back('\\');
        }
        // A bare carriage return in a string would be read as a line feed.
        if (byte == '\r') {
            out += "\\r";
        } else {
            out.push_back(byte);
        }
    }
    out.push_back(')');
}

void append_text_string(std::string& out, const std::u32string& text) {
    if (const auto bytes = pdf_doc_encoded(text)) {
        append_literal(out, *bytes);
        return;
    }
    out += "<FEFF" + hex(utf16be(text)) + ">";
}

bool is_dropped(char32_t c) {
    return c < 0x20 || c == 0xAD || c == 0x061C || c == 0x200E || c == 0x200F ||
           (c >= 0x202A && c <= 0x202E) || c == 0x2060 || (c >= 0x2066 && c <= 0x2069) ||
           c == 0xFEFF || c == 0xFFFE;
}

std::u32string spoken(std::string_view utf8) {
    std::u32string text = decode(utf8);
    const auto is_blank = [](char32_t c) { return c == U'\n' || c == U'\u00A0' || c == U'\u202F'; };
    std::replace_if(text.begin(), text.end(), is_blank, U' ');
    std::erase_if(text, is_dropped);
    return text;
}

std::string xml_escaped(std::u32string_view text) {
    std::string out;
    for (const char32_t c : text) {
        if (c == U'&') {
            out += "&amp;";
        } else if (c == U'<') {
            out += "&lt;";
        } else if (c == U'>') {
            out += "&gt;";
        } else if (c == U'"') {
            out += "&quot;";
        } else if (is_xml_character(c)) {
            support::append_utf8(out, c);
        }
    }
    return out;
}

bool is_language_tag(std::string_view tag) {
    std::size_t length = 0;
    bool first = true;
    for (const char c : tag) {
        if (c == '-') {
            if (length == 0) {
                return false;
            }
            length = 0;
            first = false;
            continue;
        }
        if (++length > 8 || !(is_letter(c) || (!first && is_digit(c)))) {
            return false;
        }
    }
    return length > 0;
}

} // namespace tickleaf::pdf
