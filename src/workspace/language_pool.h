// SPDX-License-Identifier: MIT
// Loaded languages, lent to one thread at a time and kept for the next booklet: reading a catalog
// costs more than composing a booklet. Errors: a language without a catalog is a finding that names
// the nearest one.
#pragma once

#include <functional>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "locale/language.h"
#include "support/environment.h"
#include "support/finding.h"

namespace tickleaf::workspace {

class LanguagePool {
  public:
    /// A language in use; goes back into the pool when the loan ends.
    using Loan = std::unique_ptr<locale::Language, std::function<void(locale::Language*)>>;

    LanguagePool(const support::Environment& environment, support::Sources& sources);
    Loan borrow(const std::string& tag, const locale::Options& options,
                support::Findings& findings);

  private:
    struct Entry {
        std::string tag;
        bool latin_digits = false;
        bool allow_missing = false;
        std::shared_ptr<locale::Language> language;
    };
    Loan lend(Entry entry);

    const support::Environment& environment_;
    support::Sources& sources_;
    std::mutex mutex_;
    std::vector<Entry> idle_;
};

} // namespace tickleaf::workspace
