// SPDX-License-Identifier: MIT
// A dose said to a patient: labelled cells, tempo as named phases, the ladder as a small table.
// Never as "3 x 10" or "3-0-1", which right-to-left text would turn round (UAX #9).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "content/booklet.h"
#include "content/voice.h"
#include "dose/schedule.h"

namespace tickleaf::content {

/// A label and its value, such as "Sets" and "3".
struct DoseCell {
    Words label;
    Words value;
};

/// How much of the exercise, in the order in which it is read.
std::vector<DoseCell> dose_cells(Voice& voice, const dose::PlannedExercise& exercise);
/// The same as a table: labels above, values below.
Table dose_table(Voice& voice, const dose::PlannedExercise& exercise);
/// What one set is, such as "8 to 12 repetitions" or "45 seconds", for the plan of a stage.
std::string set_phrase(Tongue& tongue, const dose::PlannedExercise& exercise);
/// The phases of a repetition in order, one sentence; nothing where no tempo is given.
std::optional<Words> tempo_sentence(Voice& voice, const dose::PlannedExercise& exercise);
/// "Start low and build up to 45 seconds", and a row a rung; empty where there is no ladder. A
/// rung may be left for the next while pain stays within `carry_on_up_to`.
std::vector<Block> ladder(Voice& voice, const dose::PlannedExercise& exercise, int carry_on_up_to);

/// The length of the holds, where the exercise is held.
std::optional<support::Range<support::Seconds>> hold_length(const prescription::Dose& dose);

} // namespace tickleaf::content
