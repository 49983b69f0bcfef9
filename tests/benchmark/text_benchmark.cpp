// SPDX-License-Identifier: MIT
// Shaping and breaking a text of the length of a 12-page booklet (the Universal Declaration of
// Human Rights: 1800 English words), by language. The least of many rounds, on one core, fonts
// open: with nothing remembered, with its words known from other texts, with its paragraphs known.
// And the texts of real booklets. Warm means there: fonts and shaping plans are loaded, and the
// booklet of another prescription in the same language was made in this process, as when a clinic
// makes a batch. All strings in one weight and width, without layout.
// Usage: text_benchmark FOLDER [--once] LANGUAGE=FILE...  (FOLDER as tests/text/fetch.sh makes it)
//        text_benchmark --booklets LANGUAGE...
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstring>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "cli/disk.h"
#include "text/font_set.h"
#include "text/paragraph.h"
#include "workspace/workspace.h"

using namespace tickleaf;

namespace {

constexpr double kWidth = 460.0;
constexpr int kRounds = 60;

/// The texts between <p> and </p> or <h2> and </h2>, with the five entities of XML.
std::vector<std::string> paragraphs_of(const std::string& html) {
    std::vector<std::string> result;
    std::size_t at = 0;
    while ((at = html.find('<', at)) != std::string::npos) {
        const bool block = html.compare(at, 3, "<p>") == 0 || html.compare(at, 4, "<h2>") == 0;
        const std::size_t begin = html.find('>', at) + 1;
        if (block) {
            const std::size_t end = html.find("</", begin);
            result.push_back(html.substr(begin, end - begin));
        }
        at = begin;
    }
    return result;
}

/// Lines made, so that nothing is optimised away.
std::size_t set_all(const std::shared_ptr<const text::Fonts>& fonts,
                    const std::vector<std::string>& paragraphs, const std::string& language) {
    text::FontSet set(fonts);
    support::Findings findings;
    std::size_t lines = 0;
    const bool right_to_left = text::is_right_to_left(language);
    for (const std::string& text : paragraphs) {
        const auto paragraph =
            text::prepare(set, {text, language, right_to_left, {}, "", {}}, findings);
        lines += paragraph.lines({kWidth, 0.0}).size();
    }
    return lines;
}

double least_milliseconds(const std::function<void()>& before, const std::function<void()>& work,
                          int rounds) {
    double least = 1e9;
    for (int i = 0; i < rounds; ++i) {
        before();
        const auto begin = std::chrono::steady_clock::now();
        work();
        const std::chrono::duration<double, std::milli> took =
            std::chrono::steady_clock::now() - begin;
        least = std::min(least, took.count());
    }
    return least;
}

void measure(const std::shared_ptr<const text::Fonts>& fonts, const std::string& folder,
             const std::string& asked, int rounds) {
    const std::size_t equals = asked.find('=');
    const std::string language = asked.substr(0, equals);
    std::string why;
    const auto html = cli::read_file(
        folder + "/" + asked.substr(std::min(equals, asked.size() - 1) + 1) + ".html", 1u << 20,
        why);
    if (!html) {
        std::printf("%s: %s\n", asked.c_str(), why.c_str());
        return;
    }
    const auto paragraphs = paragraphs_of(*html);
    std::size_t lines = 0;
    const auto work = [&] { lines = set_all(fonts, paragraphs, language); };
    const auto nothing = [] {};
    const auto forget = [&] { fonts->impl().forget(text::Fonts::Impl::Remembered::Nothing); };
    const auto keep_words = [&] { fonts->impl().forget(text::Fonts::Impl::Remembered::Words); };
    work();
    const double fresh = least_milliseconds(forget, work, rounds);
    const double words = least_milliseconds(keep_words, work, rounds);
    const double known = least_milliseconds(nothing, work, rounds);
    std::printf(
        "%-8s %5zu lines   new %7.2f ms   known words %7.2f ms   known paragraphs %6.2f ms\n",
        language.c_str(), lines, fresh, words, known);
}

/// What a booklet says, and on how many pages.
struct Texts {
    std::vector<std::string> strings;
    std::size_t pages = 0;
};

Texts texts_of(const workspace::Workspace& workspace, support::Sources& sources,
               const std::string& starter, const std::string& language) {
    std::string why;
    const auto yaml = cli::read_file(
        std::string(TICKLEAF_ROOT) + "/templates/starters/" + starter + ".yaml", 1u << 20, why);
    support::Findings findings;
    workspace::Choice choice;
    choice.language = language;
    choice.allow_missing = true; // the starters' own sentences are English
    const auto plan = workspace.plan(sources.add(starter, yaml.value_or("")), findings);
    const auto booklet = plan ? workspace.booklet(*plan, choice, findings) : std::nullopt;
    const auto document = booklet ? workspace.document(*booklet, choice, findings) : std::nullopt;
    return document ? Texts{content::all_strings(*booklet), document->pages.size()} : Texts{};
}

void measure_booklets(const std::shared_ptr<const text::Fonts>& fonts,
                      const std::string& language) {
    const cli::Disk disk{TICKLEAF_ROOT};
    support::Sources sources;
    const workspace::Workspace workspace(disk, sources);
    const Texts first = texts_of(workspace, sources, "ankle-sprain", language);
    const Texts next = texts_of(workspace, sources, "knee-front", language);
    if (first.pages == 0 || next.pages == 0) {
        std::printf("%s: no booklet\n", language.c_str());
        return;
    }
    const auto work = [&] { set_all(fonts, next.strings, language); };
    const auto forget = [&] { fonts->impl().forget(text::Fonts::Impl::Remembered::Nothing); };
    const auto make_first = [&] {
        forget();
        set_all(fonts, first.strings, language);
    };
    work();
    const double fresh = least_milliseconds(forget, work, kRounds);
    const double warm = least_milliseconds(make_first, work, kRounds);
    const double to_twelve = 12.0 / static_cast<double>(next.pages);
    std::printf("%-8s %3zu pages   new %6.2f ms   after another booklet %6.2f ms   "
                "of 12 pages: %6.2f and %5.2f ms\n",
                language.c_str(), next.pages, fresh, warm, fresh * to_twelve, warm * to_twelve);
}

} // namespace

int main(int count, char** values) {
    const cli::Disk disk{TICKLEAF_ROOT};
    support::Sources sources;
    support::Findings findings;
    const auto fonts = text::Fonts::load(disk, sources, findings);
    if (fonts == nullptr || count < 3) {
        std::printf("usage: text_benchmark FOLDER [--once] LANGUAGE=FILE...\n"
                    "       text_benchmark --booklets LANGUAGE...\n");
        return 1;
    }
    int rounds = kRounds;
    const bool booklets = std::strcmp(values[1], "--booklets") == 0;
    for (int i = 2; i < count; ++i) {
        if (booklets) {
            measure_booklets(fonts, values[i]);
        } else if (std::strcmp(values[i], "--once") == 0) {
            rounds = 1;
        } else {
            measure(fonts, values[1], values[i], rounds);
        }
    }
    return 0;
}
