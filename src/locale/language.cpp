// SPDX-License-Identifier: MIT
#include "locale/language.h"

#include <algorithm>
#include <map>

#include "locale/catalog.h"
#include "locale/formats.h"
#include "locale/language_file.h"
#include "locale/pattern.h"
#include "locale/phrases.h"
#include "locale/render.h"

namespace tickleaf::locale {
namespace {

constexpr std::int64_t kMinute = 60;
constexpr std::int64_t kHour = 3600;
/// Up to here a range is clearer in seconds: "60 to 90 seconds".
constexpr std::int64_t kLongestSecondsRange = 120;

} // namespace

struct Language::Impl {
    const support::Environment* environment = nullptr;
    support::Sources* sources = nullptr;
    Options options;
    LanguageFile file;
    Catalog own;
    Catalog english; ///< empty where this language is English
    std::unique_ptr<Formats> formats;
    std::unique_ptr<Formats> english_formats; ///< opened when an English text stands in
    /// Exercises asked for, each with what was wrong with it: told again whenever it is asked for
    /// again.
    std::map<std::string, support::Findings, std::less<>> exercises;
    /// The same for the clinician's copy; nothing before it is asked for.
    std::optional<support::Findings> clinician;
    std::map<const Entry*, Pattern> patterns;

    bool is_source() const { return file.tag == kSourceTag; }
    const Catalog& source() const { return is_source() ? own : english; }

    Reading reading(support::Findings& findings) const {
        return {*environment, *sources, findings};
    }

    /// Reads one file of this language and of English. False, and a finding, where this language's
    /// is missing.
    bool read(const CatalogFile& mine, const CatalogFile& theirs, support::Findings& findings) {
        const std::size_t before = findings.size();
        const bool there = read_catalog(mine, reading(findings), own);
        const bool english_there =
            is_source() ? there : read_catalog(theirs, reading(findings), english);
        inherit_phrases(own, english, theirs.prefix);
        if (there) {
            return findings.size() == before;
        }
        if (options.allow_missing && english_there) {
            return true;
        }
        findings.error({}, "text-missing",
                       mine.path + " is missing, expected the texts of " + file.english_name,
                       "translate " + theirs.path +
                           ", or ask with --allow-missing for the English, marked");
        return false;
    }

    const Pattern* pattern_of(const std::string& key, const Entry& entry,
                              support::Findings& findings) {
        const auto known = patterns.find(&entry);
        if (known != patterns.end()) {
            return &known->second;
        }
        PatternProblem problem;
        auto pattern = parse_pattern(entry.text, problem);
        if (!pattern) {
            findings.error(entry.span, problem.id, "text \"" + key + "\": " + problem.message);
            return nullptr;
        }
        return &patterns.emplace(&entry, std::move(*pattern)).first->second;
    }

    std::string text_of(const std::string& key, const Entry& entry, const Formats& in,
                        const Arguments& arguments, support::Findings& findings) {
        const Pattern* pattern = pattern_of(key, entry, findings);
        if (pattern == nullptr) {
            return {};
        }
        Rendered rendered = render(*pattern, arguments, in);
        for (const auto& problem : rendered.problems) {
            findings.error(entry.span, problem.id, "text \"" + key + "\": " + problem.message);
        }
        return std::move(rendered.text);
    }

    Message missing(const std::string& key, const Arguments& arguments,
                    support::Findings& findings) {
        const Entry* entry = source().find(key);
        if (entry != nullptr && !entry->lacks.empty()) {
            findings.error(entry->span, "phrase-unknown",
                           "text \"" + key + "\" needs \"" + entry->lacks +
                               "\", which is not in locales/en/phrases.yaml");
            return {};
        }
        if (entry == nullptr || is_source()) {
            findings.error({}, "text-missing", "there is no text \"" + key + "\" in locales/en",
                           "add it to a catalog of locales/en");
            return {};
        }
        if (!options.allow_missing) {
            const Entry* mine = own.find(key);
            findings.error(entry->span, "text-missing",
                           "text \"" + key + "\" is missing in " + file.english_name +
                               (mine != nullptr ? ": it needs \"" + mine->lacks + "\"" : ""),
                           "add it to locales/" + file.tag +
                               ", or ask with --allow-missing for the English, marked");
            return {};
        }
        if (!english_formats) {
            english_formats = std::make_unique<Formats>(
                FormatRules{std::string(kSourceTag), {}, {}, {}, {}, true});
        }
        const std::string text = text_of(key, *entry, *english_formats, arguments, findings);
        return {isolated("[en] " + text, formats->right_to_left()), ReviewState::Draft, true};
    }

    Message message(std::string_view asked, const Arguments& arguments,
                    support::Findings& findings) {
        const std::string key(asked);
        const Entry* entry = own.find(key);
        if (entry == nullptr || !entry->lacks.empty()) {
            return missing(key, arguments, findings);
        }
        return {text_of(key, *entry, *formats, arguments, findings), state_of(key, own, source())};
    }
};

Language::Language() : impl_(std::make_unique<Impl>()) {}
Language::~Language() = default;

std::shared_ptr<Language> Language::load(const support::Environment& environment,
                                         support::Sources& sources, std::string_view tag,
                                         const Options& options, support::Findings& findings) {
    auto file = read_language_file(tag, {environment, sources, findings});
    if (!file) {
        return nullptr;
    }
    file->formats.latin_digits = options.latin_digits;
    std::shared_ptr<Language> language(new Language());
    Impl& impl = *language->impl_;
    impl.environment = &environment;
    impl.sources = &sources;
    impl.options = options;
    impl.formats = std::make_unique<Formats>(file->formats);
    impl.file = std::move(*file);
    // A language without phrases says so text by text.
    const std::size_t before = findings.size();
    read_catalog(phrase_file(tag), impl.reading(findings), impl.own);
    if (!impl.is_source()) {
        read_catalog(phrase_file(kSourceTag), impl.reading(findings), impl.english);
    }
    bool good = findings.size() == before;
    for (const char* name : {"booklet", "units"}) {
        good = impl.read(main_file(tag, name), main_file(kSourceTag, name), findings) && good;
    }
    return good ? language : nullptr;
}

const std::string& Language::tag() const {
    return impl_->file.tag;
}

bool Language::right_to_left() const {
    return impl_->formats->right_to_left();
}

bool Language::allows_missing() const {
    return impl_->options.allow_missing;
}

std::string Language::own_name() const {
    return impl_->file.name;
}

bool Language::has(std::string_view key) const {
    return impl_->own.find(key) != nullptr || impl_->english.find(key) != nullptr;
}

Message Language::message(std::string_view key, const Arguments& arguments,
                          support::Findings& findings) const {
    return impl_->message(key, arguments, findings);
}

bool Language::load_exercise(std::string_view id, support::Findings& findings) {
    if (!is_plain_name(id)) {
        findings.error({}, "text-missing", "\"" + std::string(id) + "\" is no exercise name");
        return false;
    }
    auto known = impl_->exercises.find(id);
    if (known == impl_->exercises.end()) {
        known = impl_->exercises.emplace(id, support::Findings{}).first;
        impl_->read(exercise_file(tag(), id), exercise_file(kSourceTag, id), known->second);
    }
    for (const support::Finding& finding : known->second.all()) {
        findings.add(finding);
    }
    return !known->second.has_errors();
}

bool Language::has_clinician_texts() const {
    const auto files = impl_->environment->list_data("locales/" + tag());
    return std::find(files.begin(), files.end(), std::string(kClinicianFile) + ".yaml") !=
           files.end();
}

bool Language::load_clinician_texts(support::Findings& findings) {
    if (!impl_->clinician) {
        impl_->clinician.emplace();
        impl_->read(main_file(tag(), kClinicianFile), main_file(kSourceTag, kClinicianFile),
                    *impl_->clinician);
    }
    for (const support::Finding& finding : impl_->clinician->all()) {
        findings.add(finding);
    }
    return !impl_->clinician->has_errors();
}

int Language::count(std::string_view prefix) const {
    int n = 0;
    while (impl_->source().find(std::string(prefix) + "." + std::to_string(n + 1)) != nullptr) {
        ++n;
    }
    return n;
}

std::string Language::number(std::int64_t value) const {
    return impl_->formats->number(value);
}

std::string Language::decimal(double value, int places) const {
    return impl_->formats->decimal(value, places);
}

std::string Language::range(support::Range<int> range, support::Findings& findings) const {
    if (range.is_single()) {
        return number(range.low);
    }
    return message("number.range",
                   {{"low", std::int64_t{range.low}}, {"high", std::int64_t{range.high}}}, findings)
        .text;
}

std::string Language::duration(support::Seconds seconds, support::Findings& findings) const {
    support::internal_error_if(seconds.count < 0, "a duration is not negative");
    const std::int64_t h = seconds.count / kHour;
    const std::int64_t m = seconds.count % kHour / kMinute;
    const std::int64_t s = seconds.count % kMinute;
    const Arguments parts = {{"hours", h}, {"minutes", m}, {"seconds", s}};
    if (h > 0 && s > 0) {
        return message("duration.hours_minutes_seconds", parts, findings).text;
    }
    if (h > 0) {
        return m > 0 ? message("duration.hours_minutes", parts, findings).text
                     : message("duration.hours", {{"n", h}}, findings).text;
    }
    if (m > 0) {
        return s > 0 ? message("duration.minutes_seconds", parts, findings).text
                     : message("duration.minutes", {{"n", m}}, findings).text;
    }
    return message("duration.seconds", {{"n", s}}, findings).text;
}

std::string Language::duration_range(support::Range<support::Seconds> range,
                                     support::Findings& findings) const {
    if (range.is_single()) {
        return duration(range.low, findings);
    }
    const std::int64_t low = range.low.count;
    const std::int64_t high = range.high.count;
    const bool whole_minutes = low % kMinute == 0 && high % kMinute == 0 && low > 0;
    if (whole_minutes && high < kHour) {
        return message("duration.range_minutes", {{"low", low / kMinute}, {"high", high / kMinute}},
                       findings)
            .text;
    }
    if (high <= kLongestSecondsRange) {
        return message("duration.range_seconds", {{"low", low}, {"high", high}}, findings).text;
    }
    return message(
               "duration.range",
               {{"low", duration(range.low, findings)}, {"high", duration(range.high, findings)}},
               findings)
        .text;
}

std::string Language::long_date(std::chrono::year_month_day date) const {
    return impl_->formats->long_date(date);
}

std::string Language::short_date(std::chrono::year_month_day date) const {
    return impl_->formats->short_date(date);
}

std::string Language::weekday_short(std::chrono::year_month_day date) const {
    return weekday_short(
        static_cast<int>(std::chrono::weekday(std::chrono::sys_days(date)).iso_encoding()));
}

std::string Language::weekday_short(int iso_weekday) const {
    return impl_->formats->weekday_short(iso_weekday);
}

int Language::first_day_of_week() const {
    return impl_->formats->first_day_of_week();
}

} // namespace tickleaf::locale
