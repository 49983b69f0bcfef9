// SPDX-License-Identifier: MIT
// Messages read and put together, and held against ICU's own MessageFormat (ICU 72) as a second way
// to the same text wherever the two are meant to agree (Latin digits, small numbers, left to
// right).
#include <catch2/catch.hpp>

#include <string>
#include <vector>

#include <unicode/msgfmt.h>

#include "locale/formats.h"
#include "locale/pattern.h"
#include "locale/render.h"

using namespace tickleaf::locale;
using tickleaf::support::Side;

namespace {

Formats formats(const std::string& locale) {
    return Formats(FormatRules{locale, "", "", "", "", false});
}

std::string text(const std::string& message, const Arguments& arguments,
                 const std::string& locale = "en") {
    PatternProblem problem;
    const auto pattern = parse_pattern(message, problem);
    if (!pattern) {
        return "problem " + problem.id;
    }
    const Rendered rendered = render(*pattern, arguments, formats(locale));
    return rendered.problems.empty() ? rendered.text : "problem " + rendered.problems.front().id;
}

std::int64_t count(int n) {
    return n;
}

std::string by_icu(const std::string& message, const std::string& locale, int n) {
    UErrorCode code = U_ZERO_ERROR;
    const icu::MessageFormat format(icu::UnicodeString::fromUTF8(message),
                                    icu::Locale::forLanguageTag(locale, code), code);
    const icu::UnicodeString name("n");
    const icu::Formattable value(n);
    icu::UnicodeString out;
    format.format(&name, &value, 1, out, code);
    REQUIRE(U_SUCCESS(code));
    std::string utf8;
    out.toUTF8String(utf8);
    return utf8;
}

} // namespace

TEST_CASE("messages with their values") {
    const std::string side = "your {side, select, left {left } right {right } other {}}foot";
    struct Row {
        std::string message;
        Arguments arguments;
        std::string expected;
    };
    const std::vector<Row> rows = {
        {"Plain text; no braces #", {}, "Plain text; no braces #"},
        {"", {}, ""},
        {"Call {phone}.", {{"phone", std::string("+44 1632 960123")}}, "Call +44 1632 960123."},
        {"Week {n}", {{"n", count(2026)}}, "Week 2026"},
        {"{n, plural, one {# set} other {# sets}}", {{"n", count(1)}}, "1 set"},
        {"{n, plural, one {# set} other {# sets}}", {{"n", count(3)}}, "3 sets"},
        {"{n, plural, =0 {none} one {one} other {{n} of them}}", {{"n", count(0)}}, "none"},
        {"{n, plural, =0 {none} one {one} other {{n} of them}}", {{"n", count(12)}}, "12 of them"},
        {"{n, plural, offset:1 one {you and # more} other {you and # more}}",
         {{"n", count(3)}},
         "you and 2 more"},
        {"{n, selectordinal, one {#st} two {#nd} few {#rd} other {#th}}",
         {{"n", count(22)}},
         "22nd"},
        {side, {{"side", Side::Left}}, "your left foot"},
        {side, {{"side", Side::Right}}, "your right foot"},
        {side, {{"side", Side::Both}}, "your foot"},
        {side, {{"side", Side::None}}, "your foot"},
        {"{side, select, left {L} right {R} both {L+R} other {-}}", {{"side", Side::Both}}, "L+R"},
        {"{n, plural, one {{side, select, left {a} right {b} other {c}}} other {x}}",
         {{"n", count(1)}, {"side", Side::Right}},
         "b"},
        {"l’exercice {n}", {{"n", count(2)}}, "l’exercice 2"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.message);
        CHECK(text(row.message, row.arguments) == row.expected);
    }
}

TEST_CASE("values that are missing or of the wrong type are told") {
    CHECK(text("Week {n}", {}) == "problem value-missing");
    CHECK(text("{n, plural, other {#}}", {}) == "problem value-missing");
    CHECK(text("{n, plural, other {#}}", {{"n", std::string("3")}}) == "problem value-type");
    CHECK(text("{side, select, other {}}", {{"side", count(1)}}) == "problem value-type");
    // The English word of a side is never printed in a text.
    CHECK(text("the {side} foot", {{"side", Side::Left}}) == "problem value-type");
}

TEST_CASE("texts that are no messages") {
    const std::vector<std::pair<std::string, std::string>> rows = {
        {"{n", "message-syntax"},
        {"n}", ""}, // ICU takes a lone closing brace as text
        {"{n, plural, one {#}}", "message-other"},
        {"{side, select, left {a} right {b}}", "message-other"},
        {"{n, number}", "message-format"},
        {"{d, date, long}", "message-format"},
        {"{n, choice, 0#none|1#one}", "message-format"},
        {"{n, plural one {#} other {#}}", "message-syntax"},
        {"{}", "message-syntax"},
        {std::string(40, '{'), "message-syntax"},
    };
    for (const auto& [message, id] : rows) {
        CAPTURE(message);
        PatternProblem problem;
        const auto pattern = parse_pattern(message, problem);
        CHECK(pattern.has_value() == id.empty());
        CHECK((pattern ? std::string() : problem.id) == id);
    }
}

TEST_CASE("depth is bounded before ICU's parser recurses") {
    std::string deep;
    for (int i = 0; i < 20'000; ++i) {
        deep += "{n, plural, other {";
    }
    PatternProblem problem;
    CHECK_FALSE(parse_pattern(deep, problem));
    CHECK(problem.id == "message-syntax");
}

TEST_CASE("values are isolated in right-to-left text, numbers in the reader's digits") {
    CHECK(text("{n, plural, zero {} one {} two {} few {# تكرارات} many {# تكرارًا} other {# تكرار}}",
               {{"n", count(3)}}, "ar-EG") == "\u2068٣\u2069 تكرارات");
    CHECK(text("{n, plural, zero {} one {} two {} few {# تكرارات} many {# تكرارًا} other {# تكرار}}",
               {{"n", count(11)}}, "ar-EG") == "\u2068١١\u2069 تكرارًا");
    CHECK(text("اتصل {phone}", {{"phone", std::string("+44 1632 960123")}}, "ar") ==
          "اتصل \u2068+44 1632 960123\u2069");
    CHECK(text("Patient: {name}", {{"name", std::string("רות")}}, "en") ==
          "Patient: \u2068רות\u2069");
}

TEST_CASE("the plural is chosen by the count, not by its printed form") {
    const std::string polish = "{n, plural, one {# powtórzenie} few {# powtórzenia} many {# "
                               "powtórzeń} other {# powtórzenia}}";
    // Grammar: value from memory.
    CHECK(text(polish, {{"n", count(1)}}, "pl") == "1 powtórzenie");
    CHECK(text(polish, {{"n", count(2)}}, "pl") == "2 powtórzenia");
    CHECK(text(polish, {{"n", count(5)}}, "pl") == "5 powtórzeń");
    CHECK(text(polish, {{"n", count(22)}}, "pl") == "22 powtórzenia");
    CHECK(text("{n, plural, one {# serie} many {# de series} other {# series}}",
               {{"n", count(1'000'000)}}, "es") == "1.000.000 de series");
}

TEST_CASE("the same text as ICU's MessageFormat") {
    const std::vector<std::string> messages = {
        "{n, plural, one {# a} other {# b}}",
        "{n, plural, =0 {zero} =1 {just one} one {# a} two {# b} few {# c} many {# d} other {# e}}",
        "x {n, plural, offset:2 =2 {exact} one {# a} other {# b}} y",
        "It’s {n} now",
        "'{n}' is quoted, it''s {n}",
        "{n, selectordinal, one {#st} two {#nd} few {#rd} other {#th}}",
    };
    for (const std::string& message : messages) {
        for (const std::string locale : {"en", "es", "fr", "pl", "lv", "cy", "uk"}) {
            for (int n = 0; n <= 130; ++n) {
                const std::string expected = by_icu(message, locale, n);
                const std::string found = text(message, {{"n", count(n)}}, locale);
                if (found != expected) { // CHECK is slow, and there are thousands
                    CAPTURE(message, locale, n);
                    CHECK(found == expected);
                }
            }
        }
    }
}
