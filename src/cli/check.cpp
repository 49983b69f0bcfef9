// SPDX-License-Identifier: MIT
#include "cli/commands.h"

#include <algorithm>

#include "cli/exit_code.h"
#include "content/reading.h"
#include "support/number.h"

namespace tickleaf::cli {

namespace {

constexpr std::size_t kNamedWords = 8;

bool has_warnings(const support::Findings& findings) {
    const auto& all = findings.all();
    return std::any_of(all.begin(), all.end(), [](const support::Finding& finding) {
        return finding.severity == support::Severity::Warning;
    });
}

std::string hard_words(const content::ReadingReport& report) {
    std::string out;
    for (std::size_t i = 0; i < std::min(report.hard_words.size(), kNamedWords); ++i) {
        const content::HardWordUse& use = report.hard_words[i];
        out += (i == 0 ? "" : ", ") + use.word + " " + std::to_string(use.times) + "x" +
               (use.key.empty() ? "" : " (" + use.key + ")");
    }
    return out;
}

/// How hard the booklet is to read: a note, or a warning where it is above grade 6 or outside its
/// formula's easy band.
void tell_reading_level(const content::ReadingReport& report, const support::Span& span,
                        support::Findings& findings) {
    const std::string words = std::to_string(report.counts.words) + " words";
    if (report.scores.empty()) {
        const bool is_short = report.counts.words < locale::kFewestWords;
        findings.note(span, "reading-level",
                      "\"" + report.language + "\": " + words + ", no reading level: " +
                          (is_short ? "the text is too short for one"
                                    : "no formula is agreed for this language"));
        return;
    }
    const locale::ReadingScore& score = report.scores.front();
    const std::string told = "\"" + report.language + "\" reads at " + score.formula + " " +
                             support::fixed(score.value, 1) + " (" + score.source + "; " + words +
                             ")";
    const std::string hard =
        report.hard_words.empty() ? "" : "; longest words: " + hard_words(report);
    if (score.is_easy) {
        findings.note(span, "reading-level", told + hard);
    } else {
        findings.warning(span, "reading-level",
                         told + ", harder than " +
                             (score.is_grade ? "grade 6" : "the easy band of the formula") + hard,
                         "shorter sentences and shorter words make it easier");
    }
}

/// Texts are checked too: a booklet that cannot be said in the patient's languages cannot be made.
void check_languages(const workspace::Plan& plan, Session& session, support::Findings& findings) {
    for (const auto& language : plan.prescription.patient.languages) {
        workspace::Choice choice;
        choice.language = language.value;
        support::Findings found;
        const auto booklet = session.workspace.booklet(plan, choice, found);
        if (booklet) {
            // Only setting the pages shows what cannot be drawn or would turn a number round.
            static_cast<void>(session.workspace.document(*booklet, choice, found));
        }
        for (support::Finding finding : found.all()) {
            finding.span = finding.span.file < 0 ? language.span : finding.span;
            findings.add(std::move(finding));
        }
        for (const content::ReadingReport& report :
             booklet ? content::reading_reports(*booklet) : std::vector<content::ReadingReport>{}) {
            tell_reading_level(report, language.span, findings);
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
            session.out << path << ": no errors"
                        << (has_warnings(findings) ? ", but see above" : "") << '\n';
        }
        code = std::max(code, own);
    }
    return code;
}

} // namespace tickleaf::cli
