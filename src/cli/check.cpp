// SPDX-License-Identifier: MIT
#include "cli/commands.h"

#include <algorithm>

#include "cli/exit_code.h"

namespace tickleaf::cli {

namespace {

/// Texts are checked too: a booklet that cannot be said in the patient's languages cannot be made.
void check_languages(const workspace::Plan& plan, Session& session, support::Findings& findings) {
    for (const auto& language : plan.prescription.patient.languages) {
        workspace::Choice choice;
        choice.language = language.value;
        support::Findings found;
        static_cast<void>(session.workspace.booklet(plan, choice, found));
        for (support::Finding finding : found.all()) {
            finding.span = finding.span.file < 0 ? language.span : finding.span;
            findings.add(std::move(finding));
        }
    }
}

} // namespace

int check(const CheckOptions& options, Session& session) {
    int code = kDone;
    for (const std::string& path : options.prescriptions) {
        support::Findings findings;
        const auto file = open_prescription(path, session, findings);
        const auto plan = file ? session.workspace.plan(*file, findings) : std::nullopt;
        if (plan) {
            check_languages(*plan, session, findings);
        }
        print(findings, session, options.json);
        const int own = file ? exit_code(findings) : kFileTrouble;
        if (own == kDone && !options.json) {
            session.out << path << ": no errors" << (findings.size() == 0 ? "" : ", but see above")
                        << '\n';
        }
        code = std::max(code, own);
    }
    return code;
}

} // namespace tickleaf::cli
