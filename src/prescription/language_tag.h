// SPDX-License-Identifier: MIT
// Language tags by their shape: whether a tag could be one, and whether one serves another.
// Source: BCP 47 (RFC 5646, section 2.1, langtag without extended language, extension and private
// use; RFC 4647, section 3.4, lookup). Whether there is a catalog for the language is not known
// here.
#pragma once

#include <string>
#include <string_view>

namespace tickleaf::prescription {

/// language ["-" script] ["-" region] {"-" variant}; a language has 2 or 3 letters.
bool is_language_tag(std::string_view tag);
/// What to write instead, or empty.
std::string language_tag_hint(std::string_view tag);
/// Tags are compared without regard to case.
bool is_same_tag(std::string_view a, std::string_view b);
/// The tag as it is usually written: "zh-Hans", "pt-BR" (RFC 5646, section 2.1.1).
std::string usual_case(std::string_view tag);

} // namespace tickleaf::prescription
