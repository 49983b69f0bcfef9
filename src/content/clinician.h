// SPDX-License-Identifier: MIT
// The tables of the clinician's copy, each made by one function; used by compose_clinician_copy()
// only. Numbers come from dose/ as they are; minutes are rounded up, percentages too.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "check/check.h"
#include "content/parts.h"
#include "content/reading.h"

namespace tickleaf::content {

/// Patient, problem, clinic; dates, limits, pain rule: side by side.
Block clinician_facts(Desk& desk);
/// Days, sessions, minutes and criteria, a stage a row.
Table clinician_stages(Desk& desk);
/// Dose, time and work of every exercise, stage by stage.
Table clinician_exercises(Desk& desk);
/// Repetitions and holds of a week and of a stage, by side.
Table clinician_sides(Desk& desk);
/// Work by family of exercise, stage by stage, with the change.
Table clinician_families(Desk& desk);
/// Rung by rung; no rows but the head where there is no ladder.
Table clinician_ladders(Desk& desk);
/// Weeks by days, with sessions and the exercises due.
Table clinician_calendar(Desk& desk);
/// Every rule with what came of it and its source.
Table clinician_checks(Desk& desk, const std::vector<check::Verdict>& verdicts);
/// The reading level of the patient's booklet, each language with its formula, in one line.
Words clinician_reading(Desk& desk, const std::vector<ClinicianReading>& readings);

// Shared by the tables.

/// A table of the copy with its head row; `keys` are the heads' texts.
Table clinician_table(Desk& desk, std::string_view caption, const std::vector<Words>& heads);
/// A whole row under one head, such as a stage's name above its exercises.
Row clinician_band(Words words, std::size_t columns);
/// What the clinician wrote, in the copy's language or, where that is missing, in another.
Words clinician_wrote(Desk& desk, const prescription::FreeText& text);
/// "2 Strengthen".
Words clinician_stage_name(Desk& desk, std::size_t stage);
/// A notation of the prescription file, such as "3 x 8-12": English and left to right everywhere.
Words clinician_notation(Desk& desk, const std::string& notation);
/// A range of counts, in digits.
Words clinician_range(Desk& desk, support::Range<std::int64_t> range);
/// Whole minutes, rounded up.
Words clinician_minutes(Desk& desk, support::Range<support::Seconds> range);
/// How much the second is of the first, in percent at both ends; "first" where there is no first,
/// "new" where it is nothing.
Words clinician_change(Desk& desk, const support::Range<std::int64_t>* before,
                       support::Range<std::int64_t> now);

} // namespace tickleaf::content
