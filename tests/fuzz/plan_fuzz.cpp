// SPDX-License-Identifier: MIT
// Any bytes as a prescription, all the way to the PDF where it can be made: findings or a file,
// never neither.
#include <cstddef>
#include <cstdint>
#include <string>

#include "cli/disk.h"
#include "workspace/workspace.h"

using namespace tickleaf;

namespace {

struct House {
    cli::Disk disk{TICKLEAF_ROOT};
    support::Sources sources;
    workspace::Workspace workspace{disk, sources};
};

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static House house;
    support::Findings findings;
    const int file =
        house.sources.add("fuzz.yaml", std::string(reinterpret_cast<const char*>(data), size));
    const auto plan = house.workspace.plan(file, findings);
    workspace::Choice choice;
    choice.language = "en";
    const auto booklet = plan ? house.workspace.booklet(*plan, choice, findings) : std::nullopt;
    const auto document =
        booklet ? house.workspace.document(*booklet, choice, findings) : std::nullopt;
    const auto pdf = document ? house.workspace.pdf(*document, findings) : std::nullopt;
    if (!pdf && !findings.has_errors()) {
        __builtin_trap();
    }
    for (const support::Finding& finding : findings.sorted()) {
        static_cast<void>(support::to_text(finding, house.sources));
    }
    house.sources.forget(file);
    return 0;
}
