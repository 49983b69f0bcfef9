// SPDX-License-Identifier: MIT
// UTF-8 and code points, as far as positions and checks need them; text proper is ICU's in text/
// and locale/. Source: The Unicode Standard 15, table 3-7 (well-formed UTF-8 byte sequences).
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace tickleaf::support {

/// A code point and how many bytes it takes.
struct Decoded {
    char32_t code_point = 0;
    std::size_t length = 1;
};

/// The code point at the start of `text`, or nothing where the bytes are not well formed. `text` is
/// not empty.
std::optional<Decoded> decode_utf8(std::string_view text);
/// Byte offset of the first ill-formed sequence, or nothing.
std::optional<std::size_t> first_bad_utf8(std::string_view text);
/// Code points in a well-formed text (ill-formed bytes count one each).
std::size_t count_code_points(std::string_view text);
void append_utf8(std::string& text, char32_t code_point);

} // namespace tickleaf::support
