// SPDX-License-Identifier: MIT
#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "locale/exchange.h"
#include "locale/exchange_files.h"
#include "locale/exchange_parts.h"
#include "locale/lint_rules.h"
#include "locale/phrases.h"

namespace tickleaf::locale {
namespace {

/// What an import compares with.
struct Shelf {
    LanguageFile own;
    LanguageFile english_file;
    bool is_new = false;
    Catalog english;
    Catalog catalog;
    std::vector<Sheet> sheets;
    std::map<std::string, std::string> keys; ///< context to whole key
};

/// What an import brings.
struct Gathered {
    Import out;
    NewEntries entries;
    bool language_changed = false;
    int not_fuzzy_drafts = 0;
};

std::string tag_of(const PoFile& po) {
    std::string tag = po.field(kLanguageField);
    if (tag.empty()) {
        tag = po.field("Language");
        std::replace(tag.begin(), tag.end(), '_', '-');
    }
    return tag;
}

bool check_header(const PoFile& po, int file, support::Findings& findings) {
    const std::string format = po.field(kFormatField);
    if (format != kFormat) {
        findings.error({file, 1, 1}, "po-version",
                       format.empty()
                           ? "the header has no " + std::string(kFormatField) +
                                 "; this file was not written by tickleaf translate export"
                           : "this file has format " + format + ", expected " +
                                 std::string(kFormat),
                       "export again, and bring the texts over with msgmerge");
        return false;
    }
    if (tag_of(po).empty() || tag_of(po) == kSourceTag) {
        findings.error({file, 1, 1}, "po-version",
                       "the header names the language \"" + tag_of(po) +
                           "\", expected one to translate into",
                       "set " + std::string(kLanguageField) + " to the tag of the language");
        return false;
    }
    return true;
}

std::optional<Shelf> open_shelf(const std::string& tag, int file, const Reading& reading) {
    Shelf shelf;
    const auto tags = available(reading.environment);
    shelf.is_new = std::find(tags.begin(), tags.end(), tag) == tags.end();
    auto own = shelf.is_new ? new_language(tag) : read_language_file(tag, reading);
    auto english = read_language_file(kSourceTag, reading);
    if (!own || !english) {
        if (shelf.is_new) {
            reading.findings.error({file, 1, 1}, "unknown-language",
                                   "\"" + tag + "\" is no language that ICU knows");
        }
        return std::nullopt;
    }
    shelf.own = std::move(*own);
    shelf.english_file = std::move(*english);
    shelf.english = read_exchanged(kSourceTag, reading);
    if (!shelf.is_new) {
        shelf.catalog = read_exchanged(tag, reading);
    }
    shelf.sheets = english_sheets(shelf.english, reading);
    for (const Sheet& sheet : shelf.sheets) {
        for (const std::string& key : sheet.keys) {
            shelf.keys[context_of(sheet, key)] = sheet.prefix + key;
        }
    }
    return reading.findings.has_errors() ? std::nullopt : std::optional(std::move(shelf));
}

void refuse_other_version(const PoEntry& entry, const std::string& english,
                          support::Findings& findings) {
    findings.error(entry.span, "po-outdated",
                   "text \"" + entry.context + "\": the English is \"" + entry.source +
                       "\" here and \"" + english + "\" in locales/en",
                   "export again, and bring the texts over with msgmerge OLD.po NEW.po");
}

/// Own name, side words and glossary.
void take_language_text(const PoEntry& entry, Shelf& shelf, Gathered& all,
                        support::Findings& findings) {
    const std::string key = entry.context.substr(kLanguageSheet.size() + 1);
    const auto texts = language_texts(shelf.own, shelf.english_file);
    const auto known = std::find_if(texts.begin(), texts.end(),
                                    [&key](const LanguageText& text) { return text.key == key; });
    if (known == texts.end()) {
        findings.error(entry.span, "po-unknown",
                       "text \"" + entry.context + "\" is not in this version of the catalogs");
        return;
    }
    if (known->english != entry.source) {
        refuse_other_version(entry, known->english, findings);
        return;
    }
    if (entry.translation.empty() || entry.translation == known->own) {
        const bool is_missing = entry.translation.empty() && !known->is_optional;
        all.out.untranslated += is_missing ? 1 : 0;
        all.out.unchanged += is_missing ? 0 : 1;
        return;
    }
    set_language_text(shelf.own, key, entry.translation);
    all.language_changed = true;
    all.out.changes.push_back({entry.context, known->own, entry.translation, "", ""});
}

/// What the catalog will hold for a text; see exchange.h for the states.
Entry next_entry(const PoEntry& entry, const Entry* own, const Entry& english,
                 const std::optional<Review>& review) {
    const bool is_same = own != nullptr && own->written == entry.translation;
    const std::string now = source_hash(english.text);
    Entry next;
    next.written = entry.translation;
    next.state = ReviewState::Draft;
    next.of = now;
    if (entry.fuzzy && entry.previous) {
        next.of = hash_of_previous(*entry.previous);
    } else if (entry.fuzzy && own != nullptr) {
        // msgmerge and some editors drop "#|": what is stale stays so until the mark is taken away.
        next.of = own->of;
    }
    const bool is_still_stale = entry.fuzzy && is_same && own->of == next.of && next.of != now;
    const bool is_still_reviewed =
        !entry.fuzzy && is_same && own->state == ReviewState::Reviewed && own->of == now;
    if (is_still_stale || is_still_reviewed) {
        next = *own;
    } else if (!entry.fuzzy && review) {
        next.state = ReviewState::Reviewed;
        next.by = review->by;
        next.on = review->on;
    }
    next.span = entry.translation_span;
    return next;
}

std::string state_words(const Entry& entry, const Entry& english) {
    switch (state_of(entry, &english)) {
    case ReviewState::Reviewed:
        return "reviewed by " + entry.by + " on " + entry.on;
    case ReviewState::Stale:
        return "stale";
    case ReviewState::Draft:
    case ReviewState::Source:
        break;
    }
    return "draft";
}

bool is_equal(const Entry& a, const Entry& b) {
    return a.written == b.written && a.of == b.of && a.state == b.state && a.by == b.by &&
           a.on == b.on;
}

void take_text(const PoEntry& entry, const Shelf& shelf, const std::optional<Review>& review,
               Gathered& all, support::Findings& findings) {
    const auto key = shelf.keys.find(entry.context);
    if (key == shelf.keys.end()) {
        findings.error(entry.span, "po-unknown",
                       "text \"" + entry.context + "\" is not in this version of the catalogs",
                       "export again, and bring the texts over with msgmerge OLD.po NEW.po");
        return;
    }
    const Entry& english = shelf.english.texts.at(key->second);
    const Entry* own = shelf.catalog.find(key->second);
    if (entry.source != english.written) {
        refuse_other_version(entry, english.written, findings);
        return;
    }
    if (entry.translation.empty()) {
        ++all.out.untranslated;
        if (own != nullptr) {
            findings.warning(entry.translation_span, "po-empty",
                             "text \"" + entry.context + "\" is empty here; the catalog keeps \"" +
                                 own->written + "\"");
        }
        return;
    }
    if (own == nullptr && entry.translation == english.written &&
        !only_phrase(english.written).empty()) {
        ++all.out.unchanged;
        return;
    }
    Entry next = next_entry(entry, own, english, review);
    all.not_fuzzy_drafts += !entry.fuzzy && next.state == ReviewState::Draft ? 1 : 0;
    const std::string after = state_words(next, english);
    if (own != nullptr && is_equal(*own, next)) {
        ++all.out.unchanged;
    } else {
        all.out.changes.push_back({entry.context, own != nullptr ? own->written : "", next.written,
                                   own != nullptr ? state_words(*own, english) : "", after});
    }
    all.entries[key->second] = std::move(next);
}

void check_language(const Shelf& shelf, int file, support::Findings& findings) {
    if (shelf.own.name.empty() || shelf.own.left_words.empty() || shelf.own.right_words.empty()) {
        findings.error({file, 1, 1}, "language-side-words",
                       "a new language needs the texts language/name, language/side_words.left and "
                       "language/side_words.right",
                       "translate these three first");
    }
}

/// A phrase that is named must be translated; and whoever writes one out translates its English,
/// which must be the one of today.
void check_phrases_there(const Shelf& shelf, const Gathered& all, const PoFile& po,
                         support::Findings& findings) {
    std::set<std::string> there;
    for (const PoEntry& entry : po.entries) {
        const auto key = shelf.keys.find(entry.context);
        there.insert(key != shelf.keys.end() ? key->second : "");
    }
    for (const auto& [key, entry] : all.entries) {
        if (!entry.lacks.empty() && shelf.english.find(entry.lacks) != nullptr &&
            !findings.has_errors()) {
            findings.error(entry.span, "po-phrase",
                           "text \"" + key + "\" names \"" + entry.lacks +
                               "\", which is not translated",
                           "translate the phrase first");
        }
        for (const std::string& phrase : shelf.english.texts.at(key).phrases) {
            const auto& names = entry.phrases;
            if (!there.contains(phrase) &&
                std::find(names.begin(), names.end(), phrase) == names.end()) {
                findings.error(entry.span, "po-phrase",
                               "text \"" + key + "\" writes out \"" + phrase +
                                   "\", whose English this file does not hold",
                               "bring the entry of the phrase in the same file");
            }
        }
    }
}

/// Writes what was brought in full, with the phrases as they will be.
void put_phrases_in(const Shelf& shelf, Gathered& all, support::Findings& findings) {
    Catalog next = shelf.catalog;
    std::vector<std::string> keys;
    for (const auto& [key, entry] : all.entries) {
        next.texts[key] = entry;
        keys.push_back(key);
    }
    locale::put_phrases_in(next, keys, findings);
    for (auto& [key, entry] : all.entries) {
        entry = next.texts.at(key);
    }
}

/// Only what changes is written, but everything brought is checked.
void check_texts(const Shelf& shelf, const Gathered& all, support::Findings& findings) {
    const Formats formats(shelf.own.formats);
    const Bench bench{shelf.own, shelf.english_file, shelf.english, shelf.catalog, formats,
                      findings};
    for (const auto& [key, entry] : all.entries) {
        lint_words(key, entry, bench);
    }
}

/// What repeats should read the same everywhere: a changed text beside another of the same English
/// that says it in other words.
void tell_twins(const Shelf& shelf, const Gathered& all, support::Findings& findings) {
    std::map<std::string, std::vector<std::string>> twins;
    for (const auto& [context, key] : shelf.keys) {
        twins[shelf.english.texts.at(key).text].push_back(key);
    }
    const auto text_of = [&](const std::string& key) -> const std::string* {
        const auto fresh = all.entries.find(key);
        const Entry* old = shelf.catalog.find(key);
        return fresh != all.entries.end() ? &fresh->second.text
                                          : (old != nullptr ? &old->text : nullptr);
    };
    for (const TextChange& change : all.out.changes) {
        const auto key = shelf.keys.find(change.context);
        if (key == shelf.keys.end() || change.before == change.after) {
            continue;
        }
        for (const std::string& other : twins[shelf.english.texts.at(key->second).text]) {
            const std::string* text = text_of(other);
            if (text != nullptr && *text != all.entries.at(key->second).text) {
                findings.note(all.entries.at(key->second).span, "po-twin",
                              "text \"" + change.context + "\": the same English is \"" + *text +
                                  "\" in \"" + other + "\"",
                              "say it in the same words unless grammar forbids");
                break;
            }
        }
    }
}

void build_files(const Shelf& shelf, Gathered& all, const Reading& reading) {
    std::erase_if(all.entries, [&](const auto& item) {
        const Entry* own = shelf.catalog.find(item.first);
        return own != nullptr && is_equal(*own, item.second);
    });
    all.out.files = catalog_files(shelf.own.tag, shelf.sheets, all.entries, reading);
    if (all.language_changed) {
        const auto text = language_file(shelf.own, shelf.is_new, reading);
        if (text) {
            all.out.files.emplace_back(main_file(shelf.own.tag, "language").path, *text);
        }
    }
    // A language whose main catalogs are not there yet cannot be used: begin them empty.
    for (const char* name : {"booklet", "units"}) {
        const std::string path = main_file(shelf.own.tag, name).path;
        const bool is_there = reading.environment.read_data(path).has_value() ||
                              std::any_of(all.out.files.begin(), all.out.files.end(),
                                          [&](const auto& file) { return file.first == path; });
        if (!is_there) {
            all.out.files.emplace_back(path, "format: 1\ntexts: {}\n");
        }
    }
    if (!reading.findings.has_errors() && !all.out.files.empty() &&
        !reads_back(shelf.own.tag, all.out.files, shelf.catalog, all.entries, reading)) {
        reading.findings.error({}, "catalog-layout",
                               "the changed catalogs would not say the same again; nothing is "
                               "written",
                               "give each key of the catalogs a line of its own");
    }
}

} // namespace

std::optional<Import> import_po(int file, const std::optional<Review>& review,
                                const Reading& reading) {
    const auto po = read_po(reading.sources, file, reading.findings);
    if (!po || !check_header(*po, file, reading.findings)) {
        return std::nullopt;
    }
    auto shelf = open_shelf(tag_of(*po), file, reading);
    if (!shelf) {
        return std::nullopt;
    }
    Gathered all;
    all.out.tag = shelf->own.tag;
    for (const PoEntry& entry : po->entries) {
        if (entry.context.starts_with(kPrescriptionContext)) {
            all.out.prescription.push_back(entry);
        } else if (entry.context.starts_with(std::string(kLanguageSheet) + "/")) {
            take_language_text(entry, *shelf, all, reading.findings);
        } else {
            take_text(entry, *shelf, review, all, reading.findings);
        }
    }
    check_language(*shelf, file, reading.findings);
    put_phrases_in(*shelf, all, reading.findings);
    check_phrases_there(*shelf, all, *po, reading.findings);
    check_texts(*shelf, all, reading.findings);
    if (reading.findings.has_errors()) {
        return std::nullopt;
    }
    if (all.not_fuzzy_drafts > 0) {
        reading.findings.note({file, 1, 1}, "po-unreviewed",
                              std::to_string(all.not_fuzzy_drafts) +
                                  " texts are not fuzzy and stay draft",
                              "name the reviewer: --reviewed-by ROLE --on DATE");
    }
    tell_twins(*shelf, all, reading.findings);
    build_files(*shelf, all, reading);
    return reading.findings.has_errors() ? std::nullopt : std::optional(std::move(all.out));
}

} // namespace tickleaf::locale
