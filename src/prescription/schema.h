// SPDX-License-Identifier: MIT
// The JSON Schema of a prescription, so that editors complete and check while it is typed. Written
// from the field table that the reader asks through (fields.h); bounds come from the reader's own.
// It is wider than the reader where a pattern cannot say the rule: whatever reads without an error
// is valid, but not the other way round (order of weeks, reversed ranges, one kind of set only).
// Source: JSON Schema draft 2020-12, Core and Validation; plain scalars are typed as in YAML 1.2.2,
// 10.3.2 (core schema), so that counts may be numbers or text.
#pragma once

#include <string>

namespace tickleaf::prescription {

/// The text of templates/prescription.schema.json.
std::string json_schema();

} // namespace tickleaf::prescription
