// SPDX-License-Identifier: MIT
#include "text/language.h"

#include <algorithm>
#include <array>

#include <unicode/uloc.h>

#include "text/paragraph.h"

namespace tickleaf::text {

namespace {

constexpr int kLocaleCapacity = ULOC_FULLNAME_CAPACITY;
using LocaleName = std::array<char, kLocaleCapacity>;

/// The ICU locale of a BCP 47 tag, with likely subtags added.
std::string full_locale(std::string_view tag) {
    LocaleName locale{};
    LocaleName likely{};
    UErrorCode status = U_ZERO_ERROR;
    uloc_forLanguageTag(std::string(tag).c_str(), locale.data(), kLocaleCapacity, nullptr, &status);
    uloc_addLikelySubtags(locale.data(), likely.data(), kLocaleCapacity, &status);
    return U_FAILURE(status) != 0 ? std::string() : std::string(likely.data());
}

using Part = int32_t (*)(const char*, char*, int32_t, UErrorCode*);

std::string part(const std::string& locale, Part get) {
    LocaleName buffer{};
    UErrorCode status = U_ZERO_ERROR;
    get(locale.c_str(), buffer.data(), kLocaleCapacity, &status);
    return U_FAILURE(status) != 0 ? std::string() : std::string(buffer.data());
}

/// Codes of ISO 15924 that stand for several scripts or for a variant, as the characters' own
/// scripts.
std::vector<UScriptCode> scripts_of(const std::string& code) {
    if (code == "Jpan") {
        return {USCRIPT_HAN, USCRIPT_HIRAGANA, USCRIPT_KATAKANA};
    }
    if (code == "Kore") {
        return {USCRIPT_HANGUL, USCRIPT_HAN};
    }
    if (code == "Hans" || code == "Hant") {
        return {USCRIPT_HAN, USCRIPT_BOPOMOFO};
    }
    std::array<UScriptCode, 8> codes{};
    UErrorCode status = U_ZERO_ERROR;
    const int32_t count = uscript_getCode(code.c_str(), codes.data(), 8, &status);
    if (U_FAILURE(status) != 0 || count <= 0) {
        return {USCRIPT_LATIN};
    }
    return {codes.begin(), codes.begin() + count};
}

} // namespace

bool LanguageInfo::writes(UScriptCode script) const {
    return std::find(scripts.begin(), scripts.end(), script) != scripts.end();
}

LanguageInfo describe_language(std::string_view tag) {
    LanguageInfo info;
    info.tag = std::string(tag);
    const std::string locale = full_locale(tag);
    const std::string language = part(locale, uloc_getLanguage);
    const std::string script = part(locale, uloc_getScript);
    const std::string region = part(locale, uloc_getCountry);
    info.scripts = scripts_of(script.empty() ? std::string("Latn") : script);
    info.keys = {language + "-" + script + "-" + region, language + "-" + script, language};
    // Phrases keep Japanese words whole where the width allows; strict keeps small kana off line
    // starts.
    info.break_locale = language == "ja" ? "ja@lb=strict;lw=phrase" : language;
    return info;
}

bool is_right_to_left(std::string_view language) {
    const std::string locale = full_locale(language);
    return uloc_isRightToLeft(locale.c_str()) != 0;
}

} // namespace tickleaf::text
