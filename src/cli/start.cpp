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

/// A path as editors take it behind "$schema=": as it is, or as a file URI (RFC 8089) where a space
/// or another sign would end it.
std::string for_editors(const std::string& path) {
    constexpr std::string_view kPlain = "/-_.~";
    constexpr std::string_view kHex = "0123456789ABCDEF";
    std::string uri;
    for (const char c : path) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                           (c >= '0' && c <= '9') || kPlain.find(c) != std::string_view::npos;
        const auto byte = static_cast<unsigned char>(c);
        uri += plain ? std::string(1, c) : std::string{'%', kHex[byte >> 4u], kHex[byte & 15u]};
    }
    return uri == path ? path : "file://" + uri;
}

/// The starter names its schema by a path beside it; where the copy goes, that path is written out
/// in full.
std::string with_schema_found(std::string text) {
    constexpr std::string_view kBeside = "../prescription.schema.json";
    const auto at = text.find(kBeside);
    const auto data = find_data();
    if (at != std::string::npos && data) {
        text.replace(at, kBeside.size(),
                     for_editors((*data / "templates" / "prescription.schema.json").string()));
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
