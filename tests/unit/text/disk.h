// SPDX-License-Identifier: MIT
// The real fonts of the machine and the data of the source tree, for the tests of text/.
#pragma once

#include <memory>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "tests/support/source_tree.h"
#include "text/font_set.h"
#include "text/fonts.h"
#include "text/paragraph.h"

namespace tickleaf::text {

class DiskEnvironment : public testing::SourceTree {
  public:
    std::set<std::string> hidden;     ///< files that are not there for this test
    std::optional<std::string> table; ///< takes the place of templates/fonts.yaml

    std::optional<std::string> read_data(const std::string& path) const override {
        return table ? table : SourceTree::read_data(path);
    }
    std::unique_ptr<support::Bytes> map_file(const std::string& path) const override {
        return hidden.count(path) != 0 ? nullptr : SourceTree::map_file(path);
    }
};

/// The runs of a line from left to right.
inline std::vector<page::GlyphRun> as_seen(const Line& line) {
    std::vector<page::GlyphRun> runs = line.runs;
    // Spaces that hang at the end have no width and stand before what begins in the same place.
    std::stable_sort(runs.begin(), runs.end(), [](const auto& a, const auto& b) {
        return std::pair(a.origin.x, a.width()) < std::pair(b.origin.x, b.width());
    });
    return runs;
}

/// Fonts loaded once a test program; every test has its own FontSet.
struct Desk {
    support::Sources sources;
    support::Findings findings;
    FontSet set;

    Desk() : set(shared()) { set.impl().extra_buffer_flags = HB_BUFFER_FLAG_VERIFY; }
    static const DiskEnvironment& environment() {
        static const DiskEnvironment environment;
        return environment;
    }
    static const std::shared_ptr<const Fonts>& shared() {
        static const std::shared_ptr<const Fonts> fonts = [] {
            support::Sources sources;
            support::Findings findings;
            return Fonts::load(environment(), sources, findings);
        }();
        return fonts;
    }
    Paragraph prepare_text(std::string_view text, std::string_view language, Style style = {}) {
        return prepare(set, {text, language, is_right_to_left(language), style, "the test", {}},
                       findings);
    }
    std::string complaints() const {
        std::string all;
        for (const auto& finding : findings.sorted()) {
            all += finding.message + " [" + finding.id + "]\n";
        }
        return all;
    }
};

} // namespace tickleaf::text
