// SPDX-License-Identifier: MIT
// Walks well-formed UTF-16 by code points. Source: The Unicode Standard 15, 3.9 (D91).
#pragma once

#include <cstddef>
#include <string_view>

namespace tickleaf::text {

/// The code point at `place`, which moves past it.
inline char32_t next_code_point(std::u16string_view text, std::size_t& place) {
    const char32_t unit = text[place++];
    if (unit < 0xD800 || unit > 0xDBFF || place == text.size()) {
        return unit;
    }
    return 0x10000 + ((unit - 0xD800) << 10) + (text[place++] - char32_t{0xDC00});
}

} // namespace tickleaf::text
