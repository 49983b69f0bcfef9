// SPDX-License-Identifier: MIT
#include "cli/run.h"

#include <functional>

#include <CLI/CLI.hpp>

#include "cli/commands.h"
#include "cli/disk.h"
#include "cli/exit_code.h"
#include "cli/languages.h"
#include "cli/wrong_command_line.h"

namespace tickleaf::cli {

namespace {

using Command = std::function<int(Session&)>;

void add_make(CLI::App& app, MakeOptions& options, Command& chosen) {
    CLI::App* command =
        app.add_subcommand("make", "Make the booklet: one PDF for each prescription and language");
    command->add_option("prescription", options.prescriptions, "Prescription files (YAML)")
        ->required();
    command
        ->add_option(
            "-l,--language", options.languages,
            "Languages: \"ar,en\" makes two booklets, \"ar+en\" one with both side by side; "
            "the patient's first language where left out")
        ->check(languages_fault);
    command
        ->add_option("--for", options.reader,
                     "Reader: patient for the booklet, clinician for the two-page copy of totals, "
                     "calendar and checks, or both")
        ->check(CLI::IsMember({"patient", "clinician", "both"}))
        ->capture_default_str();
    command
        ->add_option("-t,--template", options.page_template,
                     "Page design, see \"tickleaf list templates\"")
        ->capture_default_str();
    command
        ->add_option("-p,--paper", options.paper,
                     "Paper: a4, letter or a5; the design's own where left out")
        ->check(CLI::IsMember({"a4", "letter", "a5"}));
    command
        ->add_option("-o,--output", options.output, "Folder for the PDFs; made where it is missing")
        ->capture_default_str();
    command
        ->add_option("--stage", options.stage,
                     "Stage to print, for the designs one-sheet and log-refill")
        ->check(CLI::Range(1, 99));
    command->add_flag("--latin-digits", options.latin_digits, "Write 0 to 9 in every language");
    command->add_flag("--allow-missing", options.allow_missing,
                      "Print the English text, marked, where a translation is missing");
    command->add_flag(
        "--pictures", options.in_pictures,
        "Drawings, numbers and signs instead of steps in words, for people who do not "
        "read; safety and whom to call stay in words");
    command->add_flag(
        "--require-reviewed", options.require_reviewed,
        "Make nothing where a safety text was not reviewed by a qualified translator");
    command->add_flag("--json", options.json, "Report findings as one JSON object a line");
    command->callback(
        [&] { chosen = [&options](Session& session) { return make(options, session); }; });
}

void add_check(CLI::App& app, CheckOptions& options, Command& chosen) {
    CLI::App* command = app.add_subcommand(
        "check", "Read prescriptions and say all that is wrong or worth a look; writes nothing");
    command->add_option("prescription", options.prescriptions, "Prescription files (YAML)")
        ->required();
    command->add_flag("--json", options.json, "Report findings as one JSON object a line");
    command->callback(
        [&] { chosen = [&options](Session& session) { return check(options, session); }; });
}

void add_draw(CLI::App& app, DrawOptions& options, Command& chosen) {
    CLI::App* command = app.add_subcommand("draw", "Draw exercises alone, without a booklet");
    auto* ids = command->add_option("exercise", options.exercises,
                                    "Exercises, see \"tickleaf list exercises\"");
    auto* all = command->add_flag("--all", options.all, "All exercises on one sheet");
    ids->excludes(all);
    command->add_option("--side", options.side, "Side that works")
        ->check(CLI::IsMember({"left", "right"}))
        ->capture_default_str();
    command->add_option("--format", options.format, "File format")
        ->check(CLI::IsMember({"svg", "png", "pdf"}))
        ->capture_default_str();
    command->add_option("--height", options.height_cm, "Body height in cm")
        ->check(CLI::Range(80.0, 230.0))
        ->capture_default_str();
    command->add_option("-o,--output", options.output, "Folder for the drawings")
        ->capture_default_str();
    command->callback([&options, &chosen] {
        if (options.exercises.empty() && !options.all) {
            throw CLI::ParseError("\"tickleaf draw\" needs an exercise, or --all",
                                  CLI::ExitCodes::RequiredError);
        }
        chosen = [&options](Session& session) { return draw(options, session); };
    });
}

void add_list(CLI::App& app, ListOptions& options, Command& chosen) {
    CLI::App* command =
        app.add_subcommand("list", "Show what there is: exercises, languages, templates or rules");
    command->add_option("kind", options.kind, "exercises, languages, templates or rules")
        ->required()
        ->check(CLI::IsMember({"exercises", "languages", "templates", "rules"}));
    command->add_flag("--json", options.json, "One JSON object a line");
    command->callback(
        [&] { chosen = [&options](Session& session) { return list(options, session); }; });
}

void add_start(CLI::App& app, StartOptions& options, Command& chosen) {
    CLI::App* command = app.add_subcommand("start", "Write a commented prescription to begin with");
    command->add_option("name", options.name, "Name of the starter, such as ankle-sprain")
        ->required();
    command->add_option("-o,--output", options.output, "File to write; NAME.yaml where left out");
    command->callback(
        [&] { chosen = [&options](Session& session) { return start(options, session); }; });
}

void add_inspect(CLI::App& app, InspectOptions& options, Command& chosen) {
    CLI::App* command =
        app.add_subcommand("inspect", "Show how a prescription was understood, as JSON");
    command->add_option("prescription", options.prescription, "Prescription file (YAML)")
        ->required();
    command->add_option("--stage", options.stage, "How far along the way")
        ->check(CLI::IsMember({"prescription", "schedule", "booklet", "document"}))
        ->capture_default_str();
    command->add_option("-l,--language", options.language, "Language of booklet and document");
    command->add_option("--for", options.reader, "Reader of booklet and document")
        ->check(CLI::IsMember({"patient", "clinician"}))
        ->capture_default_str();
    command->add_option("-t,--template", options.page_template, "Page design of the document")
        ->capture_default_str();
    command->callback(
        [&] { chosen = [&options](Session& session) { return inspect(options, session); }; });
}

void add_export(CLI::App& translate, ExportOptions& options, Command& chosen) {
    CLI::App* command = translate.add_subcommand(
        "export", "Write all texts of a language, there or new, to a PO file");
    command->add_option("language", options.language, "Language, such as es or cy")->required();
    command->add_option("-o,--output", options.output, "File to write; LANGUAGE.po where left out");
    command->add_option("--prescription", options.prescription,
                        "Add the free texts of this prescription");
    command->add_flag("--clinician", options.clinician,
                      "Add the clinician's copy to a language that has no texts for it yet");
    command->callback([&] {
        chosen = [&options](Session& session) { return translate_export(options, session); };
    });
}

void add_import(CLI::App& translate, ImportOptions& options, Command& chosen) {
    CLI::App* command = translate.add_subcommand(
        "import", "Check a translated PO file and put its texts into the catalogs");
    command->add_option("file", options.file, "PO file that was exported before")->required();
    command->add_option("--prescription", options.prescription,
                        "Prescription that takes its free texts back");
    auto* by = command->add_option("--reviewed-by", options.reviewed_by,
                                   "Role of who checked every text that is not fuzzy, such as "
                                   "\"medical translator\"");
    auto* on = command->add_option("--on", options.on, "Day of the review, YYYY-MM-DD");
    by->needs(on);
    on->needs(by);
    command->add_flag("--json", options.json, "Report as one JSON object a line");
    command->callback([&] {
        chosen = [&options](Session& session) { return translate_import(options, session); };
    });
}

int explain(const CLI::App& app, const CLI::ParseError& error, std::ostream& out,
            std::ostream& err) {
    if (error.get_exit_code() == 0) {
        static_cast<void>(app.exit(error, out, err));
        return kDone;
    }
    err << wrong_command_line(app, error);
    return kWrongCommandLine;
}

} // namespace

int run(const std::vector<std::string>& arguments, std::ostream& out, std::ostream& err) {
    CLI::App app(
        "Tickleaf makes a printable home exercise booklet from a prescription: drawings, doses,\n"
        "warnings and a sheet to tick, in the patient's language.",
        "tickleaf");
    app.footer("To begin:  tickleaf start ankle-sprain     (edit the file it writes)\n"
               "           tickleaf check ankle-sprain.yaml\n"
               "           tickleaf make ankle-sprain.yaml --language es --output booklets");
    app.require_subcommand(1);
    MakeOptions make_options;
    CheckOptions check_options;
    DrawOptions draw_options;
    ListOptions list_options;
    StartOptions start_options;
    InspectOptions inspect_options;
    ExportOptions export_options;
    ImportOptions import_options;
    std::string data_folder;
    Command chosen;
    app.add_option("--data", data_folder,
                   "Folder with locales, figures and templates; the program's own where left out");
    add_make(app, make_options, chosen);
    add_check(app, check_options, chosen);
    add_draw(app, draw_options, chosen);
    add_list(app, list_options, chosen);
    add_start(app, start_options, chosen);
    add_inspect(app, inspect_options, chosen);
    CLI::App* translate = app.add_subcommand(
        "translate", "Give a language's texts to a translator and take them back");
    translate->require_subcommand(1);
    add_export(*translate, export_options, chosen);
    add_import(*translate, import_options, chosen);
    try {
        app.parse(std::vector<std::string>(arguments.rbegin(), arguments.rend()));
    } catch (const CLI::ParseError& error) {
        return explain(app, error, out, err);
    }
    const auto data = find_data(data_folder);
    if (!data) {
        err << "tickleaf: the folders templates, figures and locales are nowhere to be found\n"
            << "    hint: set TICKLEAF_DATA to the folder that holds them, or name it with "
               "--data\n";
        return kSomethingMissing;
    }
    const Disk disk(*data);
    support::Sources sources;
    const workspace::Workspace workspace(disk, sources);
    Session session{workspace, sources, out, err, *data};
    return chosen(session);
}

} // namespace tickleaf::cli
