// SPDX-License-Identifier: MIT
// Prescriptions for these tests: made from the real exercises and catalogs of the source tree, with
// patients, clinics and numbers invented.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <random>
#include <stdexcept>
#include <string>
#include <tuple>
#include <vector>

#include "content/compose.h"
#include "tests/support/source_tree.h"
#include "yaml/tree.h"

namespace tickleaf::content::test {

/// Everything on the way to a booklet, kept alive together: the exercises of the demo prescription,
/// which have words in every language; each pose is solved once.
class Bench {
  public:
    Bench() {
        for (const std::string id :
             {"ankle-press-out", "ankle-pumps", "ankle-turn-out-band", "calf-raise-one-leg",
              "calf-raise-two-legs", "calf-stretch-wall", "stand-one-leg", "step-up"}) {
            const std::string path = "figures/" + id + ".yaml";
            const int file = sources_.add(path, tree_.read_data(path).value());
            const auto root = yaml::read(sources_, file, setup_);
            auto exercise = root ? figure::read_exercise(*root, id, setup_) : std::nullopt;
            if (exercise) {
                exercises_.emplace(id, *exercise);
            }
        }
        if (exercises_.empty() || setup_.has_errors()) {
            throw std::runtime_error("exercises: " + told(setup_));
        }
    }

    const std::map<std::string, figure::Exercise>& exercises() const { return exercises_; }
    support::Sources& sources() { return sources_; }

    std::shared_ptr<locale::Language> language(const std::string& tag) {
        auto loaded = locale::Language::load(tree_, sources_, tag, {}, setup_);
        if (!loaded || setup_.has_errors()) {
            throw std::runtime_error("language " + tag + ": " + told(setup_));
        }
        return loaded;
    }

    std::string told(const support::Findings& findings) const {
        std::string text;
        for (const support::Finding& finding : findings.sorted()) {
            text += support::to_text(finding, sources_) + "\n";
        }
        return text;
    }

    /// A prescription as planned; compose() reads what it points at.
    struct Case {
        prescription::Prescription rx;
        dose::Schedule schedule;
        std::vector<std::vector<figure::Solution>> solutions;
    };

    Case plan(const std::string& text) {
        support::Findings findings;
        const int file = sources_.add("rx.yaml", text);
        const auto root = yaml::read(sources_, file, findings);
        auto rx = root ? prescription::read(*root, findings) : std::nullopt;
        auto schedule = rx ? dose::plan(*rx, Sided(exercises_), findings) : std::nullopt;
        if (!schedule || findings.has_errors()) {
            throw std::runtime_error(told(findings) + text);
        }
        Case result{std::move(*rx), std::move(*schedule), {}};
        for (const auto& stage : result.schedule.stages) {
            auto& row = result.solutions.emplace_back();
            for (const auto& exercise : stage.exercises) {
                row.push_back(solution(exercise));
            }
        }
        return result;
    }

    /// What a page template may ask for beside a language.
    struct Wish {
        std::vector<Part::Kind> parts;
        std::optional<std::size_t> stage;
    };

    std::optional<Booklet> compose(const Case& planned, locale::Language& language,
                                   support::Findings& findings, locale::Language* second = nullptr,
                                   Wish wish = {}) {
        return content::compose({&planned.rx, &planned.schedule, &exercises_, planned.solutions,
                                 &language, second, false, wish.parts, wish.stage},
                                findings);
    }

    /// The booklet of a prescription that must compose.
    Booklet booklet(const Case& planned, const std::string& tag, const std::string& second = {}) {
        support::Findings findings;
        const auto first = language(tag);
        const auto other = second.empty() ? nullptr : language(second);
        auto made = compose(planned, *first, findings, other.get());
        if (!made) {
            throw std::runtime_error(told(findings));
        }
        return std::move(*made);
    }

  private:
    struct Sided : dose::SidedExercises {
        explicit Sided(const std::map<std::string, figure::Exercise>& known) : known_(known) {}
        bool has_sides(const std::string& exercise) const override {
            const auto found = known_.find(exercise);
            return found == known_.end() || found->second.facts().has_sides;
        }
        const std::map<std::string, figure::Exercise>& known_;
    };

    const figure::Solution& solution(const dose::PlannedExercise& exercise) {
        const auto key = std::pair(exercise.exercise, exercise.side);
        auto found = solved_.find(key);
        if (found == solved_.end()) {
            figure::Request request;
            request.side = exercise.side;
            support::Findings findings;
            auto made = figure::solve(exercises_.at(exercise.exercise), request, findings);
            if (!made) {
                throw std::runtime_error(told(findings));
            }
            found = solved_.emplace(key, std::move(*made)).first;
        }
        return found->second;
    }

    testing::SourceTree tree_;
    support::Sources sources_;
    support::Findings setup_;
    std::map<std::string, figure::Exercise> exercises_;
    std::map<std::pair<std::string, support::Side>, figure::Solution> solved_;
};

/// The least a prescription can be, with holes for what a test is about.
struct Recipe {
    std::string clinician = "\"R. Oduya, physiotherapist\""; ///< as YAML
    std::string side = "side: right\n";
    std::string more; ///< further top-level lines
    std::string pain = "pain: {carry_on_up_to: 2, ease_off_up_to: 5}\n";
    std::string stage_more; ///< further lines of the one stage
    std::string exercises = "      - {do: calf-raise-one-leg, dose: 3 x 8-12}\n";

    std::string text() const {
        return "format: 1\n"
               "patient: {name: Ana P., languages: [en, es]}\n"
               "clinic: {name: Hilltop Clinic, clinician: " +
               clinician + ", phone: \"+44 1632 960555\", emergency: \"112\"}\n" + side + pain +
               more +
               "stages:\n"
               "  - name: settle\n"
               "    weeks: 1-2\n"
               "    days_per_week: 3\n" +
               stage_more + "    exercises:\n" + exercises;
    }
};

/// Random prescriptions, the same for the same seed.
class Generator {
  public:
    Generator(std::uint32_t seed, const std::map<std::string, figure::Exercise>& exercises)
        : random_(seed) {
        for (const auto& [id, exercise] : exercises) {
            ids_.push_back(id);
        }
    }

    std::string prescription(const std::string& side) {
        const int carry_on = number(0, 4);
        const int ease_off = number(carry_on + 1, 8);
        std::string text = "format: 1\npatient: {name: Ana P., languages: [en, es]}\n"
                           "clinic: {name: Hilltop Clinic, clinician: R. Oduya, "
                           "phone: \"+44 1632 960555\", emergency: \"112\"}\nside: " +
                           side + "\npain: {carry_on_up_to: " + std::to_string(carry_on) +
                           ", ease_off_up_to: " + std::to_string(ease_off) + "}\n";
        if (number(0, 1) == 1) {
            text += "starts: 2026-0" + std::to_string(number(1, 9)) + "-1" +
                    std::to_string(number(0, 9)) + "\n";
        }
        text += "home: {equipment: [chair, wall, {step: 15 cm}, {band: {name: soft, "
                "rest_length: 120 cm, force_at_double_length: 20 N}}]}\nstages:\n";
        const int stages = number(1, 3);
        int week = 1;
        for (int i = 0; i < stages; ++i) {
            week = add_stage(text, i, week);
        }
        return text;
    }

  private:
    int number(int low, int high) {
        // Not std::uniform_int_distribution: its numbers differ between libraries.
        return low + static_cast<int>(random_() % static_cast<std::uint32_t>(high - low + 1));
    }

    int add_stage(std::string& text, int index, int week) {
        const int last = week + number(0, 2);
        static const char* const names[] = {"settle", "strengthen", "steady"};
        text += std::string("  - name: ") + names[index] + "\n    weeks: " + std::to_string(week) +
                (last > week ? "-" + std::to_string(last) : "") +
                "\n    days_per_week: " + std::to_string(number(1, 7)) + "\n";
        if (index > 0 || number(0, 1) == 1) {
            text += "    move_on_when: [walks-without-limp, stands-one-leg-30-seconds]\n";
        }
        text += "    exercises:\n";
        const int lines = number(1, 4);
        for (int i = 0; i < lines; ++i) {
            text +=
                "      - {do: " +
                ids_.at(static_cast<std::size_t>(number(0, static_cast<int>(ids_.size()) - 1))) +
                ", " + dose() + "}\n";
        }
        return last + 1;
    }

    std::string dose() {
        const int sets = number(1, 6);
        std::string text = "dose: \"" + std::to_string(sets);
        if (number(0, 1) == 1) {
            text += "-" + std::to_string(sets + number(1, 3));
        }
        const int kind = number(0, 2);
        const int count = number(5, 30);
        if (kind == 0) {
            text += " x " + std::to_string(count) + "-" + std::to_string(count + number(1, 9));
        } else if (kind == 1) {
            text += " x " + std::to_string(count) + " s";
        } else {
            text += " x " + std::to_string(number(2, 4)) + " x " + std::to_string(count) + " s";
        }
        text += ", rest " + std::to_string(number(5, 55)) + " s";
        if (number(0, 1) == 1) {
            text += ", " + std::to_string(number(2, 4)) + "/day";
        }
        text += "\"";
        if (kind == 0) {
            text += number(0, 1) == 1 ? ", tempo: 2-1-3" : ", begin: 4";
        } else if (kind == 1) {
            text += ", begin: 4 s";
        }
        return text;
    }

    std::mt19937 random_;
    std::vector<std::string> ids_;
};

} // namespace tickleaf::content::test
