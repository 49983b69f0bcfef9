// SPDX-License-Identifier: MIT
#include "cli/commands.h"

#include <filesystem>
#include <system_error>

#include "cli/disk.h"
#include "yaml/tree.h"

namespace tickleaf::cli {

std::optional<int> open_prescription(const std::string& path, Session& session,
                                     support::Findings& findings) {
    std::string why;
    auto text = read_file(path, yaml::kMaxBytes, why);
    if (!text) {
        findings.error(
            {}, "file-unreadable", "\"" + path + "\" cannot be read: " + why,
            "check the name; \"tickleaf start ankle-sprain\" writes a prescription to begin with");
        return std::nullopt;
    }
    return session.sources.add(path, std::move(*text));
}

void print(const support::Findings& findings, Session& session, bool json) {
    for (const support::Finding& finding : findings.sorted()) {
        session.err << (json ? support::to_json_line(finding, session.sources)
                             : support::to_text(finding, session.sources));
    }
}

workspace::Choice clinician_choice(const workspace::Plan& plan, const std::string& language,
                                   const std::string& page_template) {
    const auto& languages = plan.prescription.patient.languages;
    workspace::Choice choice;
    choice.reader = workspace::Reader::Clinician;
    choice.language =
        !language.empty() ? language : languages.at(languages.size() > 1 ? 1 : 0).value;
    choice.page_template = page_template == "standard" ? "clinician" : page_template;
    return choice;
}

bool make_folder(const std::string& folder, support::Findings& findings) {
    std::error_code error;
    std::filesystem::create_directories(folder, error);
    if (error || !std::filesystem::is_directory(folder, error)) {
        findings.error({}, "folder-unwritable",
                       "the folder \"" + folder +
                           "\" cannot be made: " + (error ? error.message() : "it is a file"),
                       "choose another with --output");
        return false;
    }
    return true;
}

} // namespace tickleaf::cli
