// SPDX-License-Identifier: MIT
// Prescription, schedule, figures and catalogs to the Booklet a patient is handed.
// Safety: the pain rule, the stop signs, the emergency number and "does not replace their advice"
// are always in it; there is no option to leave them out. Every inserted value is isolated, doses
// are words in labelled cells. Errors: missing texts, missing clinician or side: findings.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "check/check.h"
#include "content/booklet.h"
#include "content/reading.h"
#include "dose/schedule.h"
#include "figure/solve.h"
#include "locale/language.h"
#include "prescription/prescription.h"

namespace tickleaf::content {

/// Everything compose() reads. Solutions are in the order of the schedule: [stage][exercise].
struct Material {
    const prescription::Prescription* prescription = nullptr;
    const dose::Schedule* schedule = nullptr;
    const std::map<std::string, figure::Exercise>* exercises = nullptr;
    std::vector<std::vector<figure::Solution>> solutions;
    locale::Language* language = nullptr;
    locale::Language* second_language = nullptr; ///< nullptr for one language
    bool require_reviewed = false;    ///< a safety text that nobody has reviewed is an error
    std::vector<Part::Kind> parts;    ///< what is printed; where empty, what a booklet is made of
    std::optional<std::size_t> stage; ///< of a Sheet or Refill; the first and all where empty
    bool in_pictures = false; ///< for people who do not read; safety and whom to call stay in words
};

std::optional<Booklet> compose(const Material& material, support::Findings& findings);

/// What the clinician's copy holds besides.
struct ClinicianMaterial {
    const std::vector<check::Verdict>* verdicts = nullptr;
    std::string in_place_of; ///< the language asked for, by its own name, where it has no texts
    std::vector<ClinicianReading> readings;
};

/// The clinician's copy: one part of dense tables, never for the patient. One language only.
std::optional<Booklet> compose_clinician_copy(const Material& material,
                                              const ClinicianMaterial& besides,
                                              support::Findings& findings);

} // namespace tickleaf::content
