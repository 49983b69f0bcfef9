// SPDX-License-Identifier: MIT
#include "cli/commands.h"

#include "cli/exit_code.h"

namespace tickleaf::cli {

namespace {

/// The asked stage as JSON, or nothing where a finding says why not.
std::optional<std::string> look(const InspectOptions& options, int file, Session& session,
                                support::Findings& findings) {
    const auto plan = session.workspace.plan(file, findings);
    if (!plan) {
        return std::nullopt;
    }
    if (options.stage == "prescription") {
        return prescription::dump(plan->prescription);
    }
    if (options.stage == "schedule") {
        return dose::dump(plan->schedule);
    }
    workspace::Choice choice;
    if (options.reader == "clinician") {
        choice = clinician_choice(*plan, options.language, options.page_template);
    } else {
        choice.page_template = options.page_template;
        choice.language = options.language.empty()
                              ? plan->prescription.patient.languages.at(0).value
                              : options.language;
    }
    const auto booklet = session.workspace.booklet(*plan, choice, findings);
    if (!booklet || options.stage == "booklet") {
        return booklet ? std::optional(content::dump(*booklet)) : std::nullopt;
    }
    const auto document = session.workspace.document(*booklet, choice, findings);
    return document ? std::optional(page::dump(*document)) : std::nullopt;
}

} // namespace

int inspect(const InspectOptions& options, Session& session) {
    support::Findings findings;
    const auto file = open_prescription(options.prescription, session, findings);
    const auto json = file ? look(options, *file, session, findings) : std::nullopt;
    print(findings, session, false);
    if (json) {
        session.out << *json << '\n';
    }
    return file ? exit_code(findings) : kFileTrouble;
}

} // namespace tickleaf::cli
