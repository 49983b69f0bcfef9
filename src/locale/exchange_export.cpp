// SPDX-License-Identifier: MIT
#include "locale/exchange.h"

#include <algorithm>
#include <array>
#include <map>
#include <utility>

#include "locale/exchange_parts.h"
#include "locale/lint_rules.h"
#include "locale/pattern.h"
#include "locale/phrases.h"

namespace tickleaf::locale {
namespace {

constexpr std::size_t kMostExamples = 4;
constexpr std::size_t kMostTwins = 4;

/// What explanations are made from.
struct Guide {
    const LanguageFile& own;
    const LanguageFile& english;
    const Catalog& texts; ///< English
    const Catalog& translations;
    const Formats& formats;
    std::map<std::string, std::vector<std::string>> contexts; ///< by the English as written
    std::map<std::string, std::vector<std::string>> users;    ///< contexts by phrase
};

std::string examples(const Formats::Category& category) {
    std::string out;
    for (std::size_t i = 0; i < std::min(category.counts.size(), kMostExamples); ++i) {
        out += (i > 0 ? ", " : "") + std::to_string(category.counts[i]);
    }
    return out + (category.counts.size() > kMostExamples ? "..." : "");
}

void explain_plural(const Guide& guide, const Choice& choice, std::vector<std::string>& out) {
    std::string forms;
    std::string shape = "{" + choice.name + ", plural,";
    for (const auto& category : guide.formats.plural_categories()) {
        forms += (forms.empty() ? "" : "; ") + category.name + " for " + examples(category);
        shape += " " + category.name + " {...}";
    }
    if (shape.find(" other {") == std::string::npos) {
        forms += "; other for fractions";
        shape += " other {...}";
    }
    out.push_back("Plural of {" + choice.name + "} in " + guide.own.english_name + ": " + forms +
                  ". # prints the number.");
    out.push_back("Shape: " + shape + "}");
}

void explain_side(const Guide& guide, std::vector<std::string>& out) {
    std::string words;
    for (const auto* list : {&guide.own.left_words, &guide.own.right_words}) {
        for (const std::string& word : *list) {
            words += (words.empty() ? "" : ", ") + word;
        }
    }
    out.push_back("Side: keep {side, select, left {...} right {...} other {...}}; words for left "
                  "and right stand nowhere else. \"other\" is read where both sides or none is "
                  "meant.");
    if (!words.empty()) {
        out.push_back("Side words: " + words);
    }
}

void explain_choices(const Guide& guide, const Pattern& pattern, std::vector<std::string>& out) {
    std::vector<std::string> seen;
    const auto walk = [&](const auto& self, const Pattern& pieces) -> void {
        for (const Piece& piece : pieces) {
            const auto* choice = std::get_if<Choice>(&piece.value);
            if (choice == nullptr) {
                continue;
            }
            if (std::find(seen.begin(), seen.end(), choice->name) == seen.end()) {
                seen.push_back(choice->name);
                if (choice->kind == Choice::Kind::Plural) {
                    explain_plural(guide, *choice, out);
                } else if (choice->name == "side") {
                    explain_side(guide, out);
                }
            }
            for (const Branch& branch : choice->branches) {
                self(self, branch.pieces);
            }
        }
    };
    walk(walk, pattern);
}

void explain_values(const Pattern& pattern, std::vector<std::string>& out) {
    std::string names;
    for (const auto& [name, use] : placeholders(pattern)) {
        if (name != "side") {
            names += (names.empty() ? "{" : ", {") + name + "}";
        }
    }
    if (!names.empty()) {
        out.push_back("Values put in by the program, to be kept as they are: " + names);
    }
}

void explain_terms(const Guide& guide, const Pattern& pattern, std::vector<std::string>& out) {
    const std::string source = flattened(pattern, "") + " " + flattened(pattern, "other");
    for (const Term& wanted : guide.english.glossary) {
        if (count_words(source, wanted.forms) == 0) {
            continue;
        }
        for (const Term& term : guide.own.glossary) {
            if (term.key != wanted.key) {
                continue;
            }
            std::string forms;
            for (const std::string& form : term.forms) {
                forms += (forms.empty() ? "" : ", ") + form;
            }
            out.push_back("Glossary: " + term.key + " = " + forms);
        }
    }
}

/// What a text of an exercise is for.
std::string role_of(const Sheet& sheet, const std::string& key) {
    const auto count = [&](std::string_view begin) {
        return std::count_if(sheet.keys.begin(), sheet.keys.end(),
                             [&](const std::string& other) { return other.starts_with(begin); });
    };
    if (key.starts_with("step.")) {
        return "step " + key.substr(5) + " of " + std::to_string(count("step."));
    }
    if (key.starts_with("mistake.")) {
        return "a common mistake, said as what to do instead";
    }
    static const std::map<std::string, std::string> kRoles = {
        {"name", "its name; no full stop"},
        {"purpose", "what it is good for"},
        {"setup", "how to get ready"},
        {"feel", "what the patient should feel"},
        {"safety", "SAFETY: what keeps the patient from harm"}};
    const auto role = kRoles.find(key);
    return role == kRoles.end() ? key : role->second;
}

std::string listed(const std::vector<std::string>& contexts, const std::string& but) {
    std::string out;
    std::size_t count = 0;
    for (const std::string& context : contexts) {
        if (context != but && count++ < kMostTwins) {
            out += (out.empty() ? "" : ", ") + context;
        }
    }
    return out + (count > kMostTwins ? " and more" : "");
}

/// The phrases that a text names, in both languages.
void explain_phrases(const Guide& guide, const Entry& english, std::vector<std::string>& out) {
    if (english.phrases.empty()) {
        return;
    }
    out.push_back("In full: " + english.text);
    for (const std::string& phrase : english.phrases) {
        const Entry* own = guide.translations.find(phrase);
        out.push_back("{" + phrase + "} is translated once, in phrases/" +
                      phrase.substr(kPhrasePrefix.size()) +
                      (own != nullptr && !own->text.empty() ? ": " + own->text : ""));
    }
    out.emplace_back(only_phrase(english.written).empty()
                         ? "Keep the phrase as it is, and write it out only where grammar forbids "
                           "it."
                         : "Nothing to do here, but where grammar forbids the phrase: then write "
                           "the text out.");
}

void explain_place(const Guide& guide, const Sheet& sheet, const std::string& key,
                   std::vector<std::string>& out) {
    constexpr std::string_view kExercises = "exercises/";
    if (sheet.name.starts_with(kExercises)) {
        const Entry* name = guide.texts.find(sheet.prefix + "name");
        const std::string id = sheet.name.substr(kExercises.size());
        out.push_back("Exercise \"" + (name != nullptr ? name->text : id) + "\", figure " + id +
                      ": " + role_of(sheet, key));
    } else if (is_safety_key(sheet.prefix + key)) {
        out.emplace_back("SAFETY: a wrong or missing word here can hurt someone.");
    }
    const auto users = guide.users.find(sheet.prefix + key);
    if (users != guide.users.end()) {
        out.push_back("A phrase; must read well in " + listed(users->second, ""));
    }
}

std::vector<std::string> explanations(const Guide& guide, const Sheet& sheet,
                                      const std::string& key, const Entry& english) {
    std::vector<std::string> out;
    explain_place(guide, sheet, key, out);
    explain_phrases(guide, english, out);
    PatternProblem ignored;
    if (const auto pattern = parse_pattern(english.text, ignored)) {
        explain_values(*pattern, out);
        explain_choices(guide, *pattern, out);
        explain_terms(guide, *pattern, out);
    }
    const auto twins = guide.contexts.find(english.written);
    const std::string others =
        twins == guide.contexts.end() ? "" : listed(twins->second, context_of(sheet, key));
    if (!others.empty()) {
        out.push_back("The same English is in " + others +
                      ": say it in the same words unless grammar forbids.");
    }
    return out;
}

void set_state(PoEntry& entry, const Entry* own, const Entry& english) {
    if (own == nullptr && !only_phrase(english.written).empty()) {
        entry.translation = english.written;
    }
    if (own == nullptr || own->written.empty()) {
        return;
    }
    entry.translation = own->written;
    switch (state_of(*own, &english)) {
    case ReviewState::Reviewed:
        entry.extracted.push_back("Reviewed by " + own->by + " on " + own->on);
        break;
    case ReviewState::Stale:
        entry.fuzzy = true;
        entry.previous = unknown_source(own->of);
        entry.extracted.emplace_back("STALE: the English has changed since this was translated.");
        break;
    case ReviewState::Draft:
    case ReviewState::Source:
        entry.fuzzy = true;
        break;
    }
}

void add_sheet(const Guide& guide, const Sheet& sheet, const Catalog& own, PoFile& po) {
    for (const std::string& key : sheet.keys) {
        const Entry& english = guide.texts.texts.at(sheet.prefix + key);
        PoEntry entry;
        entry.context = context_of(sheet, key);
        entry.source = english.written;
        entry.extracted = explanations(guide, sheet, key, english);
        entry.references.push_back(path_of(kSourceTag, sheet) + ":" +
                                   std::to_string(english.span.line));
        set_state(entry, own.find(sheet.prefix + key), english);
        po.entries.push_back(std::move(entry));
    }
}

PoFile head(const LanguageFile& language, bool is_new) {
    PoFile po;
    po.notes = {
        "Tickleaf, texts for " + language.english_name + " (" + language.tag + ").",
        "Fuzzy means: draft, not checked by a qualified translator. Take the mark away from what",
        "you have checked; \"tickleaf translate import\" with --reviewed-by and --on then records "
        "it.",
        "locales/README.md is the guide.",
    };
    std::string tag = language.tag;
    std::replace(tag.begin(), tag.end(), '-', '_');
    // No clock here: the same catalogs give the same file.
    po.header = {{"Project-Id-Version", "tickleaf"},
                 {"PO-Revision-Date", "1970-01-01 00:00+0000"},
                 {"Last-Translator", is_new ? "none yet" : "see the catalog"},
                 {"Language-Team", language.english_name},
                 {"Language", tag},
                 {"MIME-Version", "1.0"},
                 {"Content-Type", "text/plain; charset=UTF-8"},
                 {"Content-Transfer-Encoding", "8bit"},
                 {std::string(kFormatField), std::string(kFormat)},
                 {std::string(kLanguageField), language.tag}};
    return po;
}

void add_language_texts(const LanguageFile& own, const LanguageFile& english, PoFile& po) {
    for (const LanguageText& text : language_texts(own, english)) {
        PoEntry entry;
        entry.context = std::string(kLanguageSheet) + "/" + text.key;
        entry.source = text.english;
        entry.translation = text.own;
        entry.extracted.push_back(text.explanation);
        po.entries.push_back(std::move(entry));
    }
}

} // namespace

std::optional<std::string> export_po(std::string_view tag, const Reading& reading,
                                     const Extras& extras) {
    if (tag == kSourceTag) {
        reading.findings.error({}, "language-source", "English is the source and is not translated",
                               "name the language to translate into, such as es");
        return std::nullopt;
    }
    const auto tags = available(reading.environment);
    const bool is_new = std::find(tags.begin(), tags.end(), tag) == tags.end();
    const auto own = is_new ? new_language(tag) : read_language_file(tag, reading);
    const auto english = read_language_file(kSourceTag, reading);
    if (!own || !english) {
        if (is_new) {
            reading.findings.error({}, "unknown-language",
                                   "\"" + std::string(tag) + "\" is no language that ICU knows",
                                   "write a BCP 47 tag, such as cy or zh-Hant");
        }
        return std::nullopt;
    }
    const Catalog texts = read_exchanged(kSourceTag, reading);
    const Catalog catalog = is_new ? Catalog{} : read_exchanged(tag, reading);
    const Formats formats(own->formats);
    Guide guide{*own, *english, texts, catalog, formats, {}, {}};
    auto sheets = english_sheets(texts, reading);
    const bool has_clinician =
        extras.clinician ||
        reading.environment.read_data(main_file(tag, kClinicianFile).path).has_value();
    std::erase_if(
        sheets, [&](const Sheet& sheet) { return sheet.name == kClinicianFile && !has_clinician; });
    for (const Sheet& sheet : sheets) {
        for (const std::string& key : sheet.keys) {
            const Entry& entry = texts.texts.at(sheet.prefix + key);
            if (only_phrase(entry.written).empty()) {
                guide.contexts[entry.written].push_back(context_of(sheet, key));
            }
            for (const std::string& phrase : entry.phrases) {
                guide.users[phrase].push_back(context_of(sheet, key));
            }
        }
    }
    PoFile po = head(*own, is_new);
    add_language_texts(*own, *english, po);
    for (const Sheet& sheet : sheets) {
        add_sheet(guide, sheet, catalog, po);
    }
    po.entries.insert(po.entries.end(), extras.prescription.begin(), extras.prescription.end());
    return reading.findings.has_errors() ? std::nullopt : std::optional(write_po(po));
}

} // namespace tickleaf::locale
