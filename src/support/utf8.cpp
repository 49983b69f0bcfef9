// SPDX-License-Identifier: MIT
#include "support/utf8.h"

namespace tickleaf::support {

namespace {

struct Lead {
    std::size_t length;
    unsigned bits; ///< payload of the lead byte
    unsigned
        second_least; ///< bounds of the second byte: they shut out overlong forms and surrogates
    unsigned second_most;
};

std::optional<Lead> classify(unsigned byte) {
    if (byte < 0x80) {
        return Lead{1, byte, 0, 0};
    }
    if (byte >= 0xC2 && byte <= 0xDF) {
        return Lead{2, byte & 0x1Fu, 0x80, 0xBF};
    }
    if (byte >= 0xE0 && byte <= 0xEF) {
        return Lead{3, byte & 0x0Fu, byte == 0xE0 ? 0xA0u : 0x80u, byte == 0xED ? 0x9Fu : 0xBFu};
    }
    if (byte >= 0xF0 && byte <= 0xF4) {
        return Lead{4, byte & 0x07u, byte == 0xF0 ? 0x90u : 0x80u, byte == 0xF4 ? 0x8Fu : 0xBFu};
    }
    return std::nullopt;
}

unsigned byte_at(std::string_view text, std::size_t index) {
    return static_cast<unsigned char>(text[index]);
}

} // namespace

std::optional<Decoded> decode_utf8(std::string_view text) {
    const auto lead = classify(byte_at(text, 0));
    if (!lead || text.size() < lead->length) {
        return std::nullopt;
    }
    unsigned value = lead->bits;
    for (std::size_t i = 1; i < lead->length; ++i) {
        const unsigned byte = byte_at(text, i);
        const unsigned least = i == 1 ? lead->second_least : 0x80u;
        const unsigned most = i == 1 ? lead->second_most : 0xBFu;
        if (byte < least || byte > most) {
            return std::nullopt;
        }
        value = (value << 6) | (byte & 0x3Fu);
    }
    return Decoded{static_cast<char32_t>(value), lead->length};
}

std::optional<std::size_t> first_bad_utf8(std::string_view text) {
    std::size_t offset = 0;
    while (offset < text.size()) {
        if (byte_at(text, offset) < 0x80) {
            ++offset;
            continue;
        }
        const auto decoded = decode_utf8(text.substr(offset));
        if (!decoded) {
            return offset;
        }
        offset += decoded->length;
    }
    return std::nullopt;
}

std::size_t count_code_points(std::string_view text) {
    std::size_t count = 0;
    for (std::size_t offset = 0; offset < text.size(); ++count) {
        const auto decoded = decode_utf8(text.substr(offset));
        offset += decoded ? decoded->length : 1;
    }
    return count;
}

void append_utf8(std::string& text, char32_t code_point) {
    const auto put = [&text](unsigned byte) { text += static_cast<char>(byte); };
    const unsigned value = code_point;
    if (value < 0x80) {
        put(value);
    } else if (value < 0x800) {
        put(0xC0 | (value >> 6));
        put(0x80 | (value & 0x3F));
    } else if (value < 0x10000) {
        put(0xE0 | (value >> 12));
        put(0x80 | ((value >> 6) & 0x3F));
        put(0x80 | (value & 0x3F));
    } else {
        put(0xF0 | (value >> 18));
        put(0x80 | ((value >> 12) & 0x3F));
        put(0x80 | ((value >> 6) & 0x3F));
        put(0x80 | (value & 0x3F));
    }
}

} // namespace tickleaf::support
