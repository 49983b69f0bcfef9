// SPDX-License-Identifier: MIT
// The rules a programme is held against before it is printed, and their sources.
// Errors: a rule that is broken is a finding with the rule's id; a waived one is a note with the
// reason.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "dose/schedule.h"
#include "figure/solve.h"
#include "locale/side_names.h"
#include "prescription/prescription.h"
#include "support/finding.h"

namespace tickleaf::check {

struct Rule {
    std::string id;
    support::Severity severity = support::Severity::Warning;
    std::string sentence; ///< plain, one sentence
    std::string source;   ///< paper or standard, or "common practice"
};

/// All rules, in order of id.
const std::vector<Rule>& rules();

/// What the rules look at. A prescription with errors is judged by what of it is whole: rules pass
/// over what hangs on a part that could not be read. Solutions are [stage][exercise] as in the
/// schedule.
struct Subject {
    const prescription::Prescription* prescription = nullptr;
    const dose::Schedule* schedule = nullptr;
    const std::map<std::string, figure::Exercise>* exercises = nullptr;
    const std::vector<std::vector<figure::Solution>>* solutions = nullptr;
    const locale::SideNames* side_names = nullptr; ///< left and right in every language
};

/// What came of one rule, for the clinician's copy.
struct Verdict {
    enum class Outcome { Passed, Warned, Waived, Failed };
    Rule rule;
    Outcome outcome = Outcome::Passed;
    std::vector<support::Finding> found; ///< one a breach, in the order of the prescription
    std::string reason; ///< of the waiver; also where the rule passed and none was needed
};

/// Every rule's verdict, in order of id.
std::vector<Verdict> judge(const Subject& subject);
/// The findings of the verdicts, and of waivers that name no rule or one that cannot be waived.
void report(const Subject& subject, const std::vector<Verdict>& verdicts,
            support::Findings& findings);
/// Judges and reports.
void check(const Subject& subject, support::Findings& findings);

} // namespace tickleaf::check
