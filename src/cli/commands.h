// SPDX-License-Identifier: MIT
// One function a command. Each takes its options as read from the command line and returns the exit
// code.
#pragma once

#include <filesystem>
#include <optional>
#include <ostream>
#include <string>
#include <vector>

#include "workspace/workspace.h"

namespace tickleaf::cli {

/// What every command works with.
struct Session {
    const workspace::Workspace& workspace;
    support::Sources& sources;
    std::ostream& out;
    std::ostream& err;
    std::filesystem::path data{}; ///< the folder that holds locales/, figures/ and templates/
};

struct MakeOptions {
    std::vector<std::string> prescriptions;
    std::string languages;          ///< "ar,en": one booklet each; "ar+en": one booklet in both
    std::string reader = "patient"; ///< or "clinician", or "both"
    std::string page_template = "standard";
    std::string paper;
    std::string output = ".";
    bool latin_digits = false;
    std::size_t stage = 0; ///< of a template that prints one stage; 0 for its own choice
    bool allow_missing = false;
    bool require_reviewed = false;
    bool in_pictures = false;
    bool json = false;
};
int make(const MakeOptions& options, Session& session);

struct CheckOptions {
    std::vector<std::string> prescriptions;
    bool json = false;
};
int check(const CheckOptions& options, Session& session);

struct DrawOptions {
    std::vector<std::string> exercises;
    bool all = false;
    std::string side = "right";
    std::string format = "svg";
    std::string output = ".";
    double height_cm = 170.0;
};
int draw(const DrawOptions& options, Session& session);

struct ListOptions {
    std::string kind;
    bool json = false;
};
int list(const ListOptions& options, Session& session);

struct ExportOptions {
    std::string language;
    std::string output;       ///< LANGUAGE.po where empty
    std::string prescription; ///< its free texts too, where not empty
    bool clinician = false;   ///< the clinician's copy too
};
int translate_export(const ExportOptions& options, Session& session);

struct ImportOptions {
    std::string file;
    std::string prescription; ///< takes the free texts back
    std::string reviewed_by;  ///< role
    std::string on;           ///< YYYY-MM-DD
    bool json = false;
};
int translate_import(const ImportOptions& options, Session& session);

struct StartOptions {
    std::string name;
    std::string output;
};
int start(const StartOptions& options, Session& session);

struct InspectOptions {
    std::string prescription;
    std::string stage = "prescription";
    std::string language;
    std::string reader = "patient";
    std::string page_template = "standard";
};
int inspect(const InspectOptions& options, Session& session);

// Shared by the commands.

/// Reads a user's file into the sources and returns its index, or reports why it cannot be read.
std::optional<int> open_prescription(const std::string& path, Session& session,
                                     support::Findings& findings);
/// Prints findings in order of place, as JSON lines or as text; of many notes alike, the text names
/// a few and counts the others.
void print(const support::Findings& findings, Session& session, bool json);
/// How the clinician's copy is asked for: in the clinic's language, which is the second of the
/// patient's languages, or the only one; on its own page design where none is chosen.
workspace::Choice clinician_choice(const workspace::Plan& plan, const std::string& language,
                                   const std::string& page_template);
/// Creates the folder where needed; reports where that cannot be done.
bool make_folder(const std::string& folder, support::Findings& findings);

} // namespace tickleaf::cli
