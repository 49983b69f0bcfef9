// SPDX-License-Identifier: MIT
// Which days of a week which exercises fall on, and the days of the whole programme.
// Units: day 0 is the weekday of the start day. Dates are calendar days without time of day, so
// that daylight saving cannot move them.
#pragma once

#include <array>
#include <vector>

#include "dose/schedule.h"

namespace tickleaf::dose {

/// For each day of a week the indexes of what is due, in order. `days[i]` (1..7) is how often i is
/// done. What is done less often than the rest falls on days on which there are exercises anyway,
/// as far apart as these allow.
std::array<std::vector<std::size_t>, 7> week_plan(const std::vector<int>& days);

/// The day `offset` days after another.
Date days_after(const Date& date, int offset);

/// All days of all stages, in order.
std::vector<PlannedDay> all_days(const std::vector<PlannedStage>& stages,
                                 const std::optional<Date>& starts);

} // namespace tickleaf::dose
