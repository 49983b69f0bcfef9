// SPDX-License-Identifier: MIT
// The ICC profile of sRGB, in which all colours of a Document are given. The only place of the
// house that includes Little CMS. The same bytes at any time: the date in the profile's header is a
// fixed one. Source: ICC.1:2004-10 (profile version 4.2), 7.2 header; IEC 61966-2-1 (sRGB).
#pragma once

#include <string>

namespace tickleaf::pdf {

/// The name by which the profile's colour space is known.
inline constexpr const char* kColourProfileName = "sRGB IEC61966-2.1";

/// Empty only where memory is short.
std::string srgb_profile();

} // namespace tickleaf::pdf
