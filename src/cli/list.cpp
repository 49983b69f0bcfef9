// SPDX-License-Identifier: MIT
#include <algorithm>
#include <map>

#include "cli/commands.h"
#include "cli/exit_code.h"
#include "support/json.h"
#include "support/utf8.h"

namespace tickleaf::cli {

namespace {

using support::Findings;
using support::Json;

/// One thing of a list: what a person reads, and the same as data.
struct Entry {
    std::vector<std::string> columns;
    Json json;
};
using Entries = std::vector<Entry>;

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) {
        text += (text.empty() ? "" : ", ") + word;
    }
    return text;
}

/// English names of the exercises, so that a clinician finds them by words and not by id alone.
Entries exercises(Session& session, Findings& findings) {
    Entries entries;
    const auto english = locale::Language::load(session.workspace.environment(), session.sources,
                                                "en", {}, findings);
    for (const std::string& id : session.workspace.exercise_ids()) {
        const auto exercise = session.workspace.exercise(id, findings);
        if (!exercise || !english || !english->load_exercise(id, findings)) {
            continue;
        }
        const figure::Facts& facts = exercise->facts();
        const std::string name =
            english->message("exercise." + id + ".name", {{"side", support::Side::None}}, findings)
                .text;
        const std::string needs = facts.equipment.empty() ? "nothing" : joined(facts.equipment);
        entries.push_back({{id, name, facts.region, needs},
                           Json{{"id", id},
                                {"name", name},
                                {"region", facts.region},
                                {"position", facts.position},
                                {"equipment", facts.equipment},
                                {"sides", facts.has_sides},
                                {"easier", facts.easier},
                                {"harder", facts.harder}}});
    }
    return entries;
}

Json counts(const locale::TextCounts& texts) {
    return Json{{"texts", texts.texts},
                {"present", texts.present},
                {"reviewed", texts.reviewed},
                {"stale", texts.stale}};
}

/// "safety 3 of 81 reviewed", and what is amiss.
std::string part_state(locale::TextPart part, const locale::TextCounts& texts) {
    std::string state = std::string(locale::name_of(part)) + " " + std::to_string(texts.reviewed) +
                        "/" + std::to_string(texts.texts);
    if (texts.present < texts.texts) {
        state += ", " + std::to_string(texts.texts - texts.present) + " missing";
    }
    return texts.stale > 0 ? state + ", " + std::to_string(texts.stale) + " stale" : state;
}

/// What is reviewed, part by part; the clinician's copy only where the language has it.
std::vector<std::string> review_columns(const std::string& tag, const locale::Coverage& coverage) {
    std::vector<std::string> columns;
    for (const auto& [part, texts] : coverage.parts) {
        const bool is_left_out = part == locale::TextPart::Clinician && texts.present == 0;
        if (tag != "en" && !is_left_out) {
            columns.push_back((columns.empty() ? "reviewed: " : "") + part_state(part, texts));
        }
    }
    return tag == "en" ? std::vector<std::string>{"source"} : columns;
}

Entries languages(Session& session, Findings& findings) {
    Entries entries;
    for (const std::string& tag : locale::available(session.workspace.environment())) {
        const auto coverage =
            locale::coverage(session.workspace.environment(), session.sources, tag, findings);
        const auto fonts = session.workspace.font_state(tag, findings);
        const bool ready = fonts && fonts->ready;
        Entry entry;
        entry.columns = {tag, coverage.own_name,
                         std::to_string(coverage.all.present) + " of " +
                             std::to_string(coverage.all.texts) + " texts",
                         ready ? "fonts installed"
                               : "install " + joined(fonts ? fonts->missing_packages
                                                           : std::vector<std::string>{})};
        for (std::string& column : review_columns(tag, coverage)) {
            entry.columns.push_back(std::move(column));
        }
        entry.json = Json{{"language", tag}, {"name", coverage.own_name}};
        entry.json.update(counts(coverage.all));
        for (const auto& [part, texts] : coverage.parts) {
            entry.json["parts"][std::string(locale::name_of(part))] = counts(texts);
        }
        entry.json["fonts_installed"] = ready;
        entries.push_back(std::move(entry));
    }
    return entries;
}

Entries templates(Session& session, Findings& /*findings*/) {
    Entries entries;
    for (const std::string& name : session.workspace.template_names()) {
        entries.push_back({{name}, Json{{"template", name}}});
    }
    return entries;
}

Entries rules(Session& /*session*/, Findings& /*findings*/) {
    Entries entries;
    for (const check::Rule& rule : check::rules()) {
        const std::string severity =
            rule.severity == support::Severity::Error ? "error" : "warning";
        // What goes under "waive:" to switch it off for one prescription.
        const bool waivable = rule.severity != support::Severity::Error;
        const std::string waive =
            waivable ? "- {rule: " + rule.id + ", reason: ...}" : "cannot be switched off";
        entries.push_back({{rule.id, severity, rule.sentence, waive, "(" + rule.source + ")"},
                           Json{{"rule", rule.id},
                                {"severity", severity},
                                {"sentence", rule.sentence},
                                {"waive", waivable ? Json(waive) : Json()},
                                {"source", rule.source}}});
    }
    return entries;
}

void print_columns(const Entries& entries, std::ostream& out) {
    std::vector<std::size_t> widths;
    for (const Entry& entry : entries) {
        widths.resize(std::max(widths.size(), entry.columns.size()));
        for (std::size_t i = 0; i + 1 < entry.columns.size(); ++i) {
            widths[i] = std::max(widths[i], support::count_code_points(entry.columns[i]));
        }
    }
    for (const Entry& entry : entries) {
        for (std::size_t i = 0; i < entry.columns.size(); ++i) {
            const bool last = i + 1 == entry.columns.size();
            const std::size_t pad =
                last ? 0 : widths[i] + 2 - support::count_code_points(entry.columns[i]);
            out << entry.columns[i] << std::string(pad, ' ');
        }
        out << '\n';
    }
}

} // namespace

int list(const ListOptions& options, Session& session) {
    static const std::map<std::string, Entries (*)(Session&, Findings&)> kLists = {
        {"exercises", exercises},
        {"languages", languages},
        {"templates", templates},
        {"rules", rules}};
    Findings findings;
    const Entries entries = kLists.at(options.kind)(session, findings);
    print(findings, session, options.json);
    if (options.json) {
        for (const Entry& entry : entries) {
            session.out << entry.json.dump() << '\n';
        }
    } else {
        print_columns(entries, session.out);
    }
    return exit_code(findings);
}

} // namespace tickleaf::cli
