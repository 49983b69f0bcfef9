// SPDX-License-Identifier: MIT
// The whole way in one call: a prescription's text in, a booklet's bytes out, with every stage between for
// inspection. A Workspace holds what is loaded once (fonts, templates, exercises) and is shared by threads.
// Errors: findings; nothing is thrown but for bugs of ours.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "check/check.h"
#include "content/booklet.h"
#include "dose/schedule.h"
#include "figure/solve.h"
#include "layout/page_template.h"
#include "locale/language.h"
#include "page/document.h"
#include "page/drawing.h"
#include "prescription/prescription.h"
#include "support/environment.h"
#include "support/finding.h"
#include "text/fonts.h"

namespace tickleaf::workspace {

/// How a booklet is asked for.
struct Choice {
    std::vector<std::string> languages; ///< the patient's first, then a second beside it; from the prescription where empty
    std::string page_template = "standard";
    std::string paper;                  ///< the template's own where empty
    bool latin_digits = false;
    bool allow_missing = false;
};

/// What was understood of one prescription, before any language.
struct Plan {
    prescription::Prescription prescription;
    dose::Schedule schedule;
    std::map<std::string, figure::Exercise> exercises;
    std::vector<std::vector<figure::Solution>> solutions;
};

class Workspace {
  public:
    explicit Workspace(const support::Environment& environment);
    ~Workspace();

    /// Reads, plans, solves and checks. Nothing where errors were found.
    std::optional<Plan> plan(support::Sources& sources, int file, support::Findings& findings) const;
    std::optional<content::Booklet> booklet(const Plan& plan, const Choice& choice, support::Sources& sources,
                                            support::Findings& findings) const;
    /// Laid out and with its fonts embedded.
    std::optional<page::Document> document(const content::Booklet& booklet, const Choice& choice,
                                           support::Sources& sources, support::Findings& findings) const;
    std::optional<std::string> pdf(const page::Document& document, support::Findings& findings) const;

    std::vector<std::string> exercise_ids() const;
    std::optional<figure::Exercise> exercise(const std::string& id, support::Sources& sources,
                                             support::Findings& findings) const;
    const support::Environment& environment() const;

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

} // namespace tickleaf::workspace
