// SPDX-License-Identifier: MIT
// Bad files on the way back: each fault with file, line and key, all in one run, and the catalogs
// on disk as they were. And the states that a text can go through.
#include <catch2/catch.hpp>

#include <string>
#include <vector>

#include "shelf.h"

using namespace tickleaf;
using tests::bytes;
using tests::Ran;
using tests::write;

namespace {

/// A small data folder with one language.
class Desk {
  public:
    explicit Desk(const std::string& booklet) {
        const std::string head = "format: 1\nlong_date: d MMMM y\nshort_date: d MMM\n";
        write(file("locales/en/language.yaml"),
              head + "name: English\nenglish_name: English\nlocale: en-GB\n"
                     "side_words: {left: [left], right: [right]}\nglossary: {stop: [stop]}\n");
        write(
            file("locales/en/booklet.yaml"),
            "format: 1\ntexts:\n  # First\n  a.sets: \"{n, plural, one {# set} other {# sets}}\"\n"
            "  a.stop: \"Stop at once.\"\n\n  # Second\n"
            "  a.side: \"{side, select, left {left} right {right} other {one}} leg\"\n"
            "  a.last: \"Week {n}\"\n");
        write(file("locales/en/units.yaml"), "format: 1\ntexts:\n  u.a: \"{low} to {high}\"\n");
        write(file("locales/pl/language.yaml"),
              head + "name: polski\nenglish_name: Polish\nlocale: pl\n"
                     "side_words: {left: [lewa], right: [prawa]}\nglossary: {stop: [przerwa]}\n");
        write(file("locales/pl/booklet.yaml"), booklet);
        write(file("locales/pl/units.yaml"), "format: 1\ntexts: {}\n");
        std::filesystem::create_directories(file("figures"));
        std::filesystem::create_directories(file("templates"));
    }
    std::string file(const std::string& name) const { return folder_.file(name); }
    std::string booklet() const { return bytes(file("locales/pl/booklet.yaml")); }
    /// Imports a file with these entries.
    Ran import(const std::string& entries, const std::string& options = "") const {
        write(file("pl.po"),
              "msgid \"\"\nmsgstr \"\"\n\"Content-Type: text/plain; charset=UTF-8\\n\"\n"
              "\"X-Tickleaf-Format: 1\\n\"\n\"X-Tickleaf-Language: pl\\n\"\n\n" +
                  entries);
        return program("translate import " + file("pl.po") + " " + options);
    }
    Ran program(const std::string& arguments) const {
        return tests::run(std::string(TICKLEAF_BINARY) + " --data " + folder_.path() + " " +
                          arguments);
    }

  private:
    tests::Folder folder_;
};

std::string entry(const std::string& key, const std::string& source, const std::string& text,
                  const std::string& above = "") {
    return above + "msgctxt \"booklet/" + key + "\"\nmsgid \"" + source + "\"\nmsgstr \"" + text +
           "\"\n\n";
}

const std::string kSets = "{n, plural, one {# set} other {# sets}}";
const std::string kSide = "{side, select, left {left} right {right} other {one}} leg";
const std::string kEmpty = "format: 1\ntexts: {}\n";

std::string line(const std::string& key, const std::string& text, const std::string& english,
                 const std::string& state = "draft") {
    return "  " + key + ": {text: \"" + text + "\", of: " + locale::source_hash(english) +
           ", state: " + state + "}\n";
}

bool says(const Ran& ran, const std::string& what) {
    return ran.output.find(what) != std::string::npos;
}

} // namespace

TEST_CASE("broken texts are refused with file, line and key, and nothing is written") {
    struct Row {
        std::string entries;
        const char* id;
        const char* place;
    };
    const Row rows[] = {
        {entry("a.sets", kSets, "{n, plural, one {# seria} other {# serii}}"), "message-plural",
         "pl.po:9:8"},
        {entry("a.sets", kSets, "{n, plural, one {# seria} few {#} many {#}}"), "message-other",
         "pl.po:9:8"},
        {entry("a.sets", kSets, "{n, plural, one {# seria"), "message-syntax", "pl.po:9:8"},
        {entry("a.sets", kSets, "serie"), "message-placeholder", "pl.po:9:8"},
        {entry("a.last", "Week {n}", "Tydzień {m}"), "message-placeholder", "pl.po:9:8"},
        {entry("a.last", "Week {n}", "Тиждень {n}"), "message-script", "pl.po:9:8"},
        {entry("a.last", "Week {n}", "Tydzień {n} z 4"), "text-number", "pl.po:9:8"},
        {entry("a.last", "Week {n}", "Tydzień’{n}’ it's"), "message-apostrophe", "pl.po:9:8"},
        {entry("a.stop", "Stop at once.", "Dalej."), "text-glossary", "pl.po:9:8"},
        {entry("a.side", kSide, "{side, select, left {prawa} right {lewa} other {jedna}} noga"),
         "message-side", "pl.po:9:8"},
        {entry("a.side", kSide, "lewa noga"), "message-side", "pl.po:9:8"},
        {entry("a.gone", "Gone", "Nie ma"), "po-unknown", "pl.po:7:1"},
        {entry("a.last", "Month {n}", "Miesiąc {n}"), "po-outdated", "pl.po:7:1"},
        {entry("a.last", "Week {n}", "Tydzie\xF1 {n}"), "po-encoding", "pl.po:9:15"},
        {entry("a.last", "Week {n}", "A {n}") + entry("a.last", "Week {n}", "B {n}"),
         "po-duplicate", "pl.po:11:1"},
    };
    for (const Row& row : rows) {
        const Desk desk(kEmpty);
        const Ran ran = desk.import(row.entries);
        CAPTURE(row.entries, ran.output);
        CHECK(ran.code == 3);
        CHECK(says(ran, row.id));
        CHECK(says(ran, row.place));
        CHECK(desk.booklet() == kEmpty);
    }
}

TEST_CASE("all faults are told in one run") {
    const Desk desk(kEmpty);
    const Ran ran = desk.import(entry("a.sets", kSets, "{n") + entry("a.gone", "x", "y") +
                                entry("a.last", "Week {n}", "Tydzień"));
    CAPTURE(ran.output);
    for (const char* what : {"message-syntax", "po-unknown", "message-placeholder", "a.sets",
                             "a.gone", "a.last", "pl.po:9:", "pl.po:11:", "pl.po:17:"}) {
        CHECK(says(ran, what));
    }
}

TEST_CASE("a file of another tool or version is refused") {
    const Desk desk(kEmpty);
    for (const char* header : {"", "\"X-Tickleaf-Format: 2\\n\"\n\"Language: pl\\n\"\n"}) {
        write(desk.file("x.po"), std::string("msgid \"\"\nmsgstr \"\"\n\"Content-Type: text/plain; "
                                             "charset=UTF-8\\n\"\n") +
                                     header);
        const Ran ran = desk.program("translate import " + desk.file("x.po"));
        CAPTURE(ran.output);
        CHECK(ran.code == 3);
        CHECK(says(ran, "po-version"));
    }
    CHECK(desk.program("translate import nowhere.po").code == 1);
    CHECK(desk.program("translate export en").code == 3);
    CHECK(desk.program("translate export tlhh -o " + desk.file("t.po")).code == 4);
    CHECK(desk.program("translate").code == 2);
}

TEST_CASE("a catalog on disk that cannot be read is not written over") {
    for (const std::string& broken :
         {std::string(
              "format: 1\ntexts:\n  a.last: {text: \"Tydzie\xF1 {n}\", of: 00000000, state: "
              "draft}\n"),
          "format: 1\ntexts:\n" + line("a.last", "A {n}", "Week {n}") +
              line("a.last", "B {n}", "Week {n}")}) {
        const Desk desk(broken);
        const Ran ran = desk.import(entry("a.stop", "Stop at once.", "Natychmiast przerwać."));
        CAPTURE(ran.output);
        CHECK(ran.code == 3);
        CHECK(says(ran, "locales/pl/booklet.yaml:"));
        CHECK(desk.booklet() == broken);
    }
}

TEST_CASE("new texts take their place among the old, comments and unknown spelling stay") {
    const std::string before = "# of ours\nformat: 1\ntexts:\n  # Erste\n" +
                               line("a.sets", "x", "y").insert(2, "") + "\n  # Zweite\n" +
                               line("a.last", "Tydzień {n}", "Week {n}") + "  # the end\n";
    const Desk desk(before);
    const Ran ran = desk.import(entry("a.stop", "Stop at once.", "Natychmiast przerwać.") +
                                entry("a.last", "Week {n}", "Tydz. {n}"));
    CAPTURE(ran.output);
    REQUIRE(ran.code == 0);
    CHECK(desk.booklet() == "# of ours\nformat: 1\ntexts:\n  # Erste\n" + line("a.sets", "x", "y") +
                                line("a.stop", "Natychmiast przerwać.", "Stop at once.") +
                                "\n  # Zweite\n" + line("a.last", "Tydz. {n}", "Week {n}") +
                                "  # the end\n");
    // No text is lost for being empty in the file.
    const std::string now = desk.booklet();
    const Ran empty = desk.import(entry("a.last", "Week {n}", ""));
    CHECK(empty.code == 0);
    CHECK(says(empty, "po-empty"));
    CHECK(desk.booklet() == now);
}

TEST_CASE("a catalog in one line is refused, not rewritten") {
    const std::string flow = "format: 1\ntexts: {a.last: {text: \"Tydzień {n}\", of: " +
                             locale::source_hash("Week {n}") + ", state: draft}}\n";
    const Desk desk(flow);
    const Ran ran = desk.import(entry("a.last", "Week {n}", "Tydz. {n}"));
    CAPTURE(ran.output);
    CHECK(ran.code == 3);
    CHECK(says(ran, "catalog-layout"));
    CHECK(desk.booklet() == flow);
}

TEST_CASE("the states a text goes through") {
    const std::string reviewed = "reviewed, by: \"translator\", on: 2026-01-02";
    const std::string by = "--reviewed-by nurse --on 2026-02-03";
    struct Row {
        std::string before;
        std::string above; ///< flags in the file
        std::string text;
        std::string options;
        std::string after;
    };
    const std::string now = "Week {n}";
    const std::string old = "#| msgid \"Weeks {n}\"\n";
    const Row rows[] = {
        // draft
        {line("a.last", "A {n}", now), "#, fuzzy\n", "A {n}", by, line("a.last", "A {n}", now)},
        {line("a.last", "A {n}", now), "", "A {n}", "", line("a.last", "A {n}", now)},
        {line("a.last", "A {n}", now), "", "A {n}", by,
         line("a.last", "A {n}", now, "reviewed, by: \"nurse\", on: 2026-02-03")},
        // reviewed: stays with who reviewed it, falls back where changed or marked
        {line("a.last", "A {n}", now, reviewed), "", "A {n}", by,
         line("a.last", "A {n}", now, reviewed)},
        {line("a.last", "A {n}", now, reviewed), "", "B {n}", "", line("a.last", "B {n}", now)},
        {line("a.last", "A {n}", now, reviewed), "#, fuzzy\n", "A {n}", "",
         line("a.last", "A {n}", now)},
        // stale: stays so while it is fuzzy, whatever the tool left of "#|"
        {line("a.last", "A {n}", "Weeks {n}"), "#, fuzzy\n" + old, "A {n}", by,
         line("a.last", "A {n}", "Weeks {n}")},
        {line("a.last", "A {n}", "Weeks {n}", reviewed), "#, fuzzy\n", "A {n}", by,
         line("a.last", "A {n}", "Weeks {n}", reviewed)},
        {line("a.last", "A {n}", "Weeks {n}"), "#, fuzzy\n" + old, "B {n}", "",
         line("a.last", "B {n}", "Weeks {n}")},
        {line("a.last", "A {n}", "Weeks {n}"), "#, fuzzy\n", "B {n}", "",
         line("a.last", "B {n}", "Weeks {n}")},
        {line("a.last", "A {n}", "Weeks {n}"), "", "B {n}", by,
         line("a.last", "B {n}", now, "reviewed, by: \"nurse\", on: 2026-02-03")},
        {line("a.last", "A {n}", "Weeks {n}"), "", "A {n}", "", line("a.last", "A {n}", now)},
    };
    for (const Row& row : rows) {
        const Desk desk("format: 1\ntexts:\n" + row.before);
        const Ran ran = desk.import(entry("a.last", now, row.text, row.above), row.options);
        CAPTURE(row.before, row.above, row.text, ran.output);
        CHECK(ran.code == 0);
        CHECK(desk.booklet() == "format: 1\ntexts:\n" + row.after);
    }
}

TEST_CASE("stale texts go out with the hash of the English they were made from") {
    const Desk desk("format: 1\ntexts:\n" + line("a.last", "A {n}", "Weeks {n}"));
    REQUIRE(desk.program("translate export pl -o " + desk.file("pl.po")).code == 0);
    const std::string po = bytes(desk.file("pl.po"));
    CHECK(po.find("#, fuzzy\n#| msgid \"[earlier English, hash " +
                  locale::source_hash("Weeks {n}") + "]\"\nmsgctxt \"booklet/a.last\"\n") !=
          std::string::npos);
    // Poland's plurals are CLDR's (check values 10.1).
    CHECK(
        po.find("one for 1; few for 2, 3, 4, 22...; many for 0, 5, 6, 7...; other for fractions") !=
        std::string::npos);
}

TEST_CASE("the clinician's copy goes out and in only where it is asked for or there") {
    const Desk desk(kEmpty);
    write(desk.file("locales/en/clinician.yaml"),
          "format: 1\ntexts:\n  clinician.title: \"Copy for the file\"\n");
    const std::string po = desk.file("pl.po");
    REQUIRE(desk.program("translate export pl -o " + po).code == 0);
    CHECK(bytes(po).find("clinician/") == std::string::npos);
    REQUIRE(desk.program("translate export pl --clinician -o " + po).code == 0);
    std::string text = bytes(po);
    const std::string empty = "msgid \"Copy for the file\"\nmsgstr \"";
    const auto at = text.find(empty);
    REQUIRE(at != std::string::npos);
    write(po, text.insert(at + empty.size(), "Kopia do akt"));
    CHECK(desk.program("translate import " + po).code == 0);
    CHECK(bytes(desk.file("locales/pl/clinician.yaml")) ==
          "format: 1\ntexts:\n" + line("clinician.title", "Kopia do akt", "Copy for the file"));
    REQUIRE(desk.program("translate export pl -o " + po).code == 0);
    CHECK(bytes(po).find("msgstr \"Kopia do akt\"") != std::string::npos);
}
