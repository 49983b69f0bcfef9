// SPDX-License-Identifier: MIT
#include "tests/support/sample_booklet.h"

#include <stdexcept>

namespace tickleaf::testing {

using Role = page::Tag::Role;

SampleBooklet::SampleBooklet() {
    if (!fonts_.add("/usr/share/fonts/truetype/noto/NotoSans-Regular.ttf")) {
        throw std::runtime_error("fonts-noto-core is not installed");
    }
}

page::Document SampleBooklet::make(std::size_t pages) {
    document_ = page::Document{};
    pages_ = pages;
    document_.title = "Ankle programme";
    document_.author = "T. Adeyemi";
    document_.language = "en";
    document_.date = "2026-03-02";
    tag(Role::Document, page::kArtifact);
    const auto drawing = std::make_shared<page::Drawing>();
    drawing->width = 100.0;
    drawing->height = 80.0;
    for (int i = 0; i < 30; ++i) {
        page::Shape limb;
        limb.path = page::Path{{.kind = page::PathStep::Kind::Move, .to = {1.37 * i, 10.0}},
                               {.kind = page::PathStep::Kind::Curve,
                                .to = {90.0, 3.0 + i},
                                .a = {20.0 + i, 5.5},
                                .b = {60.0, 2.1 * i}}};
        limb.stroke = page::Stroke{};
        drawing->shapes.push_back(limb);
    }
    for (std::size_t i = 0; i < pages; ++i) {
        add_page(i, drawing);
    }
    fonts_.embed(document_);
    return document_;
}

std::size_t SampleBooklet::tag(Role role, std::size_t parent, const std::string& alternative) {
    page::Tag made;
    made.role = role;
    made.parent = parent;
    made.alternative = alternative;
    document_.tags.push_back(made);
    return document_.tags.size() - 1;
}

void SampleBooklet::text(page::Page& page, const std::string& words, std::size_t owner, double x,
                         double y) {
    page::GlyphRun run = fonts_.shape(0, words, "en", false, 12.0);
    run.origin = {x, y};
    page.items.push_back({run, owner, owner == page::kArtifact});
}

void SampleBooklet::add_page(std::size_t number,
                             const std::shared_ptr<const page::Drawing>& drawing) {
    page::Page page{595.276, 841.89, {}};
    const std::size_t section = tag(Role::Sect, 0);
    text(page, "Calf raise on two legs", tag(Role::H1, section), 50.0, 60.0);
    document_.outline.push_back({"Calf raise", 1, number, 40.0});
    const std::size_t figure =
        tag(Role::Figure, section, "A person stands on both feet, heels up.");
    page.items.push_back({page::PlacedDrawing{drawing, {50.0, 80.0}, 2.0}, figure});
    add_table(page, section);
    add_list(page, section);
    if (number == 0) {
        add_contents(page, section);
    }
    const std::size_t link = tag(Role::Link, tag(Role::P, section));
    text(page, "Call the clinic", link, 50.0, 780.0);
    page.items.push_back(
        {page::Link{50.0, 768.0, 90.0, 16.0, 0, "tel:+441632960123", "Call"}, link});
    text(page, "Note: ease off when it hurts.", tag(Role::Note, section), 50.0, 800.0);
    text(page, "Page " + std::to_string(number + 1), page::kArtifact, 50.0, 820.0);
    document_.pages.push_back(page);
}

/// A contents list as PDF/UA wants it: TOC, TOCI, Reference, the link and its text in one.
void SampleBooklet::add_contents(page::Page& page, std::size_t section) {
    const std::size_t contents = tag(Role::TOC, section);
    for (std::size_t target = 0; target < pages_; ++target) {
        const std::size_t item = tag(Role::TOCI, contents);
        const std::size_t link = tag(Role::Link, tag(Role::Reference, item));
        const double y = 60.0 + 14.0 * static_cast<double>(target);
        const std::string words = "Calf raise on two legs, page " + std::to_string(target + 1);
        text(page, words, link, 330.0, y);
        page.items.push_back({page::Link{330.0, y - 10.0, 120.0, 14.0, target, "", words}, link});
    }
}

void SampleBooklet::add_table(page::Page& page, std::size_t section) {
    const std::size_t table = tag(Role::Table, section, "Boxes to tick");
    for (int row = 0; row < 10; ++row) {
        const std::size_t line = tag(Role::TR, table);
        for (int column = 0; column < 6; ++column) {
            const bool header = row == 0 || column == 0;
            const std::size_t cell = tag(header ? Role::TH : Role::TD, line);
            if (header) {
                document_.tags[cell].scope =
                    row == 0 ? page::Tag::Scope::Column : page::Tag::Scope::Row;
                text(page, "Set " + std::to_string(row + column), cell, 50.0 + 80.0 * column,
                     280.0 + 20.0 * row);
            } else {
                page::Shape box;
                box.path = page::rectangle(50.0 + 80.0 * column, 270.0 + 20.0 * row, 14.2, 14.2);
                box.stroke = page::Stroke{};
                page.items.push_back(
                    {box, tag(Role::Form, cell, "Done, day " + std::to_string(row))});
            }
        }
    }
}

void SampleBooklet::add_list(page::Page& page, std::size_t section) {
    const std::size_t list = tag(Role::L, section);
    document_.tags[list].numbered = true;
    for (int i = 0; i < 12; ++i) {
        const std::size_t item = tag(Role::LI, list);
        text(page, std::to_string(i + 1), tag(Role::Lbl, item), 50.0, 500.0 + 20.0 * i);
        text(page, "Stand tall, hold the chair and lift both heels slowly, count to three.",
             tag(Role::LBody, item), 70.0, 500.0 + 20.0 * i);
    }
}

} // namespace tickleaf::testing
