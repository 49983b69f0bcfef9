// SPDX-License-Identifier: MIT
// Text as PDF strings and as XML, from UTF-8. Ill-formed bytes become U+FFFD.
// Source: ISO 32000-1:2008, 7.9.2.2 text strings and annex D.2 (PDFDocEncoding agrees with Latin-1
// in 0x20-0x7E and 0xA1-0xFF but 0xAD); XML 1.0, 2.2 characters.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace tickleaf::pdf {

std::u32string decode(std::string_view utf8);
/// True for characters that never reach the file's text.
bool is_dropped(char32_t c);
/// A text that is said or listed and not set: without bidi controls, which some voices spell out,
/// and with plain spaces for line ends and for spaces that forbid one, for which the short encoding
/// has no code.
std::u32string spoken(std::string_view utf8);
/// The bytes in PDFDocEncoding where every character is in its Latin-1 part, else nothing.
std::optional<std::string> pdf_doc_encoded(const std::u32string& text);
/// Big-endian UTF-16 without a byte order mark.
std::string utf16be(std::u32string_view text);
/// Upper-case hexadecimal digits of bytes, without brackets.
std::string hex(std::string_view bytes);
/// A literal string in brackets, escaped as content streams need it.
void append_literal(std::string& out, std::string_view bytes);
/// As a text string operand in a content stream.
void append_text_string(std::string& out, const std::u32string& text);
/// For element content and attributes: markup escaped, illegal characters dropped.
std::string xml_escaped(std::u32string_view text);
/// True for BCP 47 tags as PDF/UA-1 tests them: ^[a-zA-Z]{1,8}(-[a-zA-Z0-9]{1,8})*$.
bool is_language_tag(std::string_view tag);

} // namespace tickleaf::pdf
