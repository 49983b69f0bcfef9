// SPDX-License-Identifier: MIT
// The embedded fonts as PDF objects: Type 0 with Identity-H or a CMap of their own for the short
// coding, a CIDFont with widths, the font program, the map from codes to glyphs and the map from
// codes to text. Source: ISO 32000-1:2008, 9.7 composite fonts, 9.8 descriptors, 9.9
// programs, 9.10.3 ToUnicode CMaps; ISO 14289-1:2014, 7.21.
#pragma once

#include <string>
#include <vector>

#include "pdf/font_codes.h"
#include "pdf/objects.h"

namespace tickleaf::pdf {

/// The font resources of the document: /F0, /F1... by index; fonts that show nothing are left out.
Dict font_resources(Objects& objects, const std::vector<FontCodes>& fonts);

/// The ToUnicode CMap of what these codes were used for.
std::string to_unicode_map(const FontCodes& codes);
/// The CMap that leads from the short coding to the codes' numbers, for codes up to `last`.
std::string short_code_map(std::uint16_t last);

} // namespace tickleaf::pdf
