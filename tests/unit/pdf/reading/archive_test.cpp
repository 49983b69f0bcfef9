// SPDX-License-Identifier: MIT
// The writer's files against PDF/A-2, and the checker against files broken on purpose.
#include <algorithm>
#include <functional>

#include <catch2/catch.hpp>

#include <qpdf/QPDFWriter.hh>

#include "pdf/colour_profile.h"
#include "pdf/writer.h"
#include "tests/support/breakage.h"
#include "tests/support/pdf_archive.h"
#include "tests/support/pdf_damage.h"
#include "tests/support/sample_booklet.h"

using namespace tickleaf;
using testing::Breakage;
using testing::find_object;
using testing::replace_metadata;
using testing::written;

namespace {

QPDFObjectHandle parsed(const char* text) {
    return QPDFObjectHandle::parse(text);
}

QPDFObjectHandle intent(QPDF& file) {
    return file.getRoot().getKey("/OutputIntents").getArrayItem(0);
}

/// Puts an entry into the catalog.
std::function<void(QPDF&)> catalog(const char* key, const char* value) {
    return [key, value](QPDF& f) { f.getRoot().replaceKey(key, parsed(value)); };
}

/// Puts an entry into the first object of a subtype.
std::function<void(QPDF&)> entry(const char* subtype, const char* key, const char* value) {
    return [=](QPDF& f) { find_object(f, "/Subtype", subtype).replaceKey(key, parsed(value)); };
}

std::function<void(QPDF&)> metadata(const char* from, const char* to) {
    return [from, to](QPDF& f) { replace_metadata(f, from, to); };
}

void spoil_profile(QPDF& file, std::size_t at) {
    QPDFObjectHandle profile = intent(file).getKey("/DestOutputProfile");
    const auto buffer = profile.getStreamData();
    std::string icc(reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize());
    icc.at(at) = 'x';
    profile.replaceStreamData(icc, QPDFObjectHandle::newNull(), QPDFObjectHandle::newNull());
}

QPDFObjectHandle first_page(QPDF& file) {
    return file.getAllPages().at(0);
}

std::vector<Breakage> graphics_breakages() {
    return {
        {"6.2.3", [](QPDF& f) { f.getRoot().removeKey("/OutputIntents"); }},
        {"6.2.3", [](QPDF& f) { intent(f).removeKey("/DestOutputProfile"); }},
        {"6.2.3", [](QPDF& f) { intent(f).removeKey("/OutputConditionIdentifier"); }},
        {"6.2.3", [](QPDF& f) { spoil_profile(f, 36); }},
        {"6.2.3", [](QPDF& f) { spoil_profile(f, 8); }},
        {"6.2.4.3", [](QPDF& f) { spoil_profile(f, 16); }},
        {"6.2.9", entry("/Form", "/Ref", "<<>>")},
        {"6.2.10", [](QPDF& f) { first_page(f).replaceKey("/Group", parsed("<<>>")); }},
        {"6.2.10", entry("/Form", "/SMask", "<<>>")},
        {"6.2.11.3.1",
         [](QPDF& f) {
             find_object(f, "/Subtype", "/Type0")
                 .getKey("/Encoding")
                 .getDict()
                 .replaceKey("/CIDSystemInfo", parsed("<</Registry(Adobe)/Ordering(Japan1)>>"));
         }},
        {"6.2.11.3.3", entry("/Type0", "/Encoding", "/Some-Map-H")},
        {"6.2.11.3.3",
         [](QPDF& f) {
             find_object(f, "/Subtype", "/Type0")
                 .getKey("/Encoding")
                 .getDict()
                 .replaceKey("/WMode", parsed("1"));
         }},
        {"6.2.11.4.2",
         [](QPDF& f) {
             find_object(f, "/Type", "/FontDescriptor").replaceKey("/CIDSet", parsed("<<>>"));
         }},
        {"6.1.13",
         [](QPDF& f) {
             std::string deep;
             for (int i = 0; i < 29; ++i) {
                 deep += "q ";
             }
             first_page(f)
                 .getKey("/Contents")
                 .replaceStreamData(deep, QPDFObjectHandle::newNull(), QPDFObjectHandle::newNull());
         }},
    };
}

std::vector<Breakage> other_breakages() {
    return {
        {"6.1.7.1",
         [](QPDF& f) {
             first_page(f).getKey("/Contents").getDict().replaceKey("/F", parsed("(x)"));
         }},
        {"6.3.1", entry("/Link", "/Subtype", "/Movie")},
        {"6.3.2", entry("/Link", "/F", "2")},
        {"6.3.3", entry("/Link", "/Subtype", "/Square")},
        {"6.4.1", catalog("/AcroForm", "<<>>")},
        {"6.5.1", catalog("/OpenAction", "<</S/JavaScript/JS(1)>>")},
        {"6.5.1", entry("/Link", "/A", "<</S/Launch>>")},
        {"6.5.2", [](QPDF& f) { first_page(f).replaceKey("/AA", parsed("<<>>")); }},
        {"6.6.2.1", [](QPDF& f) { f.getRoot().removeKey("/Metadata"); }},
        {"6.6.2.1", metadata("id=\"W5M0", "encoding=\"UTF-8\" id=\"W5M0")},
        {"6.6.2.3", metadata("pdfaSchema:prefix>pdfuaid", "pdfaSchema:prefix>other")},
        {"6.6.3",
         [](QPDF& f) {
             f.getTrailer().getKey("/Info").replaceKey("/Title", parsed("(Another title)"));
         }},
        {"6.6.3", metadata("<xmp:CreateDate>2026", "<xmp:CreateDate>2025")},
        {"6.6.4", metadata("<pdfaid:part>2", "<pdfaid:part>4")},
        {"6.6.4", metadata("<pdfaid:conformance>A", "<pdfaid:conformance>X")},
        {"6.7.2", [](QPDF& f) { f.getRoot().removeKey("/MarkInfo"); }},
        {"6.7.3", [](QPDF& f) { f.getRoot().removeKey("/StructTreeRoot"); }},
        {"6.7.4", [](QPDF& f) { f.getRoot().removeKey("/Lang"); }},
        {"6.8", catalog("/Names", "<</EmbeddedFiles<<>>>>")},
        {"6.9", catalog("/OCProperties", "<<>>")},
        {"6.10", [](QPDF& f) { first_page(f).replaceKey("/PresSteps", parsed("<<>>")); }},
        {"6.11", catalog("/Requirements", "[]")},
    };
}

std::vector<std::string> clauses_after(const std::string& bytes, const Breakage& breakage) {
    return testing::failed_archive_clauses(testing::damaged(bytes, breakage.damage));
}

} // namespace

TEST_CASE("a booklet with everything in it keeps the rules of PDF/A-2 a machine can test") {
    testing::SampleBooklet sample;
    page::Document document = sample.make(3);
    const std::string bytes = written(document);
    for (const auto& failure : testing::check_pdf_a(bytes)) {
        UNSCOPED_INFO(failure.clause << " " << failure.message);
    }
    CHECK(testing::failed_archive_clauses(bytes).empty());
    CHECK(testing::metadata_of(bytes).find("<pdfaid:conformance>A<") != std::string::npos);
    SECTION("without a claim of accessibility it is level U, and no PDF/UA") {
        document.claims_accessibility = false;
        document.tags.clear();
        for (page::Page& page : document.pages) {
            for (page::Item& item : page.items) {
                item.tag = page::kArtifact;
            }
        }
        const std::string plain = written(document);
        CHECK(testing::failed_archive_clauses(plain).empty());
        const std::string xmp = testing::metadata_of(plain);
        CHECK(xmp.find("<pdfaid:conformance>U<") != std::string::npos);
        CHECK(xmp.find("pdfuaid") == std::string::npos);
    }
}

TEST_CASE("the checker of PDF/A finds each rule broken") {
    testing::SampleBooklet sample;
    const std::string bytes = written(sample.make(2));
    REQUIRE(clauses_after(bytes, {"", [](QPDF&) {}}).empty());
    std::vector<Breakage> all = graphics_breakages();
    for (const Breakage& breakage : other_breakages()) {
        all.push_back(breakage);
    }
    for (std::size_t i = 0; i < all.size(); ++i) {
        INFO(i << ": " << all[i].clause);
        const auto clauses = clauses_after(bytes, all[i]);
        CHECK(std::find(clauses.begin(), clauses.end(), all[i].clause) != clauses.end());
    }
    SECTION("in the bytes themselves") {
        std::string other = bytes;
        other.replace(other.find("/ID["), 4, "/Id[");
        CHECK(testing::failed_archive_clauses(other) == std::vector<std::string>{"6.1.3"});
        other = bytes;
        other.replace(10, 4, "abcd");
        CHECK(testing::failed_archive_clauses(other) == std::vector<std::string>{"6.1.2"});
    }
}

TEST_CASE("the profile of sRGB is the same at any time") {
    const std::string icc = pdf::srgb_profile();
    CHECK(icc == pdf::srgb_profile());
    REQUIRE(icc.size() > 128);
    // ICC.1:2004-10, 7.2.8: the date; 7.2.4: version 4.2.0.
    CHECK(icc.substr(24, 6) == std::string("\x07\xD0\0\1\0\1", 6));
    CHECK(icc.substr(8, 2) == "\x04\x20");
    CHECK(icc.size() < 1024);
}
