// SPDX-License-Identifier: MIT
#include "prescription/language_tag.h"

#include <algorithm>
#include <vector>

#include "prescription/notation.h"

namespace tickleaf::prescription {

namespace {

constexpr std::size_t kLongestTag = 64; ///< RFC 5646, 4.4.1 asks for 35 at least

bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

bool all(std::string_view text, bool (*test)(char)) {
    return std::all_of(text.begin(), text.end(), test);
}

bool is_alphanumeric(char c) {
    return is_letter(c) || is_digit(c);
}

std::vector<std::string_view> split(std::string_view tag) {
    std::vector<std::string_view> parts;
    while (true) {
        const std::size_t dash = tag.find('-');
        parts.push_back(tag.substr(0, dash));
        if (dash == std::string_view::npos) {
            return parts;
        }
        tag.remove_prefix(dash + 1);
    }
}

bool is_region(std::string_view part) {
    return (part.size() == 2 && all(part, is_letter)) || (part.size() == 3 && all(part, is_digit));
}

bool is_variant(std::string_view part) {
    const bool long_one = part.size() >= 5 && part.size() <= 8;
    const bool short_one = part.size() == 4 && is_digit(part.front());
    return (long_one || short_one) && all(part, is_alphanumeric);
}

} // namespace

bool is_language_tag(std::string_view tag) {
    if (tag.size() > kLongestTag) {
        return false;
    }
    const auto parts = split(tag);
    const std::string_view language = parts.front();
    if ((language.size() != 2 && language.size() != 3) || !all(language, is_letter)) {
        return false;
    }
    std::size_t next = 1;
    if (next < parts.size() && parts[next].size() == 4 && all(parts[next], is_letter)) {
        ++next;
    }
    if (next < parts.size() && is_region(parts[next])) {
        ++next;
    }
    return std::all_of(parts.begin() + static_cast<std::ptrdiff_t>(next), parts.end(), is_variant);
}

std::string language_tag_hint(std::string_view tag) {
    std::string dashed(tag);
    std::replace(dashed.begin(), dashed.end(), '_', '-');
    if (dashed != tag && is_language_tag(dashed)) {
        return "did you mean \"" + dashed + "\"?";
    }
    return "write a language tag such as en, es, pt-BR or zh-Hant";
}

bool is_same_tag(std::string_view a, std::string_view b) {
    return lower_case(a) == lower_case(b);
}

std::string usual_case(std::string_view tag) {
    constexpr int kToUpper = 'A' - 'a';
    std::string usual = lower_case(tag);
    for (std::size_t at = usual.find('-'); at != std::string::npos; at = usual.find('-', at + 1)) {
        const std::size_t begin = at + 1;
        const std::size_t size = std::min(usual.find('-', begin), usual.size()) - begin;
        const std::size_t capitals = size == 2 ? 2 : size == 4 ? 1 : 0;
        for (std::size_t i = begin; i < begin + capitals; ++i) {
            if (usual[i] >= 'a' && usual[i] <= 'z') {
                usual[i] = static_cast<char>(usual[i] + kToUpper);
            }
        }
    }
    return usual;
}

} // namespace tickleaf::prescription
