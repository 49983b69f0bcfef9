// SPDX-License-Identifier: MIT
// The free texts of one prescription as texts to translate, and back into the file that a clinician
// wrote. Shapes: contexts "prescription/problem", "prescription/stages.1.exercises.2.note", counted
// from 1. Texts without a language serve every language and are not exchanged. Errors: where the
// file's layout does not let a text in, a finding with the line to write by hand.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "locale/po.h"
#include "support/finding.h"
#include "support/source.h"

namespace tickleaf::cli {

/// All free texts, English or else the first language given as source.
std::vector<locale::PoEntry> free_texts(int file, const support::Sources& sources,
                                        const std::string& language, support::Findings& findings);

struct NewPrescription {
    std::string text;
    std::vector<std::string> changed; ///< contexts
};
/// The prescription with these texts. Fuzzy ones are left out with a warning: a booklet has no
/// place to say that a note is a draft.
std::optional<NewPrescription> with_texts(int file, const std::vector<locale::PoEntry>& entries,
                                          const std::string& language, support::Sources& sources,
                                          support::Findings& findings);

} // namespace tickleaf::cli
