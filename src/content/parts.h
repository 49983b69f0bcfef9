// SPDX-License-Identifier: MIT
// The parts of the booklet, each made by one function; used by compose() only.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "content/booklet.h"
#include "content/compose.h"
#include "content/voice.h"

namespace tickleaf::content {

/// A band has a name that exercises of the file call it by, and may have one for the patient.
enum class BandNames { OfThePatient, OfTheFile };

/// What every part is made from. Exercises are numbered through the whole booklet, so that
/// "exercise 4" means one thing.
struct Desk {
    const Material& material;
    const prescription::Prescription& rx;
    const dose::Schedule& schedule;
    Voice& voice;
    support::Findings& findings;

    std::int64_t exercise_number(std::size_t stage, std::size_t exercise) const;
    const prescription::Stage& written_stage(std::size_t stage) const;
    const figure::Facts& facts(const std::string& exercise) const;
    /// The name of a stage as the patient reads it.
    Words stage_name(std::size_t stage);
    /// "Stage 2: Strengthen".
    Words stage_title(std::size_t stage);
    /// The name of an exercise with its side in words.
    Words exercise_name(const dose::PlannedExercise& exercise);
    std::string exercise_name(Tongue& tongue, const dose::PlannedExercise& exercise);
    /// Names of the equipment kinds, with the sizes the prescription gives, in one phrase.
    std::string equipment(Tongue& tongue, const std::vector<std::string>& kinds,
                          BandNames bands = BandNames::OfThePatient);
    /// Who made the plan, and where, as the patient reads it.
    Words clinician();
    Words clinic_name();
    /// The criteria to move on from a stage, as sentences.
    std::vector<Words> criteria(std::size_t stage);
    /// Of these the ones that the catalog has words for.
    std::vector<Words> known_criteria(std::size_t stage);
};

/// Words of every exercise, once each. False, with findings, where some are missing.
bool load_words(Voice& voice, const dose::Schedule& schedule, support::Findings& findings);
/// What a booklet says of itself: languages, digits, page numbers, who made it and when.
void add_frame(Desk& desk, Booklet& booklet);

Part cover(Desk& desk);
/// Puts the contents behind the cover and tells the headings what they are called there; nothing
/// where there is little to look up.
void add_contents(Desk& desk, Booklet& booklet);
/// Pain rule and stop signs together on one page, then what to do afterwards; nothing else, so that
/// in most languages one page holds it all.
Part safety(Desk& desk);
/// The pain line with the prescription's own thresholds.
PainScale pain_scale(Desk& desk);
/// All signs to stop at, as running text under the same signal word.
Callout stop_signs_in_short(Desk& desk);
/// Whom to call in an emergency, the most urgent signs, and where all of them stand.
Callout emergency(Desk& desk);
/// Who made the plan and how to reach them, in one row.
Table contact_row(Desk& desk);
/// The sentences an exercise asks to take care with; none for most.
std::vector<Words> care_sentences(Desk& desk, const dose::PlannedExercise& exercise);
/// A framed caution that says them; nothing where there is nothing to say.
std::optional<Callout> caution(Desk& desk, std::vector<Words> sentences);
/// The drawing of an exercise with what a blind patient hears of it.
Figure figure_of(Desk& desk, std::size_t stage, std::size_t exercise);
/// The room and the body before the first exercise; read on the first stage's page.
std::vector<Block> before_you_start(Desk& desk);
Part stage(Desk& desk, std::size_t index);
Part logbook(Desk& desk);
Part contact(Desk& desk);
/// A week of the stage that the logbook does not reach, or of the last, without dates.
Part spare_log(Desk& desk);
Part notes(Desk& desk);
/// One stage on one page, to hang up.
Part sheet(Desk& desk);
/// The weeks that the logbook of the booklet does not reach, or those of one stage.
Part refill(Desk& desk);

/// "Weeks 1 to 2", and the same with the dates where they are known.
std::string stage_weeks(Tongue& tongue, const dose::PlannedStage& planned);
std::string stage_when(Tongue& tongue, const dose::PlannedStage& planned);
/// One exercise with all that belongs to it.
Group exercise(Desk& desk, std::size_t stage, std::size_t index);
/// The same for people who do not read: signs for the dose, the drawing, what to take care of.
Group exercise_in_pictures(Desk& desk, std::size_t stage, std::size_t index);
/// A stage of such exercises, and the cover without its paragraphs.
Part stage_in_pictures(Desk& desk, std::size_t index);
Part cover_in_pictures(Desk& desk);
/// "A qualified translator has not yet checked...", in English and the booklet's languages.
Callout draft_notice(Desk& desk);

} // namespace tickleaf::content
