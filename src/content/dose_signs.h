// SPDX-License-Identifier: MIT
// A dose in signs for people who do not read: boxes are sets, a ring arrow repetitions, a clock
// time held or spent, two bars rest, suns times a day, seven squares the days of a week. Numbers
// are in the reader's digits; a range is its two numbers with an arrow from the low to the high
// one, each a label of its own, so that bidi cannot turn it round. Units: points at natural size.
// Source: common practice.
#pragma once

#include "content/voice.h"
#include "dose/schedule.h"
#include "page/drawing.h"

namespace tickleaf::content {

page::Drawing dose_signs(Tongue& tongue, const dose::PlannedExercise& exercise);

} // namespace tickleaf::content
