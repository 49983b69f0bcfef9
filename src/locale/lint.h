// SPDX-License-Identifier: MIT
// Catalogs held against the English and against the rules of their language, so that a broken or
// dangerous text is found at the desk and not on a patient's page. Errors: every fault is a finding
// with file, line and key. Rules (ids):
//   message-syntax, message-other, message-format   ICU cannot read it, or a value formats itself
//   message-apostrophe   ASCII apostrophe: it quotes braces, and a number is lost without a word
//   message-placeholder  a placeholder that English has not, or the other way round
//   message-plural       a category of the language is missing, or one that it has not
//   message-number       a branch that serves several counts does not print the number
//   message-side         left or right outside a select on side, the wrong word in a branch, a
//                        branch missing
//   message-script       letters of another script than the language is written in
//   phrase-circle, phrase-unknown   a phrase that needs itself, or is not there
//   phrase-other         a text names a phrase that its English does not
//   phrase-written-out (note)   a text says in its own words what is a phrase in English
//   phrase-unused, phrase-safety   of the English: nobody names a phrase; a safety text names one
//                        whose key does not begin with phrase.safety, so that nobody reviews it
//                        first
//   text-missing, text-unknown   against English
//   text-stale (warning)   the English has changed
//   text-length, text-glossary, text-english, text-number, text-number-word   against the English:
//                        length out of proportion, a term of the glossary not said, English left,
//                        other digits, other words for 2 to 10
// Source: CLDR plural rules and scripts as carried by ICU 72; side rules: common practice.
#pragma once

#include <string_view>

#include "support/environment.h"
#include "support/finding.h"
#include "support/source.h"

namespace tickleaf::locale {

/// Lints language.yaml and all catalogs of one language.
void lint(const support::Environment& environment, support::Sources& sources, std::string_view tag,
          support::Findings& findings);

} // namespace tickleaf::locale
