// SPDX-License-Identifier: MIT
// The phrase bank: sentences that repeat are written once, in locales/LANG/phrases.yaml, and named
// elsewhere as {phrase.ID}, so that they are translated once and read the same everywhere. Whole
// sentences only: words glued into a sentence break the grammar of some language. Shapes: a phrase
// is a text like any other, with the key "phrase.ID"; it may hold {side, select, ...} and other
// phrases. Phrases are put in when a catalog is read, before anything takes the text for a message,
// and a translation's hash is that of the English in full: who changes a phrase makes every text
// with it stale. A text whose English is nothing but one phrase needs no line in another language.
// Errors: a circle is a finding with file, line, key; what a text lacks is noted in it, and told by
// who uses the text.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "locale/catalog.h"
#include "support/finding.h"

namespace tickleaf::locale {

inline constexpr std::string_view kPhrasePrefix = "phrase.";

/// The keys of the phrases that a text names, in its order, each as often as it is named.
std::vector<std::string> phrases_in(std::string_view written);
/// The key of the phrase that is the whole text; empty where it says more.
std::string only_phrase(std::string_view written);

/// Writes the texts of `keys` in full, with the phrases of the same catalog.
void put_phrases_in(Catalog& catalog, const std::vector<std::string>& keys,
                    support::Findings& findings);

/// Gives a translation those texts of the English that begin with `prefix`, are nothing but one
/// phrase and are not written out.
void inherit_phrases(Catalog& own, const Catalog& english, std::string_view prefix = {});

} // namespace tickleaf::locale
