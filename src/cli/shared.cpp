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

namespace {

/// Notes alike but for what they name, such as every exercise that is taller than a page.
bool is_like(const support::Finding& one, const support::Finding& other,
             const support::Sources& sources) {
    return one.severity == support::Severity::Note && one.severity == other.severity &&
           one.id == other.id && one.hint == other.hint && sources.describe(one.span).empty() &&
           sources.describe(other.span).empty();
}

/// Prints findings alike from `begin` on and returns where others follow: a few, and the count of
/// the rest; what to do about them once.
std::size_t print_alike(const std::vector<support::Finding>& all, std::size_t begin,
                        Session& session) {
    constexpr std::size_t kNamed = 3;
    std::size_t end = begin + 1;
    while (end < all.size() && is_like(all[begin], all[end], session.sources)) {
        ++end;
    }
    // One more is named in the line that would count it.
    const std::size_t named = end - begin <= kNamed + 1 ? end : begin + kNamed;
    for (std::size_t i = begin; i < named; ++i) {
        support::Finding finding = all[i];
        finding.hint = i + 1 == end ? finding.hint : "";
        session.err << support::to_text(finding, session.sources);
    }
    if (named < end) {
        support::Finding rest = all[begin];
        rest.message = std::to_string(end - named) + " more like these";
        session.err << support::to_text(rest, session.sources);
    }
    return end;
}

} // namespace

void print(const support::Findings& findings, Session& session, bool json) {
    const std::vector<support::Finding> all = findings.sorted();
    for (std::size_t i = 0; i < all.size();) {
        if (json) {
            session.err << support::to_json_line(all[i++], session.sources);
        } else {
            i = print_alike(all, i, session);
        }
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
