// SPDX-License-Identifier: MIT
// Left and right in the words of every language: which sides a free text names. From side_words of
// locales/LANG/language.yaml.
// A word counts from its beginning, so that "left-sided" and Polish "lewostronny" are found; in
// scripts without spaces anywhere. Letters that keyboards mix up (Arabic alef with and without
// hamza, Arabic and Persian yeh) are taken for the same.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "support/environment.h"
#include "support/finding.h"
#include "support/source.h"

namespace tickleaf::locale {

class SideNames {
  public:
    /// All languages there are; one whose file is faulty is left out and its faults are findings.
    static SideNames load(const support::Environment& environment, support::Sources& sources,
                          support::Findings& findings);

    struct Named {
        bool left = false;
        bool right = false;
    };
    /// The sides a text names. `language` is a BCP 47 tag; empty: the text does not say its
    /// language, so that it is held against all of them.
    Named in(std::string_view language, std::string_view text) const;

  private:
    struct Row {
        std::string language; ///< primary subtag
        std::vector<std::string> left, right;
    };
    std::vector<Row> rows_;
};

} // namespace tickleaf::locale
