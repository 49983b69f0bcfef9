// SPDX-License-Identifier: MIT
#include <chrono>
#include <utility>

#include "cli/commands.h"
#include "cli/disk.h"
#include "cli/exit_code.h"
#include "cli/translate_prescription.h"
#include "locale/exchange.h"
#include "support/json.h"

namespace tickleaf::cli {

namespace {

using Files = std::vector<std::pair<std::filesystem::path, std::string>>;
using support::Findings;

/// Largest PO file that is read; one of all texts is about half a megabyte.
constexpr std::size_t kMostPoBytes = 8u << 20;

std::optional<int> parsed_number(std::string_view text) {
    int value = 0;
    for (const char c : text) {
        if (c < '0' || c > '9') {
            return std::nullopt;
        }
        value = value * 10 + (c - '0');
    }
    return value;
}

bool is_day(const std::string& text) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') {
        return false;
    }
    const auto year = parsed_number(std::string_view(text).substr(0, 4));
    const auto month = parsed_number(std::string_view(text).substr(5, 2));
    const auto day = parsed_number(std::string_view(text).substr(8, 2));
    return year && month && day &&
           std::chrono::year_month_day(std::chrono::year(*year),
                                       std::chrono::month(static_cast<unsigned>(*month)),
                                       std::chrono::day(static_cast<unsigned>(*day)))
               .ok();
}

locale::Reading reading_of(Session& session, Findings& findings) {
    return {session.workspace.environment(), session.sources, findings};
}

int finish(const Findings& findings, Session& session, bool json, int code) {
    print(findings, session, json);
    return code;
}

std::string state_change(const locale::TextChange& change) {
    if (change.state_before == change.state_after) {
        return change.state_after;
    }
    return (change.state_before.empty() ? std::string("new") : change.state_before) + " -> " +
           change.state_after;
}

void tell(const locale::TextChange& change, Session& session, bool json) {
    if (json) {
        session.out << support::Json{{"text", change.context},
                                     {"before", change.before},
                                     {"after", change.after},
                                     {"state_before", change.state_before},
                                     {"state_after", change.state_after}}
                           .dump()
                    << '\n';
        return;
    }
    const std::string state = state_change(change);
    session.out << change.context << (state.empty() ? "" : " (" + state + ")") << '\n';
    if (change.before != change.after) {
        if (!change.before.empty()) {
            session.out << "  - " << change.before << '\n';
        }
        session.out << "  + " << change.after << '\n';
    }
}

void tell(const locale::Import& import, const Files& files, Session& session, bool json) {
    for (const locale::TextChange& change : import.changes) {
        tell(change, session, json);
    }
    if (json) {
        return;
    }
    for (const auto& [path, bytes] : files) {
        session.out << path.string() << '\n';
    }
    session.out << import.tag << ": " << import.changes.size() << " texts changed, "
                << import.unchanged << " as they were, " << import.untranslated
                << " not translated\n";
}

/// The prescription with its texts, to be written with the catalogs or not at all.
bool add_prescription(const ImportOptions& options, const locale::Import& import, Session& session,
                      Findings& findings, Files& files) {
    if (options.prescription.empty()) {
        if (!import.prescription.empty()) {
            findings.warning(import.prescription.front().span, "po-prescription",
                             "the texts of a prescription are in this file and are left out",
                             "name the prescription with --prescription");
        }
        return true;
    }
    const auto file = open_prescription(options.prescription, session, findings);
    auto changed =
        file ? with_texts(*file, import.prescription, import.tag, session.sources, findings)
             : std::nullopt;
    if (!changed) {
        return false;
    }
    for (const std::string& context : changed->changed) {
        if (!options.json) {
            session.out << context << '\n';
        }
    }
    if (!changed->changed.empty()) {
        files.emplace_back(options.prescription, std::move(changed->text));
    }
    return true;
}

} // namespace

int translate_export(const ExportOptions& options, Session& session) {
    Findings findings;
    locale::Extras extras;
    extras.clinician = options.clinician;
    if (!options.prescription.empty()) {
        const auto file = open_prescription(options.prescription, session, findings);
        if (!file) {
            return finish(findings, session, false, kFileTrouble);
        }
        extras.prescription = free_texts(*file, session.sources, options.language, findings);
    }
    const auto po =
        findings.has_errors()
            ? std::nullopt
            : locale::export_po(options.language, reading_of(session, findings), extras);
    if (!po) {
        return finish(findings, session, false, exit_code(findings));
    }
    const std::string path = options.output.empty() ? options.language + ".po" : options.output;
    const std::string why = write_file(path, *po);
    if (!why.empty()) {
        findings.error({}, "file-unwritable", "\"" + path + "\" cannot be written: " + why,
                       "name another place with --output");
        return finish(findings, session, false, kFileTrouble);
    }
    session.out << path << '\n';
    return finish(findings, session, false, kDone);
}

int translate_import(const ImportOptions& options, Session& session) {
    Findings findings;
    std::optional<locale::Review> review;
    if (!options.reviewed_by.empty()) {
        if (!is_day(options.on)) {
            findings.error({}, "review-date",
                           "\"" + options.on + "\" is no day, expected one such as 2026-02-01",
                           "write --on YYYY-MM-DD");
            return finish(findings, session, options.json, kWrongCommandLine);
        }
        review = locale::Review{options.reviewed_by, options.on};
    }
    std::string why;
    auto bytes = read_file(options.file, kMostPoBytes, why);
    if (!bytes) {
        findings.error({}, "file-unreadable", "\"" + options.file + "\" cannot be read: " + why,
                       "\"tickleaf translate export\" writes a file to begin with");
        return finish(findings, session, options.json, kFileTrouble);
    }
    const int file = session.sources.add(options.file, std::move(*bytes));
    const auto import = locale::import_po(file, review, reading_of(session, findings));
    Files files;
    for (const auto& [path, text] : import ? import->files : decltype(import->files){}) {
        files.emplace_back(session.data / path, text);
    }
    if (!import || !add_prescription(options, *import, session, findings, files)) {
        return finish(findings, session, options.json, exit_code(findings));
    }
    const std::string trouble = write_files(files);
    if (!trouble.empty()) {
        findings.error({}, "file-unwritable", trouble,
                       "make the folder writable, or name a copy of it with --data");
        return finish(findings, session, options.json, kFileTrouble);
    }
    tell(*import, files, session, options.json);
    return finish(findings, session, options.json, kDone);
}

} // namespace tickleaf::cli
