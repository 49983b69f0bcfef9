// SPDX-License-Identifier: MIT
// Generated prescriptions, the whole way to pages, on every template and paper: nothing overlaps,
// leaves the margins or is split that is kept together, no page is thin, every string is there. The
// seed is printed with what failed.
#include <catch2/catch.hpp>

#include <algorithm>
#include <set>
#include <sstream>

#include "cli/disk.h"
#include "generate.h"
#include "layout/lay_out.h"
#include "layout/verify.h"
#include "workspace/workspace.h"

using namespace tickleaf;
using tests::Wish;

namespace {

#if defined(__SANITIZE_ADDRESS__)
constexpr std::uint64_t kSeeds = 45; // the fewest, and two, that meet every template on every paper
#elif defined(NDEBUG)
constexpr std::uint64_t kSeeds = 300;
#else
constexpr std::uint64_t kSeeds = 60;
#endif

/// Everything that is loaded once.
struct House {
    cli::Disk disk{TICKLEAF_ROOT};
    support::Sources sources;
    workspace::Workspace workspace{disk, sources};
    support::Findings setup;
    std::shared_ptr<const text::Fonts> fonts = text::Fonts::load(disk, sources, setup);
};

House& house() {
    static House one;
    return one;
}

struct Laid {
    content::Booklet booklet;
    layout::PageTemplate page_template;
    support::Findings findings;
    std::optional<page::Document> document;
};

std::string told(const support::Findings& findings) {
    std::string text;
    for (const auto& finding : findings.sorted()) {
        text += support::to_text(finding, house().sources) + "\n";
    }
    return text;
}

Laid lay(std::uint64_t seed, const Wish& wish) {
    const std::string rx = tests::prescription(seed, wish, house().workspace.exercise_ids());
    support::Findings before;
    workspace::Choice choice;
    choice.language = wish.language;
    choice.second_language = wish.second_language;
    choice.page_template = wish.page_template;
    choice.paper = wish.paper;
    const int file = house().sources.add("rx.yaml", rx);
    const auto plan = house().workspace.plan(file, before);
    auto booklet = plan ? house().workspace.booklet(*plan, choice, before) : std::nullopt;
    auto page_template = house().workspace.page_template(choice, before);
    house().sources.forget(file);
    INFO(rx << told(before));
    REQUIRE(booklet);
    REQUIRE(page_template);
    tests::stretch(*booklet, wish.length);
    Laid laid{std::move(*booklet), std::move(*page_template), {}, {}};
    text::FontSet set(house().fonts);
    laid.document = layout::lay_out(laid.booklet, laid.page_template, set, laid.findings);
    return laid;
}

/// Splits that were said beforehand are graceful choices, not faults; each is said once.
std::string unsaid_faults(const Laid& laid) {
    std::size_t said = 0;
    for (const auto& finding : laid.findings.all()) {
        said += finding.id == "layout-group-split" || finding.id == "layout-callout-split" ||
                finding.id == "layout-parted";
    }
    std::vector<layout::Fault> faults = layout::verify(*laid.document, laid.page_template);
    std::size_t splits = 0;
    std::erase_if(faults, [&](const layout::Fault& fault) {
        splits += fault.kind == layout::Fault::Kind::SplitGroup;
        return fault.kind == layout::Fault::Kind::SplitGroup && splits <= said;
    });
    return layout::to_text(faults);
}

/// A page is too small for a booklet in two languages, in large print, or for texts of thrice their
/// length: an error that says so is as good as pages.
bool may_be_too_tall(const Wish& wish) {
    return wish.length > 1.5 || !wish.second_language.empty() || wish.paper == "a5";
}

/// Without what is not seen: spaces, line ends, word joiners, isolates.
std::string folded(std::string text) {
    for (const std::string unseen :
         {" ", "\n", "\u00A0", "\u2060", "\u2066", "\u2067", "\u2068", "\u2069"}) {
        for (std::size_t at = 0; (at = text.find(unseen, at)) != std::string::npos;) {
            text.erase(at, unseen.size());
        }
    }
    return text;
}

/// Strings of the booklet that no page shows. Lines from right to left keep their runs in visual
/// order, so there each word is looked for.
std::vector<std::string> missing_strings(const Laid& laid) {
    std::string printed;
    for (const page::Page& page : laid.document->pages) {
        for (const page::Item& item : page.items) {
            const auto* run = std::get_if<page::GlyphRun>(&item.content);
            printed += run != nullptr && !item.pagination ? folded(run->text) : "";
        }
    }
    content::Booklet booklet = laid.booklet;
    if (laid.page_template.fold_on) { // filled in only where pages are missing
        std::erase_if(booklet.parts, [](const content::Part& part) {
            return part.kind == content::Part::Kind::Notes ||
                   part.kind == content::Part::Kind::SpareLog;
        });
    }
    std::vector<std::string> missing;
    const auto look_for = [&](const std::string& text) {
        if (printed.find(folded(text)) == std::string::npos) {
            missing.push_back(text);
        }
    };
    const bool mixed = booklet.right_to_left || !booklet.second_language.empty();
    for (const std::string& text : content::all_strings(booklet)) {
        std::stringstream words(mixed ? text : std::string());
        std::string word;
        while (words >> word) {
            // Outside an isolate UAX #9 parts signs from numbers in right-to-left text.
            const bool plain = std::none_of(word.begin(), word.end(), [](unsigned char c) {
                return c < 0x80 && !std::isalpha(c);
            });
            if (plain) {
                look_for(word);
            }
        }
        if (!mixed) {
            look_for(text);
        }
    }
    return missing;
}

} // namespace

TEST_CASE("generated prescriptions lie well on every template and paper") {
    REQUIRE(house().fonts);
    std::size_t laid_out = 0;
    std::size_t too_tall = 0;
    std::set<std::string> seen;
    for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
        const Wish wish = tests::wish_of(seed);
        CAPTURE(seed, wish.language, wish.second_language, wish.page_template, wish.paper,
                wish.stages, wish.exercises, wish.length);
        const Laid laid = lay(seed, wish);
        INFO(told(laid.findings));
        REQUIRE(laid.document);
        if (laid.findings.has_errors()) {
            CHECK(may_be_too_tall(wish));
            CHECK(std::all_of(laid.findings.all().begin(), laid.findings.all().end(),
                              [](const auto& finding) {
                                  return finding.severity != support::Severity::Error ||
                                         finding.id == "layout-too-tall";
                              }));
            ++too_tall;
            continue;
        }
        ++laid_out;
        seen.insert(wish.page_template + wish.paper);
        CHECK(unsaid_faults(laid) == "");
        CHECK(missing_strings(laid) == std::vector<std::string>{});
        CHECK((!laid.page_template.fold_on || laid.document->pages.size() % 4 == 0));
    }
    CHECK(seen.size() == 15); // every template on every paper
    CHECK(too_tall * 20 <= laid_out);
}
