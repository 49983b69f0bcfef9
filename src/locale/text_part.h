// SPDX-License-Identifier: MIT
// Which part of a booklet a text belongs to, so that review can begin where it matters most.
#pragma once

#include <array>
#include <string_view>

namespace tickleaf::locale {

enum class TextPart { Safety, Doses, Exercises, PageWords, Clinician };

inline constexpr std::array kTextParts = {TextPart::Safety, TextPart::Doses, TextPart::Exercises,
                                          TextPart::PageWords, TextPart::Clinician};

TextPart part_of(std::string_view key);
/// "safety", "doses", "exercises", "page words", "clinician".
std::string_view name_of(TextPart part);
/// Texts that keep the patient safe: "safety.*", the safety note of an exercise and
/// its phrases "phrase.safety.*".
bool is_safety_key(std::string_view key);

} // namespace tickleaf::locale
