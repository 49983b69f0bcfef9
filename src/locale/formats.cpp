// SPDX-License-Identifier: MIT
#include "locale/formats.h"

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

#include <unicode/calendar.h>
#include <unicode/dtfmtsym.h>
#include <unicode/numberformatter.h>
#include <unicode/numsys.h>
#include <unicode/plurrule.h>
#include <unicode/uchar.h>
#include <unicode/ures.h>

#include "support/finding.h"
#include "support/number.h"
#include "support/utf8.h"

namespace tickleaf::locale {
namespace {

constexpr std::int64_t kFirstGroupedNumber = 10'000;
constexpr double kMillisecondsPerDay = 86'400'000.0;

std::string utf8(const icu::UnicodeString& text) {
    std::string out;
    text.toUTF8String(out);
    return out;
}

icu::StringPiece piece(std::string_view text) {
    return {text.data(), static_cast<std::int32_t>(text.size())};
}

void must(UErrorCode code, const char* what) {
    support::internal_error_if(U_FAILURE(code), what);
}

icu::Locale make_locale(const FormatRules& rules) {
    UErrorCode code = U_ZERO_ERROR;
    icu::Locale locale = icu::Locale::forLanguageTag(piece(rules.locale), code);
    locale.setKeywordValue("calendar", "gregorian", code);
    if (rules.latin_digits) {
        locale.setKeywordValue("numbers", "latn", code);
    }
    must(code, "the locale of a language was not checked before use");
    return locale;
}

/// One date taken apart in some calendar. Weekday as ICU counts: 1 is Sunday.
struct DateFields {
    int year = 0;
    int month = 0; ///< 0-based
    int day = 0;
    int weekday = 1;
};

int icu_weekday(std::chrono::year_month_day date) {
    return static_cast<int>(std::chrono::weekday(std::chrono::sys_days(date)).c_encoding()) + 1;
}

DateFields gregorian_fields(std::chrono::year_month_day date) {
    return {static_cast<int>(date.year()),
            static_cast<int>(static_cast<unsigned>(date.month())) - 1,
            static_cast<int>(static_cast<unsigned>(date.day())), icu_weekday(date)};
}

/// Month and weekday names of one calendar.
class DateNames {
  public:
    DateNames(const icu::Locale& locale, const std::string& calendar) {
        UErrorCode code = U_ZERO_ERROR;
        symbols_.emplace(locale, calendar.c_str(), code);
        must(code, "date names of a checked locale");
    }
    std::string month(int index, icu::DateFormatSymbols::DtContextType context,
                      std::size_t letters) const {
        std::int32_t count = 0;
        const icu::UnicodeString* names = symbols_->getMonths(count, context, width(letters));
        return index >= 0 && index < count ? utf8(names[index]) : std::string();
    }
    std::string weekday(int index, icu::DateFormatSymbols::DtContextType context,
                        std::size_t letters) const {
        std::int32_t count = 0;
        const icu::UnicodeString* names = symbols_->getWeekdays(count, context, width(letters));
        return index >= 0 && index < count ? utf8(names[index]) : std::string();
    }
    std::string era() const {
        std::int32_t count = 0;
        const icu::UnicodeString* names = symbols_->getEras(count);
        return count > 0 ? utf8(names[count - 1]) : std::string();
    }

  private:
    static icu::DateFormatSymbols::DtWidthType width(std::size_t letters) {
        return letters >= 4 ? icu::DateFormatSymbols::WIDE : icu::DateFormatSymbols::ABBREVIATED;
    }
    std::optional<icu::DateFormatSymbols> symbols_;
};

} // namespace

struct Formats::Impl {
    FormatRules rules;
    icu::Locale locale;
    std::optional<std::array<std::string, 10>> digits;
    std::unique_ptr<icu::PluralRules> plurals;
    std::unique_ptr<icu::PluralRules> ordinals;
    std::optional<icu::number::LocalizedNumberFormatter> numbers;
    std::optional<DateNames> gregorian;
    std::optional<DateNames> companion;
    std::unique_ptr<icu::Calendar> companion_calendar;

    explicit Impl(FormatRules r) : rules(std::move(r)), locale(make_locale(rules)) {}

    const icu::PluralRules& plural_rules() {
        if (!plurals) {
            UErrorCode code = U_ZERO_ERROR;
            plurals.reset(icu::PluralRules::forLocale(locale, code));
            must(code, "plural rules of a checked locale");
        }
        return *plurals;
    }

    const icu::PluralRules& ordinal_rules() {
        if (!ordinals) {
            UErrorCode code = U_ZERO_ERROR;
            ordinals.reset(icu::PluralRules::forLocale(locale, UPLURAL_TYPE_ORDINAL, code));
            must(code, "ordinal rules of a checked locale");
        }
        return *ordinals;
    }

    const std::array<std::string, 10>& digit_table() {
        if (!digits) {
            UErrorCode code = U_ZERO_ERROR;
            const std::unique_ptr<icu::NumberingSystem> system(
                icu::NumberingSystem::createInstance(locale, code));
            must(code, "digits of a checked locale");
            const icu::UnicodeString all = system->isAlgorithmic()
                                               ? icu::UnicodeString("0123456789")
                                               : system->getDescription();
            digits.emplace();
            for (std::int32_t i = 0; i < 10; ++i) {
                (*digits)[static_cast<std::size_t>(i)] =
                    utf8(icu::UnicodeString(all.char32At(all.moveIndex32(0, i))));
            }
        }
        return *digits;
    }

    const icu::number::LocalizedNumberFormatter& number_formatter() {
        if (!numbers) {
            numbers.emplace(icu::number::NumberFormatter::withLocale(locale)
                                .grouping(UNUM_GROUPING_MIN2)
                                .precision(icu::number::Precision::unlimited()));
        }
        return *numbers;
    }

    std::string format_decimal(const std::string& plain) {
        UErrorCode code = U_ZERO_ERROR;
        const std::string out =
            utf8(number_formatter().formatDecimal(piece(plain), code).toString(code));
        must(code, "a plain decimal number");
        return out;
    }

    std::string small_number(std::int64_t value) {
        std::string out;
        for (const char c : std::to_string(value)) {
            out += digit_table()[static_cast<std::size_t>(c - '0')];
        }
        return out;
    }

    std::string padded(int value, std::size_t letters) {
        std::string out = small_number(value);
        return letters == 2 && value < 10 ? digit_table()[0] + out : out;
    }

    const DateNames& names() {
        if (!gregorian) {
            gregorian.emplace(locale, "gregorian");
        }
        return *gregorian;
    }

    std::string field(char letter, std::size_t letters, const DateFields& date,
                      const DateNames& in) {
        using Symbols = icu::DateFormatSymbols;
        switch (letter) {
        case 'E':
            return in.weekday(date.weekday, Symbols::FORMAT, letters);
        case 'c':
            return in.weekday(date.weekday, Symbols::STANDALONE, letters);
        case 'M':
        case 'L':
            return letters < 3
                       ? padded(date.month + 1, letters)
                       : in.month(date.month, letter == 'M' ? Symbols::FORMAT : Symbols::STANDALONE,
                                  letters);
        case 'd':
            return padded(date.day, letters);
        case 'y':
            return small_number(date.year);
        case 'G':
            return in.era();
        default:
            return {};
        }
    }

    /// Copies the quoted words that begin at `at`; two quotes in a row are one apostrophe. Gives
    /// the place after.
    static std::size_t quoted(std::string_view pattern, std::size_t at, std::string& out) {
        if (pattern.substr(at, 2) == "''") {
            out += '\'';
            return at + 2;
        }
        for (++at; at < pattern.size(); ++at) {
            if (pattern[at] != '\'') {
                out += pattern[at];
            } else if (pattern.substr(at, 2) == "''") {
                out += pattern[at++];
            } else {
                return at + 1;
            }
        }
        return at;
    }

    std::string format_date(std::string_view pattern, const DateFields& date, const DateNames& in) {
        std::string out;
        for (std::size_t i = 0; i < pattern.size();) {
            const char c = pattern[i];
            const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
            if (letter) {
                const std::size_t end = std::min(pattern.find_first_not_of(c, i), pattern.size());
                out += field(c, end - i, date, in);
                i = end;
            } else if (c == '\'') {
                i = quoted(pattern, i, out);
            } else {
                out += c;
                ++i;
            }
        }
        return out;
    }

    std::string companion_date(std::chrono::year_month_day date) {
        UErrorCode code = U_ZERO_ERROR;
        if (!companion_calendar) {
            icu::Locale other = locale;
            other.setKeywordValue("calendar", rules.companion_calendar.c_str(), code);
            // The zone is given, because ICU would else look for the host's.
            companion_calendar.reset(
                icu::Calendar::createInstance(*icu::TimeZone::getGMT(), other, code));
            must(code, "the companion calendar of a checked language");
            companion.emplace(other, rules.companion_calendar);
        }
        const double days =
            static_cast<double>(std::chrono::sys_days(date).time_since_epoch().count());
        companion_calendar->setTime(days * kMillisecondsPerDay, code);
        const DateFields fields{companion_calendar->get(UCAL_YEAR, code),
                                companion_calendar->get(UCAL_MONTH, code),
                                companion_calendar->get(UCAL_DATE, code), icu_weekday(date)};
        must(code, "a date in the companion calendar");
        return format_date(rules.companion_date, fields, *companion);
    }
};

Formats::Formats(FormatRules rules) : impl_(std::make_unique<Impl>(std::move(rules))) {}
Formats::~Formats() = default;
Formats::Formats(Formats&&) noexcept = default;

bool Formats::right_to_left() const {
    return impl_->locale.isRightToLeft();
}

std::string Formats::plural_category(std::int64_t count) const {
    return utf8(impl_->plural_rules().select(static_cast<double>(count)));
}

std::string Formats::ordinal_category(std::int64_t count) const {
    return utf8(impl_->ordinal_rules().select(static_cast<double>(count)));
}

std::string Formats::number(std::int64_t value) const {
    return value >= 0 && value < kFirstGroupedNumber ? impl_->small_number(value)
                                                     : impl_->format_decimal(std::to_string(value));
}

std::string Formats::decimal(double value, int places) const {
    return impl_->format_decimal(support::fixed(value, places));
}

std::string Formats::long_date(std::chrono::year_month_day date) const {
    std::string out =
        impl_->format_date(impl_->rules.long_date, gregorian_fields(date), impl_->names());
    if (impl_->rules.companion_calendar.empty()) {
        return out;
    }
    return out + " (" + isolated(impl_->companion_date(date), right_to_left()) + ")";
}

std::string Formats::short_date(std::chrono::year_month_day date) const {
    return impl_->format_date(impl_->rules.short_date, gregorian_fields(date), impl_->names());
}

std::string Formats::weekday_short(int iso_weekday) const {
    support::internal_error_if(iso_weekday < 1 || iso_weekday > 7, "a weekday is 1 to 7");
    return impl_->names().weekday(iso_weekday % 7 + 1, icu::DateFormatSymbols::STANDALONE, 3);
}

int Formats::first_day_of_week() const {
    UErrorCode code = U_ZERO_ERROR;
    const std::unique_ptr<icu::Calendar> calendar(
        icu::Calendar::createInstance(*icu::TimeZone::getGMT(), impl_->locale, code));
    must(code, "the calendar of a checked locale");
    const int sunday_based = static_cast<int>(calendar->getFirstDayOfWeek(code));
    return sunday_based == 1 ? 7 : sunday_based - 1;
}

std::vector<Formats::Category> Formats::plural_categories() const {
    std::vector<Category> out;
    for (const char* name : {"zero", "one", "two", "few", "many", "other"}) {
        Category category{name, {}};
        for (std::int64_t n = 0; n <= 200; ++n) {
            if (plural_category(n) == name) {
                category.counts.push_back(n);
            }
        }
        if (!category.counts.empty()) {
            out.push_back(std::move(category));
        }
    }
    return out;
}

std::vector<std::string> Formats::plural_keywords() const {
    UErrorCode code = U_ZERO_ERROR;
    const std::unique_ptr<icu::StringEnumeration> keywords(impl_->plural_rules().getKeywords(code));
    must(code, "plural keywords of a checked locale");
    std::vector<std::string> out;
    while (const char* keyword = keywords->next(nullptr, code)) {
        out.emplace_back(keyword);
    }
    std::sort(out.begin(), out.end());
    return out;
}

namespace {

bool is_known_digits(std::string_view name) {
    UErrorCode code = U_ZERO_ERROR;
    const std::unique_ptr<icu::NumberingSystem> digits(
        icu::NumberingSystem::createInstanceByName(std::string(name).c_str(), code));
    return U_SUCCESS(code) && digits != nullptr;
}

} // namespace

bool is_known_locale(std::string_view tag) {
    // Digits are looked up by themselves: with any extension ICU first reads the names of all
    // extensions there are, which takes longer than to set a booklet.
    constexpr std::string_view kDigits = "-u-nu-";
    const std::size_t at = tag.find(kDigits);
    if (at != std::string_view::npos &&
        tag.find('-', at + kDigits.size()) == std::string_view::npos) {
        return is_known_digits(tag.substr(at + kDigits.size())) &&
               is_known_locale(tag.substr(0, at));
    }
    UErrorCode code = U_ZERO_ERROR;
    const icu::Locale locale = icu::Locale::forLanguageTag(piece(tag), code);
    if (U_FAILURE(code) || locale.isBogus()) {
        return false;
    }
    const std::string again = locale.toLanguageTag<std::string>(code);
    if (U_FAILURE(code) || again != tag) {
        return false;
    }
    UResourceBundle* data = ures_open(nullptr, locale.getLanguage(), &code);
    ures_close(data);
    return U_SUCCESS(code) && code != U_USING_DEFAULT_WARNING;
}

namespace {

/// What decides how a value must be isolated.
struct Strength {
    bool has_right = false; ///< a right-to-left letter anywhere
    bool strong_outside =
        false; ///< a letter outside inner isolates, which the first-strong rule sees
    bool first_is_right = false; ///< the first letter anywhere is right-to-left
};

Strength strength_of(std::string_view text) {
    Strength found;
    bool any = false;
    int depth = 0;
    for (std::size_t at = 0; at < text.size();) {
        const auto decoded = support::decode_utf8(text.substr(at));
        at += decoded ? decoded->length : 1;
        if (!decoded) {
            continue;
        }
        depth += decoded->code_point >= 0x2066 && decoded->code_point <= 0x2068 ? 1 : 0;
        depth -= decoded->code_point == 0x2069 && depth > 0 ? 1 : 0;
        const auto direction = u_charDirection(static_cast<UChar32>(decoded->code_point));
        const bool right = direction == U_RIGHT_TO_LEFT || direction == U_RIGHT_TO_LEFT_ARABIC;
        if (!right && direction != U_LEFT_TO_RIGHT) {
            continue;
        }
        found.has_right = found.has_right || right;
        found.strong_outside = found.strong_outside || depth == 0;
        found.first_is_right = any ? found.first_is_right : right;
        any = true;
    }
    return found;
}

} // namespace

std::string isolated(std::string_view text, bool right_to_left) {
    const Strength found = strength_of(text);
    if (text.empty() || (!right_to_left && !found.has_right)) {
        return std::string(text);
    }
    // UAX #9, X5c: first-strong skips inner isolates, so a list made of isolated Arabic words alone
    // would run left to right. Its direction is then named.
    const bool hidden = !found.strong_outside && found.first_is_right;
    return (hidden ? "\u2067" : "\u2068") + std::string(text) + "\u2069";
}

} // namespace tickleaf::locale
