// SPDX-License-Identifier: MIT
// Where the time goes: each stage of the way, warm, in one process on one core; shares are of the
// whole.
#include <chrono>
#include <cstdio>
#include <functional>
#include <string>
#include <vector>

#include "cli/disk.h"
#include "workspace/workspace.h"

using namespace tickleaf;

namespace {

constexpr int kRounds = 200;

double milliseconds_each(const std::function<void()>& work) {
    work();
    const auto begin = std::chrono::steady_clock::now();
    for (int i = 0; i < kRounds; ++i) {
        work();
    }
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - begin;
    return took.count() / kRounds;
}

/// What one costs more than another, each round one after the other, so that a slow moment of the
/// machine is shared.
double milliseconds_more(const std::function<void()>& work, const std::function<void()>& other) {
    using Clock = std::chrono::steady_clock;
    std::chrono::duration<double, std::milli> more{};
    for (int i = 0; i < kRounds; ++i) {
        const auto begin = Clock::now();
        work();
        const auto middle = Clock::now();
        other();
        more += (middle - begin) - (Clock::now() - middle);
    }
    return more.count() / kRounds;
}

/// The same pages without structure: what tags cost is the difference.
page::Document without_tags(page::Document document) {
    document.tags.clear();
    document.claims_accessibility = false;
    for (page::Page& page : document.pages) {
        for (page::Item& item : page.items) {
            item.tag = page::kArtifact;
        }
    }
    return document;
}

/// Checking alone, as "tickleaf check" does it: read, plan, solve, judge. The budget is 10 ms.
void measure_check(const workspace::Workspace& workspace, support::Sources& sources,
                   const std::string& text) {
    const double time = milliseconds_each([&] {
        support::Findings findings;
        const int file = sources.add("rx.yaml", text);
        static_cast<void>(workspace.plan(file, findings));
        sources.forget(file);
    });
    std::printf("check of the demo, warm: %.2f ms\n", time);
}

void measure(const workspace::Workspace& workspace, support::Sources& sources,
             const std::string& text, const std::string& language) {
    support::Findings findings;
    workspace::Choice choice;
    choice.language = language;
    choice.allow_missing = true; // the demo's own sentences are English and Spanish
    const int file = sources.add("rx.yaml", text);
    const auto plan = workspace.plan(file, findings);
    const auto booklet = plan ? workspace.booklet(*plan, choice, findings) : std::nullopt;
    const auto document = booklet ? workspace.document(*booklet, choice, findings) : std::nullopt;
    const auto pdf = document ? workspace.pdf(*document, findings) : std::nullopt;
    if (!pdf) {
        std::printf("%s: cannot be made\n", language.c_str());
        return;
    }
    struct Stage {
        const char* name;
        double time;
    };
    const Stage stages[] = {
        {"plan, solve, check",
         milliseconds_each([&] { static_cast<void>(workspace.plan(file, findings)); })},
        {"booklet",
         milliseconds_each([&] { static_cast<void>(workspace.booklet(*plan, choice, findings)); })},
        {"document", milliseconds_each([&] {
             static_cast<void>(workspace.document(*booklet, choice, findings));
         })},
        {"pdf", milliseconds_each([&] { static_cast<void>(workspace.pdf(*document, findings)); })},
    };
    double total = 0.0;
    for (const Stage& stage : stages) {
        total += stage.time;
    }
    const page::Document bare = without_tags(*document);
    const auto bare_pdf = workspace.pdf(bare, findings);
    const double tags_time =
        milliseconds_more([&] { static_cast<void>(workspace.pdf(*document, findings)); },
                          [&] { static_cast<void>(workspace.pdf(bare, findings)); });
    std::printf("%s: %zu pages, %zu bytes, %.2f ms a booklet, %.0f booklets a second\n",
                language.c_str(), document->pages.size(), pdf->size(), total, 1000.0 / total);
    for (const Stage& stage : stages) {
        std::printf("    %-20s %7.3f ms  %4.1f %%\n", stage.name, stage.time,
                    100.0 * stage.time / total);
    }
    const double size = static_cast<double>(pdf->size());
    const double bare_size = static_cast<double>(bare_pdf ? bare_pdf->size() : 0);
    std::printf("    %-20s %7.3f ms  %4.1f %% of the whole; %.0f bytes, %.1f %%\n", "tags",
                tags_time, 100.0 * tags_time / total, size - bare_size,
                100.0 * (size - bare_size) / size);
}

} // namespace

int main(int count, char** values) {
    const cli::Disk disk{TICKLEAF_ROOT};
    support::Sources sources;
    const workspace::Workspace workspace(disk, sources);
    std::string why;
    const auto text = cli::read_file(
        std::string(TICKLEAF_ROOT) + "/templates/starters/ankle-sprain.yaml", 1u << 20, why);
    measure_check(workspace, sources, *text);
    const std::vector<std::string> asked(values + 1, values + count);
    for (const std::string& language :
         asked.empty() ? std::vector<std::string>{"en", "es"} : asked) {
        measure(workspace, sources, *text, language);
    }
    return 0;
}
