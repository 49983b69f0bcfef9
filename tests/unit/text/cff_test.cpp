// SPDX-License-Identifier: MIT
// CFF programs by character id are told from those by glyph name, and only the first are taken.
#include "text/cff.h"

#include <algorithm>
#include <array>

#include <catch2/catch.hpp>

#include "disk.h"

namespace tickleaf::text {

namespace {

/// Header, name INDEX ("A") and a top DICT INDEX with one DICT. Source: Adobe Technical Note 5176,
/// sections 4 to 9.
std::vector<unsigned char> program(const std::vector<unsigned char>& dict) {
    std::vector<unsigned char> bytes = {1, 0, 4, 1, 0, 1, 1, 1, 2, 'A', 0, 1, 1, 1};
    bytes.push_back(static_cast<unsigned char>(dict.size() + 1));
    bytes.insert(bytes.end(), dict.begin(), dict.end());
    return bytes;
}

bool by_id(const std::vector<unsigned char>& bytes) {
    return is_cid_keyed(std::as_bytes(std::span<const unsigned char>(bytes)));
}

/// The font files of the machine, with every ROS operator of one made into another operator.
class RenamedOutlines : public DiskEnvironment {
  public:
    std::unique_ptr<support::Bytes> map_file(const std::string& path) const override {
        auto file = DiskEnvironment::map_file(path);
        if (!file || path.find("CJK-Regular") == std::string::npos) {
            return file;
        }
        const auto view = file->view();
        std::string bytes(view.size(), '\0');
        std::transform(view.begin(), view.end(), bytes.begin(),
                       [](std::byte b) { return static_cast<char>(b); });
        // SID 391 (Adobe), SID 392 (Identity), 0, ROS: how the DICT of this file begins.
        const std::array<char, 7> ros = {'\xF8', '\x1B', '\xF8', '\x1C', '\x8B', '\x0C', '\x1E'};
        for (auto at = bytes.begin(); at != bytes.end(); ++at) {
            at = std::search(at, bytes.end(), ros.begin(), ros.end());
            if (at == bytes.end()) {
                break;
            }
            *(at + 6) = '\x00';
        }
        return std::make_unique<testing::ReadBytes>(std::move(bytes));
    }
};

} // namespace

TEST_CASE("a CFF program by character id has ROS in its top DICT") {
    const std::vector<unsigned char> ros = {0xF8, 0x1B, 0xF8, 0x1C, 0x8B, 12, 30};
    CHECK(by_id(program(ros)));
    // FontBBox and a real number (TN 5176, table 5: -2.25) before; 30 as part of a number.
    CHECK(by_id(program({0x8B, 0x8B, 0x8B, 0x8B, 5, 30, 0xE2, 0xA2, 0x5F, 12, 8, 0x8B, 12, 30})));
    CHECK_FALSE(by_id(program({0x8B, 12, 0, 28, 12, 30, 15})));
    CHECK_FALSE(by_id(program({29, 0, 12, 30, 0, 17})));
    CHECK_FALSE(by_id(program({})));
    for (std::size_t size = 0; size < program(ros).size(); ++size) {
        auto cut = program(ros);
        cut.resize(size);
        CHECK_FALSE(by_id(cut));
    }
}

TEST_CASE("a font with CFF outlines by name is refused with the reason") {
    RenamedOutlines environment;
    support::Sources sources;
    support::Findings findings;
    FontSet set(Fonts::load(environment, sources, findings));
    prepare(set, {"痛み", "ja", false, {}, "the test", {}}, findings);
    REQUIRE(findings.has_errors());
    const auto finding = findings.sorted().front();
    CHECK(finding.id == "font-file");
    CHECK(finding.message.find("by glyph name") != std::string::npos);
    CHECK(finding.hint.find("cjk-ja") != std::string::npos);
}

} // namespace tickleaf::text
