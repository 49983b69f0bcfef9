// SPDX-License-Identifier: MIT
#include "locale/text_part.h"

#include <algorithm>

namespace tickleaf::locale {

bool is_safety_key(std::string_view key) {
    constexpr std::string_view kExercise = "exercise.";
    constexpr std::string_view kNote = ".safety";
    return key.starts_with("safety.") || key.starts_with("phrase.safety.") ||
           (key.starts_with(kExercise) && key.ends_with(kNote));
}

TextPart part_of(std::string_view key) {
    // Numbers and times are read as part of a dose.
    constexpr std::array<std::string_view, 5> kDoses = {"dose.", "tempo.", "ladder.", "number.",
                                                        "duration."};
    if (is_safety_key(key)) {
        return TextPart::Safety;
    }
    if (key.starts_with("exercise.") || key.starts_with("phrase.")) {
        return TextPart::Exercises;
    }
    if (key.starts_with("clinician.")) {
        return TextPart::Clinician;
    }
    const bool is_dose = std::any_of(kDoses.begin(), kDoses.end(), [key](std::string_view begin) {
        return key.starts_with(begin);
    });
    return is_dose ? TextPart::Doses : TextPart::PageWords;
}

std::string_view name_of(TextPart part) {
    switch (part) {
    case TextPart::Safety:
        return "safety";
    case TextPart::Doses:
        return "doses";
    case TextPart::Exercises:
        return "exercises";
    case TextPart::PageWords:
        return "page words";
    case TextPart::Clinician:
        return "clinician";
    }
    return "";
}

} // namespace tickleaf::locale
