// SPDX-License-Identifier: MIT
// A message tree with its values put in. Every value is isolated where bidi could turn it round;
// counts print through Formats::number, and choose the plural branch by their integer, never by
// their printed form. Errors: a missing value or one of the wrong type is told, not skipped: a
// wrong side or number is the worst bug.
#pragma once

#include <string>
#include <vector>

#include "locale/formats.h"
#include "locale/language.h"
#include "locale/pattern.h"

namespace tickleaf::locale {

/// The text, and what was wrong with the values.
struct Rendered {
    std::string text;
    struct Problem {
        std::string id; ///< "value-missing" or "value-type"
        std::string message;
    };
    std::vector<Problem> problems;
};

Rendered render(const Pattern& pattern, const Arguments& arguments, const Formats& formats);

} // namespace tickleaf::locale
