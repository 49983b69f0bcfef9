// SPDX-License-Identifier: MIT
// The embedded fonts as PDF objects: Type 0 with Identity-H, a CIDFont with widths, the font
// program, the map from codes to glyphs and the map from codes to text. Source: ISO
// 32000-1:2008, 9.7 composite fonts, 9.8 descriptors, 9.9 programs, 9.10.3 ToUnicode CMaps; ISO
// 14289-1:2014, 7.21.
#pragma once

#include <string>
#include <vector>

#include "pdf/font_codes.h"
#include "pdf/objects.h"

namespace tickleaf::pdf {

/// The font resources of the document: /F0, /F1... by index; fonts that show nothing are left out.
Dict font_resources(Objects& objects, const std::vector<FontCodes>& fonts);

/// The ToUnicode CMap of these codes, sorted by code.
std::string to_unicode_map(const std::vector<FontCodes::Entry>& entries);

} // namespace tickleaf::pdf
