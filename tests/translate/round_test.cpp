// SPDX-License-Identifier: MIT
// The whole round as a language lead goes it, with GNU gettext's own tools as the outside check:
// msgfmt --check reads what is exported, msgmerge brings an older file up to date, msgattrib takes
// the fuzzy marks away. Source: GNU gettext 0.21.
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

locale::PoFile read(const std::string& path) {
    support::Sources sources;
    support::Findings findings;
    auto po = locale::read_po(sources, sources.add(path, bytes(path)), findings);
    REQUIRE(po);
    return *po;
}

bool says(const Ran& ran, const std::string& what) {
    return ran.output.find(what) != std::string::npos;
}

void replace(std::string& text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    text.replace(at, from.size(), to);
}

} // namespace

TEST_CASE("every language is exported as gettext reads it, and comes back as it was") {
    const Shelf shelf;
    const std::string before = shelf.locales();
    for (const auto& folder :
         std::filesystem::directory_iterator(std::filesystem::path(shelf.path()) / "locales")) {
        const std::string tag = folder.path().filename().string();
        if (!folder.is_directory() || tag == "en") {
            continue;
        }
        const std::string po = shelf.file(tag + ".po");
        CAPTURE(tag);
        const Ran exported = shelf.program("translate export " + tag + " -o " + po);
        CAPTURE(exported.output);
        REQUIRE(exported.code == 0);
        const Ran checked = run("msgfmt --check --check-accelerators='&' -o /dev/null " + po);
        CAPTURE(checked.output);
        CHECK(checked.code == 0);
        CHECK(checked.output == "");
        const Ran imported = shelf.program("translate import " + po);
        CAPTURE(imported.output);
        CHECK(imported.code == 0);
        CHECK(says(imported, "0 texts changed"));
    }
    CHECK(shelf.locales() == before);
}

TEST_CASE("ten texts changed with a tool of gettext are in the booklet, and nothing else moved") {
    const Shelf shelf;
    const std::string po = shelf.file("es.po");
    REQUIRE(shelf.program("translate export es -o " + po).code == 0);
    const locale::PoFile first = read(po);
    // msgfilter hands every translation to the command and takes its output.
    const Ran filtered = run("msgfilter --no-wrap -i " + po + " -o " + po +
                             " sed -e 's/Lea primero/Lea antes que nada/' -e "
                             "'s/silla firme/silla bien firme/g'");
    CAPTURE(filtered.output);
    REQUIRE(filtered.code == 0);
    const locale::PoFile second = read(po);
    REQUIRE(first.entries.size() == second.entries.size());
    int changed = 0;
    for (std::size_t i = 0; i < first.entries.size(); ++i) {
        changed += first.entries[i].translation == second.entries[i].translation ? 0 : 1;
    }
    REQUIRE(changed >= 10);
    const std::string before = shelf.locales();
    const Ran imported = shelf.program("translate import " + po);
    CAPTURE(imported.output);
    REQUIRE(imported.code == 0);
    CHECK(says(imported, std::to_string(changed) + " texts changed"));
    CHECK(says(imported, "booklet/cover.use.1 (draft)\n  - Lea primero la página de seguridad.\n"
                         "  + Lea antes que nada la página de seguridad.\n"));
    // Only lines of changed texts differ.
    const std::string after = shelf.locales();
    std::istringstream left(before);
    std::istringstream right(after);
    int differing = 0;
    for (std::string a, b; std::getline(left, a) && std::getline(right, b);) {
        differing += a == b ? 0 : 1;
    }
    CHECK(differing == changed);
    CHECK(std::count(before.begin(), before.end(), '\n') ==
          std::count(after.begin(), after.end(), '\n'));
    const Ran made = shelf.program("make " + kDemo + " --language es -o " + shelf.file("out"));
    CAPTURE(made.output);
    CHECK(made.code == 0);
    const Ran text = run("pdftotext -layout " + shelf.file("out/ankle-sprain-es.pdf") + " -");
    CHECK(says(text, "Lea antes que nada"));
}

TEST_CASE("a language lead's ten texts are all in the booklet") {
    const std::pair<const char*, const char*> changes[] = {
        {"samodzielnie, aby znowu dobrze", "samodzielnie, by znów dobrze"},
        {"^Najpierw proszę przeczytać stronę", "Na początek proszę przeczytać stronę"},
        {"serii proszę zaznaczyć kratkę w", "serii proszę odhaczyć kratkę w"},
        {"ćwiczenia, gdy pojawi się którykolwiek", "ćwiczenia, jeśli pojawi się którykolwiek"},
        {"^Nie da się zrobić czterech kroków", "Nie można zrobić czterech kroków"},
        {"^Każda kolumna to jeden dzień", "Kolumna to jeden dzień"},
        {"^Nie jest jasne, jak", "Nie wiadomo dobrze, jak"},
        {"czegoś, co nie może się ruszyć", "czegoś, co się nie ruszy"}, // a safety phrase
        {"aby kostka szybciej reagowała", "by kostka szybciej reagowała"},
        {"górę, do siebie", "górę, ku sobie"}};
    const Shelf shelf;
    const std::string po = shelf.file("pl.po");
    REQUIRE(shelf.program("translate export pl -o " + po).code == 0);
    std::string script;
    for (const auto& [from, to] : changes) {
        // What looks like a space may be one that does not break.
        std::string wanted = from;
        std::replace(wanted.begin(), wanted.end(), ' ', '@');
        for (auto at = wanted.find('@'); at != std::string::npos; at = wanted.find('@')) {
            wanted.replace(at, 1, "\\( \\|\u00A0\\)");
        }
        script += "s/" + wanted + "/" + to + "/\n";
    }
    write(shelf.file("ten.sed"), script);
    const Ran filtered =
        run("msgfilter --no-wrap -i " + po + " -o " + po + " sed -f " + shelf.file("ten.sed"));
    CAPTURE(filtered.output);
    REQUIRE(filtered.code == 0);
    const Ran imported = shelf.program("translate import " + po);
    CAPTURE(imported.output);
    REQUIRE(imported.code == 0);
    const Ran made =
        shelf.program("make " + std::string(TICKLEAF_ROOT) +
                      "/tests/booklet/cases/ankle-sprain-all-languages.yaml --language pl -o " +
                      shelf.file("out"));
    CAPTURE(made.output);
    REQUIRE(made.code == 0);
    std::string text =
        run("pdftotext " + shelf.file("out/ankle-sprain-all-languages-pl.pdf") + " -").output;
    std::replace(text.begin(), text.end(), '\n', ' ');
    for (auto at = text.find("\u00A0"); at != std::string::npos; at = text.find("\u00A0")) {
        text.replace(at, 2, " ");
    }
    for (const auto& [from, to] : changes) {
        CAPTURE(from, to);
        CHECK(imported.output.find(to) != std::string::npos);
        CHECK(text.find(to) != std::string::npos);
    }
}

TEST_CASE("what repeats and is changed in one place only is told") {
    const Shelf shelf;
    const std::string po = shelf.file("es.po");
    REQUIRE(shelf.program("translate export es -o " + po).code == 0);
    std::string text = bytes(po);
    // The cover and the last page have this word; the first one is changed.
    replace(text, "msgid \"Phone\"\nmsgstr \"", "msgid \"Phone\"\nmsgstr \"El ");
    write(po, text);
    const Ran ran = shelf.program("translate import " + po);
    CAPTURE(ran.output);
    CHECK(ran.code == 0);
    CHECK(says(ran, "note: text \"booklet/cover.phone\""));
    CHECK(says(ran, "the same English is \""));
    CHECK(says(ran, "[po-twin]"));
}

TEST_CASE("a person makes texts reviewed: fuzzy marks taken away, and a name for it") {
    const Shelf shelf;
    const std::string po = shelf.file("es.po");
    const std::string clear = shelf.file("clear.po");
    REQUIRE(shelf.program("translate export es -o " + po).code == 0);
    REQUIRE(run("msgattrib --clear-fuzzy --no-wrap -o " + clear + " " + po).code == 0);
    const std::string before = shelf.locales();
    const Ran nobody = shelf.program("translate import " + clear);
    CAPTURE(nobody.output);
    CHECK(nobody.code == 0);
    CHECK(says(nobody, "stay draft"));
    CHECK(shelf.locales() == before);
    CHECK(shelf.program("translate import " + clear + " --reviewed-by translator").code == 2);
    CHECK(shelf.program("translate import " + clear + " --reviewed-by x --on 2026-02-30").code ==
          2);
    CHECK(shelf.locales() == before);
    const Ran reviewed = shelf.program("translate import " + clear +
                                       " --reviewed-by 'medical translator' --on 2026-02-01");
    CAPTURE(reviewed.output.substr(0, 400));
    CHECK(reviewed.code == 0);
    CHECK(says(reviewed, "draft -> reviewed by medical translator on 2026-02-01"));
    const std::string booklet = bytes(shelf.file("locales/es/booklet.yaml"));
    CHECK(booklet.find("state: draft") == std::string::npos);
    CHECK(booklet.find("state: reviewed, by: \"medical translator\", on: 2026-02-01}") !=
          std::string::npos);
    // Out again and back by another person: what is reviewed stays with who reviewed it.
    REQUIRE(shelf.program("translate export es -o " + po).code == 0);
    CHECK(run("msgattrib --only-fuzzy " + po).output.find("msgctxt") == std::string::npos);
    const Ran again =
        shelf.program("translate import " + po + " --reviewed-by nurse --on 2026-03-01");
    CHECK(says(again, "0 texts changed"));
    // Changed without a reviewer, it is a draft again.
    std::string text = bytes(po);
    replace(text, "msgstr \"Pare de inmediato", "msgstr \"Pare ya de inmediato");
    write(po, text);
    const Ran changed = shelf.program("translate import " + po);
    CHECK(says(changed, "reviewed by medical translator on 2026-02-01 -> draft"));
    CHECK(says(changed, "1 texts changed"));
}

TEST_CASE("a changed English makes texts stale, and msgmerge brings an older file over") {
    const Shelf shelf;
    const std::string old = shelf.file("old.po");
    const std::string checked = shelf.file("checked.po");
    const std::string fresh = shelf.file("new.po");
    const std::string merged = shelf.file("merged.po");
    REQUIRE(shelf.program("translate export es -o " + old).code == 0);
    const std::string english = shelf.file("locales/en/booklet.yaml");
    std::string text = bytes(english);
    replace(text, "Stop at once if you notice any of these signs.",
            "Stop at once if you notice one of these signs.");
    write(english, text);
    const std::string before = shelf.locales();
    const Ran refused = shelf.program("translate import " + old);
    CAPTURE(refused.output);
    CHECK(refused.code == 3);
    CHECK(says(refused, "old.po:"));
    CHECK(says(refused, "\"booklet/safety.stop_lead\": the English is"));
    CHECK(shelf.locales() == before);
    REQUIRE(shelf.program("translate export es -o " + fresh).code == 0);
    // msgmerge remembers the earlier English of what was not fuzzy.
    REQUIRE(run("msgattrib --clear-fuzzy --no-wrap -o " + checked + " " + old).code == 0);
    const Ran merge =
        run("msgmerge --previous --no-wrap -q -o " + merged + " " + checked + " " + fresh);
    CAPTURE(merge.output);
    REQUIRE(merge.code == 0);
    CHECK(run("msgfmt --check -o /dev/null " + merged).output == "");
    // The hash that stands in the catalog is that of the English msgmerge remembers.
    const Ran imported = shelf.program("translate import " + merged);
    CAPTURE(imported.output);
    CHECK(imported.code == 0);
    CHECK(says(imported, "0 texts changed"));
    CHECK(shelf.locales() == before);
    CHECK(bytes(fresh).find("STALE") != std::string::npos);
    CHECK(bytes(merged).find("#| msgid \"Stop at once if you notice any") != std::string::npos);
}

TEST_CASE("a fourteenth language comes from nothing by export and import alone") {
    const Shelf shelf;
    const std::string po = shelf.file("cy.po");
    REQUIRE_FALSE(std::filesystem::exists(shelf.file("locales/cy")));
    REQUIRE(shelf.program("translate export cy -o " + po + " --prescription " + kDemo).code == 0);
    CHECK(run("msgfmt --check -o /dev/null " + po).output == "");
    // CLDR's plurals of Welsh are explained to the translator (check values 10.1: 0; 1; 2; 3; 6).
    CHECK(bytes(po).find("zero for 0; one for 1; two for 2; few for 3; many for 6; other for 4, 5, "
                         "7, 8...") != std::string::npos);
    locale::FormatRules rules;
    rules.locale = "cy";
    const locale::Formats formats(rules);
    locale::PoFile file = read(po);
    for (locale::PoEntry& entry : file.entries) {
        entry.translation = tests::pseudo(entry.source, formats);
    }
    write(po, locale::write_po(file));
    const std::string rx = shelf.file("rx.yaml");
    write(rx, bytes(kDemo));
    const Ran imported = shelf.program("translate import " + po + " --prescription " + rx);
    CAPTURE(imported.output.substr(0, 2000));
    REQUIRE(imported.code == 0);
    const Ran list = shelf.program("list languages --json");
    CAPTURE(list.output);
    CHECK(says(list, "\"language\":\"cy\",\"name\":\"Ênglîsh\""));
    const Ran made = shelf.program("make " + rx + " --language cy+en -o " + shelf.file("out"));
    CAPTURE(made.output);
    REQUIRE(made.code == 0);
    const Ran text = run("pdftotext " + shelf.file("out/rx-cy+en.pdf") + " -");
    CHECK(says(text, tests::roofed("Stop at once if you notice any of these signs.")));
    CHECK(says(text, "Stop at once if you notice any of these signs."));
    CHECK(says(text, tests::roofed("Keep the knee still; only the foot presses.")));
    CHECK(says(text, "Dydd Llun, 2 Mawrth 2026")); // CLDR's date, ours no word of it
    // Order and comments are those of the English file.
    const std::string english = bytes(shelf.file("locales/en/booklet.yaml"));
    const std::string welsh = bytes(shelf.file("locales/cy/booklet.yaml"));
    CHECK(std::count(english.begin(), english.end(), '\n') ==
          std::count(welsh.begin(), welsh.end(), '\n'));
    CHECK(welsh.find("  # The first page\n  cover.title: {text: \"") != std::string::npos);
    // And out again: nothing changes.
    REQUIRE(shelf.program("translate export cy -o " + po).code == 0);
    CHECK(says(shelf.program("translate import " + po), "0 texts changed"));
}

TEST_CASE("the free texts of a prescription go out and come back, comments and all") {
    const Shelf shelf;
    const std::string po = shelf.file("pl.po");
    const std::string rx = shelf.file("rx.yaml");
    const std::string before = "# mine\n" + bytes(kDemo);
    write(rx, before);
    REQUIRE(shelf.program("translate export pl -o " + po + " --prescription " + rx).code == 0);
    locale::PoFile file = read(po);
    int given = 0;
    for (locale::PoEntry& entry : file.entries) {
        if (entry.context.starts_with(locale::kPrescriptionContext) && entry.translation.empty()) {
            entry.translation = "Tekst: \"" + std::to_string(++given) + "\" # nie komentarz";
        }
    }
    REQUIRE(given >= 3);
    write(po, locale::write_po(file));
    const Ran imported = shelf.program("translate import " + po + " --prescription " + rx);
    CAPTURE(imported.output);
    REQUIRE(imported.code == 0);
    CHECK(says(imported, "prescription/problem"));
    std::string after = bytes(rx);
    CHECK(after.starts_with("# mine\n"));
    CHECK(after.find("pl: \"Tekst: \\\"1\\\" # nie komentarz\"\n") != std::string::npos);
    // Without the new texts, on lines of their own or before others in one, it is the file it was.
    static const std::regex given_text(
        R"((^|\n) *pl: "Tekst: \\"\d+\\" # nie komentarz"(?=\n)|pl: "Tekst: \\"\d+\\" # nie komentarz", )");
    CHECK(std::regex_replace(after, given_text, "") == before);
    CHECK(shelf.program("check " + rx).code == 0);
    // A second time it is replaced, not added.
    REQUIRE(shelf.program("translate export pl -o " + po + " --prescription " + rx).code == 0);
    std::string text = bytes(po);
    replace(text, "Tekst: \\\"1\\\" #", "Lepszy tekst: \\\"1\\\" #");
    write(po, text);
    REQUIRE(shelf.program("translate import " + po + " --prescription " + rx).code == 0);
    replace(after, "Tekst: \\\"1\\\" #", "Lepszy tekst: \\\"1\\\" #");
    CHECK(bytes(rx) == after);
    // A changed prescription is another version.
    std::string changed = after;
    replace(changed, "en: Sprain of the outer", "en: Strain of the outer");
    write(rx, changed);
    const Ran refused = shelf.program("translate import " + po + " --prescription " + rx);
    CHECK(refused.code == 3);
    CHECK(says(refused, "prescription/problem"));
    CHECK(bytes(rx) == changed);
}
