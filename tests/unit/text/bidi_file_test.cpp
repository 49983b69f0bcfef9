// SPDX-License-Identifier: MIT
// The order of a line against the Unicode Consortium's own cases. Source: BidiCharacterTest.txt
// (UCD 15, Debian package unicode-data); fields 0, 2 and 4: code points, level of the paragraph,
// order from left to right. Cases with embeddings, overrides or unmatched isolates hold nothing to
// draw: there a finding is the answer. Not asked: tabs, which are spaces here, and two slips of ICU
// 72 (is_slip() below).
#include <fstream>
#include <sstream>

#include <catch2/catch.hpp>

#include "disk.h"
#include "support/utf8.h"
#include "text/collect.h"

namespace tickleaf::text {

namespace {

constexpr const char* kFile = "/usr/share/unicode/BidiCharacterTest.txt";

struct Case {
    std::u32string text;
    bool right_to_left = false;
    std::vector<std::size_t> order;
};

std::optional<Case> read_case(const std::string& line) {
    std::vector<std::string> fields;
    std::istringstream parts(line);
    for (std::string field; std::getline(parts, field, ';');) {
        fields.push_back(field);
    }
    if (fields.size() < 4 || line[0] == '#') {
        return std::nullopt;
    }
    Case result;
    result.right_to_left = fields[2] == "1";
    std::istringstream codes(fields[0]);
    for (unsigned code = 0; codes >> std::hex >> code;) {
        result.text += static_cast<char32_t>(code);
    }
    std::istringstream order(fields.size() > 4 ? fields[4] : std::string());
    for (std::size_t place = 0; order >> place;) {
        result.order.push_back(place);
    }
    return result;
}

std::string to_utf8(std::u32string_view text) {
    std::string result;
    for (const char32_t c : text) {
        support::append_utf8(result, c);
    }
    return result;
}

bool has_override(const std::u32string& text) {
    return std::any_of(text.begin(), text.end(),
                       [](char32_t c) { return c >= 0x202A && c <= 0x202E; });
}

/// ICU 72 leaves a mark on a closing bracket at the very end of a text at the paragraph's level,
/// and follows brackets in brackets not to the same depth (BD16: 63).
bool is_slip(const std::u32string& text) {
    constexpr std::ptrdiff_t kDeep = 60;
    const auto base = std::find_if(text.rbegin(), text.rend(), [](char32_t c) {
        return c != 0x200D && !(c >= 0x0331 && c <= 0x0333) && c != 0x20D6;
    });
    const bool marked_bracket =
        base != text.rbegin() && base != text.rend() && (*base == U')' || *base == U']');
    return marked_bracket || std::count(text.begin(), text.end(), U'(') > kDeep;
}

/// The cluster of every code point (the place it begins at), as the runs say.
using Clusters = std::vector<std::size_t>;

/// What is drawn, from left to right: the code point each cluster begins with.
std::vector<std::size_t> drawn_order(const Case& asked, const Line& line, Clusters& clusters) {
    clusters.assign(asked.text.size(), asked.text.size());
    std::vector<std::pair<double, std::size_t>> places;
    std::size_t next = 0;
    for (const page::GlyphRun& run : line.runs) {
        std::vector<std::size_t> of_byte(run.text.size() + 1);
        for (std::size_t byte = 0; byte < run.text.size();) {
            while (is_invisible(asked.text.at(next))) {
                ++next;
            }
            of_byte[byte] = next++;
            byte += support::decode_utf8(std::string_view(run.text).substr(byte))->length;
        }
        double pen = run.origin.x;
        for (const page::Glyph& glyph : run.glyphs) {
            const std::size_t first = of_byte.at(glyph.text_begin);
            const auto last = std::max_element(of_byte.begin() + glyph.text_begin,
                                               of_byte.begin() + glyph.text_end);
            std::fill(clusters.begin() + static_cast<std::ptrdiff_t>(first),
                      clusters.begin() + static_cast<std::ptrdiff_t>(*last) + 1, first);
            places.emplace_back(pen, first);
            pen += glyph.advance;
        }
    }
    // Glyphs of a run stand in visual order already; those that take no room keep theirs.
    std::stable_sort(places.begin(), places.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first - 1e-6; });
    std::vector<std::size_t> order;
    for (const auto& [x, place] : places) {
        if (order.empty() || order.back() != place) {
            order.push_back(place);
        }
    }
    return order;
}

std::vector<std::size_t> wanted_order(const Case& asked, const Clusters& clusters) {
    std::vector<std::size_t> order;
    for (const std::size_t place : asked.order) {
        const std::size_t cluster = clusters.at(place);
        if (!is_invisible(asked.text.at(place)) && (order.empty() || order.back() != cluster)) {
            order.push_back(cluster);
        }
    }
    return order;
}

struct Counts {
    int right = 0;
    int refused = 0;
    int not_asked = 0;
};

void check_case(Desk& desk, const Case& asked, const std::string& line, Counts& counts) {
    if (asked.text.find(U'\t') != std::u32string::npos || is_slip(asked.text)) {
        ++counts.not_asked;
        return;
    }
    support::Findings findings;
    const std::string text = to_utf8(asked.text);
    const Paragraph paragraph =
        prepare(desk.set, {text, "he", asked.right_to_left, {}, "", {}}, findings);
    if (findings.size() > 0) {
        ++counts.refused;
        return;
    }
    const auto lines = paragraph.lines({1e6, 0.0});
    Clusters clusters;
    const auto drawn =
        lines.size() == 1 ? drawn_order(asked, lines[0], clusters) : std::vector<std::size_t>();
    if (lines.size() == 1 && drawn == wanted_order(asked, clusters)) {
        ++counts.right;
    } else {
        INFO(line);
        INFO(Catch::Detail::stringify(drawn));
        FAIL_CHECK("drawn in another order");
    }
}

} // namespace

TEST_CASE("lines stand in the order of the Unicode Consortium's cases") {
    std::ifstream file(kFile);
    INFO("needs " << kFile << " of the Debian package unicode-data");
    REQUIRE(file.good());
    Desk desk;
    desk.set.impl().extra_buffer_flags = 0;
    Counts counts;
    int overridden = 0;
    int number = 0;
    for (std::string line; std::getline(file, line);) {
        const auto asked = read_case(line);
        if (!asked || number++ % TICKLEAF_EVERY_CASE != 0) {
            continue;
        }
        overridden += has_override(asked->text) ? 1 : 0;
        check_case(desk, *asked, line, counts);
    }
    INFO("right " << counts.right << ", refused " << counts.refused << ", with overrides "
                  << overridden << ", not asked " << counts.not_asked);
    CHECK(counts.right * TICKLEAF_EVERY_CASE > 91000);
    CHECK(counts.not_asked < 40);
    CHECK(counts.refused >= overridden);
    CHECK((counts.refused - overridden) * TICKLEAF_EVERY_CASE < 100);
}

} // namespace tickleaf::text
