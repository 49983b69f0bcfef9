// SPDX-License-Identifier: MIT
// What a clinic sees of the state of a translation: in the list, on the page, and as an error where
// it asks for one.
#include <catch2/catch.hpp>

#include <regex>
#include <string>

#include "shelf.h"

using namespace tickleaf;
using tests::bytes;
using tests::Ran;
using tests::run;
using tests::Shelf;
using tests::write;

namespace {

const std::string kDemo = std::string(TICKLEAF_ROOT) + "/templates/starters/ankle-sprain.yaml";
const std::string kAllLanguages =
    std::string(TICKLEAF_ROOT) + "/tests/booklet/cases/ankle-sprain-all-languages.yaml";

bool says(const Ran& ran, const std::string& what) {
    return ran.output.find(what) != std::string::npos;
}

int count(const std::string& text, const std::string& what) {
    int n = 0;
    for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) {
        ++n;
    }
    return n;
}

/// Every draft of the language made a text that somebody has reviewed.
void review(const Shelf& shelf, const std::string& tag, const std::string& only = "") {
    for (const auto& entry :
         std::filesystem::recursive_directory_iterator(shelf.file("locales/" + tag))) {
        if (!entry.is_regular_file()) {
            continue;
        }
        std::istringstream lines(bytes(entry.path()));
        std::string text;
        for (std::string line; std::getline(lines, line);) {
            const auto at = line.rfind("state: draft}");
            if (at != std::string::npos && line.find(only) != std::string::npos) {
                line = line.substr(0, at) + "state: reviewed, by: translator, on: 2026-01-02}";
            }
            text += line + "\n";
        }
        write(entry.path(), text);
    }
}

std::string drop_line(const std::string& path, const std::string& begin) {
    std::istringstream lines(bytes(path));
    std::string text;
    std::string dropped;
    for (std::string line; std::getline(lines, line);) {
        const bool is_it = line.starts_with(begin);
        dropped = is_it ? line : dropped;
        text += is_it ? "" : line + "\n";
    }
    write(path, text);
    return dropped;
}

/// The text of page `number` of a booklet.
std::string page(const std::string& pdf, int number) {
    const std::string n = std::to_string(number);
    return run("pdftotext -f " + n + " -l " + n + " " + pdf + " -").output;
}

int pages(const std::string& pdf) {
    return std::stoi(run("pdfinfo " + pdf + " | sed -n 's/^Pages: *//p'").output);
}

} // namespace

TEST_CASE("what nobody has reviewed is said wherever it stands, in both languages") {
    const Shelf shelf;
    const std::string out = shelf.file("out");
    const std::string english = "No qualified translator has checked the safety words yet.";
    const std::string spanish = "Ningún traductor cualificado ha revisado aún los textos de";
    REQUIRE(shelf.program("make " + kDemo + " --language es,en,en+es -o " + out).code == 0);
    int marked = 0;
    for (const char* name : {"/ankle-sprain-es.pdf", "/ankle-sprain-en+es.pdf"}) {
        for (int number = 1; number <= pages(out + name); ++number) {
            // Lines end where the column does.
            const std::string text =
                std::regex_replace(page(out + name, number), std::regex("\\s+"), " ");
            CAPTURE(name, number, text);
            if (text.find("En este cuaderno") != std::string::npos) {
                continue; // the contents: names of parts, no text that keeps anybody safe
            }
            const bool is_full =
                text.find(english) != std::string::npos && text.find(spanish) != std::string::npos;
            const bool is_short = text.find("Not yet checked") != std::string::npos &&
                                  text.find("Sin revisar todavía") != std::string::npos;
            const bool has_safety = text.find("Precaución") != std::string::npos ||
                                    text.find("Antes de empezar") != std::string::npos ||
                                    text.find("Cuide su seguridad") != std::string::npos ||
                                    text.find("Advertencia: pare") != std::string::npos ||
                                    text.find("Emergencia: llame") != std::string::npos;
            marked += has_safety ? 1 : 0;
            CHECK((!has_safety || is_full || is_short));
            const bool is_front = number == 1 || text.find("Cuide su seg") != std::string::npos;
            CHECK((!is_front || is_full));
        }
    }
    CHECK(marked >= 8);
    // The words that stand in the program are those of the catalog.
    CHECK(bytes(shelf.file("locales/en/booklet.yaml"))
              .find("notice.draft_title: \"Not yet checked\"\n") != std::string::npos);
    CHECK(page(out + "/ankle-sprain-en.pdf", 1).find("No qualified") == std::string::npos);
    review(shelf, "es");
    REQUIRE(shelf.program("make " + kDemo + " --language es -o " + out).code == 0);
    CHECK(page(out + "/ankle-sprain-es.pdf", 1).find("No qualified") == std::string::npos);
}

TEST_CASE("--require-reviewed makes nothing of safety texts that nobody has reviewed") {
    const Shelf shelf;
    const std::string out = shelf.file("out");
    const std::string make = "make " + kDemo + " --require-reviewed -o " + out + " --language ";
    const Ran drafts = shelf.program(make + "es");
    CAPTURE(drafts.output);
    CHECK(drafts.code == 4);
    CHECK(says(drafts, "safety texts of this booklet are not reviewed in \"es\""));
    CHECK(says(drafts, "[text-unreviewed]"));
    CHECK((!std::filesystem::exists(out) || std::filesystem::is_empty(out)));
    // The language beside the patient's counts too, English is the source.
    CHECK(shelf.program(make + "en").code == 0);
    CHECK(shelf.program(make + "en+es").code == 4);
    review(shelf, "es", "");
    CHECK(shelf.program(make + "es").code == 0);
    // One English text changes: stale, and named.
    std::string english = bytes(shelf.file("locales/en/booklet.yaml"));
    const std::string was = "Land softly. Stop if landing hurts.";
    const std::string caution = "safety.caution: \"Caution\"";
    english.replace(english.find(caution), caution.size(), "safety.caution: \"Take care\"");
    english.replace(english.find(was), was.size(), "Land softly. Stop if it hurts.");
    write(shelf.file("locales/en/booklet.yaml"), english);
    const Ran stale = shelf.program(make + "es");
    CAPTURE(stale.output);
    CHECK(stale.code == 4);
    CHECK(says(stale, "1 safety texts of this booklet are not reviewed in \"es\" (0 drafts, 1 "
                      "stale): safety.caution"));
}

TEST_CASE("the list shows what is there and reviewed, part by part") {
    const Shelf shelf;
    const auto language = [&](const std::string& tag) {
        const Ran ran = shelf.program("list languages --json");
        std::istringstream lines(ran.output);
        for (std::string line; std::getline(lines, line);) {
            if (line.find("\"language\":\"" + tag + "\"") != std::string::npos) {
                return line;
            }
        }
        return std::string();
    };
    const std::string before = language("es");
    CAPTURE(before);
    const std::regex safety("\"safety\":\\{\"texts\":(\\d+),\"present\":(\\d+),\"reviewed\":0,"
                            "\"stale\":0\\}");
    std::smatch found;
    REQUIRE(std::regex_search(before, found, safety));
    CHECK(found[1] == found[2]);
    const int present = std::stoi(found[2]);
    // One text lost, one reviewed: counted from the file, not from the program.
    REQUIRE_FALSE(drop_line(shelf.file("locales/es/booklet.yaml"), "  safety.call:").empty());
    review(shelf, "es", "safety.stop_lead");
    const std::string after = language("es");
    CAPTURE(after);
    CHECK(after.find("\"safety\":{\"texts\":" + std::to_string(present) +
                     ",\"present\":" + std::to_string(present - 1) +
                     ",\"reviewed\":1,\"stale\":0}") != std::string::npos);
    const Ran list = shelf.program("list languages");
    CHECK(says(list, "safety 1/" + std::to_string(present) + ", 1 missing"));
    CHECK(list.code == 0);
}

TEST_CASE(
    "a missing text is an error, or stands in English with a mark and the tag of its language") {
    const Shelf shelf;
    const std::string out = shelf.file("out");
    REQUIRE_FALSE(drop_line(shelf.file("locales/ar/booklet.yaml"), "  safety.call:").empty());
    std::filesystem::remove(shelf.file("locales/ar/exercises/ankle-pumps.yaml"));
    const std::string make = "make " + kAllLanguages + " --language ar -o " + out;
    const Ran missing = shelf.program(make);
    CAPTURE(missing.output);
    CHECK(missing.code == 4);
    CHECK(says(missing, "locales/ar/exercises/ankle-pumps.yaml is missing"));
    const Ran allowed = shelf.program(make + " --allow-missing");
    CAPTURE(allowed.output);
    REQUIRE(allowed.code == 0);
    const std::string pdf = out + "/ankle-sprain-all-languages-ar.pdf";
    const std::string text = run("pdftotext " + pdf + " -").output;
    CHECK(count(text, "[en]") >= 8);
    CHECK(text.find("[en] For help today, call") != std::string::npos);
    // Tagged with its language, so that it is read out as English.
    const Ran tags = run("qpdf --qdf --object-streams=disable " + pdf +
                         " - | grep -a -c '/Lang "
                         "(en)\\|/Lang <feff0065006e>'");
    CAPTURE(tags.output);
    CHECK(std::stoi(tags.output) >= 8);
    // A free text too, in the language it was written in.
    const Ran french = shelf.program("make " + kDemo + " --language fr -o " + out);
    CHECK(french.code == 4);
    REQUIRE(shelf.program("make " + kDemo + " --language fr --allow-missing -o " + out).code == 0);
    CHECK(page(out + "/ankle-sprain-fr.pdf", 1).find("[en] Sprain of the outer right ankle") !=
          std::string::npos);
}

TEST_CASE("a language of another script can stand beside English, in words and in pictures") {
    const Shelf shelf;
    const std::string out = shelf.file("out");
    for (const char* pair : {"en+ar", "ar+en", "en+hi"}) {
        for (const char* how : {"", " --pictures"}) {
            const Ran ran =
                shelf.program("make " + kAllLanguages + " --language " + pair + how + " -o " + out);
            CAPTURE(pair, how, ran.output);
            CHECK(ran.code == 0);
            CHECK(run("qpdf --check " + out + "/ankle-sprain-all-languages-" + pair +
                      (how[0] == '\0' ? "" : "-pictures") + ".pdf")
                      .code == 0);
        }
    }
}
