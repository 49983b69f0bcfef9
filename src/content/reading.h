// SPDX-License-Identifier: MIT
// How hard a whole booklet is to read: the prose that a patient reads in sentences (paragraphs,
// list items, boxes to tick, frames), not labels, tables and headings. For `check` and the
// clinician's copy. Each language of a booklet has a report of its own.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "content/booklet.h"
#include "locale/reading_level.h"

namespace tickleaf::content {

/// A word of many syllables and where it stands.
struct HardWordUse {
    std::string word;
    int syllables = 0;
    int times = 0;
    std::string key;      ///< of the text where it stands first; empty in free text
    support::Span span{}; ///< where free text was written
};

struct ReadingReport {
    std::string language;
    locale::ReadingCounts counts;
    std::vector<locale::ReadingScore> scores; ///< the leading formula first; empty: none is claimed
    std::vector<HardWordUse> hard_words;      ///< the most used first
};

/// One report a language of the booklet, the first language first.
std::vector<ReadingReport> reading_reports(const Booklet& booklet);

/// How hard the patient's booklet is to read in one of the patient's languages, for the
/// clinician's copy.
struct ClinicianReading {
    std::string name;                    ///< the language's own
    std::optional<ReadingReport> report; ///< none where no booklet can be made in it yet
};

} // namespace tickleaf::content
