// SPDX-License-Identifier: MIT
// Writes the specimen to the file given: build/release/specimen build/specimen.pdf
#include <cstdio>
#include <fstream>

#include "cli/disk.h"
#include "pdf/writer.h"
#include "tests/specimen/make_specimen.h"

using namespace tickleaf;

int main(int count, char** values) {
    if (count != 2) {
        std::printf("usage: specimen FILE.pdf\n");
        return 1;
    }
    const cli::Disk disk{TICKLEAF_ROOT};
    support::Sources sources;
    support::Findings findings;
    const auto fonts = text::Fonts::load(disk, sources, findings);
    const auto document = testing::make_specimen(fonts, TICKLEAF_DECLARATION, findings);
    for (const auto& finding : findings.sorted()) {
        std::printf("%s\n", finding.message.c_str());
    }
    const auto bytes = pdf::write(document, findings);
    if (!bytes) {
        return 1;
    }
    std::ofstream(values[1], std::ios::binary) << *bytes;
    return 0;
}
