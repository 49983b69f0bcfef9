// SPDX-License-Identifier: MIT
// What the file says about itself: Info, XMP, language, viewer preferences, outline, page labels.
// Dates come from the document alone. Without a claim of accessibility no PDF/UA identifier is
// written. Source: ISO 32000-1:2008, 12.2, 12.3.3, 12.4.2, 14.3; ISO 16684-1 (XMP); ISO
// 14289-1:2014, 5.
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
