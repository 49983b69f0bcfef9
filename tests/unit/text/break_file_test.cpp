// SPDX-License-Identifier: MIT
// Line ends before our own rules against the Unicode Consortium's own cases. Source:
// LineBreakTest.txt (UCD 15, Debian package unicode-data). ICU 72 tailors three things in it: a
// line does not end after a hyphen that begins a word (its LB 20a), nor between the sign and the
// digits of ".35" and ",5", and ends before such a number (its LB 25). Japanese is tailored more,
// on purpose (text/language.cpp), and not asked here.
#include <fstream>
#include <sstream>

#include <catch2/catch.hpp>

#include "disk.h"
#include "text/breaks.h"

namespace tickleaf::text {

namespace {

constexpr const char* kFile = "/usr/share/unicode/auxiliary/LineBreakTest.txt";

struct Case {
    std::u16string text;
    std::vector<std::uint32_t> places;
};

Case read_case(const std::string& line) {
    Case result;
    std::istringstream parts(line.substr(0, line.find('#')));
    for (std::string part; parts >> part;) {
        if (part == "÷") {
            result.places.push_back(static_cast<std::uint32_t>(result.text.size()));
        } else if (part != "×") {
            const auto code = static_cast<std::uint32_t>(std::stoul(part, nullptr, 16));
            if (code > 0xFFFF) {
                result.text += static_cast<char16_t>(0xD7C0 + (code >> 10));
                result.text += static_cast<char16_t>(0xDC00 + (code & 0x3FF));
            } else {
                result.text += static_cast<char16_t>(code);
            }
        }
    }
    return result;
}

/// Whether ICU's tailoring has a part in a case: a hyphen at the start, or a number that begins
/// with its sign.
bool is_tailored(const std::u16string& text) {
    const bool begins_with_hyphen = text[0] == u'-' || text[0] == u'\u2010';
    const std::size_t digit = text.find_first_of(u"0123456789");
    std::size_t sign = digit == std::u16string::npos || digit == 0 ? 0 : digit - 1;
    while (sign > 0 && text[sign] == u'\u0308') {
        --sign;
    }
    const bool begins_with_sign =
        digit != std::u16string::npos && digit > 0 && (text[sign] == u'.' || text[sign] == u',');
    return begins_with_hyphen || begins_with_sign;
}

} // namespace

TEST_CASE("lines end where the Unicode Consortium's cases let them") {
    std::ifstream file(kFile);
    INFO("needs " << kFile << " of the Debian package unicode-data");
    REQUIRE(file.good());
    BreakIterator iterator;
    int right = 0;
    int tailored = 0;
    for (std::string line; std::getline(file, line);) {
        if (line.empty() || line[0] == '#') {
            continue;
        }
        const Case asked = read_case(line);
        if (standard_breaks(iterator, "en", asked.text) == asked.places) {
            ++right;
        } else {
            INFO(line);
            CHECK(is_tailored(asked.text));
            ++tailored;
        }
    }
    CHECK(right >= 7632);
    CHECK(tailored <= 22);
}

} // namespace tickleaf::text
