// SPDX-License-Identifier: MIT
// The program as a user runs it, with right and wrong words.
#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "shell.h"

using tickleaf::tests::Folder;
using tickleaf::tests::Ran;
using tickleaf::tests::run;

namespace {

const std::string kProgram = TICKLEAF_BINARY;
const std::string kDemo = std::string(TICKLEAF_ROOT) + "/templates/starters/ankle-sprain.yaml";

Ran program(const std::string& arguments) {
    return run(kProgram + ' ' + arguments);
}

void write(const std::string& path, const std::string& text) {
    std::ofstream(path) << text;
}

std::string bytes(const std::string& path) {
    std::ifstream stream(path, std::ios::binary);
    std::ostringstream text;
    text << stream.rdbuf();
    return text.str();
}

std::string demo_with(const std::string& from, const std::string& to) {
    std::string text = bytes(kDemo);
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

} // namespace

TEST_CASE("wrong command lines end with code 2 and say what to do") {
    for (const char* arguments :
         {"", "print", "make", "draw", "list", "list colours", "make a.yaml --papr a4",
          "draw step-up --side both", "draw step-up --format gif", "inspect",
          "inspect x.yaml --stage soup", "make a.yaml --paper a3"}) {
        const Ran ran = program(arguments);
        CAPTURE(arguments, ran.output);
        CHECK(ran.code == 2);
        CHECK(ran.output.find("hint:") != std::string::npos);
    }
}

TEST_CASE("help is there for the program and each command") {
    for (const char* command : {"", "make", "check", "draw", "list", "start", "inspect"}) {
        const Ran ran = program(std::string(command) + " --help");
        CAPTURE(command);
        CHECK(ran.code == 0);
        CHECK(ran.output.size() > 200);
    }
}

TEST_CASE("what is missing ends with code 4, what cannot be read or written with 1, and nothing is "
          "left behind") {
    const Folder folder;
    const std::string out = folder.file("out");
    struct Row {
        std::string arguments;
        int code;
        const char* says;
    };
    const Row rows[] = {
        {"make " + kDemo + " --language tlh -o " + out, 4, "no catalog for the language"},
        {"make " + kDemo + " --template posh -o " + out, 4, "no page template"},
        {"make nowhere.yaml -o " + out, 1, "cannot be read"},
        {"make " + folder.path() + " -o " + out, 1, "it is a folder"},
        {"make " + kDemo + " -o /dev/null/x", 1, "cannot be made"},
        {"draw calf-rise -o " + out, 4, "there is no exercise"},
        {"start elbow-of-a-dragon", 4, "there is no starter"},
        {"start ../../etc/passwd", 4, "there is no starter"},
        {"make " + kDemo + " " + kDemo + " -o " + out, 2, "two prescriptions are called"},
    };
    for (const Row& row : rows) {
        const Ran ran = program(row.arguments);
        CAPTURE(row.arguments, ran.output);
        CHECK(ran.code == row.code);
        CHECK(ran.output.find(row.says) != std::string::npos);
        CHECK((!std::filesystem::exists(out) || std::filesystem::is_empty(out)));
    }
}

TEST_CASE("a wrong prescription ends with code 3, a place and a hint, and writes nothing") {
    const Folder folder;
    struct Row {
        std::string text;
        const char* says;
    };
    const Row rows[] = {
        {"a: [1", "this is not YAML"},
        {"", "the file is empty"},
        {demo_with("side: right", "sdie: right"), "did you mean \"side\"?"},
        {demo_with("4-5 x 45 s", "4-5 x"), "dose"},
        {demo_with("side: right", "side: wrong"), "side"},
        {demo_with("starts: 2026-03-02", "starts: 2026-02-30"), "2026-02-30"},
    };
    for (const Row& row : rows) {
        const std::string path = folder.file("rx.yaml");
        write(path, row.text);
        const Ran ran = program("make " + path + " -l en -o " + folder.file("out"));
        CAPTURE(ran.output);
        CHECK(ran.code == 3);
        CHECK(ran.output.find("rx.yaml:") != std::string::npos);
        CHECK(ran.output.find(row.says) != std::string::npos);
        CHECK((!std::filesystem::exists(folder.file("out")) ||
               std::filesystem::is_empty(folder.file("out"))));
    }
}

TEST_CASE("what cannot be drawn as it was meant is told by check as by make") {
    const Folder folder;
    struct Row {
        const char* text;
        int code;
        const char* says;
    };
    const Row rows[] = {{"Ankle \xFF", 3, "not UTF-8"},
                        {"Ankle \xED\xA0\x80", 3, "not UTF-8"},
                        {"Ankle \u202E5-10", 3, "text-bidi-control"},
                        {"Ankle \u2067", 3, "text-bidi-control"},
                        {"Ankle 5\u200F-10", 3, "text-split-number"},
                        {"Ankle 1\u200B5", 3, "text-split-number"},
                        {"Ankle\uFEFF", 3, "text-zero-width"},
                        {"\u0301Ankle", 3, "text-lone-mark"},
                        {"Ankle \uE000", 3, "text-private-use"},
                        {"Ankle \u0378", 3, "text-unassigned"},
                        {"Ankle \uFFFD", 3, "text-lost"},
                        {"Ankle \U00012000", 4, "font-coverage"}};
    for (const Row& row : rows) {
        const std::string path = folder.file("rx.yaml");
        write(path, demo_with("Sprain of the outer right ankle", row.text));
        for (const std::string& command :
             {"check " + path, "make " + path + " -l en -o " + folder.file("out")}) {
            const Ran ran = program(command);
            CAPTURE(ran.output);
            CHECK(ran.code == row.code);
            CHECK(ran.output.find(row.says) != std::string::npos);
            CHECK(ran.output.find("rx.yaml:") != std::string::npos);
        }
    }
}

TEST_CASE("a starter is written once and then made into a booklet") {
    const Folder folder;
    const std::string path = folder.file("mine.yaml");
    CHECK(program("start ankle-sprain -o " + path).code == 0);
    CHECK(program("start ankle-sprain -o " + path).code == 1);
    CHECK(program("check " + path).code == 0);
    const Ran made = program("make " + path + " --language en,es -o " + folder.file("out"));
    CAPTURE(made.output);
    CHECK(made.code == 0);
    CHECK(std::filesystem::exists(folder.file("out/mine-en.pdf")));
    CHECK(std::filesystem::exists(folder.file("out/mine-es.pdf")));
}

TEST_CASE("a started prescription names a schema that is there, also from a folder with a space") {
    const Folder folder;
    const auto schema_of = [&](const std::string& program, const std::string& name) {
        const std::string path = folder.file(name);
        CHECK(run(program + " start ankle-sprain -o " + path).code == 0);
        const std::string text = bytes(path);
        const std::string begin = "# yaml-language-server: $schema=";
        REQUIRE(text.starts_with(begin));
        return text.substr(begin.size(), text.find('\n') - begin.size());
    };
    CHECK(std::filesystem::exists(schema_of(kProgram, "one.yaml")));
    // An editor ends the path at a space, so it must come as a URI (RFC 8089).
    const std::string prefix = folder.file("my programs");
    const std::string root = TICKLEAF_ROOT;
    REQUIRE(run("mkdir -p '" + prefix + "/bin' '" + prefix + "/share/tickleaf' && cp " + kProgram +
                " '" + prefix + "/bin/tickleaf' && cp -r " + root + "/templates " + root +
                "/figures " + root + "/locales '" + prefix + "/share/tickleaf'")
                .code == 0);
    const std::string found = schema_of("'" + prefix + "/bin/tickleaf'", "two.yaml");
    CHECK(found == "file://" + folder.path() +
                       "/my%20programs/share/tickleaf/templates/prescription.schema.json");
}

TEST_CASE("booklet and clinician's copy, each alone or both") {
    const Folder folder;
    const auto made = [&](const std::string& options) {
        const std::string out = folder.file("out" + std::to_string(options.size()));
        const Ran ran = program("make " + kDemo + ' ' + options + " -o " + out);
        CAPTURE(ran.output);
        CHECK(ran.code == 0);
        std::set<std::string> names;
        for (const auto& entry : std::filesystem::directory_iterator(out)) {
            names.insert(entry.path().filename().string());
        }
        return names;
    };
    using Names = std::set<std::string>;
    CHECK(made("--for clinician") == Names{"ankle-sprain-en-clinician.pdf"});
    CHECK(made("--for clinician -l es") == Names{"ankle-sprain-es-clinician.pdf"});
    CHECK(made("--for both") == Names{"ankle-sprain-es.pdf", "ankle-sprain-en-clinician.pdf"});
    CHECK(made("--for clinician -t large-print") ==
          Names{"ankle-sprain-en-clinician-large-print.pdf"});
    const Ran wrong = program("make " + kDemo + " -t clinician -o " + folder.file("none"));
    CHECK(wrong.code != 0);
    CHECK(wrong.output.find("layout-empty") != std::string::npos);
    CHECK(program("inspect " + kDemo + " --stage booklet --for clinician")
              .output.find("\"clinician.checks_caption\"") != std::string::npos);
}

TEST_CASE("same input, same bytes, whatever the locale and time zone") {
    const Folder folder;
    REQUIRE(program("make " + kDemo + " -l en -o " + folder.file("a")).code == 0);
    REQUIRE(program("make " + kDemo + " -l en -o " + folder.file("b")).code == 0);
    REQUIRE(run("LC_ALL=ar_EG.UTF-8 TZ=Pacific/Auckland " + kProgram + " make " + kDemo +
                " -l en -o " + folder.file("c"))
                .code == 0);
    const std::string first = bytes(folder.file("a/ankle-sprain-en.pdf"));
    CHECK(first.size() > 10000);
    CHECK(first == bytes(folder.file("b/ankle-sprain-en.pdf")));
    CHECK(first == bytes(folder.file("c/ankle-sprain-en.pdf")));
}

TEST_CASE("a batch gives the same bytes as one by one") {
    const Folder folder;
    std::string all;
    for (int i = 0; i < 6; ++i) {
        const std::string path = folder.file("rx" + std::to_string(i) + ".yaml");
        write(path, demo_with("height: 162 cm", "height: " + std::to_string(150 + 5 * i) + " cm"));
        all += path + ' ';
        REQUIRE(program("make " + path + " -l es -o " + folder.file("single")).code == 0);
    }
    REQUIRE(program("make " + all + " -l es -o " + folder.file("batch")).code == 0);
    for (int i = 0; i < 6; ++i) {
        const std::string name = "/rx" + std::to_string(i) + "-es.pdf";
        CHECK(bytes(folder.file("single") + name) == bytes(folder.file("batch") + name));
    }
}

TEST_CASE("drawings come in every format") {
    const Folder folder;
    for (const char* format : {"svg", "png", "pdf"}) {
        const Ran ran = program(std::string("draw step-up --side left --format ") + format +
                                " -o " + folder.path());
        CAPTURE(ran.output);
        CHECK(ran.code == 0);
        CHECK(bytes(folder.file(std::string("step-up-left.") + format)).size() > 500);
    }
    CHECK(program("draw --all --format png -o " + folder.path()).code == 0);
}

TEST_CASE("lists name what there is") {
    CHECK(program("list exercises").output.find("calf-raise-one-leg") != std::string::npos);
    CHECK(program("list languages").output.find("Espa\xC3\xB1ol") != std::string::npos);
    CHECK(program("list templates").output.find("standard") != std::string::npos);
    CHECK(program("list rules --json").output.find("\"rule\":\"side-contradicted\"") !=
          std::string::npos);
    for (const char* stage : {"prescription", "schedule", "booklet", "document"}) {
        const Ran ran = program("inspect " + kDemo + " --stage " + stage);
        CAPTURE(stage);
        CHECK(ran.code == 0);
        CHECK(ran.output.starts_with("{"));
    }
}

TEST_CASE("of many notes alike a few are named and the others counted; JSON has them all") {
    const Folder folder;
    const std::string make =
        "make " + kDemo + " --language en --template fold-booklet -o " + folder.path();
    const auto count = [](const std::string& text, const std::string& part) {
        std::size_t found = 0;
        for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
            ++found;
        }
        return found;
    };
    const std::string json = program(make + " --json").output;
    const std::size_t all = count(json, "\"id\":\"layout-group-split\"");
    REQUIRE(all > 4);
    const Ran ran = program(make);
    CAPTURE(ran.output);
    CHECK(count(ran.output, "is taller than a page") == 3);
    CHECK(count(ran.output, "note: " + std::to_string(all - 3) + " more like these") == 1);
    CHECK(count(ran.output, "hint: shorten its notes") == 1);
}

TEST_CASE("a folded booklet is printed as it must be, and names the file to read instead") {
    const Folder folder;
    // The demo in Arabic without its free texts: these are the clinician's and in two languages.
    std::string text = bytes(kDemo);
    for (const char* line :
         {"    es: T. Adeyemi", "  es: Esguince", "          es: Mantenga", "          es: P"}) {
        const auto at = text.find(line);
        REQUIRE(at != std::string::npos);
        const std::string indent(std::string(line).find('e'), ' ');
        text.insert(at, indent + "ar: \"\xD9\x86\xD8\xB5\"\n");
    }
    const std::string title = "title: {";
    REQUIRE(text.find(title) != std::string::npos);
    text.insert(text.find(title) + title.size(), "ar: \"\xD9\x86\xD8\xB5\", ");
    write(folder.file("rx.yaml"), text);
    const Ran ran = program("make " + folder.file("rx.yaml") +
                            " --language en,ar --template fold-booklet -o " + folder.path());
    CAPTURE(ran.output);
    REQUIRE(ran.code == 0);
    CHECK(ran.output.find("make the booklet with template \"standard\"") != std::string::npos);
    for (const char* language : {"en", "ar"}) {
        const std::string made = folder.file("rx-" + std::string(language) + "-fold-booklet.pdf");
        const std::string plain = folder.file(std::string(language) + ".pdf");
        CHECK(run("qpdf --qdf --object-streams=disable " + made + " " + plain).code == 0);
        const std::string pdf = bytes(plain);
        // ISO 32000-1, table 150.
        CHECK(pdf.find("/Duplex /DuplexFlipShortEdge") != std::string::npos);
        CHECK(pdf.find("/PrintScaling /None") != std::string::npos);
        CHECK((pdf.find("/Direction /R2L") != std::string::npos) ==
              (std::string(language) == "ar"));
        CHECK(pdf.find("pdfuaid:part") == std::string::npos);
        const Ran info = run("pdfinfo " + made);
        CHECK(info.output.find("841.89 x 595.28") != std::string::npos);
    }
}

// Urdu is not among them: its lines are twice as tall at 12 pt, and it takes two pages.
TEST_CASE("every stage of the demo is one sheet in twelve languages") {
    const std::string languages[] = {"en", "es", "fr", "pt", "pl", "uk",
                                     "ar", "fa", "hi", "bn", "vi", "zh-Hans"};
    const std::string all_languages =
        std::string(TICKLEAF_ROOT) + "/tests/booklet/cases/ankle-sprain-all-languages.yaml";
    for (const std::string& language : languages) {
        for (const char* stage : {"1", "2", "3"}) {
            const Folder folder;
            const Ran ran = program("make " + all_languages + " -l " + language +
                                    " -t one-sheet --stage " + stage + " -o " + folder.path());
            CAPTURE(language, stage, ran.output);
            REQUIRE(ran.code == 0);
            CHECK(ran.output.find("layout-") == std::string::npos);
            const std::string made = folder.file("ankle-sprain-all-languages-" + language +
                                                 "-one-sheet-stage-" + stage + ".pdf");
            CHECK(run("pdfinfo " + made).output.find("Pages:           1\n") != std::string::npos);
        }
    }
}

TEST_CASE("one-sheet takes the stage that is asked for") {
    const Folder folder;
    const Ran ran = program("make " + kDemo + " -l en -t one-sheet --stage 2 -o " + folder.path());
    CAPTURE(ran.output);
    REQUIRE(ran.code == 0);
    const std::string made = folder.file("ankle-sprain-en-one-sheet-stage-2.pdf");
    CHECK(run("pdftotext " + made + " -").output.find("Strengthen") != std::string::npos);
    CHECK(run("pdfinfo " + made).output.find("Pages:           1") != std::string::npos);
    CHECK(program("make " + kDemo + " -l en -t one-sheet --stage 9 -o " + folder.path()).code == 3);
}
