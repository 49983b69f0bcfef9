// SPDX-License-Identifier: MIT
// Small phrases of exercise files: "work heel", "both foot on floor". Errors: unknown words, each
// with the nearest known one.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "figure/authored.h"
#include "support/finding.h"

namespace tickleaf::figure {

/// Words of a phrase parted by spaces.
std::vector<std::string_view> split_words(std::string_view text);

/// Reports an unknown word: what kind of word it should be, and the nearest one.
void unknown_word(std::string_view kind, std::string_view word,
                  const std::vector<std::string>& known, const support::Span& span,
                  support::Findings& findings);

/// "work heel", "head": the landmarks it names, right before left.
std::vector<Landmark> read_spots(std::string_view text, const support::Span& span,
                                 support::Findings& findings);
/// "work forefoot": where a band sits, right before left.
std::vector<BandSpot> read_band_spots(std::string_view text, const support::Span& span,
                                      support::Findings& findings);
/// "both foot": simple parts.
std::vector<PartName> read_part(std::string_view text, const support::Span& span,
                                support::Findings& findings);
/// "work shank", "trunk".
std::vector<WorkingPart> read_working(std::string_view text, const support::Span& span,
                                      support::Findings& findings);

} // namespace tickleaf::figure
