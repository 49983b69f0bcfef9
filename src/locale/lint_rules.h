// SPDX-License-Identifier: MIT
// The single rules of lint(), one function each; see lint.h for what they ask.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "locale/catalog.h"
#include "locale/formats.h"
#include "locale/language_file.h"
#include "locale/pattern.h"

namespace tickleaf::locale {

/// One text under lint, and where its faults go.
struct Suspect {
    const std::string& key;
    const Entry& entry;
    const Pattern& pattern;
    support::Findings& findings;
    void error(const char* id, const std::string& message, const std::string& hint = {}) const;
};

/// What a placeholder is used for. A value may be printed by one language and counted by another.
enum class Use { Printed, Selected };
/// Names used in a text, those of branches too.
std::map<std::string, Use> placeholders(const Pattern& pattern);

void check_placeholders(const Suspect& suspect, const Pattern& english);
void check_plurals(const Suspect& suspect, const Formats& formats);
void check_side(const Suspect& suspect, const LanguageFile& language);
void check_literals(const Suspect& suspect);
/// Every left branch that names the side in English names it in the translation too, and so on.
void check_side_against_english(const Suspect& suspect, const LanguageFile& language,
                                const Pattern& english, const LanguageFile& english_language);
void check_script(const Suspect& suspect, const std::string& locale_tag);

} // namespace tickleaf::locale
