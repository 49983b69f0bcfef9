// SPDX-License-Identifier: MIT
// The phrase bank on its way out to a translator and back: a phrase stands once, its users show
// what it says, a change of it is in all of them, and faults leave the catalogs as they were.
#include <catch2/catch.hpp>

#include <string>

#include "shelf.h"

using namespace tickleaf;
using tests::bytes;
using tests::Ran;
using tests::run;
using tests::Shelf;
using tests::write;

namespace {

bool says(const std::string& text, const std::string& what) {
    return text.find(what) != std::string::npos;
}

int count(const std::string& text, const std::string& what) {
    int n = 0;
    for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) {
        ++n;
    }
    return n;
}

/// Puts a translation in place of the one a context has.
std::string with(std::string po, const std::string& context, const std::string& translation) {
    const auto entry = po.find("msgctxt \"" + context + "\"\n");
    REQUIRE(entry != std::string::npos);
    const auto begin = po.find("\nmsgstr ", entry) + 1;
    po.replace(begin, po.find("\n\n", begin) - begin, "msgstr \"" + translation + "\"");
    return po;
}

std::string line_of(const std::string& po, const std::string& context) {
    const auto begin = po.find("\nmsgstr ", po.find("msgctxt \"" + context + "\"\n"));
    return std::to_string(std::count(po.begin(), po.begin() + static_cast<long>(begin), '\n') + 2);
}

} // namespace

TEST_CASE("a phrase is exported once, and its users show what it says") {
    const Shelf shelf;
    const std::string path = shelf.file("pl.po");
    REQUIRE(shelf.program("translate export pl -o " + path).code == 0);
    const std::string po = bytes(path);
    CHECK(count(po, "msgid \"Let go slowly.\"\n") == 1);
    CHECK(says(po, "#. A phrase; must read well in exercises/ankle-press-out/step.4, "));
    CHECK(says(po, "#. In full: Let go slowly.\n#. {phrase.move.let-go} is translated once, in "
                   "phrases/move.let-go: Proszę powoli rozluźnić mięśnie.\n#. Nothing to do here"));
    CHECK(says(po, "msgctxt \"exercises/ankle-press-out/step.4\"\n"
                   "msgid \"{phrase.move.let-go}\"\nmsgstr \"{phrase.move.let-go}\"\n"));
    // Safety phrases are marked like other safety texts.
    CHECK(says(po, "#. SAFETY: a wrong or missing word here can hurt someone.\n#. A phrase; must "
                   "read well in exercises/"));
}

TEST_CASE("a changed phrase is in every text that names it") {
    const Shelf shelf;
    const std::string path = shelf.file("pl.po");
    REQUIRE(shelf.program("translate export pl -o " + path).code == 0);
    write(path,
          with(bytes(path), "phrases/move.stay-and-breathe", "Proszę tak zostać i oddychać."));
    const Ran imported = shelf.program("translate import " + path);
    CAPTURE(imported.output);
    REQUIRE(imported.code == 0);
    CHECK(says(imported.output, "1 texts changed"));
    const std::string rx = shelf.file("rx.yaml");
    std::string text = bytes(std::string(TICKLEAF_ROOT) + "/templates/starters/ankle-sprain.yaml");
    const auto at = text.find("      - do: ankle-press-out");
    REQUIRE(at != std::string::npos);
    write(rx, text.insert(at, "      - do: calf-stretch-wall\n        dose: 3 x 30 s, rest 30 s\n"
                              "      - do: calf-stretch-bent-knee\n"
                              "        dose: 3 x 30 s, rest 30 s\n"));
    const Ran made =
        shelf.program("make " + rx + " --language pl --allow-missing -o " + shelf.file("out"));
    CAPTURE(made.output);
    REQUIRE(made.code == 0);
    const Ran pages = run("pdftotext " + shelf.file("out/rx-pl.pdf") + " -");
    CHECK(count(pages.output, "Proszę tak zostać i oddychać.") >= 2);
}

TEST_CASE("where grammar forbids a phrase the text is written out, and told") {
    const Shelf shelf;
    const std::string path = shelf.file("pl.po");
    const std::string context = "exercises/ankle-press-out/step.4";
    REQUIRE(shelf.program("translate export pl -o " + path).code == 0);
    const std::string po = bytes(path);
    write(path, with(po, context, "Proszę powoli puścić."));
    const Ran written = shelf.program("translate import " + path);
    CAPTURE(written.output);
    REQUIRE(written.code == 0);
    CHECK(says(written.output, "note: text \"exercise.ankle-press-out.step.4\" writes out "
                               "\"phrase.move.let-go\""));
    const std::string file = bytes(shelf.file("locales/pl/exercises/ankle-press-out.yaml"));
    CHECK(says(file, "step.4: {text: \"Proszę powoli puścić.\", of: " +
                         locale::source_hash("Let go slowly.") + ", state: draft}"));
    // Back to the phrase.
    REQUIRE(shelf.program("translate export pl -o " + path).code == 0);
    write(path, with(bytes(path), context, "{phrase.move.let-go}"));
    CHECK(shelf.program("translate import " + path).code == 0);
    CHECK(says(bytes(shelf.file("locales/pl/exercises/ankle-press-out.yaml")),
               "step.4: {text: \"{phrase.move.let-go}\", of: "));
    // Without the entry of the phrase nobody knows which English was written out.
    const Shelf other;
    const auto begin = po.find("msgctxt \"phrases/move.let-go\"");
    std::string part = with(po, context, "Proszę powoli puścić.");
    part.erase(begin, part.find("\n\n", begin) - begin);
    write(path, part);
    const Ran partial = other.program("translate import " + path);
    CAPTURE(partial.output);
    CHECK(partial.code == 3);
    CHECK(says(partial.output, "[po-phrase]"));
}

TEST_CASE("faults of phrases have file, line and key, and change nothing on disk") {
    struct Row {
        const char* context;
        const char* translation;
        const char* id;
        const char* key;
    };
    const Row rows[] = {
        {"phrases/move.let-go", "Proszę {phrase.move.let-go}", "phrase-circle",
         "phrase.move.let-go"},
        {"exercises/chin-tuck/setup", "{phrase.start.chair-tal} {phrase.start.look-ahead}",
         "phrase-unknown", "exercise.chin-tuck.setup"},
        {"exercises/chin-tuck/setup", "{phrase.move.let-go} {phrase.start.look-ahead}",
         "phrase-other", "exercise.chin-tuck.setup"},
        {"exercises/chin-tuck/setup", "{phrase.start.chair-tall {phrase.start.look-ahead}",
         "message-syntax", "exercise.chin-tuck.setup"},
        {"phrases/safety.chair", "Proszę użyć {krzesła.", "message-syntax", "phrase.safety.chair"},
    };
    const Shelf shelf;
    const std::string path = shelf.file("pl.po");
    REQUIRE(shelf.program("translate export pl -o " + path).code == 0);
    const std::string po = bytes(path);
    const std::string before = shelf.locales();
    for (const Row& row : rows) {
        write(path, with(po, row.context, row.translation));
        const Ran ran = shelf.program("translate import " + path);
        CAPTURE(row.translation, ran.output);
        CHECK(ran.code == 3);
        CHECK(says(ran.output, "pl.po:" + line_of(po, row.context) + ":"));
        CHECK(says(ran.output, std::string("\"") + row.key + "\""));
        CHECK(says(ran.output, std::string("[") + row.id + "]"));
        CHECK(shelf.locales() == before);
    }
}
