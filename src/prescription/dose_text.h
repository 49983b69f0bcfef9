// SPDX-License-Identifier: MIT
// The compact notation of a dose: a recursive-descent parser of the grammar in dose_form.h.
// Errors: one finding for each clause that does not read; the other clauses are still checked.
#pragma once

#include <optional>

#include "prescription/dose_form.h"

namespace tickleaf::prescription {

/// `node` is a scalar.
std::optional<Dose> read_dose_text(const yaml::Node& node, support::Findings& findings);

} // namespace tickleaf::prescription
