// SPDX-License-Identifier: MIT
// Texts as two readers of one file may differ in them.
#pragma once

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <string_view>

#include "support/utf8.h"

namespace tickleaf::tests {

/// Spaces folded to one, invisible isolates, embeddings and joiners left out: how far two readers
/// may differ.
inline std::string folded(const std::string& text) {
    std::string result;
    for (std::size_t offset = 0; offset < text.size();) {
        const auto decoded = support::decode_utf8(std::string_view(text).substr(offset));
        REQUIRE(decoded);
        const char32_t c = decoded->code_point;
        offset += decoded->length;
        const bool space =
            c == ' ' || c == '\n' || c == '\t' || c == '\f' || c == 0xA0 || c == 0x202F;
        if (space) {
            if (!result.empty() && result.back() != ' ') {
                result += ' ';
            }
        } else if ((c < 0x2066 || c > 0x2069) && (c < 0x202A || c > 0x202E) && c != 0x2060 &&
                   c != 0x200B) {
            support::append_utf8(result, c);
        }
    }
    if (result.ends_with(' ')) {
        result.pop_back();
    }
    return result;
}

inline std::string without_spaces(std::string text) {
    text.erase(std::remove(text.begin(), text.end(), ' '), text.end());
    return text;
}

} // namespace tickleaf::tests
