// SPDX-License-Identifier: MIT
// What the file says about itself: Info, XMP, language, viewer preferences, outline, page labels.
// Dates come from the document alone. Every file is PDF/A-2: level A with a claim of accessibility,
// else level U and no PDF/UA identifier. Source: ISO 32000-1:2008, 12.2, 12.3.3, 12.4.2, 14.3; ISO
// 16684-1 (XMP); ISO 14289-1:2014, 5; ISO 19005-2:2011, 6.2.3, 6.6.
#pragma once

#include <string>
#include <vector>

#include "page/document.h"
#include "pdf/objects.h"

namespace tickleaf::pdf {

void write_metadata(Objects& objects, const page::Document& document, bool claims_accessibility);
void write_outline(Objects& objects, const page::Document& document,
                   const std::vector<Dict>& pages);
/// The XMP packet.
std::string xmp_packet(const page::Document& document, bool claims_accessibility);

} // namespace tickleaf::pdf
