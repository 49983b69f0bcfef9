// SPDX-License-Identifier: MIT
#include "cli/commands.h"

#include <filesystem>
#include <string_view>

#include "cli/disk.h"
#include "cli/exit_code.h"

namespace tickleaf::cli {

namespace {

std::string known_starters(Session& session) {
    std::string names;
    for (const std::string& file :
         session.workspace.environment().list_data("templates/starters")) {
        names += (names.empty() ? "" : ", ") + std::filesystem::path(file).stem().string();
    }
    return names;
}

/// The starter names its schema by a path beside it; where the copy goes, that path is written out
/// in full.
std::string with_schema_found(std::string text) {
    constexpr std::string_view kBeside = "../prescription.schema.json";
    const auto at = text.find(kBeside);
    const auto data = find_data();
    if (at != std::string::npos && data) {
        text.replace(at, kBeside.size(),
                     (*data / "templates" / "prescription.schema.json").string());
    }
    return text;
}

} // namespace

int start(const StartOptions& options, Session& session) {
    support::Findings findings;
    const auto text =
        session.workspace.environment().read_data("templates/starters/" + options.name + ".yaml");
    if (!text || options.name.find('/') != std::string::npos) {
        findings.error({}, "unknown-starter", "there is no starter \"" + options.name + "\"",
                       "choose one of: " + known_starters(session));
        print(findings, session, false);
        return kSomethingMissing;
    }
    const std::filesystem::path path =
        options.output.empty() ? options.name + ".yaml" : options.output;
    if (std::filesystem::exists(path)) {
        findings.error({}, "file-exists",
                       "\"" + path.string() + "\" is there already and is not overwritten",
                       "name another file with --output");
        print(findings, session, false);
        return kFileTrouble;
    }
    const std::string why = write_file(path, with_schema_found(*text));
    if (!why.empty()) {
        findings.error({}, "file-unwritable", "\"" + path.string() + "\" cannot be written: " + why,
                       "name another place with --output");
        print(findings, session, false);
        return kFileTrouble;
    }
    session.out << path.string() << '\n';
    return kDone;
}

} // namespace tickleaf::cli
