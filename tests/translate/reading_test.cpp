// SPDX-License-Identifier: MIT
// The reading level of whole booklets, as `check` tells it. The formulas and counts themselves are
// held against published examples in tests/unit/locale.
#include <catch2/catch.hpp>

#include <regex>
#include <string>

#include "shelf.h"

using namespace tickleaf;
using tests::bytes;
using tests::Ran;
using tests::Shelf;
using tests::write;

namespace {

const std::string kStarters = std::string(TICKLEAF_ROOT) + "/templates/starters/";

double told(const std::string& output, const std::string& language, const std::string& formula) {
    const std::regex line("\"" + language + "\" reads at " + formula + " (-?[0-9.]+) ");
    std::smatch found;
    CAPTURE(output, formula);
    REQUIRE(std::regex_search(output, found, line));
    return std::stod(found[1]);
}

} // namespace

// Source: the sixth-grade level that AMA and NIH ask of patient texts, as cited by Eltorai et al.
// 2015; INFLESZ calls 65 to 80 fairly easy and asks for 55 (Barrio-Cantalejo 2008).
TEST_CASE("every starter's booklet reads at grade 6 or below, Spanish in the easy band") {
    const Shelf shelf;
    for (const auto& entry : std::filesystem::directory_iterator(kStarters)) {
        std::string text = bytes(entry.path());
        const bool spanish = text.find("languages: [es, en]") != std::string::npos;
        const Ran ran = shelf.program("check " + entry.path().string());
        CAPTURE(entry.path().string(), ran.output);
        CHECK(ran.code == 0);
        CHECK(told(ran.output, "en", "Flesch-Kincaid grade") <= 6.0);
        CHECK(told(ran.output, "en", "Flesch-Kincaid grade") > -3.4); // the scale's lowest
        if (spanish) {
            CHECK(told(ran.output, "es", "Szigriszt-Pazos") >= 65.0);
        }
    }
}

TEST_CASE("long words and sentences are a warning that names them and their place") {
    const Shelf shelf;
    const std::string path = shelf.file("locales/en/booklet.yaml");
    std::string text = bytes(path);
    const std::string easy = "cover.message: \"";
    std::string hard = easy;
    for (int i = 0; i < 150; ++i) {
        hard += "Individualised neuromuscular rehabilitation necessitates considerable "
                "perseverance notwithstanding intermittent discomfort ";
    }
    text.replace(text.find(easy), easy.size(), hard);
    write(path, text);
    const Ran ran = shelf.program("check " + kStarters + "knee-front.yaml");
    CAPTURE(ran.output);
    CHECK(ran.code == 0);
    CHECK(ran.output.find("warning: \"en\" reads at Flesch-Kincaid grade") != std::string::npos);
    CHECK(ran.output.find("harder than grade 6") != std::string::npos);
    CHECK(ran.output.find("neuromuscular 150x (cover.message)") != std::string::npos);
    CHECK(ran.output.find("but see above") != std::string::npos);
}

TEST_CASE("no level is claimed where no formula is agreed") {
    const Shelf shelf;
    std::string text =
        bytes(std::string(TICKLEAF_ROOT) + "/tests/booklet/cases/ankle-sprain-all-languages.yaml");
    text = std::regex_replace(text, std::regex("languages: \\[[^\\]]*\\]"),
                              "languages: [ar, fa, fr, hi, pl, pt, uk, ur, vi, zh-Hans]");
    write(shelf.file("rx.yaml"), text);
    const Ran ran = shelf.program("check " + shelf.file("rx.yaml"));
    CAPTURE(ran.output);
    CHECK(ran.code == 0);
    for (const char* tag : {"ar", "fa", "hi", "ur", "vi", "zh-Hans"}) {
        const std::regex line("note: \"" + std::string(tag) +
                              "\": [0-9]+ words, no reading level: no formula is agreed");
        CAPTURE(tag);
        CHECK(std::regex_search(ran.output, line));
    }
    CHECK(told(ran.output, "fr", "Kandel-Moles") >= 70.0);
    CHECK(told(ran.output, "pt", "Flesch-Martins") >= 70.0);
    CHECK(told(ran.output, "uk", "Partiko") >= 70.0);
    CHECK(told(ran.output, "pl", "Pisarek") <= 6.0);
}
