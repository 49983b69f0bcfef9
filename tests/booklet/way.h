// SPDX-License-Identifier: MIT
// The whole way from a file of this tree, with what was said on it.
#pragma once

#include <catch2/catch.hpp>

#include <string>

#include "cli/disk.h"
#include "layout/page_template.h"
#include "workspace/workspace.h"
#include "yaml/tree.h"

namespace tickleaf::tests {

struct Way {
    cli::Disk disk{TICKLEAF_ROOT};
    support::Sources sources;
    support::Findings findings;
    workspace::Workspace workspace{disk, sources};

    workspace::Plan plan(const std::string& path) {
        std::string why;
        const auto text = cli::read_file(path, 1u << 20, why);
        REQUIRE(text);
        const auto plan = workspace.plan(sources.add(path, *text), findings);
        REQUIRE(plan);
        return *plan;
    }
    std::string said() const {
        std::string all;
        for (const auto& finding : findings.sorted()) {
            all += support::to_text(finding, sources) + '\n';
        }
        return all;
    }
};

inline layout::PageTemplate standard(Way& way) {
    const auto text = way.disk.read_data("templates/pages/standard.yaml");
    REQUIRE(text);
    const auto root =
        yaml::read(way.sources, way.sources.add("standard.yaml", *text), way.findings);
    REQUIRE(root);
    const auto page_template = layout::read_template(*root, "standard", way.findings);
    REQUIRE(page_template);
    return *page_template;
}

} // namespace tickleaf::tests
