// SPDX-License-Identifier: MIT
// The rules on phrases; see phrases.h.
#include "locale/lint_rules.h"

#include <algorithm>
#include <set>

#include "locale/phrases.h"

namespace tickleaf::locale {
namespace {

bool names(const Entry& entry, const std::string& phrase) {
    return std::find(entry.phrases.begin(), entry.phrases.end(), phrase) != entry.phrases.end();
}

void check_against(const std::string& key, const Entry& entry, const Entry& english,
                   support::Findings& findings) {
    for (const std::string& phrase : entry.phrases) {
        if (!names(english, phrase)) {
            findings.error(entry.span, "phrase-other",
                           "text \"" + key + "\" names \"" + phrase +
                               "\", and its English does not",
                           "name the phrases of the English: " + english.written);
        }
    }
    for (const std::string& phrase : english.phrases) {
        if (!names(entry, phrase) && entry.lacks.empty()) {
            findings.note(entry.span, "phrase-written-out",
                          "text \"" + key + "\" writes out \"" + phrase + "\"",
                          "write {" + phrase + "} unless grammar forbids");
        }
    }
}

} // namespace

void check_phrases(const std::string& key, const Entry& entry, const Bench& bench) {
    const Entry* english = bench.english.find(key);
    if (english != nullptr && bench.language.tag != kSourceTag) {
        check_against(key, entry, *english, bench.findings);
    }
    for (const std::string& phrase : entry.phrases) {
        // One that is there has been told of itself, and one that the English has is missing.
        if (bench.own.find(phrase) == nullptr && bench.english.find(phrase) == nullptr) {
            bench.findings.error(entry.span, "phrase-unknown",
                                 "text \"" + key + "\" names \"" + phrase +
                                     "\", which is not in locales/en/phrases.yaml",
                                 "mend the name, or add the phrase");
        }
    }
}

void check_phrase_bank(const Bench& bench) {
    std::set<std::string> used;
    for (const auto& [key, entry] : bench.english.texts) {
        for (const std::string& phrase : entry.phrases) {
            used.insert(phrase);
            if (is_safety_key(key) && !is_safety_key(phrase)) {
                bench.findings.error(entry.span, "phrase-safety",
                                     "text \"" + key + "\" is safety text and names \"" + phrase +
                                         "\"",
                                     "call the phrase safety.NAME");
            }
        }
    }
    for (auto it = bench.english.texts.lower_bound(kPhrasePrefix);
         it != bench.english.texts.end() && it->first.starts_with(kPhrasePrefix); ++it) {
        if (!used.contains(it->first)) {
            bench.findings.error(it->second.span, "phrase-unused",
                                 "text \"" + it->first + "\": no text names this phrase",
                                 "remove it");
        }
    }
}

} // namespace tickleaf::locale
