// SPDX-License-Identifier: MIT
// What a language tag tells about writing: its usual scripts, its direction, and the keys under
// which the font table may name it. Source: BCP 47; likely subtags and directions are CLDR's, by
// ICU.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <unicode/uscript.h>

namespace tickleaf::text {

struct LanguageInfo {
    std::string tag;
    std::vector<UScriptCode> scripts; ///< usual scripts, such as Hira, Kana and Hani; never empty
    std::vector<std::string>
        keys;                 ///< from the most to the least exact, such as zh-Hant-HK, zh-Hant, zh
    std::string break_locale; ///< ICU locale with the line break style we want
    bool writes(UScriptCode script) const;
};

LanguageInfo describe_language(std::string_view tag);

} // namespace tickleaf::text
