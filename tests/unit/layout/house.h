// SPDX-License-Identifier: MIT
// The house's own templates and fonts for layout tests, read from the source tree.
#pragma once

#include <catch2/catch.hpp>
#include <optional>
#include <string>

#include "layout/page_template.h"
#include "tests/support/source_tree.h"
#include "yaml/tree.h"

namespace tickleaf::test {

using layout::PageTemplate;
using layout::read_template;

inline std::string slurp(const std::string& path) {
    return testing::bytes_of(path).value_or("");
}

using testing::SourceTree;

struct Read {
    support::Findings findings;
    std::optional<PageTemplate> result;
};

inline Read read_text(const std::string& text) {
    Read read;
    support::Sources sources;
    const int file = sources.add("t.yaml", text);
    const auto root = yaml::read(sources, file, read.findings);
    if (root) {
        read.result = read_template(*root, "t", read.findings);
    }
    return read;
}

inline PageTemplate template_of(const std::string& name) {
    Read read = read_text(slurp(std::string(TICKLEAF_ROOT) + "/templates/pages/" + name + ".yaml"));
    REQUIRE(read.findings.size() == 0);
    return *read.result;
}

} // namespace tickleaf::test
