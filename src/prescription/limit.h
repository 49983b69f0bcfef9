// SPDX-License-Identifier: MIT
// Precautions as the clinician writes them.
// Grammar (EBNF; words in any case):
//   limit    = "no", "impact"
//            | "no", "weight", "on", [ side ], part
//            | "partial", "weight", "on", [ side ], part
//            | [ side ], joint, movement, { movement word }, "at", "most", number, "degrees" ;
//   side     = "left" | "right" | "both" ;    part = "leg" | "arm" ;
//   joint and movement: the table in limit.cpp, such as "ankle inversion" and "hip medial
//   rotation".
// A limit without a side holds for both. Units: degrees.
// Errors: limit-syntax, with the nearest known word; a movement that the joint does not have.
#pragma once

#include <optional>

#include "prescription/prescription.h"

namespace tickleaf::prescription {

std::optional<Limit> read_limit(const yaml::Node& node, support::Findings& findings);

} // namespace tickleaf::prescription
