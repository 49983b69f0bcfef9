// SPDX-License-Identifier: MIT
// Any bytes to the YAML reader: a tree or findings, never a crash, and every finding can be
// printed.
#include <cstddef>
#include <cstdint>
#include <string>

#include "yaml/tree.h"

using namespace tickleaf;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    support::Sources sources;
    support::Findings findings;
    const int file =
        sources.add("fuzz.yaml", std::string(reinterpret_cast<const char*>(data), size));
    const auto root = yaml::read(sources, file, findings);
    for (const support::Finding& finding : findings.sorted()) {
        static_cast<void>(support::to_text(finding, sources));
        static_cast<void>(support::to_json_line(finding, sources));
    }
    if (!root && !findings.has_errors()) {
        __builtin_trap();
    }
    return 0;
}
