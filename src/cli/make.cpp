// SPDX-License-Identifier: MIT
#include "cli/commands.h"

#include <algorithm>
#include <atomic>
#include <filesystem>
#include <thread>
#include <utility>

#include "cli/disk.h"
#include "cli/exit_code.h"
#include "cli/languages.h"

namespace tickleaf::cli {

namespace {

constexpr const char* kPatient = "patient";
constexpr const char* kClinician = "clinician";
constexpr const char* kBoth = "both";

/// What came of one prescription: printed in the order asked for, whichever thread was first.
struct Outcome {
    support::Findings findings;
    std::vector<std::string> paths;
    int code = kDone;
    int file = -1;
};

/// Empty where none are asked for.
std::vector<Languages> languages_asked(const MakeOptions& options) {
    return options.languages.empty() ? std::vector<Languages>() : read_languages(options.languages);
}

std::vector<workspace::Choice> for_patient(const MakeOptions& options,
                                           const workspace::Plan& plan) {
    std::vector<Languages> booklets = languages_asked(options);
    if (booklets.empty()) {
        booklets.push_back({plan.prescription.patient.languages.at(0).value, {}});
    }
    std::vector<workspace::Choice> result;
    for (const auto& [first, second] : booklets) {
        result.push_back({first, second, options.page_template, options.paper, options.latin_digits,
                          options.allow_missing, options.require_reviewed, options.stage,
                          options.in_pictures, workspace::Reader::Patient});
    }
    return result;
}

/// One copy for the clinic, or one a language where languages are asked for by name.
std::vector<workspace::Choice> for_clinician(const MakeOptions& options,
                                             const workspace::Plan& plan) {
    const bool beside = options.reader == kBoth; // then language and design are the booklet's
    std::vector<Languages> copies = beside ? std::vector<Languages>() : languages_asked(options);
    if (copies.empty()) {
        copies.push_back({}); // the clinic's own
    }
    std::vector<workspace::Choice> result;
    for (const Languages& copy : copies) {
        workspace::Choice choice =
            clinician_choice(plan, copy.first, beside ? "standard" : options.page_template);
        choice.paper = options.paper;
        choice.latin_digits = options.latin_digits;
        choice.allow_missing = options.allow_missing;
        result.push_back(std::move(choice));
    }
    return result;
}

std::vector<workspace::Choice> choices(const MakeOptions& options, const workspace::Plan& plan) {
    std::vector<workspace::Choice> result;
    if (options.reader != kClinician) {
        result = for_patient(options, plan);
    }
    if (options.reader != kPatient) {
        for (workspace::Choice& choice : for_clinician(options, plan)) {
            result.push_back(std::move(choice));
        }
    }
    return result;
}

std::filesystem::path target(const MakeOptions& options, const std::string& prescription,
                             const workspace::Choice& choice) {
    std::string name = std::filesystem::path(prescription).stem().string() + '-' + choice.language;
    if (!choice.second_language.empty()) {
        name += '+' + choice.second_language;
    }
    if (choice.in_pictures) {
        name += "-pictures";
    }
    if (choice.reader == workspace::Reader::Clinician) {
        name += "-clinician";
    }
    if (choice.page_template != "standard" && choice.page_template != kClinician) {
        name += '-' + choice.page_template;
    }
    if (!choice.paper.empty()) {
        name += '-' + choice.paper;
    }
    if (choice.stage > 0) {
        name += "-stage-" + std::to_string(choice.stage);
    }
    return std::filesystem::path(options.output) / (name + ".pdf");
}

/// All booklets of one prescription as bytes; nothing is written before all of them are known to be
/// good.
void make_one(const MakeOptions& options, const std::string& prescription, Session& session,
              Outcome& outcome) {
    const auto file = open_prescription(prescription, session, outcome.findings);
    if (!file) {
        outcome.code = kFileTrouble;
        return;
    }
    outcome.file = *file;
    std::vector<std::pair<std::filesystem::path, std::string>> files;
    const auto plan = session.workspace.plan(*file, outcome.findings);
    if (plan) {
        for (const workspace::Choice& choice : choices(options, *plan)) {
            support::Findings findings;
            const auto booklet = session.workspace.booklet(*plan, choice, findings);
            const auto document =
                booklet ? session.workspace.document(*booklet, choice, findings) : std::nullopt;
            auto bytes = document ? session.workspace.pdf(*document, findings) : std::nullopt;
            if (bytes) {
                files.emplace_back(target(options, prescription, choice), std::move(*bytes));
            }
            for (const support::Finding& finding : findings.all()) {
                outcome.findings.add(finding);
            }
        }
    }
    outcome.code = exit_code(outcome.findings);
    if (outcome.code != kDone) {
        return;
    }
    for (const auto& [path, bytes] : files) {
        const std::string why = write_file(path, bytes);
        if (!why.empty()) {
            outcome.findings.error({}, "file-unwritable",
                                   "\"" + path.string() + "\" cannot be written: " + why,
                                   "choose another folder with --output");
            outcome.code = kFileTrouble;
            return;
        }
        outcome.paths.push_back(path.string());
    }
}

void report(const MakeOptions& options, Session& session, Outcome& outcome) {
    print(outcome.findings, session, options.json);
    for (const std::string& path : outcome.paths) {
        session.out << path << '\n';
    }
    if (outcome.file >= 0) {
        session.sources.forget(outcome.file);
    }
}

/// Prescriptions are worked on in parallel, a window at a time, so that memory does not grow with
/// their number.
int make_all(const MakeOptions& options, Session& session) {
    const std::size_t total = options.prescriptions.size();
    const std::size_t workers = std::max(1u, std::thread::hardware_concurrency());
    int code = kDone;
    for (std::size_t begin = 0; begin < total; begin += workers * 4) {
        const std::size_t end = std::min(total, begin + workers * 4);
        std::vector<Outcome> outcomes(end - begin);
        std::atomic<std::size_t> next = begin;
        const auto work = [&] {
            for (std::size_t i = next++; i < end; i = next++) {
                make_one(options, options.prescriptions[i], session, outcomes[i - begin]);
            }
        };
        std::vector<std::jthread> threads;
        for (std::size_t i = 1; i < std::min(workers, end - begin); ++i) {
            threads.emplace_back(work);
        }
        work();
        threads.clear();
        for (Outcome& outcome : outcomes) {
            report(options, session, outcome);
            code = std::max(code, outcome.code);
        }
    }
    return code;
}

/// Two prescriptions of one name would write over each other.
bool names_differ(const MakeOptions& options, support::Findings& findings) {
    std::vector<std::string> stems;
    for (const std::string& path : options.prescriptions) {
        const std::string stem = std::filesystem::path(path).stem().string();
        if (std::find(stems.begin(), stems.end(), stem) != stems.end()) {
            findings.error({}, "same-name",
                           "two prescriptions are called \"" + stem +
                               "\"; one booklet would replace the other",
                           "make them one at a time into different folders");
            return false;
        }
        stems.push_back(stem);
    }
    return true;
}

} // namespace

int make(const MakeOptions& options, Session& session) {
    support::Findings findings;
    if (!names_differ(options, findings)) {
        print(findings, session, options.json);
        return kWrongCommandLine;
    }
    if (!make_folder(options.output, findings)) {
        print(findings, session, options.json);
        return kFileTrouble;
    }
    return make_all(options, session);
}

} // namespace tickleaf::cli
