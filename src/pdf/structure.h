// SPDX-License-Identifier: MIT
// The structure tree: elements, attributes, the way from content to elements (ParentTree) and back,
// and the link annotations that belong to elements. A Div without content, language or text of its
// own is left out, its kids hang below its parent. Source: ISO 32000-1:2008, 14.7 logical
// structure, 14.8.4-14.8.5 types and attributes; ISO 14289-1:2014, 7.
#pragma once

#include <string>
#include <vector>

#include "page/document.h"
#include "pdf/objects.h"
#include "pdf/page_content.h"

namespace tickleaf::pdf {

/// A page that is in the file, with what was marked on it.
struct WrittenPage {
    Dict object;
    PageContent content;
};

/// Adds links to the pages, the tree to the catalog. A document without tags gets its links only.
void write_structure(Objects& objects, const page::Document& document,
                     std::vector<WrittenPage>& pages);

/// The language that holds inside each tag.
std::vector<std::string> tag_languages(const page::Document& document);

} // namespace tickleaf::pdf
