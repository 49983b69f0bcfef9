// SPDX-License-Identifier: MIT
// Pages as data: templates against published sizes and contrast, page breaking against trying all
// breaks, and generated booklets held against what no page may do. Seeds are printed; TICKLEAF_SEED
// is not read: edit kSeeds.
#include "layout/lay_out.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <map>

#include "layout/column_widths.h"
#include "layout/paginate.h"
#include "layout/verify.h"
#include "tests/unit/layout/house.h"
#include "tests/unit/layout/sample.h"

using namespace tickleaf;
using namespace tickleaf::layout;
using test::read_text;
using test::slurp;
using test::SourceTree;
using test::template_of;

namespace {

std::string standard_text() {
    return slurp(std::string(TICKLEAF_ROOT) + "/templates/pages/standard.yaml");
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

struct Laid {
    support::Findings findings;
    std::optional<page::Document> document;
};

Laid lay(const test::SampleOptions& options, const PageTemplate& page_template,
         bool with_notes = false) {
    static const SourceTree tree;
    support::Sources sources;
    Laid laid;
    static const auto fonts = text::Fonts::load(tree, sources, laid.findings);
    text::FontSet set(fonts);
    test::Sampler sampler(options);
    content::Booklet booklet = sampler.booklet();
    if (with_notes) {
        content::Part notes;
        notes.kind = content::Part::Kind::Notes;
        notes.blocks.push_back({content::WritingLines{sampler.line("Notes", "ملاحظات"), 0}});
        booklet.parts.push_back(std::move(notes));
    }
    laid.document = lay_out(booklet, page_template, set, laid.findings);
    return laid;
}

std::vector<Fault> without_stated_splits(std::vector<Fault> faults,
                                         const support::Findings& findings) {
    const bool stated =
        std::any_of(findings.all().begin(), findings.all().end(), [](const auto& f) {
            return f.id == "layout-group-split" || f.id == "layout-callout-split" ||
                   f.id == "layout-parted";
        });
    std::erase_if(faults, [&](const Fault& fault) {
        return stated &&
               (fault.kind == Fault::Kind::SplitGroup || fault.kind == Fault::Kind::ThinPage);
    });
    return faults;
}

/// A booklet of any size, direction and number of languages.
test::SampleOptions generated(std::uint64_t seed) {
    test::Dice dice(seed * 7919);
    test::SampleOptions options;
    options.seed = seed;
    options.stages = dice.between(1, 6);
    options.exercises = dice.between(1, 12);
    options.length = 0.5 + dice.share() * 2.5;
    options.log_weeks = dice.between(1, 4);
    const char* languages[] = {"en", "es", "ar"};
    options.language = languages[dice.between(0, 2)];
    options.right_to_left = options.language == "ar";
    options.second_language = dice.between(0, 3) == 0 ? "es" : "";
    return options;
}

std::string without_spaces(const std::string& text) {
    std::string result;
    for (const char c : text) {
        result += c == ' ' || c == '\n' ? "" : std::string(1, c);
    }
    return result;
}

/// Strings of the booklet that no page shows. Left-to-right text must stand there in one piece;
/// lines from right to left keep their runs in visual order, so there each word is looked for.
std::vector<std::string> missing_strings(const test::SampleOptions& options,
                                         const page::Document& document) {
    std::string printed;
    for (const page::Page& page : document.pages) {
        for (const page::Item& item : page.items) {
            const auto* run = std::get_if<page::GlyphRun>(&item.content);
            printed += run != nullptr && !item.pagination ? without_spaces(run->text) : "";
        }
    }
    std::vector<std::string> missing;
    const auto look_for = [&](const std::string& text) {
        if (printed.find(without_spaces(text)) == std::string::npos) {
            missing.push_back(text);
        }
    };
    test::Sampler sampler(options);
    for (const std::string& text : content::all_strings(sampler.booklet())) {
        if (!options.right_to_left) {
            look_for(text);
            continue;
        }
        std::stringstream words(text);
        for (std::string word; words >> word;) {
            // Outside an isolate UAX #9 parts a leading plus from its number.
            look_for(word.front() == '+' ? word.substr(1) : word);
        }
    }
    return missing;
}

/// Exercises whose drawing stands on another page than their first step. Steps are the first list
/// under the drawing's own parent.
std::vector<std::string> steps_away_from_drawings(const page::Document& document) {
    std::map<std::size_t, std::size_t> first_page; // of a list's first content, by the list's tag
    for (std::size_t i = document.pages.size(); i-- > 0;) {
        for (const page::Item& item : document.pages[i].items) {
            for (std::size_t tag = item.tag; tag < document.tags.size();
                 tag = document.tags[tag].parent) {
                first_page[tag] = i;
            }
        }
    }
    std::vector<std::string> away;
    for (std::size_t i = 0; i < document.pages.size(); ++i) {
        for (const page::Item& item : document.pages[i].items) {
            if (!std::holds_alternative<page::PlacedDrawing>(item.content)) {
                continue;
            }
            const std::size_t parent = document.tags.at(item.tag).parent;
            for (std::size_t tag = 0; tag < document.tags.size(); ++tag) {
                const bool steps = document.tags[tag].role == page::Tag::Role::L &&
                                   document.tags[tag].parent == parent;
                if (steps && first_page.at(tag) != i) {
                    away.push_back("drawing on page " + std::to_string(i + 1) + ", steps on " +
                                   std::to_string(first_page.at(tag) + 1));
                }
                if (steps) {
                    break;
                }
            }
        }
    }
    return away;
}

Slab plain_slab(double height, double space, Break before) {
    Slab slab;
    slab.extents = {Extent{height, 0.0}};
    slab.space_before = space;
    slab.before = before;
    slab.where = "slab";
    return slab;
}

/// Fewest pages by trying every choice of breaks.
std::size_t fewest_pages(const Flow& flow, double height, std::size_t from) {
    if (from == flow.slabs.size()) {
        return 0;
    }
    std::size_t best = 1'000'000;
    for (std::size_t to = from + 1; to <= flow.slabs.size(); ++to) {
        if (page_height(flow, from, to, -1.0) > height + 1e-4) {
            break;
        }
        const bool end = to == flow.slabs.size();
        if (end || flow.slabs[to].before == Break::Allowed ||
            flow.slabs[to].before == Break::Forced) {
            best = std::min(best, 1 + fewest_pages(flow, height, to));
        }
        if (!end && flow.slabs[to].before == Break::Forced) {
            break;
        }
    }
    return best;
}

} // namespace

TEST_CASE("paper sizes are those of ISO 216 and US Letter") {
    // ISO 216:2007: A4 210 x 297 mm = 595.276 x 841.890 pt; A5 419.528 x 595.276 pt; Letter 612 x
    // 792 pt.
    CHECK(paper("a4")->width.pt() == Approx(595.276).margin(0.001));
    CHECK(paper("a4")->height.pt() == Approx(841.890).margin(0.001));
    CHECK(paper("a5")->width.pt() == Approx(419.528).margin(0.001));
    CHECK(paper("letter")->height.pt() == Approx(792.0).margin(0.001));
    CHECK_FALSE(paper("a2"));
}

TEST_CASE("contrast follows WCAG 2.x") {
    // Ratios computed from the formula of WCAG 2.x and listed with two decimals.
    const page::Colour white{255, 255, 255};
    CHECK(contrast({0, 0, 0}, white) == Approx(21.0));
    CHECK(contrast({0x76, 0x76, 0x76}, white) == Approx(4.54).margin(0.005));
    CHECK(contrast({0x59, 0x59, 0x59}, white) == Approx(7.005).margin(0.001));
    CHECK(contrast({0x95, 0x95, 0x95}, white) == Approx(2.996).margin(0.001));
    CHECK(contrast({0, 0, 255}, white) == Approx(8.59).margin(0.005));
}

/// Body, heading and dose must be found by their letters, not their name. Source: RNIB clear print,
/// x-height at least 2 mm; x-height of the standard face from its OS/2 table (sxHeight 536 of
/// 1000).
TEST_CASE("small letters of the body are at least 2 mm high") {
    const double x_height = 0.536;
    for (const char* name :
         {"standard", "large-print", "fold-booklet", "one-sheet", "log-refill"}) {
        CAPTURE(name);
        CHECK(template_of(name).body_size * x_height / 72.0 * 25.4 >= 2.0);
    }
    CHECK(template_of("one-sheet").small_size >= 12.0); // clear print, UKAAF G003 (2019) 3.1
}

/// What a black-and-white printer makes of a colour: its luma (ITU-R BT.601 weights, as in PDF's
/// conversion of DeviceRGB to DeviceGray, ISO 32000-1, 10.3.2).
page::Colour grey(page::Colour c) {
    const double luma = 0.3 * c.red + 0.59 * c.green + 0.11 * c.blue;
    const auto level = static_cast<std::uint8_t>(std::lround(luma));
    return {level, level, level};
}

TEST_CASE("text keeps 7:1 and rules 3:1 on a black-and-white printer") {
    const page::Colour white{255, 255, 255};
    for (const char* name :
         {"standard", "large-print", "fold-booklet", "one-sheet", "log-refill"}) {
        CAPTURE(name);
        const PageTemplate t = template_of(name);
        for (const page::Colour ink : {t.text, t.muted, t.accent}) {
            CHECK(contrast(grey(ink), white) >= 7.0);
        }
        CHECK(contrast(grey(t.text), grey(t.tint)) >= 7.0);
        CHECK(contrast(grey(t.muted), grey(t.tint)) >= 7.0);
        CHECK(contrast(grey(t.rule), white) >= 3.0);
    }
}

TEST_CASE("a folded template is set on half its sheet") {
    const PageTemplate fold = template_of("fold-booklet");
    REQUIRE(fold.fold_on);
    CHECK(fold.fold_on->name == "a4");
    CHECK(fold.paper.name == "a5");
    PageTemplate letter = fold;
    support::Findings findings;
    CHECK(set_paper(letter, "letter", findings));
    // Half a Letter sheet is 5.5 x 8.5 in.
    CHECK(letter.paper.width.pt() == Approx(396.0));
    CHECK(letter.paper.height.pt() == Approx(612.0));
    CHECK(letter.fold_on->name == "letter");
    PageTemplate again = letter;
    CHECK(set_paper(again, "a5", findings));
    CHECK(again.paper.name == "a5");
    CHECK(findings.size() == 0);
}

TEST_CASE("margins that leave no room on another paper are an error") {
    PageTemplate wide = template_of("standard");
    wide.margin_inner = support::Length::from_mm(60);
    wide.margin_outer = support::Length::from_mm(60);
    support::Findings findings;
    CHECK_FALSE(set_paper(wide, "a5", findings));
    REQUIRE(findings.size() == 1);
    CHECK(findings.all().front().id == "template-space");
}

TEST_CASE("a folded booklet is filled up to a multiple of four, and ends with whom to call") {
    const PageTemplate fold = template_of("fold-booklet");
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
        CAPTURE(seed);
        test::SampleOptions options;
        options.seed = seed;
        options.exercises = static_cast<int>(seed);
        const Laid laid = lay(options, fold, true);
        REQUIRE(laid.document);
        CHECK(laid.document->pages.size() % 4 == 0);
        std::string last;
        for (const page::Item& item : laid.document->pages.back().items) {
            const auto* run = std::get_if<page::GlyphRun>(&item.content);
            last += run != nullptr ? run->text : "";
        }
        CHECK(last.find("Whom to call") != std::string::npos);
        CHECK(to_text(without_stated_splits(verify(*laid.document, fold), laid.findings)) == "");
    }
}

TEST_CASE("the templates of the house are read without a finding") {
    CHECK(template_of("standard").body_size >= 12.0);    // UKAAF G003 (2019) 3.1: clear print
    CHECK(template_of("large-print").body_size >= 18.0); // two US large-print guides
}

TEST_CASE("mistakes in a template are found with position") {
    struct Case {
        const char* from;
        const char* to;
        const char* id;
    };
    const Case cases[] = {
        {"paper: a4", "paper: a2", "template-paper"},
        {"body: 12 pt", "body: 8 pt", "template-range"},
        {"body: 12 pt", "body: 12", "template-length"},
        {"top: 23 mm", "top: 200 mm", "template-range"},
        {"inner: 20 mm, outer: 20 mm", "inner: 70 mm, outer: 70 mm", "template-space"},
        {"\"#0F4C5C\"", "\"#7FB6C6\"", "template-contrast"},
        {"\"#0F4C5C\"", "\"teal\"", "template-colour"},
        {"contents, safety,", "contents,", "template-part"},
        {"inner: 20 mm, outer: 20 mm", "inner: 80 mm, outer: 80 mm", "template-space"},
        {"paper: a4", "fold_on: a5\npaper: a4", "template-fold"},
        {"contents, safety,", "saftey, safety,", "template-part"},
        {"tick_box: 5 mm", "tick_box: 3 mm", "template-range"},
        {"tick_box: 5 mm", "tick_box: 5 mm\nlogo: {file: ../logo.png}", "template-logo"},
        {"tick_box: 5 mm", "tick_box: 5 mm\nlogo: {file: logo.gif}", "template-logo"},
        {"tick_box: 5 mm", "tick_box: 5 mm\nlogo: {file: a.svg, place: top}", "template-logo"},
        {"tick_box: 5 mm", "tick_box: 5 mm\nlogo: {file: a.svg, width: 3 mm}", "template-range"},
        {"tick_box: 5 mm", "tick_box: 5 mm\nlogo: {name: Clinic}", "missing-key"},
        {"line_spacing: 1.35", "line_spacing: 0.9", "template-range"},
        {"format: 1", "format: 2", "template-format"}};
    for (const Case& c : cases) {
        CAPTURE(c.to);
        const test::Read read = read_text(replaced(standard_text(), c.from, c.to));
        REQUIRE(read.findings.has_errors());
        const auto& finding = read.findings.all().front();
        CHECK(finding.id == c.id);
        CHECK(finding.span.line > 0);
        CHECK_FALSE(read.result);
    }
}

TEST_CASE("columns get what they need first") {
    const auto shared = column_widths({{20, 30}, {40, 200}}, {}, 100);
    CHECK(shared.fits);
    CHECK(shared.widths[0] + shared.widths[1] == Approx(100));
    CHECK(shared.widths[0] >= 20);
    const auto wished = column_widths({{50, 60}, {10, 20}}, {0.2, 0.8}, 100);
    CHECK(wished.widths[0] == Approx(50)); // raised to its longest word
    CHECK(wished.widths[1] == Approx(50));
    const auto tight = column_widths({{80, 90}, {80, 90}}, {}, 100);
    CHECK_FALSE(tight.fits);
    CHECK(tight.widths[0] == Approx(50));
}

TEST_CASE("page breaking needs no more pages than trying all breaks") {
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        CAPTURE(seed);
        test::Dice dice(seed);
        Flow flow;
        for (int i = 0; i < 14; ++i) {
            const int kind = dice.between(0, 9);
            const Break before = kind < 6   ? Break::Allowed
                                 : kind < 9 ? Break::Forbidden
                                            : Break::Forced;
            flow.slabs.push_back(plain_slab(dice.between(5, 24), dice.between(0, 4),
                                            i == 0 ? Break::Allowed : before));
        }
        const std::size_t expected = fewest_pages(flow, 100.0, 0);
        support::Findings findings;
        Flow copy = flow;
        const auto cuts = paginate(copy, 100.0, findings);
        if (expected < 1'000'000) {
            CHECK(cuts.size() == expected);
            CHECK(findings.size() == 0);
        } else {
            CHECK(findings.size() > 0);
        }
        std::size_t at = 0;
        for (const PageCut& cut : cuts) {
            CHECK(cut.first == at);
            at = cut.last;
        }
        CHECK(at == flow.slabs.size());
    }
}

TEST_CASE("a drawing shrinks to save a page and grows to fill one") {
    Flow flow;
    flow.slabs.push_back(plain_slab(50, 0, Break::Allowed));
    Slab drawing = plain_slab(0, 0, Break::Allowed);
    drawing.extents = {Extent{55.0, 55.0 * kFlexShare}};
    flow.slabs.push_back(drawing);
    support::Findings findings;
    const auto tight = paginate(flow, 100.0, findings);
    REQUIRE(tight.size() == 1);
    CHECK(page_height(flow, 0, 2, tight[0].flex) <= 100.0);
    CHECK(tight[0].flex < 0.0);
    const auto loose = paginate(flow, 200.0, findings);
    CHECK(loose[0].flex == 1.0);
}

TEST_CASE("what is taller than a page is an error that names it") {
    Flow flow;
    flow.slabs.push_back(plain_slab(500, 0, Break::Allowed));
    support::Findings findings;
    CHECK(paginate(flow, 100.0, findings).size() == 1);
    REQUIRE(findings.has_errors());
    CHECK(findings.all().front().id == "layout-too-tall");
}

TEST_CASE("the verifier sees what is wrong") {
    const PageTemplate standard = template_of("standard");
    Laid laid = lay({}, standard);
    REQUIRE(laid.document);
    REQUIRE(verify(*laid.document, standard).empty());
    page::Document broken = *laid.document;
    for (page::Item& item : broken.pages[2].items) {
        auto* run = std::get_if<page::GlyphRun>(&item.content);
        if (run != nullptr && !item.pagination) {
            run->origin = {300, 300}; // all words on one heap
        }
    }
    const auto faults = verify(broken, standard);
    CHECK(std::any_of(faults.begin(), faults.end(),
                      [](const Fault& f) { return f.kind == Fault::Kind::Overlap; }));
    broken = *laid.document;
    for (page::Item& item : broken.pages[0].items) {
        if (auto* run = std::get_if<page::GlyphRun>(&item.content)) {
            run->origin.x += 200;
        }
    }
    CHECK_FALSE(verify(broken, standard).empty());
}

TEST_CASE("right-to-left pages are mirrored whole, drawings are not") {
    const PageTemplate standard = template_of("standard");
    test::SampleOptions options;
    options.language = "ar";
    options.right_to_left = true;
    const Laid laid = lay(options, standard);
    REQUIRE(laid.document);
    CHECK(laid.document->right_to_left);
    const double right = standard.paper.width.pt() - standard.margin_inner.pt();
    bool drawing_at_right = false;
    std::size_t tabs = 0;
    for (const page::Page& page : laid.document->pages) {
        for (const page::Item& item : page.items) {
            if (const auto* placed = std::get_if<page::PlacedDrawing>(&item.content)) {
                CHECK(placed->scale > 0.0); // a mirrored drawing would be another drawing
                const double end = placed->origin.x + placed->drawing->width * placed->scale;
                drawing_at_right = drawing_at_right || std::abs(end - right) < 60.0;
            }
            const auto* shape = std::get_if<page::Shape>(&item.content);
            tabs += item.pagination && shape != nullptr && shape->fill && shape->path[0].to.x < 1.0
                        ? 1u
                        : 0u;
        }
    }
    CHECK(drawing_at_right);
    CHECK(tabs >= 3); // thumb tabs stand on the left edge
}

TEST_CASE("an exercise goes into one column before it is split") {
    // Eight steps and a drawing do not fit side by side on A5 at 12 pt, but one under the other.
    PageTemplate small = template_of("standard");
    small.paper = *paper("a5");
    test::SampleOptions options;
    test::Sampler sampler(options);
    content::Booklet booklet = sampler.booklet();
    booklet.parts.resize(1);
    booklet.parts[0].kind = content::Part::Kind::Stage;
    content::Group group;
    content::Heading name;
    name.level = 2;
    name.words = sampler.line("Heel raise", "");
    content::Columns columns{0.43, {{sampler.steps(8)}}, {{test::Sampler::figure_of(sampler)}}};
    group.blocks = {{name}, {columns}};
    booklet.parts[0].blocks = {{group}};
    static const SourceTree tree;
    support::Sources sources;
    support::Findings findings;
    static const auto fonts = text::Fonts::load(tree, sources, findings);
    text::FontSet set(fonts);
    const auto document = lay_out(booklet, small, set, findings);
    REQUIRE(document);
    CHECK(findings.size() == 0);
    CHECK(document->pages.size() == 1);
    double drawing_bottom = 0.0;
    double first_step = 1e9;
    for (const page::Item& item : document->pages[0].items) {
        if (const auto* placed = std::get_if<page::PlacedDrawing>(&item.content)) {
            drawing_bottom = placed->origin.y + placed->drawing->height * placed->scale;
        } else if (item.tag < document->tags.size() &&
                   document->tags[item.tag].role == page::Tag::Role::LBody) {
            first_step = std::min(first_step, std::get<page::GlyphRun>(item.content).origin.y);
        }
    }
    CHECK(drawing_bottom > 0.0);
    CHECK(drawing_bottom < first_step);
}

TEST_CASE(
    "generated booklets: nothing overlaps, nothing leaves the margins, nothing kept is split") {
    const PageTemplate templates[] = {template_of("standard"), template_of("large-print")};
    constexpr std::uint64_t kSeeds = 60;
    for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
        for (const char* name : {"a4", "letter", "a5"}) {
            const test::SampleOptions options = generated(seed);
            PageTemplate page_template = templates[seed % 2];
            page_template.paper = *paper(name);
            CAPTURE(seed, name, options.language, page_template.name, options.stages,
                    options.exercises, options.length);
            const Laid laid = lay(options, page_template);
            REQUIRE(laid.document);
            for (const support::Finding& finding : laid.findings.all()) {
                UNSCOPED_INFO(finding.id << ": " << finding.message);
            }
            CHECK_FALSE(laid.findings.has_errors());
            CHECK(to_text(without_stated_splits(verify(*laid.document, page_template),
                                                laid.findings)) == "");
            CHECK(steps_away_from_drawings(*laid.document) == std::vector<std::string>{});
            CHECK(missing_strings(options, *laid.document) == std::vector<std::string>{});
        }
    }
}
