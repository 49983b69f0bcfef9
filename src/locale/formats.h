// SPDX-License-Identifier: MIT
// Numbers, plural categories and dates of one locale.
// Shapes: Formats opens each ICU object when it is first needed and keeps it; not shared between
// threads. Units: dates are Gregorian days, without clock or time zone: the host's are never asked.
// Cost: numbers from 0 to 9999 are a table look-up; opening an ICU object costs 0.1 to 0.3 ms,
// once. Source: CLDR 42 as carried by ICU 72; date patterns of UTS #35 part 4 (letters E c d M L y
// G and quotes).
#pragma once

#include <chrono>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace tickleaf::locale {

/// What Formats needs to know; read from language.yaml.
struct FormatRules {
    std::string locale;                      ///< BCP 47
    std::string long_date = "EEEE d MMMM y"; ///< UTS #35 pattern
    std::string short_date = "d MMM";
    std::string companion_calendar; ///< "persian", "buddhist"..., or empty
    std::string companion_date;     ///< pattern in that calendar
    bool latin_digits = false;
};

class Formats {
  public:
    explicit Formats(FormatRules rules);
    ~Formats();
    Formats(Formats&&) noexcept;

    bool right_to_left() const;
    /// CLDR category of a count: "one", "few", "other"...
    std::string plural_category(std::int64_t count) const;
    std::string ordinal_category(std::int64_t count) const;
    /// Grouped only from five digits on, so that a year is never grouped.
    std::string number(std::int64_t value) const;
    /// At most `places` decimals, rounded as support::fixed does.
    std::string decimal(double value, int places) const;
    std::string long_date(std::chrono::year_month_day date) const;
    std::string short_date(std::chrono::year_month_day date) const;
    std::string weekday_short(int iso_weekday) const;
    int first_day_of_week() const;
    /// The categories that whole counts from 0 to 200 reach, in CLDR order, with examples of each.
    struct Category {
        std::string name;
        std::vector<std::int64_t> counts;
    };
    std::vector<Category> plural_categories() const;
    /// All categories of the language, those of fractions and millions too.
    std::vector<std::string> plural_keywords() const;

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

/// Whether ICU reads the tag as it is written and has data for its language.
bool is_known_locale(std::string_view tag);
/// U+2068 text U+2069 where the text could be turned round by bidi: in a right-to-left language
/// always, in a left-to-right one where it holds right-to-left letters.
std::string isolated(std::string_view text, bool right_to_left);

} // namespace tickleaf::locale
