// SPDX-License-Identifier: MIT
#include "locale/side_names.h"

#include <algorithm>

#include <unicode/locid.h>
#include <unicode/uchar.h>
#include <unicode/unistr.h>
#include <unicode/uscript.h>

#include "locale/language.h"
#include "locale/language_file.h"

namespace tickleaf::locale {
namespace {

std::string primary(std::string_view tag) {
    const std::string text(tag.substr(0, tag.find('-')));
    std::string lower;
    icu::UnicodeString::fromUTF8(text).toLower(icu::Locale::getRoot()).toUTF8String(lower);
    return lower;
}

/// Lower case, one letter for those that keyboards mix up, no short vowels or stretching signs.
icu::UnicodeString folded(std::string_view text) {
    const icu::UnicodeString lower =
        icu::UnicodeString::fromUTF8(icu::StringPiece(text.data(), static_cast<int>(text.size())))
            .toLower(icu::Locale::getRoot());
    icu::UnicodeString out;
    for (std::int32_t i = 0; i < lower.length(); i = lower.moveIndex32(i, 1)) {
        const UChar32 c = lower.char32At(i);
        const bool alef = c == 0x0622 || c == 0x0623 || c == 0x0625;
        const bool yeh = c == 0x064A || c == 0x0649;
        const bool dropped = c == 0x0640 || (c >= 0x064B && c <= 0x0652);
        if (!dropped) {
            out.append(alef ? UChar32{0x0627} : yeh ? UChar32{0x06CC} : c);
        }
    }
    return out;
}

bool is_inside_word(UChar32 c) {
    const auto type = u_charType(c);
    return u_isalpha(c) || type == U_NON_SPACING_MARK || type == U_COMBINING_SPACING_MARK;
}

/// Han and the like put no spaces between words.
bool runs_on(UChar32 c) {
    UErrorCode code = U_ZERO_ERROR;
    const UScriptCode script = uscript_getScript(c, &code);
    return script == USCRIPT_HAN || script == USCRIPT_HIRAGANA || script == USCRIPT_KATAKANA ||
           script == USCRIPT_THAI || script == USCRIPT_LAO || script == USCRIPT_KHMER ||
           script == USCRIPT_MYANMAR;
}

bool names(const icu::UnicodeString& text, const std::string& form) {
    const icu::UnicodeString word = icu::UnicodeString::fromUTF8(form);
    for (std::int32_t at = text.indexOf(word); at >= 0; at = text.indexOf(word, at + 1)) {
        if (at == 0 || runs_on(word.char32At(0)) ||
            !is_inside_word(text.char32At(text.moveIndex32(at, -1)))) {
            return true;
        }
    }
    return false;
}

bool names_any(const icu::UnicodeString& text, const std::vector<std::string>& forms) {
    return std::any_of(forms.begin(), forms.end(),
                       [&](const std::string& form) { return names(text, form); });
}

std::vector<std::string> folded_all(const std::vector<std::string>& words) {
    std::vector<std::string> out;
    for (const std::string& word : words) {
        std::string form;
        folded(word).toUTF8String(form);
        if (!form.empty()) {
            out.push_back(std::move(form));
        }
    }
    return out;
}

} // namespace

SideNames SideNames::load(const support::Environment& environment, support::Sources& sources,
                          support::Findings& findings) {
    SideNames result;
    for (const std::string& tag : available(environment)) {
        if (const auto file = read_language_file(tag, {environment, sources, findings})) {
            result.rows_.push_back(
                {primary(tag), folded_all(file->left_words), folded_all(file->right_words)});
        }
    }
    return result;
}

SideNames::Named SideNames::in(std::string_view language, std::string_view text) const {
    const std::string own = primary(language);
    const icu::UnicodeString words = folded(text);
    Named named;
    for (const Row& row : rows_) {
        if (own.empty() || row.language == own) {
            named.left = named.left || names_any(words, row.left);
            named.right = named.right || names_any(words, row.right);
        }
    }
    return named;
}

} // namespace tickleaf::locale
