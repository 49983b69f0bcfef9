// SPDX-License-Identifier: MIT
// Plural categories, numbers, weeks, dates and calendars against CLDR. Sources: CLDR 42 charts
// (language plural rules, supplemental week data, numbering systems) as carried by ICU 72; calendar
// conversions: the Persian, Buddhist and Umm al-Qura dates of published calendars, the same in ICU
// 72 and 78. Only facts that did not change between CLDR 42 and 48 are used.
#include <catch2/catch.hpp>

#include <chrono>
#include <string>
#include <vector>

#include "locale/formats.h"

using namespace tickleaf::locale;
using std::chrono::day;
using std::chrono::month;
using std::chrono::year;
using Date = std::chrono::year_month_day;

namespace {

Formats formats(const std::string& locale) {
    return Formats(FormatRules{locale, "d MMMM y", "d MMM", "", "", false});
}

Date date(int y, unsigned m, unsigned d) {
    return Date(year(y), month(m), day(d));
}

} // namespace

TEST_CASE("counts fall into the plural categories of CLDR") {
    struct Row {
        std::string locale;
        std::string category;
        std::vector<std::int64_t> counts;
    };
    const std::vector<Row> rows = {
        {"ar", "zero", {0}},
        {"ar", "one", {1}},
        {"ar", "two", {2}},
        {"ar", "few", {3, 10, 103, 110}},
        {"ar", "many", {11, 99, 111}},
        {"ar", "other", {100, 101, 102, 200}},
        {"pl", "one", {1}},
        {"pl", "few", {2, 3, 4, 22, 24, 32, 34}},
        {"pl", "many", {0, 5, 12, 14, 21, 25, 31, 100}},
        {"uk", "one", {1, 21, 31, 101}},
        {"uk", "few", {2, 4, 22, 24}},
        {"uk", "many", {0, 5, 11, 20, 25, 30, 100}},
        {"cy", "two", {2}},
        {"cy", "few", {3}},
        {"cy", "many", {6}},
        {"cy", "other", {4, 5, 7, 20}},
        {"ga", "few", {3, 6}},
        {"ga", "many", {7, 10}},
        {"ja", "other", {0, 1, 2, 100}},
        {"zh", "other", {0, 1, 2, 100}},
        {"vi", "other", {0, 1, 2, 100}},
        {"th", "other", {0, 1, 2, 100}},
        {"en", "one", {1}},
        {"en", "other", {0, 2, 11, 21}},
        {"fr", "one", {0, 1}},
        {"fr", "many", {1'000'000}},
        {"fr", "other", {2, 21}},
        {"pt", "one", {0, 1}},
        {"es", "one", {1}},
        {"es", "many", {1'000'000}},
        {"es", "other", {0, 2, 21}},
        {"hi", "one", {0, 1}},
        {"bn", "one", {0, 1}},
        {"fa", "one", {0, 1}},
        {"fa", "other", {2, 21}},
        {"he", "two", {2}},
        {"he", "other", {0, 3, 20, 100}},
        {"sl", "one", {1, 101}},
        {"sl", "two", {2, 102}},
        {"sl", "few", {3, 4}},
        {"lv", "zero", {0, 10, 20, 30, 100}},
        {"lv", "one", {1, 21}},
        {"ro", "few", {0, 2, 19, 101, 119}},
        {"ro", "other", {20, 21, 100}},
    };
    for (const Row& row : rows) {
        const Formats f = formats(row.locale);
        for (const auto count : row.counts) {
            CAPTURE(row.locale, count);
            CHECK(f.plural_category(count) == row.category);
        }
    }
}

TEST_CASE("ordinals of English and Swedish") {
    const Formats en = formats("en");
    CHECK(en.ordinal_category(1) == "one");
    CHECK(en.ordinal_category(2) == "two");
    CHECK(en.ordinal_category(3) == "few");
    CHECK(en.ordinal_category(4) == "other");
    CHECK(en.ordinal_category(11) == "other");
    CHECK(en.ordinal_category(21) == "one");
    const Formats sv = formats("sv");
    CHECK(sv.ordinal_category(22) == "one");
    CHECK(sv.ordinal_category(3) == "other");
}

TEST_CASE("numbers are in the digits and separators of the reader") {
    struct Row {
        std::string locale;
        std::string decimal; ///< 1234567.5
        std::string small;   ///< 2026
    };
    const std::vector<Row> rows = {
        {"en-US", "1,234,567.5", "2026"},           {"en-GB", "1,234,567.5", "2026"},
        {"de-DE", "1.234.567,5", "2026"},           {"fr-FR", "1\u202F234\u202F567,5", "2026"},
        {"pl-PL", "1\u00A0234\u00A0567,5", "2026"}, {"ar-EG", "١٬٢٣٤٬٥٦٧٫٥", "٢٠٢٦"},
        {"ar-MA", "1.234.567,5", "2026"},           {"fa-IR", "۱٬۲۳۴٬۵۶۷٫۵", "۲۰۲۶"},
        {"hi-IN", "12,34,567.5", "2026"},           {"bn-BD", "১২,৩৪,৫৬৭.৫", "২০২৬"},
        {"ne-NP", "१२,३४,५६७.५", "२०२६"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.locale);
        const Formats f = formats(row.locale);
        CHECK(f.decimal(1234567.5, 1) == row.decimal);
        CHECK(f.number(2026) == row.small);
    }
}

TEST_CASE("numbers below ten thousand are never grouped") {
    const Formats en = formats("en-GB");
    CHECK(en.number(0) == "0");
    CHECK(en.number(1234) == "1234");
    CHECK(en.number(9999) == "9999");
    CHECK(en.number(10'000) == "10,000");
    CHECK(en.number(15'120) == "15,120");
    CHECK(en.number(-5) == "-5");
    // Spanish: 15 120 with a point, but 1234 without (CLDR minimum grouping digits 2).
    CHECK(formats("es").number(15'120) == "15.120");
    CHECK(formats("es").number(1234) == "1234");
}

TEST_CASE("decimals round as support::fixed does") {
    const Formats es = formats("es");
    CHECK(es.decimal(22.0, 1) == "22");
    CHECK(es.decimal(22.54, 1) == "22,5");
    CHECK(es.decimal(0.125, 2) == "0,12");
    CHECK(es.decimal(2.675, 2) == "2,67"); // the double is below 2.675
    CHECK(es.decimal(-0.01, 1) == "0");
}

TEST_CASE("a clinic can pin Latin digits") {
    const Formats f(FormatRules{"ar-EG", "d MMMM y", "d MMM", "", "", true});
    CHECK(f.number(12) == "12");
    CHECK(f.short_date(date(2026, 3, 21)) == "21 مارس");
    const Formats tag(FormatRules{"ar-u-nu-latn", "d MMMM y", "d MMM", "", "", false});
    CHECK(tag.number(12) == "12");
}

TEST_CASE("the week begins on the day of the region") {
    const std::vector<std::pair<std::string, int>> rows = {
        {"en-US", 7}, {"en-GB", 1}, {"de-DE", 1}, {"fr-FR", 1}, {"es", 1},    {"pt-BR", 7},
        {"pl-PL", 1}, {"ru-RU", 1}, {"uk-UA", 1}, {"ar-EG", 6}, {"fa-IR", 6}, {"he-IL", 7},
        {"hi-IN", 7}, {"bn-BD", 7}, {"th-TH", 7}, {"ja-JP", 7}, {"zh-TW", 7}, {"vi-VN", 1},
    };
    for (const auto& [locale, first] : rows) {
        CAPTURE(locale);
        CHECK(formats(locale).first_day_of_week() == first);
    }
}

TEST_CASE("dates are Gregorian in every language") {
    struct Row {
        std::string locale;
        std::string pattern;
        std::string expected; ///< of 21 March 2026
    };
    const std::vector<Row> rows = {
        {"en-US", "MMMM d, y", "March 21, 2026"},
        {"en-GB", "d MMMM y", "21 March 2026"},
        {"de-DE", "d. MMMM y", "21. März 2026"},
        {"fr-FR", "d MMMM y", "21 mars 2026"},
        {"pt-BR", "d 'de' MMMM 'de' y", "21 de março de 2026"},
        {"pl-PL", "d MMMM y", "21 marca 2026"},
        {"ru-RU", "d MMMM y 'г'.", "21 марта 2026 г."},
        {"ar-EG", "d MMMM y", "٢١ مارس ٢٠٢٦"},
        {"he-IL", "d 'ב'MMMM y", "21 במרץ 2026"},
        {"hi-IN", "d MMMM y", "21 मार्च 2026"},
        {"bn-BD", "d MMMM, y", "২১ মার্চ, ২০২৬"},
        {"th-TH", "d MMMM y", "21 มีนาคม 2026"},
        {"ja-JP", "y年M月d日", "2026年3月21日"},
        {"zh-CN", "y年M月d日", "2026年3月21日"},
        {"en-GB", "dd/MM/y 'o''clock'", "21/03/2026 o'clock"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.locale);
        const Formats f(FormatRules{row.locale, row.pattern, "d MMM", "", "", false});
        CHECK(f.long_date(date(2026, 3, 21)) == row.expected);
    }
}

TEST_CASE("the companion calendar gives the published dates") {
    struct Row {
        Date gregorian;
        std::string weekday;
        std::string persian;
        std::string buddhist_year;
        std::string umm_al_qura;
    };
    const std::vector<Row> rows = {
        {date(2019, 4, 30), "Tue", "1398-02-10", "2562", "1440-08-25"},
        {date(2019, 5, 1), "Wed", "1398-02-11", "2562", "1440-08-26"},
        {date(2024, 2, 29), "Thu", "1402-12-10", "2567", "1445-08-19"},
        {date(2024, 3, 20), "Wed", "1403-01-01", "2567", "1445-09-10"},
        {date(2025, 3, 20), "Thu", "1403-12-30", "2568", "1446-09-20"},
        {date(2025, 3, 21), "Fri", "1404-01-01", "2568", "1446-09-21"},
        {date(2026, 1, 1), "Thu", "1404-10-11", "2569", "1447-07-12"},
        {date(2026, 3, 20), "Fri", "1404-12-29", "2569", "1447-10-01"},
        {date(2026, 3, 21), "Sat", "1405-01-01", "2569", "1447-10-02"},
    };
    const Formats persian(FormatRules{"en-GB", "EEE", "", "persian", "y-MM-dd", false});
    const Formats buddhist(FormatRules{"en-GB", "EEE", "", "buddhist", "y", false});
    const Formats umm_al_qura(
        FormatRules{"en-GB", "EEE", "", "islamic-umalqura", "y-MM-dd", false});
    for (const Row& row : rows) {
        CHECK(persian.long_date(row.gregorian) == row.weekday + " (" + row.persian + ")");
        CHECK(buddhist.long_date(row.gregorian) == row.weekday + " (" + row.buddhist_year + ")");
        CHECK(umm_al_qura.long_date(row.gregorian) == row.weekday + " (" + row.umm_al_qura + ")");
    }
}

TEST_CASE("Nowruz falls on 20 or 21 March as the Persian calendar says") {
    const Formats persian(FormatRules{"en-GB", "y", "", "persian", "y-M-d", false});
    const std::vector<std::pair<Date, int>> rows = {
        {date(2021, 3, 21), 1400}, {date(2022, 3, 21), 1401}, {date(2023, 3, 21), 1402},
        {date(2024, 3, 20), 1403}, {date(2027, 3, 21), 1406}, {date(2028, 3, 20), 1407},
        {date(2029, 3, 20), 1408}, {date(2030, 3, 21), 1409},
    };
    for (const auto& [day_of_year, persian_year] : rows) {
        const std::string expected = " (" + std::to_string(persian_year) + "-1-1)";
        CHECK(persian.long_date(day_of_year).ends_with(expected));
    }
}

TEST_CASE("Persian and Thai print their own calendar beside the Gregorian date") {
    const Formats fa(FormatRules{"fa", "d MMMM y", "", "persian", "d MMMM y", false});
    CHECK(fa.long_date(date(2026, 3, 21)) == "۲۱ مارس ۲۰۲۶ (\u2068۱ فروردین ۱۴۰۵\u2069)");
    const Formats th(FormatRules{"th", "d MMMM y", "", "buddhist", "d MMMM y", false});
    CHECK(th.long_date(date(2026, 3, 21)) == "21 มีนาคม 2026 (21 มีนาคม 2569)");
}

TEST_CASE("weekday names begin at Monday") {
    const Formats en = formats("en-GB");
    CHECK(en.weekday_short(1) == "Mon");
    CHECK(en.weekday_short(6) == "Sat");
    CHECK(en.weekday_short(7) == "Sun");
    CHECK_THROWS_AS(en.weekday_short(0), std::logic_error);
}

TEST_CASE("direction and known locales") {
    for (const char* tag : {"ar", "fa", "he", "ur"}) {
        CHECK(formats(tag).right_to_left());
    }
    for (const char* tag : {"en", "es", "hi", "zh", "vi"}) {
        CHECK_FALSE(formats(tag).right_to_left());
    }
    CHECK(is_known_locale("es"));
    CHECK(is_known_locale("ar-u-nu-latn"));
    CHECK(is_known_locale("zh-Hans-u-nu-hanidec"));
    CHECK_FALSE(is_known_locale("qx"));
    CHECK_FALSE(is_known_locale("qx-u-nu-latn"));
    CHECK_FALSE(is_known_locale("ar-u-nu-nosuch"));
    CHECK_FALSE(is_known_locale("ar-u-nu-"));
    CHECK(is_known_locale("fa-u-ca-persian-nu-latn"));
    CHECK(is_known_locale("en-u-nu-latn-rg-gbzzzz"));
    CHECK_FALSE(is_known_locale("ar-u-nu-latn-ca-persian")); // not in the order of RFC 6067
    CHECK_FALSE(is_known_locale("not a tag"));
    CHECK_FALSE(is_known_locale(""));
}

TEST_CASE("a value is isolated where bidi could turn it round") {
    CHECK(isolated("5", true) == "\u20685\u2069");
    // Source: UAX #9, rule X5c with P2: inner isolates are skipped when the first strong letter is
    // sought.
    CHECK(isolated("\u2068كرسي\u2069، \u2068جدار\u2069", true) ==
          "\u2067\u2068كرسي\u2069، \u2068جدار\u2069\u2069");
    CHECK(isolated("+44 1632 960123", true) == "\u2068+44 1632 960123\u2069");
    CHECK(isolated("Rosa M.", false) == "Rosa M.");
    CHECK(isolated("رosa", false) == "\u2068رosa\u2069");
    CHECK(isolated("שלום", false) == "\u2068שלום\u2069");
    CHECK(isolated("", true).empty());
}
