// SPDX-License-Identifier: MIT
#include "text/cff.h"

#include <optional>

namespace tickleaf::text {

namespace {

using Bytes = std::span<const std::byte>;

unsigned at(Bytes bytes, std::size_t place) {
    return std::to_integer<unsigned>(bytes[place]);
}

/// The first object of an INDEX and the bytes after the INDEX (TN 5176, table 7).
struct Index {
    Bytes first;
    Bytes rest;
};

std::optional<Index> read_index(Bytes bytes) {
    if (bytes.size() < 2) {
        return std::nullopt;
    }
    const std::size_t count = at(bytes, 0) << 8 | at(bytes, 1);
    if (count == 0) {
        return Index{{}, bytes.subspan(2)};
    }
    const std::size_t size = bytes.size() < 3 ? 0 : at(bytes, 2);
    const std::size_t data = 3 + (count + 1) * size - 1; // offsets count from 1
    if (size < 1 || size > 4 || bytes.size() <= data) {
        return std::nullopt;
    }
    const auto offset = [&](std::size_t i) {
        std::size_t value = 0;
        for (std::size_t k = 0; k < size; ++k) {
            value = value << 8 | at(bytes, 3 + i * size + k);
        }
        return value;
    };
    const std::size_t begin = offset(0);
    const std::size_t end = offset(1);
    const std::size_t last = offset(count);
    if (begin < 1 || begin > end || end > last || last > bytes.size() - data) {
        return std::nullopt;
    }
    return Index{bytes.subspan(data + begin, end - begin), bytes.subspan(data + last)};
}

/// Length of the number or operator that begins a DICT (TN 5176, table 3).
std::size_t token_length(Bytes dict) {
    const unsigned first = at(dict, 0);
    if (first == 30) {
        std::size_t length = 1;
        while (length < dict.size() && (at(dict, length) & 0x0F) != 0x0F &&
               at(dict, length) >> 4 != 0x0F) {
            ++length;
        }
        return length + 1;
    }
    if (first == 12 || (first >= 247 && first <= 254)) {
        return 2;
    }
    return first == 28 ? 3 : first == 29 ? 5 : 1;
}

} // namespace

bool is_cid_keyed(Bytes cff) {
    constexpr unsigned kEscape = 12;
    constexpr unsigned kRos = 30;
    if (cff.size() < 4 || at(cff, 2) > cff.size()) {
        return false;
    }
    const auto names = read_index(cff.subspan(at(cff, 2)));
    const auto top = names ? read_index(names->rest) : std::nullopt;
    Bytes dict = top ? top->first : Bytes();
    while (dict.size() >= 2) {
        if (at(dict, 0) == kEscape && at(dict, 1) == kRos) {
            return true;
        }
        const std::size_t length = token_length(dict);
        dict = length < dict.size() ? dict.subspan(length) : Bytes();
    }
    return false;
}

} // namespace tickleaf::text
