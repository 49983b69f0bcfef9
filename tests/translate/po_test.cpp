// SPDX-License-Identifier: MIT
// PO files as text: what is written is read back, and every fault has its place.
// Source: GNU gettext manual, "The Format of PO Files".
#include <catch2/catch.hpp>

#include <string>
#include <vector>

#include "locale/po.h"

using namespace tickleaf;
using locale::PoEntry;
using locale::PoFile;

namespace {

const std::string kHead = "msgid \"\"\nmsgstr \"\"\n"
                          "\"Content-Type: text/plain; charset=UTF-8\\n\"\n\n";

struct Read {
    support::Sources sources;
    support::Findings findings;
    std::optional<PoFile> po;
    explicit Read(std::string text) {
        po = locale::read_po(sources, sources.add("es.po", std::move(text)), findings);
    }
    /// "line:column id" of the first finding.
    std::string first() const {
        if (findings.size() == 0) {
            return "";
        }
        const auto finding = findings.sorted()[0];
        return std::to_string(finding.span.line) + ":" + std::to_string(finding.span.column) + " " +
               finding.id;
    }
};

} // namespace

TEST_CASE("what is written is read back") {
    PoFile po;
    po.notes = {"For the translator"};
    po.header = {{"Language", "es"}, {"Content-Type", "text/plain; charset=UTF-8"}};
    PoEntry entry;
    entry.notes = {"I am not sure"};
    entry.extracted = {"Shape: {n, plural, one {...} other {...}}"};
    entry.references = {"locales/en/booklet.yaml:7"};
    entry.fuzzy = true;
    entry.previous = "old \"text\"";
    entry.context = "booklet/a.text";
    entry.source = "a \\ b \"c\"\td\ne";
    entry.translation = "Ñandú ألم 疼";
    po.entries = {entry};
    const std::string text = locale::write_po(po);
    const Read read(text);
    REQUIRE(read.po);
    CHECK(read.first() == "");
    CHECK(read.po->field("Language") == "es");
    CHECK(read.po->notes == po.notes);
    REQUIRE(read.po->entries.size() == 1);
    const PoEntry& again = read.po->entries[0];
    CHECK(again.notes == entry.notes);
    CHECK(again.extracted == entry.extracted);
    CHECK(again.references == entry.references);
    CHECK(again.fuzzy);
    CHECK(again.previous == entry.previous);
    CHECK(again.context == entry.context);
    CHECK(again.source == entry.source);
    CHECK(again.translation == entry.translation);
    CHECK(locale::write_po(*read.po) == text);
}

TEST_CASE("texts may be spread over lines, with or without blank lines between entries") {
    const Read read(kHead + "#, c-format, fuzzy\n#| msgctxt \"a/b\"\n#| msgid \"\"\n#| \"old\"\n"
                            "msgctxt \"a/b\"\nmsgid \"\"\n\"one \"\n\"two\"\nmsgstr \"\"\n\"uno\"\n"
                            "# next\r\nmsgctxt \"a/c\"\r\nmsgid \"x\"\r\nmsgstr \"\"\r\n\n"
                            "#~ msgctxt \"a/d\"\n#~ msgid \"gone\"\n#~ msgstr \"ido\"\n");
    CHECK(read.first() == "");
    REQUIRE(read.po);
    REQUIRE(read.po->entries.size() == 2);
    CHECK(read.po->entries[0].source == "one two");
    CHECK(read.po->entries[0].translation == "uno");
    CHECK(read.po->entries[0].fuzzy);
    CHECK(read.po->entries[0].previous == "old");
    CHECK(read.po->entries[1].notes == std::vector<std::string>{"next"});
    CHECK_FALSE(read.po->entries[1].fuzzy);
    CHECK(read.po->obsolete == 1);
}

TEST_CASE("every fault of a PO file has its place, and all are told in one run") {
    const std::vector<std::pair<std::string, std::string>> rows = {
        {"msgctxt \"a\"\nmsgid \"x\nmsgstr \"y\"\n", "6:9 po-syntax"},
        {"msgctxt \"a\"\nmsgid \"x\"\nmsgstr \"y\" z\n", "7:12 po-syntax"},
        {"msgctxt \"a\"\nmsgid \"x\"\nmsgstr \"\\q\"\n", "7:10 po-syntax"},
        {"msgctxt \"a\"\nmsgid \"x\"\nmsgstring \"y\"\n", "5:1 po-syntax"},
        {"msgctxt \"a\"\nmsgid \"x\"\n\n", "5:1 po-syntax"},
        {"msgctxt \"a\"\nmsgid \"x\"\nmsgid_plural \"xs\"\nmsgstr \"y\"\n", "7:1 po-plural"},
        {"msgctxt \"a\"\nmsgid \"x\"\nmsgstr[0] \"y\"\nmsgstr \"y\"\n", "7:1 po-plural"},
        {"msgid \"x\"\nmsgstr \"y\"\n", "5:1 po-context"},
        {"msgctxt \"a\"\nmsgid \"x\"\nmsgstr \"y\"\n\nmsgctxt \"a\"\nmsgid \"x\"\nmsgstr \"z\"\n",
         "9:1 po-duplicate"},
        {"msgctxt \"a\"\nmsgid \"x\"\nmsgstr \"a\xF1o\"\n", "7:10 po-encoding"},
    };
    for (const auto& [body, expected] : rows) {
        const Read read(kHead + body);
        CAPTURE(body);
        CHECK(read.first() == expected);
        CHECK_FALSE(read.po);
    }
    CHECK(
        Read("msgid \"\"\nmsgstr \"Content-Type: text/plain; charset=ISO-8859-1\\n\"\n").first() ==
        "1:1 po-encoding");
    CHECK(Read("").first() == "1:1 po-encoding");
    const Read both(kHead + "msgid \"x\"\nmsgstr \"y\n\nwrong\n");
    CHECK(both.findings.size() == 3);
}
