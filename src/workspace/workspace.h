// SPDX-License-Identifier: MIT
// The whole way in one call: a prescription's text in, a booklet's bytes out, with every stage
// between for inspection. A Workspace holds what is loaded once (fonts, templates, exercises) and
// is shared by threads. Errors: findings; nothing is thrown but for bugs of ours.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "check/check.h"
#include "content/booklet.h"
#include "content/reading.h"
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

/// Whom a booklet is for.
enum class Reader { Patient, Clinician };

/// How a booklet is asked for.
struct Choice {
    std::string language;        ///< the patient's
    std::string second_language; ///< set beside it, line by line; empty for one language
    std::string page_template = "standard";
    std::string paper; ///< the template's own where empty
    bool latin_digits = false;
    bool allow_missing = false;
    bool require_reviewed = false; ///< a safety text that nobody has reviewed is an error
    std::size_t stage = 0;    ///< of a template that prints one stage, from 1; 0 for its own choice
    bool in_pictures = false; ///< drawings and signs instead of steps in words
    Reader reader = Reader::Patient;
};

/// What was understood of one prescription, before any language.
struct Plan {
    prescription::Prescription prescription;
    dose::Schedule schedule;
    std::map<std::string, figure::Exercise> exercises;
    std::vector<std::vector<figure::Solution>> solutions;
    std::vector<check::Verdict> verdicts; ///< of every rule
};

class Workspace {
  public:
    /// Both must outlive the workspace; data files are added to `sources` when they are read.
    Workspace(const support::Environment& environment, support::Sources& sources);
    ~Workspace();

    /// Reads, plans, solves and checks, all in one run: what holds an error is left out of what is
    /// planned and judged, and the rules look at the rest. Nothing where errors were found.
    std::optional<Plan> plan(int file, support::Findings& findings) const;
    /// The page template that is asked for, on the paper that is asked for.
    std::optional<layout::PageTemplate> page_template(const Choice& choice,
                                                      support::Findings& findings) const;
    /// The patient's booklet or the clinician's copy, as `choice.reader` says.
    std::optional<content::Booklet> booklet(const Plan& plan, const Choice& choice,
                                            support::Findings& findings) const;
    /// Laid out and with its fonts embedded.
    std::optional<page::Document> document(const content::Booklet& booklet, const Choice& choice,
                                           support::Findings& findings) const;
    std::optional<std::string> pdf(const page::Document& document,
                                   support::Findings& findings) const;

    std::vector<std::string> exercise_ids() const;
    std::optional<figure::Exercise> exercise(const std::string& id,
                                             support::Findings& findings) const;
    /// One exercise solved and drawn in the house style, for `draw`.
    std::optional<page::Drawing> drawing(const std::string& id, const figure::Request& request,
                                         support::Findings& findings) const;
    std::vector<std::string> template_names() const;
    std::optional<text::FontState> font_state(std::string_view language,
                                              support::Findings& findings) const;
    const support::Environment& environment() const;
    support::Sources& sources() const;

  private:
    /// Loads the exercises that the lines name; marks the lines whose there is none.
    void find_exercises(Plan& plan, support::Findings& findings) const;
    /// In English where the language has no texts for it, and then it says so.
    std::vector<content::ClinicianReading> readings(const Plan& plan, const Choice& choice) const;
    std::optional<content::Booklet> clinician_copy(const Plan& plan, const Choice& choice,
                                                   support::Findings& findings) const;

    void load_logo(layout::PageTemplate& page_template, support::Findings& findings) const;

    struct Impl;
    std::unique_ptr<Impl> impl_;
};

} // namespace tickleaf::workspace
