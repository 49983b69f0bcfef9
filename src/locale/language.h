// SPDX-License-Identifier: MIT
// One language of the booklet: its catalog (locales/LANG/), messages, numbers, dates, and the
// review state of every text. English is the source; another language's entry carries the hash of
// the English it was made from. Shapes: keys are "area.name" for the booklet, "criterion.KEY",
// "position.KEY", and for exercises "exercise.ID.name|purpose|setup|step.N|feel|mistake.N|safety".
// Catalogs: locales/LANG/{phrases,booklet,units}.yaml, where a clinic wants it clinician.yaml, and
// locales/LANG/exercises/ID.yaml (local keys), each
// `format: 1` and `texts:`, a map of key to ICU text in English, of key to {text, of: HASH8, state:
// draft|reviewed, by, on} in every other language. locales/LANG/language.yaml: name, english_name,
// locale, companion_calendar. Side is always {side, select, left {} right {} other {}}. All rules
// and the keys of units.yaml: locales/README.md. Errors: bad catalogs are findings with file, line,
// key. A missing text is never silently replaced. Source: ICU MessageFormat (ICU 72 user guide);
// CLDR plural rules; BCP 47 tags.
#pragma once

#include <chrono>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "locale/text_part.h"
#include "support/environment.h"
#include "support/finding.h"
#include "support/side.h"
#include "support/units.h"

namespace tickleaf::locale {

enum class ReviewState { Source, Draft, Reviewed, Stale };

/// A typed value for a placeholder. Counts choose plural forms; Side chooses a select branch; text
/// is put in as it is, isolated (U+2068 U+2069) so that bidi cannot turn it round.
using Value = std::variant<std::int64_t, support::Side, std::string>;
using Arguments = std::vector<std::pair<std::string, Value>>;

/// A message in this language and how far it can be trusted.
struct Message {
    std::string text;
    ReviewState state = ReviewState::Draft;
    bool is_source = false; ///< the English stands in for a missing text (allow_missing), marked
};

struct Options {
    bool latin_digits = false;  ///< the clinic pins Latin digits
    bool allow_missing = false; ///< a missing text prints the English, marked, instead of an error
};

/// Immutable once loaded but for formatter caches; one per thread. The environment and the sources
/// it was loaded with must outlive it: exercises are read, and findings point into them, when they
/// are asked for.
class Language {
  public:
    static std::shared_ptr<Language> load(const support::Environment& environment,
                                          support::Sources& sources, std::string_view tag,
                                          const Options& options, support::Findings& findings);
    ~Language();

    const std::string& tag() const;
    bool right_to_left() const;
    /// Whether the English may stand in for a missing text, marked.
    bool allows_missing() const;
    /// The language's own name for itself, such as "Español".
    std::string own_name() const;

    /// Whether there is such a text to ask for: true too where only the English has it, so that a
    /// text which a translation lost is an error of message() and not left out unseen.
    bool has(std::string_view key) const;
    /// The text of a key with its values put in. A missing key or value is a finding. Values with
    /// no place in the text are passed over.
    Message message(std::string_view key, const Arguments& arguments,
                    support::Findings& findings) const;
    /// Loads locales/TAG/exercises/ID.yaml, once, so that its keys can be asked for. False, with
    /// findings each time, where it cannot be used.
    bool load_exercise(std::string_view id, support::Findings& findings);
    /// Whether this language has the texts of the clinician's copy (locales/TAG/clinician.yaml). A
    /// patient never reads them, so that a language need not have them and they are not in
    /// coverage(); English does.
    bool has_clinician_texts() const;
    /// Loads them, once. False, with findings each time, where they cannot be used.
    bool load_clinician_texts(support::Findings& findings);
    /// Number of numbered entries "prefix.1", "prefix.2"... that the English source has.
    int count(std::string_view prefix) const;

    /// In the reader's digits; grouped from five digits on, so that a year never is.
    std::string number(std::int64_t value) const;
    std::string decimal(double value, int places) const;
    /// "5 to 10" in words of the language (message "number.range"), or the single number.
    std::string range(support::Range<int> range, support::Findings& findings) const;
    /// "45 seconds", "2 minutes", "1 minute 30 seconds": plural forms of the language.
    std::string duration(support::Seconds seconds, support::Findings& findings) const;
    std::string duration_range(support::Range<support::Seconds> range,
                               support::Findings& findings) const;
    /// Long date with weekday; calendar of the locale pinned to Gregorian, the local one beside it
    /// where usual.
    std::string long_date(std::chrono::year_month_day date) const;
    std::string short_date(std::chrono::year_month_day date) const;    ///< "2 Mar"
    std::string weekday_short(std::chrono::year_month_day date) const; ///< "Mon"
    std::string weekday_short(int iso_weekday) const;                  ///< 1 is Monday
    int first_day_of_week() const;                                     ///< ISO, 1 is Monday

  private:
    Language();
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

/// Tags of all catalogs there are, sorted; English first.
std::vector<std::string> available(const support::Environment& environment);

/// How many texts there are and how far they can be trusted.
struct TextCounts {
    int texts = 0;    ///< of the English
    int present = 0;  ///< of these, in this language
    int reviewed = 0; ///< by a person, and not stale; none in English, which is the source
    int stale = 0;    ///< made from an English text that has changed
};

/// Coverage of one language against English. The clinician's copy is a part but not in the totals:
/// patients never read it, and a language need not have it.
struct Coverage {
    std::string tag;
    std::string own_name;
    TextCounts all;
    std::vector<std::pair<TextPart, TextCounts>> parts; ///< in the order of kTextParts
};
Coverage coverage(const support::Environment& environment, support::Sources& sources,
                  std::string_view tag, support::Findings& findings);

/// Hash by which a translation names the English text it was made from: 8 hex digits of FNV-1a 32.
std::string source_hash(std::string_view english);

} // namespace tickleaf::locale
