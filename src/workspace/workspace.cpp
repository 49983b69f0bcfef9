// SPDX-License-Identifier: MIT
#include "workspace/workspace.h"

#include <algorithm>
#include <mutex>
#include <utility>

#include "content/compose.h"
#include "draw/draw.h"
#include "draw/picture.h"
#include "layout/impose.h"
#include "layout/lay_out.h"
#include "pdf/writer.h"
#include "workspace/language_pool.h"
#include "yaml/tree.h"

namespace tickleaf::workspace {

using support::Findings;

namespace {

constexpr std::string_view kYaml = ".yaml";
/// The language every catalog is made from.
constexpr std::string_view kEnglish = "en";

/// Names of the YAML files of a data folder, without their ending.
std::vector<std::string> yaml_names(const support::Environment& environment,
                                    const std::string& folder) {
    std::vector<std::string> names;
    for (const std::string& file : environment.list_data(folder)) {
        if (file.ends_with(kYaml)) {
            names.push_back(file.substr(0, file.size() - kYaml.size()));
        }
    }
    return names;
}

std::string hint_of_known(const std::string& word, const std::vector<std::string>& known,
                          const std::string& command) {
    const std::string near = support::closest(word, known);
    return near.empty() ? "see " + command : "did you mean \"" + near + "\"?";
}

class SidedFromFacts : public dose::SidedExercises {
  public:
    explicit SidedFromFacts(const std::map<std::string, figure::Exercise>& exercises)
        : exercises_(exercises) {}
    bool has_sides(const std::string& exercise) const override {
        const auto found = exercises_.find(exercise);
        return found != exercises_.end() && found->second.facts().has_sides;
    }
    std::string family(const std::string& exercise) const override {
        const auto found = exercises_.find(exercise);
        return found == exercises_.end() ? std::string() : found->second.facts().family;
    }

  private:
    const std::map<std::string, figure::Exercise>& exercises_;
};

const prescription::Band* band_of(const prescription::Prescription& rx,
                                  const prescription::ExerciseLine& line) {
    const prescription::Band* only = nullptr;
    int bands = 0;
    for (const prescription::Equipment& equipment : rx.home.equipment) {
        if (!equipment.band) {
            continue;
        }
        if (line.band && line.band->value == equipment.band->name) {
            return &*equipment.band;
        }
        only = &*equipment.band;
        ++bands;
    }
    return line.band || bands != 1 ? nullptr : only;
}

figure::Request request_for(const prescription::Prescription& rx,
                            const prescription::ExerciseLine& line,
                            const dose::PlannedExercise& planned) {
    figure::Request request;
    request.side = planned.side;
    if (rx.patient.height_mm) {
        request.stature_mm = rx.patient.height_mm->value;
    }
    for (const prescription::Equipment& equipment : rx.home.equipment) {
        if (equipment.kind.value == "step" && equipment.height_mm) {
            request.step_height_mm = equipment.height_mm;
        }
    }
    if (const prescription::Band* band = band_of(rx, line)) {
        request.band_rest_length_mm = band->rest_length_mm;
        request.band_force_at_double_newtons = band->force_at_double_newtons;
    }
    if (const auto* holds = std::get_if<prescription::Holds>(&planned.dose.content)) {
        request.hold_seconds = static_cast<int>(holds->length.high.count);
    }
    return request;
}

/// Marks the lines in which planning found something impossible. True where there are any.
bool mark_unsound(prescription::Prescription& rx, const dose::Schedule& schedule) {
    bool any = false;
    for (const dose::PlannedStage& stage : schedule.stages) {
        for (const dose::PlannedExercise& planned : stage.exercises) {
            if (!planned.is_sound) {
                rx.stages.at(stage.index).exercises.at(planned.line).is_whole = false;
                any = true;
            }
        }
    }
    return any;
}

void solve_all(Plan& plan, Findings& findings) {
    for (const dose::PlannedStage& stage : plan.schedule.stages) {
        auto& solved = plan.solutions.emplace_back();
        for (const dose::PlannedExercise& planned : stage.exercises) {
            const auto& line = plan.prescription.stages.at(stage.index).exercises.at(planned.line);
            auto solution = figure::solve(plan.exercises.at(planned.exercise),
                                          request_for(plan.prescription, line, planned), findings);
            solved.push_back(solution ? std::move(*solution) : figure::Solution{});
        }
    }
}

} // namespace

struct Workspace::Impl {
    const support::Environment& environment;
    support::Sources& sources;
    mutable std::mutex mutex;
    mutable std::map<std::string, figure::Exercise> exercises;
    mutable std::shared_ptr<const text::Fonts> fonts;
    mutable std::optional<locale::SideNames> side_names;
    mutable LanguagePool languages;

    Impl(const support::Environment& env, support::Sources& texts)
        : environment(env), sources(texts), languages(env, texts) {}

    std::optional<yaml::Node> read_yaml(const std::string& path, Findings& findings) const {
        auto text = environment.read_data(path);
        if (!text) {
            return std::nullopt;
        }
        return yaml::read(sources, sources.add(path, std::move(*text)), findings);
    }

    /// Read once; the faults of a language file are told where that language is used.
    const locale::SideNames& sides() const {
        const std::lock_guard lock(mutex);
        if (!side_names) {
            Findings told_elsewhere;
            side_names = locale::SideNames::load(environment, sources, told_elsewhere);
        }
        return *side_names;
    }

    std::shared_ptr<const text::Fonts> load_fonts(Findings& findings) const {
        const std::lock_guard lock(mutex);
        if (!fonts) {
            fonts = text::Fonts::load(environment, sources, findings);
        }
        return fonts;
    }
};

Workspace::Workspace(const support::Environment& environment, support::Sources& sources)
    : impl_(std::make_unique<Impl>(environment, sources)) {}

Workspace::~Workspace() = default;

const support::Environment& Workspace::environment() const {
    return impl_->environment;
}

support::Sources& Workspace::sources() const {
    return impl_->sources;
}

std::vector<std::string> Workspace::exercise_ids() const {
    return yaml_names(impl_->environment, "figures");
}

std::vector<std::string> Workspace::template_names() const {
    return yaml_names(impl_->environment, "templates/pages");
}

std::optional<text::FontState> Workspace::font_state(std::string_view language,
                                                     Findings& findings) const {
    const auto fonts = impl_->load_fonts(findings);
    return fonts ? std::optional(fonts->state(language)) : std::nullopt;
}

std::optional<figure::Exercise> Workspace::exercise(const std::string& id,
                                                    Findings& findings) const {
    {
        const std::lock_guard lock(impl_->mutex);
        const auto found = impl_->exercises.find(id);
        if (found != impl_->exercises.end()) {
            return found->second;
        }
    }
    const auto root = impl_->read_yaml("figures/" + id + ".yaml", findings);
    auto exercise = root ? figure::read_exercise(*root, id, findings) : std::nullopt;
    if (exercise) {
        const std::lock_guard lock(impl_->mutex);
        impl_->exercises.emplace(id, *exercise);
    }
    return exercise;
}

std::optional<page::Drawing> Workspace::drawing(const std::string& id,
                                                const figure::Request& request,
                                                Findings& findings) const {
    const auto known = exercise_ids();
    if (std::find(known.begin(), known.end(), id) == known.end()) {
        findings.error({}, "unknown-exercise", "there is no exercise \"" + id + "\"",
                       hint_of_known(id, known, "\"tickleaf list exercises\""));
        return std::nullopt;
    }
    const auto found = exercise(id, findings);
    const auto solution = found ? figure::solve(*found, request, findings) : std::nullopt;
    if (!solution) {
        return std::nullopt;
    }
    return draw::draw(solution->scene, {});
}

void Workspace::find_exercises(Plan& plan, Findings& findings) const {
    const auto known = exercise_ids();
    for (prescription::Stage& stage : plan.prescription.stages) {
        for (prescription::ExerciseLine& line : stage.exercises) {
            const std::string& id = line.exercise.value;
            if (std::find(known.begin(), known.end(), id) == known.end()) {
                findings.error(line.exercise.span, "unknown-exercise",
                               "there is no exercise \"" + id + "\"",
                               hint_of_known(id, known, "\"tickleaf list exercises\""));
                line.is_whole = false;
            } else if (auto found = exercise(id, findings)) {
                plan.exercises.emplace(id, std::move(*found));
            } else {
                line.is_whole = false;
            }
        }
    }
}

std::optional<Plan> Workspace::plan(int file, Findings& findings) const {
    const auto root = yaml::read(impl_->sources, file, findings);
    auto prescription = root ? prescription::read(*root, findings) : std::nullopt;
    if (!prescription) {
        return std::nullopt;
    }
    Plan plan{std::move(*prescription), {}, {}, {}, {}};
    find_exercises(plan, findings);
    if (findings.has_errors()) {
        plan.prescription = prescription::judgeable(plan.prescription);
    }
    const SidedFromFacts sided(plan.exercises);
    auto schedule = dose::plan(plan.prescription, sided, findings);
    if (schedule && mark_unsound(plan.prescription, *schedule)) {
        Findings told_already;
        plan.prescription = prescription::judgeable(plan.prescription);
        schedule = dose::plan(plan.prescription, sided, told_already);
    }
    if (!schedule) {
        return std::nullopt;
    }
    plan.schedule = std::move(*schedule);
    solve_all(plan, findings);
    const check::Subject subject{&plan.prescription, &plan.schedule, &plan.exercises,
                                 &plan.solutions, &impl_->sides()};
    plan.verdicts = check::judge(subject);
    check::report(subject, plan.verdicts, findings);
    return findings.has_errors() ? std::nullopt : std::optional(std::move(plan));
}

std::vector<content::ClinicianReading> Workspace::readings(const Plan& plan,
                                                           const Choice& choice) const {
    std::vector<content::ClinicianReading> out;
    for (const auto& tag : plan.prescription.patient.languages) {
        Choice patient;
        patient.language = tag.value;
        patient.allow_missing = choice.allow_missing;
        Findings aside; // whoever makes or checks that booklet is told
        const auto language = impl_->languages.borrow(
            tag.value, {patient.latin_digits, patient.allow_missing}, aside);
        const auto booklet = this->booklet(plan, patient, aside);
        content::ClinicianReading reading;
        reading.name = language ? language->own_name() : tag.value;
        if (booklet) {
            reading.report = content::reading_reports(*booklet).front();
        }
        out.push_back(std::move(reading));
    }
    return out;
}

std::optional<content::Booklet> Workspace::clinician_copy(const Plan& plan, const Choice& choice,
                                                          Findings& findings) const {
    const locale::Options options{choice.latin_digits, choice.allow_missing};
    auto language = impl_->languages.borrow(choice.language, options, findings);
    content::ClinicianMaterial besides{&plan.verdicts, {}, readings(plan, choice)};
    if (language && !language->has_clinician_texts()) {
        besides.in_place_of = language->own_name();
        language = impl_->languages.borrow(std::string(kEnglish), options, findings);
    }
    if (!language) {
        return std::nullopt;
    }
    const content::Material material{
        &plan.prescription, &plan.schedule, &plan.exercises, plan.solutions,
        language.get(),     nullptr,        false,           {},
        std::nullopt,       false};
    return content::compose_clinician_copy(material, besides, findings);
}

std::optional<layout::PageTemplate> Workspace::page_template(const Choice& choice,
                                                             Findings& findings) const {
    const auto names = template_names();
    if (std::find(names.begin(), names.end(), choice.page_template) == names.end()) {
        findings.error({}, "unknown-template",
                       "there is no page template \"" + choice.page_template + "\"",
                       hint_of_known(choice.page_template, names, "\"tickleaf list templates\""));
        return std::nullopt;
    }
    const auto root =
        impl_->read_yaml("templates/pages/" + choice.page_template + ".yaml", findings);
    auto page_template =
        root ? layout::read_template(*root, choice.page_template, findings) : std::nullopt;
    if (page_template && !choice.paper.empty() &&
        !layout::set_paper(*page_template, choice.paper, findings)) {
        return std::nullopt;
    }
    return page_template;
}

std::optional<content::Booklet> Workspace::booklet(const Plan& plan, const Choice& choice,
                                                   Findings& findings) const {
    if (choice.reader == Reader::Clinician) {
        return clinician_copy(plan, choice, findings);
    }
    const locale::Options options{choice.latin_digits, choice.allow_missing};
    const auto first = impl_->languages.borrow(choice.language, options, findings);
    const auto second = choice.second_language.empty()
                            ? LanguagePool::Loan{}
                            : impl_->languages.borrow(choice.second_language, options, findings);
    if (!first || (!choice.second_language.empty() && !second)) {
        return std::nullopt;
    }
    const auto page_template = this->page_template(choice, findings);
    if (!page_template) {
        return std::nullopt;
    }
    content::Material material{&plan.prescription,      &plan.schedule,       &plan.exercises,
                               plan.solutions,          first.get(),          second.get(),
                               choice.require_reviewed, page_template->parts, std::nullopt,
                               choice.in_pictures};
    if (choice.stage > 0) {
        material.stage = choice.stage - 1;
    }
    auto booklet = content::compose(material, findings);
    return findings.has_errors() ? std::nullopt : std::move(booklet);
}

/// The picture of the logo that a template names, read from the folder of the template.
void Workspace::load_logo(layout::PageTemplate& page_template, Findings& findings) const {
    if (!page_template.logo) {
        return;
    }
    layout::Logo& logo = *page_template.logo;
    auto bytes = impl_->environment.read_data("templates/pages/" + logo.file);
    if (!bytes) {
        findings.error(logo.span, "template-logo",
                       "the logo \"" + logo.file + "\" cannot be read, or is larger than 4 MiB",
                       "put the file beside the template");
        return;
    }
    const draw::PictureFile file{logo.file, std::move(*bytes), logo.span, logo.width.pt(),
                                 logo.height.pt()};
    if (auto picture = draw::read_picture(file, findings)) {
        logo.picture = std::make_shared<const page::Picture>(std::move(*picture));
    }
}

std::optional<page::Document> Workspace::document(const content::Booklet& booklet,
                                                  const Choice& choice, Findings& findings) const {
    auto page_template = this->page_template(choice, findings);
    const auto fonts = impl_->load_fonts(findings);
    if (!page_template || !fonts) {
        return std::nullopt;
    }
    load_logo(*page_template, findings);
    text::FontSet set(fonts);
    auto document = layout::lay_out(booklet, *page_template, set, findings);
    if (!document || findings.has_errors()) {
        return std::nullopt;
    }
    text::embed(set, *document, findings);
    if (page_template->fold_on) {
        document =
            layout::impose(std::move(*document), *page_template->fold_on, page_template->rule);
    }
    return findings.has_errors() ? std::nullopt : std::move(document);
}

std::optional<std::string> Workspace::pdf(const page::Document& document,
                                          Findings& findings) const {
    return pdf::write(document, findings);
}

} // namespace tickleaf::workspace
