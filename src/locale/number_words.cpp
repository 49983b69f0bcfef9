// SPDX-License-Identifier: MIT
#include "locale/number_words.h"

#include <algorithm>
#include <string_view>

#include <unicode/locid.h>
#include <unicode/rbnf.h>
#include <unicode/unistr.h>

#include "locale/language_file.h"
#include "locale/lint_rules.h"

namespace tickleaf::locale {
namespace {

void add(std::vector<std::string>& forms, std::string form) {
    if (std::find(forms.begin(), forms.end(), form) == forms.end()) {
        forms.push_back(std::move(form));
    }
}

/// All cardinal forms of 2 to 10 that ICU has rules for.
void add_spelled(const icu::Locale& locale, NumberWords& out) {
    UErrorCode code = U_ZERO_ERROR;
    icu::RuleBasedNumberFormat spellout(icu::URBNF_SPELLOUT, locale, code);
    for (std::int32_t i = 0; U_SUCCESS(code) && i < spellout.getNumberOfRuleSetNames(); ++i) {
        const icu::UnicodeString rules = spellout.getRuleSetName(i);
        if (rules.indexOf("spellout-cardinal") < 0) {
            continue;
        }
        for (std::size_t n = kSmallestNumberWord; n <= kLargestNumberWord; ++n) {
            icu::UnicodeString word;
            icu::FieldPosition ignored;
            spellout.format(static_cast<std::int32_t>(n), rules, word, ignored, code);
            // Some rules mark where a word may be parted.
            word.findAndReplace(icu::UnicodeString(char16_t{0x00AD}), icu::UnicodeString());
            std::string form;
            word.toUTF8String(form);
            add(out.forms.at(n), std::move(form));
        }
    }
}

} // namespace

NumberWords number_words(const LanguageFile& language) {
    NumberWords out;
    UErrorCode code = U_ZERO_ERROR;
    const icu::Locale locale = icu::Locale::forLanguageTag(language.formats.locale, code);
    add_spelled(locale, out);
    // ICU spells in English what it has no rules for.
    const auto& twos = out.forms.at(kSmallestNumberWord);
    const bool is_english = std::string_view(locale.getLanguage()) == "en";
    if (!is_english && std::find(twos.begin(), twos.end(), "two") != twos.end()) {
        out = {};
    }
    for (const auto& [n, forms] : language.number_words) {
        for (const std::string& form : forms) {
            add(out.forms.at(n), form);
        }
    }
    for (const std::string& idiom : language.not_number_words) {
        for (auto& forms : out.forms) {
            std::erase(forms, idiom);
        }
        out.idioms.push_back(idiom);
    }
    return out;
}

std::vector<std::int64_t> numbers_said(const std::string& text, const NumberWords& words) {
    std::vector<std::int64_t> out;
    for (std::size_t n = kSmallestNumberWord; n <= kLargestNumberWord; ++n) {
        const auto& forms = words.forms.at(n);
        int count = count_words(text, forms);
        for (const std::string& idiom : words.idioms) {
            count -= count_words(text, {idiom}) * count_words(idiom, forms);
        }
        if (count > 0) {
            out.push_back(static_cast<std::int64_t>(n));
        }
    }
    return out;
}

} // namespace tickleaf::locale
