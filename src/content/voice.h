// SPDX-License-Identifier: MIT
// How the booklet speaks: every text of it is asked for here, in the reader's language and, where
// there is one, in the second language beside it. Shapes: Tongue is one language with the findings
// it reports to; Voice is one or two tongues and gives Words. Values that differ by language
// (numbers, durations, dates) are made inside a Teller, once a language. Errors: a missing text is
// a finding that names key and language; nothing falls back to another language.
#pragma once

#include <functional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "content/booklet.h"
#include "locale/language.h"
#include "prescription/prescription.h"
#include "support/finding.h"

namespace tickleaf::content {

/// One language that speaks.
class Tongue {
  public:
    Tongue(locale::Language& language, support::Findings& findings)
        : language_(&language), findings_(&findings) {}

    const std::string& tag() const { return language_->tag(); }
    bool right_to_left() const { return language_->right_to_left(); }
    bool has(std::string_view key) const { return language_->has(key); }
    int count(std::string_view prefix) const { return language_->count(prefix); }
    std::string say(std::string_view key, const locale::Arguments& arguments = {});
    std::string number(std::int64_t value) const { return language_->number(value); }
    std::string range(support::Range<int> range);
    std::string duration(support::Seconds seconds);
    std::string duration_range(support::Range<support::Seconds> range);
    /// Texts put together two by two with the message `key`, which has {first} and {second}.
    std::string joined(const std::vector<std::string>& texts, std::string_view key);
    locale::Language& language() { return *language_; }
    /// Keys of the texts that keep the patient safe, were said, and were not reviewed by a
    /// qualified translator; and how many of them are stale.
    const std::set<std::string>& unreviewed_safety() const { return unreviewed_safety_; }
    std::size_t stale_safety() const { return stale_safety_; }
    /// The language of what was said last: English where a text is missing and it stands in.
    std::string spoken() const { return said_source_ ? "en" : tag(); }
    void begin() { said_source_ = false; }

  private:
    void note_state(std::string_view key, locale::ReviewState state);

    locale::Language* language_;
    support::Findings* findings_;
    std::set<std::string> unreviewed_safety_;
    std::size_t stale_safety_ = 0;
    bool said_source_ = false;
};

/// Makes a text in one language.
using Teller = std::function<std::string(Tongue&)>;
/// Makes the arguments of a message in one language.
using ArgumentMaker = std::function<locale::Arguments(Tongue&)>;

/// One or two languages that say the same.
class Voice {
  public:
    Voice(locale::Language& first, locale::Language* second, support::Findings& findings);

    Words say(std::string_view key, const locale::Arguments& arguments = {});
    Words say_with(std::string_view key, const ArgumentMaker& make);
    /// A text that is computed, such as a range or a date; `key` is for findings only.
    Words tell(const Teller& teller, std::string_view key = {});
    Words number(std::int64_t value);
    Words range(support::Range<int> range);
    /// What the clinician wrote, the same in every language: names, telephone numbers.
    Words verbatim(const support::Located<std::string>& text) const;
    /// What the clinician wrote in several languages, or once for all of them. A missing language
    /// is an error that names `what`.
    Words written(const prescription::FreeText& text, std::string_view what);

    Tongue& first() { return tongues_.front(); }
    std::vector<Tongue>& tongues() { return tongues_; }
    bool said_unreviewed_safety() const;
    /// An error for every language in which safety texts were said that nobody has reviewed.
    void report_unreviewed() const;

  private:
    std::vector<Tongue> tongues_;
    support::Findings* findings_;
};

/// The words as a language says them.
const std::string& text_in(const Words& words, const Tongue& tongue);

} // namespace tickleaf::content
