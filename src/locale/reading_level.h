// SPDX-License-Identifier: MIT
// How hard a text is to read, by the formula published for its language. Shapes: Counts of a whole
// booklet's prose; short cards leave every scale, so a score below kFewestWords words is not given.
// No formula is claimed where none is agreed (ar, bn, fa, hi, ja, ko, th, ur, vi, zh: the list of
// the check values, section 5). Arabic's OSMAN needs vowel signs, which handouts do not print.
// Sources beside the rows of reading_level.cpp.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace tickleaf::locale {

struct ReadingCounts {
    int words = 0;
    int sentences = 0;
    int syllables = 0;
    int letters = 0;
    int long_words = 0;    ///< more than 6 letters
    int polysyllables = 0; ///< 3 syllables or more
    int four_syllables = 0;
    int one_syllable = 0;
    void add(const ReadingCounts& other);
};

/// A word that makes a text hard, and how often it stands in it.
struct HardWord {
    std::string word;
    int syllables = 0;
    bool operator==(const HardWord&) const = default;
};

struct CountedText {
    ReadingCounts counts;
    std::vector<HardWord> hard; ///< in the order of the text, each time it is used
};
/// Counts one text: it ends with a sentence's end, written or not. Apostrophes and hyphens join a
/// word; a run of digits is a word of one syllable a digit.
CountedText count_reading(std::string_view tag, std::string_view text);

struct ReadingScore {
    std::string formula; ///< "Flesch-Kincaid grade"
    std::string source;
    double value = 0.0;
    bool is_grade =
        false;            ///< school years, lower is easier; else a scale on which higher is easier
    bool is_easy = false; ///< in the formula's own easy band, or at grade 6 or below
};

/// Fewer words than these give no score (check values, section 5).
inline constexpr int kFewestWords = 100;
/// The grade that patient texts should not exceed (AMA and NIH, as cited by Eltorai et al. 2015).
inline constexpr double kHighestGrade = 6.0;

/// The formulas of a language, the leading one first; empty where none is agreed, or the text is
/// too short.
std::vector<ReadingScore> reading_scores(std::string_view tag, const ReadingCounts& counts);

/// One formula by its name on any counts, for checks against published examples.
std::optional<double> reading_formula(std::string_view name, const ReadingCounts& counts);

} // namespace tickleaf::locale
