// SPDX-License-Identifier: MIT
// The quantities of a dose and their bounds, shared by the compact notation and the map form, so
// that both accept exactly the same values.
#pragma once

#include "prescription/quantity.h"

namespace tickleaf::prescription {

inline Quantity sets_quantity() {
    return {"sets", kMostSets, true};
}
inline Quantity repetitions_quantity() {
    return {"repetitions", kMostRepetitions, true};
}
inline Quantity holds_quantity() {
    return {"holds in a set", kMostHolds, true};
}
inline Quantity cap_quantity() {
    return {"repetitions at most", kMostRepetitions, true};
}
inline Quantity hold_quantity() {
    return {"the hold", kLongestHoldSeconds, false};
}
inline Quantity time_quantity() {
    return {"the time", kLongestTimeSeconds, false};
}
inline Quantity rest_quantity() {
    return {"the rest", kLongestRestSeconds, false};
}
inline Quantity per_day_quantity() {
    return {"times a day", kMostTimesADay, true};
}
inline Quantity days_per_week_quantity() {
    return {"days a week", kDaysAWeek, true};
}

} // namespace tickleaf::prescription
