// SPDX-License-Identifier: MIT
// Seconds and counts of one exercise line, and of a stage's sessions, days and weeks.
// Units: seconds and counts, exact; see ExerciseTotals for what each holds.
#pragma once

#include <vector>

#include "dose/schedule.h"

namespace tickleaf::dose {

/// How often a line is done.
struct Frequency {
    Range<int> days_per_week{7, 7};
    int weeks = 1;
    int sides = 1;
};

ExerciseTotals totals_of(const prescription::Dose& dose,
                         const std::optional<prescription::Tempo>& tempo,
                         const Frequency& frequency);

/// Fills all sums of a stage (session, day, week, sessions, exercise days) from its exercises.
void sum_up(PlannedStage& stage);

} // namespace tickleaf::dose
