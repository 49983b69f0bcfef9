// SPDX-License-Identifier: MIT
// The writer's files against PDF/UA-1, and the checker against files broken on purpose.
#include <algorithm>
#include <functional>

#include <catch2/catch.hpp>

#include "pdf/writer.h"
#include "tests/support/breakage.h"
#include "tests/support/pdf_check.h"
#include "tests/support/pdf_damage.h"
#include "tests/support/sample_booklet.h"

using namespace tickleaf;
using testing::Breakage;
using testing::find_element;
using testing::find_object;
using testing::replace_content;
using testing::replace_metadata;
using testing::SampleBooklet;
using testing::written;

namespace {

QPDFObjectHandle text(const char* value) {
    return QPDFObjectHandle::newUnicodeString(value);
}

QPDFObjectHandle whole(int value) {
    return QPDFObjectHandle::newInteger(value);
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
        {"7.2-26", rename("/TOC", "/Div")},
        {"7.2-27", rename("/TOCI", "/P")},
        {"14.8.4.3", rename("/Reference", "/Span")},
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
        {"7.18.5-1", [](QPDF& f) { find_element(f, "/Link").replaceKey("/K", whole(0)); }},
        {"14.9.3", [](QPDF& f) { find_element(f, "/Table").replaceKey("/Alt", text("Log")); }},
        {"12.3.2",
         [](QPDF& f) {
             QPDFObjectHandle link = find_object(f, "/Subtype", "/Link");
             link.removeKey("/A");
             link.replaceKey("/Dest", QPDFObjectHandle::parse("[null/Fit]"));
         }},
        {"12.3.2", rename("/H1", "/P")}, // no heading where the contents lead
        {"12.4.2",
         [](QPDF& f) { // another page than the number says
             for (QPDFObjectHandle object : f.getAllObjects()) {
                 if (object.isDictionary() && object.hasKey("/Dest") && object.hasKey("/Rect")) {
                     QPDFObjectHandle page = f.getAllPages().at(1);
                     object.getKey("/Dest").setArrayItem(0, page);
                 }
             }
         }},
        {"12.6.4.7", [](QPDF& f) { find_object(f, "/Subtype", "/Link").removeKey("/Dest"); }},
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
    REQUIRE(testing::failed_clauses(testing::damaged(bytes, [](QPDF&) {})).empty());
    for (const Breakage& breakage : breakages()) {
        INFO(breakage.clause);
        const auto clauses = testing::failed_clauses(testing::damaged(bytes, breakage.damage));
        CHECK(std::find(clauses.begin(), clauses.end(), breakage.clause) != clauses.end());
    }
}

TEST_CASE("a document that cannot keep its claim does not make it") {
    using page::Document;
    using Role = page::Tag::Role;
    const auto retag = [](Role from, Role to) {
        return [from, to](Document& d) {
            for (page::Tag& tag : d.tags) {
                tag.role = tag.role == from ? to : tag.role;
            }
        };
    };
    const auto first_run = [](Document& d) -> page::GlyphRun& {
        return std::get<page::GlyphRun>(d.pages[0].items[0].content);
    };
    struct Damage {
        const char* said;
        std::function<void(Document&)> make;
    };
    const std::vector<Damage> damages{
        {"without alternative text",
         [](Document& d) {
             for (page::Tag& tag : d.tags) {
                 tag.alternative.clear();
             }
         }},
        {"heading of level 3 after level 0", retag(Role::H1, Role::H3)},
        {"table without header cells", retag(Role::TH, Role::TD)},
        {"does not say what it heads",
         [](Document& d) {
             for (page::Tag& tag : d.tags) {
                 tag.scope = page::Tag::Scope::None;
             }
         }},
        {"no structure elements",
         [&](Document& d) {
             first_run(d).language = "ar";
             d.tags.clear();
             for (page::Page& page : d.pages) {
                 for (page::Item& item : page.items) {
                     item.tag = page::kArtifact;
                 }
             }
         }},
        {"no language tag", [&](Document& d) { first_run(d).language = "english_"; }},
        {"no title", [](Document& d) { d.title.clear(); }},
        {"not in a link element", retag(Role::Link, Role::Span)}};
    SampleBooklet sample;
    const Document good = sample.make(1);
    for (const Damage& damage : damages) {
        INFO(damage.said);
        Document document = good;
        damage.make(document);
        support::Findings findings;
        const auto bytes = pdf::write(document, findings);
        REQUIRE(bytes.has_value());
        CHECK_FALSE(findings.has_errors());
        const auto all = findings.sorted();
        CHECK(std::any_of(all.begin(), all.end(), [&](const support::Finding& finding) {
            return finding.message.find(damage.said) != std::string::npos;
        }));
        const std::string xmp = testing::metadata_of(*bytes);
        CHECK(xmp.find("pdfuaid") == std::string::npos);
        CHECK(xmp.find("<pdfaid:conformance>U<") != std::string::npos);
        document.claims_accessibility = false;
        support::Findings none;
        CHECK(pdf::write(document, none).has_value());
        CHECK(none.size() == 0);
    }
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
