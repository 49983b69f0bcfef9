// SPDX-License-Identifier: MIT
// The clinician's copy: two pages of the demo with numbers worked out by hand, in every language,
// with waivers, without dates, and of programmes far longer than a page.
#include <catch2/catch.hpp>

#include <fstream>

#include "cli/disk.h"
#include "fold.h"
#include "layout/verify.h"
#include "locale/language.h"
#include "shell.h"
#include "tests/support/pdf_check.h"
#include "workspace/workspace.h"
#include "yaml/tree.h"

using namespace tickleaf;
using content::Part;
using content::Table;
using tests::folded;
using tests::Folder;
using tests::run;
using tests::without_spaces;

namespace {

/// The source tree's data, with files put over it.
class Overlay : public support::Environment {
  public:
    explicit Overlay(std::map<std::string, std::string> files = {}) : files_(std::move(files)) {}
    std::optional<std::string> read_data(const std::string& path) const override {
        const auto found = files_.find(path);
        return found == files_.end() ? disk_.read_data(path) : std::optional(found->second);
    }
    std::vector<std::string> list_data(const std::string& folder) const override {
        std::vector<std::string> names = disk_.list_data(folder);
        for (const auto& [path, text] : files_) {
            const auto slash = path.rfind('/');
            if (path.substr(0, slash) == folder) {
                names.push_back(path.substr(slash + 1));
            }
        }
        std::sort(names.begin(), names.end());
        return names;
    }
    std::unique_ptr<support::Bytes> map_file(const std::string& path) const override {
        return disk_.map_file(path);
    }

  private:
    cli::Disk disk_{TICKLEAF_ROOT};
    std::map<std::string, std::string> files_;
};

struct Made {
    content::Booklet booklet;
    page::Document document;
    std::string pdf;
    std::string told;
};

Made make(const std::string& text, const std::string& language, const Overlay& data = Overlay()) {
    support::Sources sources;
    const workspace::Workspace workspace(data, sources);
    support::Findings findings;
    workspace::Choice choice;
    choice.language = language;
    choice.page_template = "clinician";
    choice.reader = workspace::Reader::Clinician;
    const auto plan = workspace.plan(sources.add("rx.yaml", text), findings);
    const auto booklet = plan ? workspace.booklet(*plan, choice, findings) : std::nullopt;
    const auto document = booklet ? workspace.document(*booklet, choice, findings) : std::nullopt;
    const auto pdf = document ? workspace.pdf(*document, findings) : std::nullopt;
    std::string told;
    for (const auto& finding : findings.sorted()) {
        told += support::to_text(finding, sources);
    }
    INFO(told);
    REQUIRE(pdf);
    return {*booklet, *document, *pdf, told};
}

std::string demo() {
    return *Overlay().read_data("templates/starters/ankle-sprain.yaml");
}

std::string with(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

layout::PageTemplate desk_template() {
    support::Sources sources;
    support::Findings findings;
    const auto text = Overlay().read_data("templates/pages/clinician.yaml");
    const auto root = yaml::read(sources, sources.add("clinician.yaml", *text), findings);
    const auto page_template = layout::read_template(*root, "clinician", findings);
    REQUIRE(page_template);
    return *page_template;
}

void collect(const std::vector<content::Block>& blocks, std::vector<const Table*>& tables) {
    for (const content::Block& block : blocks) {
        if (const auto* table = std::get_if<Table>(&block.value)) {
            tables.push_back(table);
        } else if (const auto* columns = std::get_if<content::Columns>(&block.value)) {
            collect(columns->first, tables);
            collect(columns->second, tables);
        }
    }
}

using Rows = std::vector<std::vector<std::string>>;

/// The rows of a table under its head, isolates left out.
Rows rows_of(const content::Booklet& booklet, const std::string& caption) {
    std::vector<const Table*> tables;
    collect(booklet.parts.front().blocks, tables);
    for (const Table* table : tables) {
        if (table->caption.key == caption) {
            Rows rows;
            for (std::size_t i = 1; i < table->rows.size(); ++i) {
                std::vector<std::string> row;
                for (const content::Cell& cell : table->rows[i].cells) {
                    row.push_back(folded(cell.words.text));
                }
                rows.push_back(std::move(row));
            }
            return rows;
        }
    }
    FAIL("no table " << caption);
    return {};
}

std::string all_text(const content::Booklet& booklet) {
    std::string all;
    for (const std::string& string : content::all_strings(booklet)) {
        all += folded(string) + '\n';
    }
    return all;
}

void check_file(const Made& made) {
    CHECK(layout::to_text(layout::verify(made.document, desk_template())) == "");
    const Folder folder;
    const std::string path = folder.file("copy.pdf");
    std::ofstream(path, std::ios::binary) << made.pdf;
    CHECK(run("qpdf --check " + path).code == 0);
    for (const auto& failure : testing::check_pdf_ua(made.pdf)) {
        UNSCOPED_INFO(failure.clause << ": " << failure.message);
        CHECK(false);
    }
    const std::string text = without_spaces(folded(run("pdftotext -raw " + path + " -").output));
    if (made.booklet.right_to_left) {
        return; // poppler turns brackets and numbers of such lines round
    }
    for (const std::string& string : content::all_strings(made.booklet)) {
        CAPTURE(string);
        CHECK(text.find(without_spaces(folded(string))) != std::string::npos);
    }
}

/// Clinician's texts of another language, made of the English.
std::string translated() {
    support::Sources sources;
    support::Findings findings;
    const auto text = Overlay().read_data("locales/en/clinician.yaml");
    const auto root = yaml::read(sources, sources.add("clinician.yaml", *text), findings);
    REQUIRE(root);
    std::string made = "format: 1\ntexts:\n";
    for (const auto& entry : root->entries.back().value.entries) {
        made += "  " + entry.key.value + ": {text: \"" + entry.value.text +
                "\", of: " + locale::source_hash(entry.value.text) + ", state: draft}\n";
    }
    return made;
}

} // namespace

TEST_CASE("the demo's copy is two pages that readers take, with nothing cut") {
    const Made made = make(demo(), "en");
    CHECK(made.told == "");
    CHECK(made.document.pages.size() == 2);
    REQUIRE(made.booklet.parts.size() == 1);
    CHECK(made.booklet.parts.front().kind == Part::Kind::ClinicianCopy);
    check_file(made);
    const std::string all = all_text(made.booklet);
    CHECK(all.find("Clinician’s copy: Rosa M., right side") == 0);
    CHECK(all.find("Monday, 16 March 2026 (week 3, day 1)") != std::string::npos);
    CHECK(all.find("right ankle inversion at most 10 degrees; no impact") != std::string::npos);
    CHECK(all.find("0 to 2: carry on; above, to 5: ease off; above 5: stop") != std::string::npos);
    CHECK(all.find(" left") == std::string::npos);
}

TEST_CASE("the demo's totals are those worked out by hand") {
    const Made made = make(demo(), "en");
    // 3 x 15, 3 a day, 7 days: 945 of 2 s. 4 to 5 holds of 45 s, 2 a day: 56 to 70, 2520 to 3150 s.
    const Rows exercises = rows_of(made.booklet, "clinician.exercises_caption");
    CHECK(exercises.at(1) == std::vector<std::string>{"1", "Ankle pumps: right side",
                                                      "3 x 15, 3/day; out 1 s, back 1 s", "2", "2",
                                                      "945", "–", "1890"});
    CHECK(exercises.at(2).at(5) == "56 to 70");
    CHECK(exercises.at(2).back() == "2520 to 3150");
    // Both legs at once have no side: 3 x 8 to 12 on 3 days.
    CHECK(exercises.at(3).at(6) == "72 to 108");
    // Steady, the low end: 3 x 8 x 5 s and 2 x 90 s; 3 x 8 x 5 s and 2 x 60 s; 5 x 30 s and
    // 4 x 30 s; two changes of 30 s: 870 s. The high end: 1095 s.
    const Rows stages = rows_of(made.booklet, "clinician.stages_caption");
    CHECK(stages.at(4) == std::vector<std::string>{"3 Steady", "Weeks 5 to 8, 30 Mar to 26 Apr",
                                                   "3", "3", "15 to 19", "15 to 19", "44 to 55",
                                                   "101 to 114 %"});
    // 72 to 90 and 72 to 108 a week on the right, 15 holds; four weeks are four times as many.
    const Rows sides = rows_of(made.booklet, "clinician.sides_caption");
    CHECK(sides.at(4) == std::vector<std::string>{"3", "1 week", "144 to 198", "–", "15"});
    CHECK(sides.at(5) == std::vector<std::string>{"3", "4 weeks", "576 to 792", "–", "60"});
    // Calf: 72 to 108 x 5 s, then 3 x 30 s on 5 days: 450 s are 125 % of 360 s, 84 % of 540 s.
    const Rows families = rows_of(made.booklet, "clinician.families_caption");
    CHECK(families.at(6) == std::vector<std::string>{"Calf", "2", "450", "15", "84 to 125 %"});
    const Rows ladders = rows_of(made.booklet, "clinician.ladders_caption");
    CHECK(ladders.at(1) ==
          std::vector<std::string>{"1", "1", "12 to 15", "1 hold of 15 s", "180 to 225 s"});
    const Rows calendar = rows_of(made.booklet, "clinician.calendar_caption");
    CHECK(calendar.size() == 8);
    CHECK(calendar.at(2) == std::vector<std::string>{"3", "2", "16 Mar", "Review; 1 (all)",
                                                     "1 (5, 6)", "1 (all)", "rest", "1 (all)",
                                                     "1 (5, 6)", "rest"});
}

TEST_CASE("what warned and what was waived comes first, with the reason given") {
    const std::string text =
        with(with(demo(), "minutes_per_day: 30", "minutes_per_day: 10"), "logbook:",
             "waive:\n  - {rule: session-too-long, reason: two short sessions were agreed}\n"
             "  - {rule: balance, reason: not needed here}\nlogbook:");
    const Made made = make(with(text, "4 x 20-30 s, rest 30 s", "9 x 20-30 s, rest 30 s"), "en");
    check_file(made);
    const Rows rows = rows_of(made.booklet, "clinician.checks_caption");
    CHECK(rows.at(0).at(0).find("dose-usual-range:") == 0);
    CHECK(rows.at(0).at(1) == "Warned");
    CHECK(rows.at(1).size() == 1);
    CHECK(rows.at(2).at(0).find("session-too-long:") == 0);
    CHECK(rows.at(2).at(1) == "Waived");
    const std::string all = all_text(made.booklet);
    CHECK(all.find("Reason given: two short sessions were agreed") != std::string::npos);
    CHECK(all.find("The waiver was not needed. Reason given: not needed here") !=
          std::string::npos);
    CHECK(all.find("1 warned, 1 waived") != std::string::npos);
}

TEST_CASE("a language without the clinician's texts gets English, and is told so") {
    for (const char* language : {"es", "ar"}) {
        const Made made = make(demo(), language);
        CHECK(made.booklet.language == "en");
        CHECK(all_text(made.booklet).find("This copy is in English") != std::string::npos);
        check_file(made);
    }
    const Made made = make(demo(), "ar", Overlay({{"locales/ar/clinician.yaml", translated()}}));
    CHECK(made.booklet.language == "ar");
    CHECK(made.booklet.right_to_left);
    CHECK(all_text(made.booklet).find("This copy is in English") == std::string::npos);
    check_file(made);
}

TEST_CASE("without dates, both sides, and a problem in no language of the copy") {
    std::string text = with(demo(), "starts: 2026-03-02", "");
    text = with(with(text, "review: 2026-03-16", ""), "side: right", "side: both");
    text = with(text, "  en: Sprain of the outer right ankle\n", "");
    const Made made = make(text, "en");
    check_file(made);
    const Rows sides = rows_of(made.booklet, "clinician.sides_caption");
    CHECK(sides.at(0) == std::vector<std::string>{"1", "1 week", "945", "945", "72 to 108",
                                                  "56 to 70", "56 to 70"});
    const std::string all = all_text(made.booklet);
    CHECK(all.find("No date in the prescription") != std::string::npos);
    CHECK(all.find("Esguince") != std::string::npos);
    CHECK(all.find("Day 7") != std::string::npos);
}

TEST_CASE("two years and twelve stages of many exercises still fit their pages") {
    const std::string start = demo();
    std::string text = start.substr(0, start.find("stages:\n  - name: settle")) + "stages:\n";
    for (int stage = 0; stage < 12; ++stage) {
        const int first = 1 + 8 * stage;
        text += "  - name: s" + std::to_string(stage) + "\n    weeks: " + std::to_string(first) +
                '-' + std::to_string(first + 7) + "\n    days_per_week: 3-5\n    exercises:\n";
        for (int line = 0; line < 8; ++line) {
            text += line % 2 == 0 ? "      - {do: step-up, dose: 6 x 10-20, tempo: 2-1-2}\n"
                                  : "      - {do: stand-one-leg, dose: \"4-5 x 5 x 45-60 s each "
                                    "side, rest 60-90 s, 2-3/day\", begin: 25 s}\n";
        }
    }
    const Made made = make(text, "en");
    CHECK(made.document.pages.size() > 4);
    check_file(made);
    CHECK(rows_of(made.booklet, "clinician.calendar_caption").size() == 12);
}

TEST_CASE("every family of exercise has a name in the copy") {
    support::Sources sources;
    support::Findings findings;
    const cli::Disk disk{TICKLEAF_ROOT};
    const workspace::Workspace workspace(disk, sources);
    const auto language = locale::Language::load(disk, sources, "en", {}, findings);
    REQUIRE(language);
    REQUIRE(language->load_clinician_texts(findings));
    for (const std::string& id : workspace.exercise_ids()) {
        const auto exercise = workspace.exercise(id, findings);
        REQUIRE(exercise);
        CAPTURE(id, exercise->facts().family);
        CHECK(language->has("clinician.family." + exercise->facts().family));
    }
}
