// SPDX-License-Identifier: MIT
// Parts on pages: how close things stand, what is said of what does not fit, where boxes stand.
#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "layout/lay_out.h"
#include "layout/paginate.h"
#include "layout/verify.h"
#include "tests/unit/layout/house.h"
#include "tests/unit/layout/sample.h"

using namespace tickleaf;
using namespace tickleaf::layout;

namespace {

struct Laid {
    support::Findings findings;
    std::optional<page::Document> document;
};

Laid lay(const content::Booklet& booklet, const PageTemplate& page_template) {
    static const test::SourceTree tree;
    support::Sources sources;
    Laid laid;
    static const auto fonts = text::Fonts::load(tree, sources, laid.findings);
    text::FontSet set(fonts);
    laid.document = lay_out(booklet, page_template, set, laid.findings);
    return laid;
}

/// One exercise in a stage of its own.
content::Booklet one_exercise(test::Sampler& sampler, const content::Group& group) {
    content::Booklet booklet = sampler.booklet();
    booklet.parts.resize(1);
    booklet.parts[0].kind = content::Part::Kind::Stage;
    booklet.parts[0].blocks = {{group}};
    return booklet;
}

} // namespace

TEST_CASE("a finding calls an exercise by the name that is printed, not by a key") {
    test::Sampler sampler({});
    content::Heading name;
    name.level = 2;
    name.words = sampler.line("Heel raise on two legs", "");
    name.words.key = "exercise.heel-raise.name";
    content::Group group;
    group.blocks = {
        {name},
        {content::Columns{0.43, {{sampler.steps(40)}}, {{test::Sampler::figure_of(sampler)}}}}};
    const Laid laid = lay(one_exercise(sampler, group), test::template_of("large-print"));
    REQUIRE(laid.document);
    const auto& all = laid.findings.all();
    const auto split = std::find_if(all.begin(), all.end(), [](const support::Finding& finding) {
        return finding.id == "layout-group-split";
    });
    REQUIRE(split != all.end());
    CHECK(split->message.find("\"Heel raise on two legs\" is taller") == 0);
    CHECK(split->message.find("exercise.") == std::string::npos);
}

TEST_CASE(
    "an exercise over two pages keeps its drawing beside its steps, on the page of its name") {
    // Twelve steps fit beside the drawing; what follows them fills more than the page.
    test::Sampler sampler({});
    content::Heading name;
    name.level = 2;
    name.words = sampler.line("Heel raise on two legs", "");
    content::List mistakes = sampler.steps(30);
    mistakes.numbered = false;
    content::Group group;
    group.blocks = {
        {name},
        {content::Columns{0.43,
                          {{sampler.steps(12)}, {content::Paragraph{{}, sampler.prose()}}},
                          {{test::Sampler::figure_of(sampler)}, {mistakes}}}}};
    const Laid laid = lay(one_exercise(sampler, group), test::template_of("standard"));
    REQUIRE(laid.document);
    REQUIRE(laid.document->pages.size() >= 2);
    const auto& tags = laid.document->tags;
    const page::PlacedDrawing* drawing = nullptr;
    std::size_t first_steps = 0;
    for (const page::Item& item : laid.document->pages[0].items) {
        if (const auto* placed = std::get_if<page::PlacedDrawing>(&item.content)) {
            drawing = placed;
        }
    }
    REQUIRE(drawing != nullptr);
    const double left = drawing->origin.x;
    const double top = drawing->origin.y;
    const double bottom = top + drawing->drawing->height * drawing->scale;
    for (const page::Item& item : laid.document->pages[0].items) {
        const auto* run = std::get_if<page::GlyphRun>(&item.content);
        const bool is_step = run != nullptr && item.tag < tags.size() &&
                             tags[item.tag].role == page::Tag::Role::LBody;
        if (is_step && run->origin.y > top && run->origin.y < bottom) {
            CHECK(run->origin.x + run->width() < left);
            ++first_steps;
        }
    }
    CHECK(first_steps >= 3);
}

TEST_CASE("boxes to tick stand clear of the lines of their table") {
    struct Side {
        double x0 = 0.0, x1 = 0.0, y0 = 0.0, y1 = 0.0;
    };
    const auto box_of = [](const page::Path& path) {
        Side side{1e9, -1e9, 1e9, -1e9};
        for (const page::PathStep& step : path) {
            if (step.kind != page::PathStep::Kind::Close) {
                side = {std::min(side.x0, step.to.x), std::max(side.x1, step.to.x),
                        std::min(side.y0, step.to.y), std::max(side.y1, step.to.y)};
            }
        }
        return side;
    };
    test::SampleOptions options;
    options.log_weeks = 4;
    test::Sampler sampler(options);
    const content::Booklet booklet = sampler.booklet();
    for (const char* name : {"standard", "large-print", "fold-booklet"}) {
        CAPTURE(name);
        const Laid laid = lay(booklet, test::template_of(name));
        REQUIRE(laid.document);
        const double half_gap = support::Length::from_mm(0.7).pt();
        double nearest = 1e9;
        for (const page::Page& page : laid.document->pages) {
            std::vector<Side> boxes;
            std::vector<Side> uprights;
            for (const page::Item& item : page.items) {
                const auto* shape = std::get_if<page::Shape>(&item.content);
                if (shape == nullptr || shape->path.empty()) {
                    continue;
                }
                const Side side = box_of(shape->path);
                const bool form = item.tag < laid.document->tags.size() &&
                                  laid.document->tags[item.tag].role == page::Tag::Role::Form;
                if (form) {
                    boxes.push_back(side);
                } else if (side.x1 - side.x0 < 0.1) {
                    uprights.push_back(side);
                }
            }
            for (const Side& box : boxes) {
                for (const Side& line : uprights) {
                    if (line.y0 < box.y1 && box.y0 < line.y1) {
                        nearest = std::min(nearest,
                                           line.x0 > box.x0 ? line.x0 - box.x1 : box.x0 - line.x0);
                    }
                }
            }
        }
        CHECK(nearest >= half_gap - 0.01);
        CHECK(nearest < 100.0); // there are boxes in tables at all
    }
}

TEST_CASE("rows to fill in are taller where their page has room, and take no page for it") {
    const PageTemplate standard = test::template_of("standard");
    struct Log {
        std::size_t pages = 0;
        double least_row = 1e9; ///< between two lines over the whole width
    };
    const auto laid_log = [&](int rows) {
        test::Sampler sampler({});
        content::Booklet booklet = sampler.booklet();
        booklet.parts.resize(1);
        content::Table log;
        log.role = content::Table::Role::Log;
        log.caption = sampler.line("Week", "");
        for (int row = 0; row <= rows; ++row) {
            content::Row cells;
            cells.header = row == 0;
            for (int day = 0; day < 8; ++day) {
                content::Cell cell;
                cell.write_in = day > 0 && row > 0;
                if (day == 0 || row == 0) {
                    cell.words = sampler.line("Day", "");
                    cell.header = true;
                }
                cells.cells.push_back(std::move(cell));
            }
            log.rows.push_back(std::move(cells));
        }
        booklet.parts[0].kind = content::Part::Kind::Logbook;
        booklet.parts[0].blocks = {{log}};
        const Laid laid = lay(booklet, standard);
        REQUIRE(laid.document);
        CHECK(verify(*laid.document, standard).empty());
        Log measured{laid.document->pages.size()};
        std::vector<double> lines;
        for (const page::Item& item : laid.document->pages.front().items) {
            const auto* shape = std::get_if<page::Shape>(&item.content);
            const bool is_line = shape != nullptr && !shape->fill && shape->path.size() == 2 &&
                                 shape->path[0].to.y == shape->path[1].to.y && !item.pagination;
            if (is_line) {
                lines.push_back(shape->path[0].to.y);
            }
        }
        REQUIRE(lines.size() > 3);
        for (std::size_t i = 2; i < lines.size(); ++i) { // the head is no row to fill in
            measured.least_row = std::min(measured.least_row, lines[i] - lines[i - 1]);
        }
        return measured;
    };
    const double usual = standard.writing_row.pt();
    const Log few = laid_log(8);
    CHECK(few.pages == 1);
    CHECK(few.least_row == Approx(standard.body_size * 1.2 + usual));
    const Log full = laid_log(26);
    CHECK(full.pages == 1);
    CHECK(full.least_row >= usual - 0.01);
    CHECK(full.least_row < usual + standard.body_size * 0.5);
}

TEST_CASE("weeks to fill in stand two on a page where their closest setting allows it") {
    // Half a page each but for the space between their blocks.
    test::Sampler sampler({});
    content::Booklet booklet = sampler.booklet();
    booklet.parts.resize(1);
    content::Part& part = booklet.parts.front();
    part.kind = content::Part::Kind::Refill;
    part.blocks.clear();
    for (int week = 0; week < 6; ++week) {
        content::Heading name;
        name.level = 2;
        name.words = sampler.line("Week", "");
        const content::Paragraph small{content::Paragraph::Role::Small, name.words};
        content::Group group;
        group.blocks = {
            {name},           {content::Paragraph{content::Paragraph::Role::Body, name.words}},
            {sampler.log(9)}, {content::WritingLines{sampler.line("Notes", ""), 2}},
            {small},          {small}};
        part.blocks.push_back({group});
    }
    const PageTemplate refill = test::template_of("log-refill");
    const Laid laid = lay(booklet, refill);
    REQUIRE(laid.document);
    CHECK(laid.document->pages.size() == 3);
    CHECK(to_text(verify(*laid.document, refill)) == "");
}

TEST_CASE("a week over two pages has its table on one, and lines for notes down to the end") {
    const PageTemplate large = test::template_of("large-print");
    int over_two_pages = 0;
    std::size_t most_lines = 0;
    for (int rows = 3; rows < 10; ++rows) {
        CAPTURE(rows);
        test::Sampler sampler({});
        content::Booklet booklet = sampler.booklet();
        booklet.parts.resize(1);
        booklet.parts[0].kind = content::Part::Kind::Logbook;
        booklet.parts[0].blocks.clear();
        for (int week = 0; week < 3; ++week) {
            content::Heading name;
            name.level = 2;
            name.words = sampler.line("Week", "");
            content::Group group;
            group.blocks = {
                {name}, {sampler.log(rows)}, {content::WritingLines{sampler.line("Notes", ""), 2}}};
            booklet.parts[0].blocks.push_back({group});
        }
        const Laid laid = lay(booklet, large);
        REQUIRE(laid.document);
        const auto& tags = laid.document->tags;
        std::map<std::size_t, std::set<std::size_t>> pages_of_table;
        for (std::size_t page = 0; page < laid.document->pages.size(); ++page) {
            std::size_t lines = 0; // to write on: they belong to no row and are in no frame
            for (const page::Item& item : laid.document->pages[page].items) {
                std::size_t tag = item.tag;
                while (tag != page::kArtifact && tags[tag].role != page::Tag::Role::Table) {
                    tag = tags[tag].parent;
                }
                if (tag != page::kArtifact) {
                    pages_of_table[tag].insert(page);
                    lines = 0;
                    continue;
                }
                const auto* shape = std::get_if<page::Shape>(&item.content);
                lines += shape != nullptr && !item.pagination && shape->path.size() == 2 ? 1u : 0u;
            }
            most_lines = std::max(most_lines, lines);
        }
        REQUIRE(pages_of_table.size() == 3);
        const bool is_split =
            std::any_of(laid.findings.all().begin(), laid.findings.all().end(),
                        [](const auto& finding) { return finding.id == "layout-group-split"; });
        over_two_pages += is_split ? 1 : 0;
        for (const auto& [table, pages] : pages_of_table) {
            CHECK(pages.size() == 1);
        }
        std::vector<Fault> faults = verify(*laid.document, large);
        std::erase_if(faults, [&](const Fault& fault) { // said beforehand
            return is_split && fault.kind == Fault::Kind::SplitGroup;
        });
        CHECK(to_text(faults) == "");
    }
    CHECK(over_two_pages > 0);
    CHECK(most_lines > 4);
}

TEST_CASE("a break that has to pay is taken for a page, not for evenness") {
    const auto cuts_of = [](const std::vector<std::pair<double, Break>>& heights) {
        Flow flow;
        for (const auto& [height, before] : heights) {
            Slab slab;
            slab.extents = {Extent{height, 0.0}};
            slab.before = before;
            flow.slabs.push_back(slab);
        }
        support::Findings findings;
        std::vector<std::size_t> firsts;
        for (const PageCut& cut : paginate(flow, 100.0, findings)) {
            firsts.push_back(cut.first);
        }
        CHECK(findings.size() == 0);
        return firsts;
    };
    const auto allowed = Break::Allowed;
    CHECK(cuts_of({{60, allowed}, {30, allowed}, {60, Break::Paid}, {30, allowed}}) ==
          std::vector<std::size_t>{0, 2});
    CHECK(cuts_of({{60, allowed}, {30, allowed}, {60, Break::Paid}}) ==
          std::vector<std::size_t>{0, 1});
}

TEST_CASE("a thin page is trouble, the end of a part is not") {
    const auto worth = [](std::vector<double> heights) {
        Flow flow;
        for (const double height : heights) {
            Slab slab;
            slab.extents = {Extent{height, 0.0}};
            flow.slabs.push_back(slab);
        }
        return worth_of(flow, 100.0);
    };
    CHECK(worth({95, 20, 95}).pages == 3);
    CHECK(worth({95, 20, 95}).trouble >= kThinCost);
    CHECK(worth({95, 95, 20}).trouble < kThinCost);
    CHECK(worth({95, 95, 20}).cost() < worth({95, 20, 95}).cost());
}

TEST_CASE("a safety page that needs more than one stands closer where that saves a page") {
    const PageTemplate large = test::template_of("large-print");
    int saved = 0;
    for (int count = 30; count < 80; ++count) {
        CAPTURE(count);
        test::Sampler sampler({});
        content::Booklet booklet = sampler.booklet();
        booklet.parts.resize(1);
        content::Part& part = booklet.parts.front();
        part.blocks.clear();
        for (int i = 0; i < count; ++i) {
            part.blocks.push_back(
                {content::Paragraph{content::Paragraph::Role::Body, sampler.prose(1, 1)}});
        }
        part.kind = content::Part::Kind::Stage;
        const Laid usual = lay(booklet, large);
        part.kind = content::Part::Kind::Safety;
        const Laid closer = lay(booklet, large);
        REQUIRE((usual.document && closer.document));
        CHECK(closer.document->pages.size() <= usual.document->pages.size());
        saved += closer.document->pages.size() < usual.document->pages.size() &&
                         closer.document->pages.size() > 1
                     ? 1
                     : 0;
        CHECK(to_text(verify(*closer.document, large)) == "");
    }
    CHECK(saved > 0);
}

TEST_CASE("an exercise over two pages does not repeat its name for a line") {
    test::Sampler sampler({});
    const PageTemplate large = test::template_of("large-print");
    for (int steps = 3; steps < 16; ++steps) {
        CAPTURE(steps);
        content::Heading name;
        name.level = 2;
        name.words = sampler.line("Heel raise on two legs", "");
        const content::Paragraph last{content::Paragraph::Role::Small, sampler.line("Easier", "")};
        content::Group group;
        content::Columns columns{0.43, {{sampler.steps(steps)}}, {}};
        columns.second = {{test::Sampler::figure_of(sampler)}, {last}, {last}};
        group.blocks = {{name}, {columns}};
        const Laid laid = lay(one_exercise(sampler, group), large);
        REQUIRE(laid.document);
        const page::Page& end = laid.document->pages.back();
        double bottom = 0.0;
        for (const page::Item& item : end.items) {
            const auto* run = std::get_if<page::GlyphRun>(&item.content);
            bottom = run != nullptr && !item.pagination ? std::max(bottom, run->origin.y) : bottom;
        }
        CHECK(bottom - large.margin_top.pt() > 0.1 * large.text_height());
    }
}

TEST_CASE("exercises of a sheet stand side by side where that makes their drawings larger") {
    for (const bool arabic : {false, true}) {
        CAPTURE(arabic);
        test::SampleOptions options;
        options.language = arabic ? "ar" : "en";
        options.right_to_left = arabic;
        test::Sampler sampler(options);
        content::Booklet booklet = sampler.booklet();
        booklet.parts.resize(2);
        std::swap(booklet.parts[0], booklet.parts[1]);
        booklet.parts.resize(1);
        content::Part& part = booklet.parts.front(); // pain and stop signs fill most of the page
        part.kind = content::Part::Kind::Sheet;
        std::vector<content::Block> rows;
        for (int i = 0; i < 3; ++i) {
            content::Heading name;
            name.level = 2;
            name.words = sampler.line("Heel raise", "رفع الكعبين");
            content::Columns columns;
            columns.first = {{name},
                             {content::Paragraph{content::Paragraph::Role::Strong,
                                                 sampler.line("Sets: 3", "مجموعات: ٣")}}};
            columns.second = {{test::Sampler::figure_of(sampler)}};
            content::Group group;
            group.blocks = {{columns}};
            rows.push_back({group});
        }
        part.blocks.insert(part.blocks.begin() + 1, rows.begin(), rows.end());
        for (int i = 0; i < 13; ++i) {
            part.blocks.push_back(
                {content::Paragraph{content::Paragraph::Role::Body, sampler.prose(1, 1)}});
        }
        const PageTemplate sheet = test::template_of("one-sheet");
        const Laid laid = lay(booklet, sheet);
        REQUIRE(laid.document);
        CHECK(laid.document->pages.size() == 1);
        CHECK(to_text(verify(*laid.document, sheet)) == "");
        std::vector<const page::PlacedDrawing*> drawings;
        for (const page::Item& item : laid.document->pages.front().items) {
            if (const auto* placed = std::get_if<page::PlacedDrawing>(&item.content)) {
                drawings.push_back(placed);
            }
        }
        REQUIRE(drawings.size() == 3);
        const auto floor_of = [](const page::PlacedDrawing& one) {
            return one.origin.y + one.drawing->height * one.scale;
        };
        CHECK(floor_of(*drawings[0]) == Approx(floor_of(*drawings[1])));
        CHECK(floor_of(*drawings[0]) == Approx(floor_of(*drawings[2])));
        // The first stands where reading starts.
        CHECK((drawings[0]->origin.x < drawings[2]->origin.x) == !arabic);
        // One under the other they would be no wider than a fifth of the line.
        CHECK(drawings[0]->drawing->width * drawings[0]->scale > sheet.text_width() * 0.25);
    }
}

TEST_CASE("a heading does not stay at the foot of a page with a single line under it") {
    const PageTemplate large = test::template_of("large-print");
    for (int lines = 1; lines < 40; ++lines) {
        CAPTURE(lines);
        test::Sampler sampler({});
        content::Booklet booklet = sampler.booklet();
        booklet.parts.resize(1);
        content::Part& part = booklet.parts.front();
        part.kind = content::Part::Kind::Stage;
        part.blocks.clear();
        const auto say = [&](const std::string& text) {
            part.blocks.push_back(
                {content::Paragraph{content::Paragraph::Role::Body, sampler.line(text, "")}});
        };
        for (int i = 0; i < lines; ++i) {
            say("above");
        }
        content::Heading heading;
        heading.level = 2;
        heading.words = sampler.line("Before you start", "");
        part.blocks.push_back({heading});
        say("marked");
        part.blocks.push_back({sampler.steps(6)});
        const Laid laid = lay(booklet, large);
        REQUIRE(laid.document);
        const auto page_of = [&](const std::string& text) {
            for (std::size_t i = 0; i < laid.document->pages.size(); ++i) {
                for (const page::Item& item : laid.document->pages[i].items) {
                    const auto* run = std::get_if<page::GlyphRun>(&item.content);
                    if (run != nullptr && run->text.find(text) != std::string::npos) {
                        return i;
                    }
                }
            }
            return laid.document->pages.size();
        };
        CHECK(page_of("marked") == page_of("Before"));
        const std::size_t end = laid.document->pages.size();
        REQUIRE(page_of("marked") < end);
        const auto& items = laid.document->pages[page_of("marked")].items;
        CHECK(std::any_of(items.begin(), items.end(), [&](const page::Item& item) {
            return item.tag < laid.document->tags.size() &&
                   laid.document->tags[item.tag].role == page::Tag::Role::LBody;
        }));
    }
}
