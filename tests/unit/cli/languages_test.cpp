// SPDX-License-Identifier: MIT
#include "cli/languages.h"

#include <catch2/catch.hpp>

using tickleaf::cli::Languages;
using tickleaf::cli::languages_fault;
using tickleaf::cli::read_languages;

TEST_CASE("a comma parts booklets, a plus sets two languages side by side") {
    CHECK(read_languages("es") == std::vector<Languages>{{"es", ""}});
    CHECK(read_languages("ar,en") == std::vector<Languages>{{"ar", ""}, {"en", ""}});
    CHECK(read_languages("ar+en, fr") == std::vector<Languages>{{"ar", "en"}, {"fr", ""}});
    CHECK(read_languages("en,ar,EN") == std::vector<Languages>{{"en", ""}, {"ar", ""}});
}

TEST_CASE("tags are read in any case: RFC 5646, section 2.1.1") {
    CHECK(read_languages("EN,zh-hans,PT-br,sr-LATN-rs,sl-ROZAJ") ==
          std::vector<Languages>{
              {"en", ""}, {"zh-Hans", ""}, {"pt-BR", ""}, {"sr-Latn-RS", ""}, {"sl-rozaj", ""}});
}

TEST_CASE("a list that cannot be meant is refused with the part that is wrong") {
    for (const char* list : {"", ",", "en,", "+", "en+", "ar+,en", "en,,ar", "en+es+ar", "en+EN"}) {
        CAPTURE(list);
        CHECK_FALSE(languages_fault(list).empty());
    }
    CHECK(languages_fault("fr,en+es+ar").find("\"en+es+ar\" puts 3 languages") == 0);
    CHECK(languages_fault("en+EN") == "\"en+EN\" puts a language beside itself");
    CHECK(languages_fault("ar+en, fr").empty());
}
