// SPDX-License-Identifier: MIT
// The writer's files against PDF/UA-1, and the checker against files broken on purpose.
#include <functional>

#include <catch2/catch.hpp>

#include <qpdf/QPDFWriter.hh>

#include "pdf/writer.h"
#include "tests/support/pdf_check.h"
#include "tests/support/shaped_run.h"

using namespace tickleaf;
using Role = page::Tag::Role;

namespace {

/// Builds a document of many pages with everything a booklet has.
class SampleBooklet {
  public:
    SampleBooklet() { REQUIRE(fonts_.add("/usr/share/fonts/truetype/noto/NotoSans-Regular.ttf")); }

    page::Document make(std::size_t pages) {
        document_ = page::Document{};
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

  private:
    std::size_t tag(Role role, std::size_t parent, const std::string& alternative = {}) {
        page::Tag made;
        made.role = role;
        made.parent = parent;
        made.alternative = alternative;
        document_.tags.push_back(made);
        return document_.tags.size() - 1;
    }

    void text(page::Page& page, const std::string& words, std::size_t owner, double x, double y) {
        page::GlyphRun run = fonts_.shape(0, words, "en", false, 12.0);
        run.origin = {x, y};
        page.items.push_back({run, owner, owner == page::kArtifact});
    }

    void add_page(std::size_t number, const std::shared_ptr<const page::Drawing>& drawing) {
        page::Page page{595.276, 841.89, {}};
        const std::size_t section = tag(Role::Sect, 0);
        text(page, "Calf raise on two legs", tag(Role::H1, section), 50.0, 60.0);
        document_.outline.push_back({"Calf raise", 1, number, 40.0});
        const std::size_t figure =
            tag(Role::Figure, section, "A person stands on both feet, heels up.");
        page.items.push_back({page::PlacedDrawing{drawing, {50.0, 80.0}, 2.0}, figure});
        add_table(page, section);
        add_list(page, section);
        const std::size_t link = tag(Role::Link, tag(Role::P, section));
        text(page, "Call the clinic", link, 50.0, 780.0);
        page.items.push_back(
            {page::Link{50.0, 768.0, 90.0, 16.0, 0, "tel:+441632960123", "Call"}, link});
        text(page, "Note: ease off when it hurts.", tag(Role::Note, section), 50.0, 800.0);
        text(page, "Page " + std::to_string(number + 1), page::kArtifact, 50.0, 820.0);
        document_.pages.push_back(page);
    }

    void add_table(page::Page& page, std::size_t section) {
        const std::size_t table = tag(Role::Table, section);
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
                    box.path =
                        page::rectangle(50.0 + 80.0 * column, 270.0 + 20.0 * row, 14.2, 14.2);
                    box.stroke = page::Stroke{};
                    page.items.push_back(
                        {box, tag(Role::Form, cell, "Done, day " + std::to_string(row))});
                }
            }
        }
    }

    void add_list(page::Page& page, std::size_t section) {
        const std::size_t list = tag(Role::L, section);
        document_.tags[list].numbered = true;
        for (int i = 0; i < 12; ++i) {
            const std::size_t item = tag(Role::LI, list);
            text(page, std::to_string(i + 1), tag(Role::Lbl, item), 50.0, 500.0 + 20.0 * i);
            text(page, "Stand tall, hold the chair and lift both heels slowly, count to three.",
                 tag(Role::LBody, item), 70.0, 500.0 + 20.0 * i);
        }
    }

    testing::TestFonts fonts_;
    page::Document document_;
};

std::string written(const page::Document& document) {
    support::Findings findings;
    const auto bytes = pdf::write(document, findings);
    for (const auto& finding : findings.all()) {
        UNSCOPED_INFO(finding.message);
    }
    REQUIRE(findings.size() == 0);
    REQUIRE(bytes.has_value());
    return *bytes;
}

QPDFObjectHandle find_element(QPDF& file, const std::string& role) {
    for (QPDFObjectHandle object : file.getAllObjects()) {
        if (object.isDictionary() && object.hasKey("/S") && object.hasKey("/P") &&
            object.getKey("/S").getName() == role) {
            return object;
        }
    }
    FAIL("no element " << role);
    return QPDFObjectHandle::newNull();
}

/// The first object whose entry `key` is the name `value`.
QPDFObjectHandle find_object(QPDF& file, const std::string& key, const std::string& value) {
    for (QPDFObjectHandle object : file.getAllObjects()) {
        if (object.isDictionary() && object.getKey(key).isName() &&
            object.getKey(key).getName() == value) {
            return object;
        }
    }
    FAIL("no object " << value);
    return QPDFObjectHandle::newNull();
}

void replace_content(QPDF& file, const std::string& from, const std::string& to) {
    QPDFObjectHandle page = file.getAllPages().at(0);
    QPDFObjectHandle stream = page.getKey("/Contents");
    const auto buffer = stream.getStreamData();
    std::string content(reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize());
    const std::size_t at = content.find(from);
    REQUIRE(at != std::string::npos);
    content.replace(at, from.size(), to);
    stream.replaceStreamData(content, QPDFObjectHandle::newNull(), QPDFObjectHandle::newNull());
}

void replace_metadata(QPDF& file, const std::string& from, const std::string& to) {
    QPDFObjectHandle stream = file.getRoot().getKey("/Metadata");
    const auto buffer = stream.getStreamData();
    std::string content(reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize());
    const std::size_t at = content.find(from);
    REQUIRE(at != std::string::npos);
    content.replace(at, from.size(), to);
    stream.replaceStreamData(content, QPDFObjectHandle::newNull(), QPDFObjectHandle::newNull());
}

struct Breakage {
    const char* clause;
    std::function<void(QPDF&)> damage;
};

QPDFObjectHandle text(const char* value) {
    return QPDFObjectHandle::newUnicodeString(value);
}

std::vector<Breakage> breakages() {
    const auto remove = [](const char* role, const char* key) {
        return [role, key](QPDF& file) { find_element(file, role).removeKey(key); };
    };
    const auto rename = [](const char* role, const char* other) {
        return [role, other](QPDF& file) {
            find_element(file, role).replaceKey("/S", QPDFObjectHandle::newName(other));
        };
    };
    return {
        {"5-1", [](QPDF& f) { replace_metadata(f, "<pdfuaid:part>1", "<pdfuaid:part>9"); }},
        {"6.2-1", [](QPDF& f) { f.getRoot().removeKey("/MarkInfo"); }},
        {"7.1-1", [](QPDF& f) { replace_content(f, "EMC", "/Artifact BMC EMC EMC"); }},
        {"7.1-3", [](QPDF& f) { replace_content(f, "/MCID 1>>", "/MCID 999>>"); }},
        {"7.1-4",
         [](QPDF& f) {
             f.getRoot()
                 .getKey("/MarkInfo")
                 .replaceKey("/Suspects", QPDFObjectHandle::newBool(true));
         }},
        {"7.1-5", rename("/Sect", "/Chapter")},
        {"7.1-8", [](QPDF& f) { f.getRoot().removeKey("/Metadata"); }},
        {"7.1-9", [](QPDF& f) { replace_metadata(f, "<dc:title>", "<dc:other>"); }},
        {"7.1-10",
         [](QPDF& f) { f.getRoot().getKey("/ViewerPreferences").removeKey("/DisplayDocTitle"); }},
        {"7.2-29", [](QPDF& f) { f.getRoot().replaceKey("/Lang", text("english_")); }},
        {"7.2-34", [](QPDF& f) { find_element(f, "/P").replaceKey("/Lang", text("e n")); }},
        {"7.2-4", rename("/Table", "/Div")},
        {"7.2-8", rename("/TR", "/Div")},
        {"7.2-42",
         [](QPDF& f) {
             find_element(f, "/TD").replaceKey("/A",
                                               QPDFObjectHandle::parse("<</O/Table/ColSpan 3>>"));
         }},
        {"7.2-17", rename("/L", "/Div")},
        {"7.2-18", rename("/LI", "/Div")},
        {"7.3-1", remove("/Figure", "/Alt")},
        {"7.4.2-1", rename("/H1", "/H3")},
        {"7.5-1", remove("/TH", "/A")},
        {"7.9-1", remove("/Note", "/ID")},
        {"7.18.3-1",
         [](QPDF& f) {
             QPDFObjectHandle page = f.getAllPages().at(0);
             page.removeKey("/Tabs");
         }},
        {"7.18.4-2", remove("/Form", "/A")},
        {"7.18.5-1",
         [](QPDF& f) { find_object(f, "/Subtype", "/Link").removeKey("/StructParent"); }},
        {"7.18.5-2", [](QPDF& f) { find_object(f, "/Subtype", "/Link").removeKey("/Contents"); }},
        {"7.19-1",
         [](QPDF& f) {
             f.getRoot().replaceKey("/OpenAction", QPDFObjectHandle::parse("<</S/JavaScript>>"));
         }},
        {"7.20-2",
         [](QPDF& f) {
             for (QPDFObjectHandle object : f.getAllObjects()) {
                 if (object.isStream() && object.getDict().hasKey("/BBox")) {
                     object.replaceStreamData("/P<</MCID 0>>BDC EMC", QPDFObjectHandle::newNull(),
                                              QPDFObjectHandle::newNull());
                 }
             }
         }},
        {"7.21.3.2-1",
         [](QPDF& f) { find_object(f, "/Subtype", "/CIDFontType2").removeKey("/CIDToGIDMap"); }},
        {"7.21.4.1-1",
         [](QPDF& f) { find_object(f, "/Type", "/FontDescriptor").removeKey("/FontFile2"); }},
        {"7.21.5-1",
         [](QPDF& f) {
             find_object(f, "/Subtype", "/CIDFontType2")
                 .replaceKey("/W", QPDFObjectHandle::parse("[1[7]]"));
         }},
        {"7.21.7-1", [](QPDF& f) { find_object(f, "/Subtype", "/Type0").removeKey("/ToUnicode"); }},
        {"7.21.8-1",
         [](QPDF& f) {
             find_object(f, "/Subtype", "/CIDFontType2")
                 .getKey("/CIDToGIDMap")
                 .replaceStreamData(std::string(4, '\0'), QPDFObjectHandle::newNull(),
                                    QPDFObjectHandle::newNull());
         }},
    };
}

std::string damaged(const std::string& bytes, const std::function<void(QPDF&)>& damage) {
    QPDF file;
    file.processMemoryFile("test.pdf", bytes.data(), bytes.size());
    damage(file);
    QPDFWriter writer(file);
    writer.setOutputMemory();
    writer.write();
    const auto buffer = writer.getBufferSharedPointer();
    return std::string(reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize());
}

} // namespace

TEST_CASE("a booklet with everything in it keeps every rule of PDF/UA-1 a machine can test") {
    SampleBooklet sample;
    const std::string bytes = written(sample.make(12));
    for (const auto& failure : testing::check_pdf_ua(bytes)) {
        UNSCOPED_INFO(failure.clause << " " << failure.message);
    }
    CHECK(testing::failed_clauses(bytes).empty());
    // Budget of a 12-page Latin booklet, tags included.
    CHECK(bytes.size() <= 60000);
}

TEST_CASE("the checker finds each rule broken") {
    SampleBooklet sample;
    const std::string bytes = written(sample.make(2));
    REQUIRE(testing::failed_clauses(damaged(bytes, [](QPDF&) {})).empty());
    for (const Breakage& breakage : breakages()) {
        INFO(breakage.clause);
        const auto clauses = testing::failed_clauses(damaged(bytes, breakage.damage));
        CHECK(std::find(clauses.begin(), clauses.end(), breakage.clause) != clauses.end());
    }
}

TEST_CASE("a document that cannot keep its claim does not make it") {
    SampleBooklet sample;
    page::Document document = sample.make(1);
    for (page::Tag& tag : document.tags) {
        tag.alternative.clear();
    }
    support::Findings findings;
    const auto bytes = pdf::write(document, findings);
    REQUIRE(bytes.has_value());
    CHECK(findings.size() > 0);
    CHECK_FALSE(findings.has_errors());
    CHECK(bytes->find("pdfuaid") == std::string::npos);
    document.claims_accessibility = false;
    support::Findings none;
    CHECK(pdf::write(document, none).has_value());
    CHECK(none.size() == 0);
}

TEST_CASE("what cannot be written is a finding, not a crash") {
    SampleBooklet sample;
    const page::Document good = sample.make(1);
    const std::vector<std::function<void(page::Document&)>> damages{
        [](page::Document& d) { d.pages.clear(); },
        [](page::Document& d) { d.pages[0].width = 0.0; },
        [](page::Document& d) { d.pages[0].items[0].tag = 100000; },
        [](page::Document& d) { std::get<page::GlyphRun>(d.pages[0].items[0].content).font = 7; },
        [](page::Document& d) {
            std::get<page::GlyphRun>(d.pages[0].items[0].content).origin.x = 1e300;
        },
        [](page::Document& d) {
            std::get<page::GlyphRun>(d.pages[0].items[0].content).glyphs[0].id = 60000;
        },
        [](page::Document& d) {
            std::get<page::PlacedDrawing>(d.pages[0].items[1].content).drawing = nullptr;
        },
        [](page::Document& d) { d.tags[1].parent = 5; },
        [](page::Document& d) { d.outline[0].page = 9; },
        [](page::Document& d) { d.fonts[0].program.clear(); },
        [](page::Document& d) { d.fonts[0].units_per_em = 0.0; }};
    for (std::size_t i = 0; i < damages.size(); ++i) {
        INFO("damage " << i);
        page::Document document = good;
        damages[i](document);
        support::Findings findings;
        CHECK_FALSE(pdf::write(document, findings).has_value());
        CHECK(findings.has_errors());
    }
}
