// SPDX-License-Identifier: MIT
// Layout alone, warm, in one process on one core: the least time of many rounds for a booklet of
// about 12 pages, and for the same booklet grown from 4 to some 400 pages, where the cost a page
// should stay the same. `layout_benchmark en 24` lays out one size once.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "cli/disk.h"
#include "layout/lay_out.h"
#include "workspace/workspace.h"

using namespace tickleaf;

namespace {

struct Result {
    double milliseconds = std::numeric_limits<double>::infinity();
    std::size_t pages = 0;
};

Result least_of(int rounds, const content::Booklet& booklet,
                const layout::PageTemplate& page_template,
                const std::shared_ptr<const text::Fonts>& fonts) {
    Result best;
    for (int i = 0; i < rounds; ++i) {
        support::Findings findings;
        text::FontSet set(fonts);
        const auto begin = std::chrono::steady_clock::now();
        const auto document = layout::lay_out(booklet, page_template, set, findings);
        const std::chrono::duration<double, std::milli> took =
            std::chrono::steady_clock::now() - begin;
        best.milliseconds = std::min(best.milliseconds, took.count());
        best.pages = document ? document->pages.size() : 0;
    }
    return best;
}

/// The booklet with its stages over and over, without contents, which would name every heading
/// once.
content::Booklet grown(const content::Booklet& booklet, std::size_t stages) {
    content::Booklet result = booklet;
    std::vector<content::Part> found;
    for (const content::Part& part : booklet.parts) {
        if (part.kind == content::Part::Kind::Stage) {
            found.push_back(part);
        }
    }
    std::erase_if(result.parts, [](const content::Part& part) {
        return part.kind == content::Part::Kind::Stage ||
               part.kind == content::Part::Kind::Contents;
    });
    for (std::size_t i = 0; i < stages; ++i) {
        result.parts.push_back(found[i % found.size()]);
    }
    return result;
}

} // namespace

int main(int count, char** values) {
    const cli::Disk disk{TICKLEAF_ROOT};
    support::Sources sources;
    support::Findings findings;
    const workspace::Workspace workspace(disk, sources);
    const auto fonts = text::Fonts::load(disk, sources, findings);
    std::string why;
    const auto text = cli::read_file(
        std::string(TICKLEAF_ROOT) + "/templates/starters/ankle-sprain.yaml", 1u << 20, why);
    workspace::Choice choice;
    choice.language = count > 1 ? values[1] : "en";
    const auto plan = workspace.plan(sources.add("rx.yaml", *text), findings);
    const auto booklet = plan ? workspace.booklet(*plan, choice, findings) : std::nullopt;
    const auto page_template = workspace.page_template(choice, findings);
    if (!booklet || !page_template || !fonts) {
        std::printf("cannot be made\n");
        return 1;
    }
    std::vector<std::size_t> sizes{0, 1, 2, 3, 6, 12, 24, 48, 96};
    if (count > 2) { // one size, once: for counting instructions
        sizes = {static_cast<std::size_t>(std::stoul(values[2]))};
    }
    for (const std::size_t stages : sizes) {
        const int rounds = count > 2 ? 1 : stages < 12 ? 60 : 8;
        const Result result = least_of(rounds, grown(*booklet, stages), *page_template, fonts);
        std::printf("%4zu pages: %8.3f ms, %6.1f us a page\n", result.pages, result.milliseconds,
                    result.milliseconds * 1000.0 / static_cast<double>(result.pages));
    }
    return 0;
}
