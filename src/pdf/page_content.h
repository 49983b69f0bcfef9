// SPDX-License-Identifier: MIT
// One page's items to its content stream, and the list of what was marked for the structure tree.
// Neighbouring items of one tag share a marked-content sequence. The page's y axis is turned here.
// Source: ISO 32000-1:2008, 14.7.4 content items, 14.8.2.2 artifacts; ISO 14289-1:2014, 7.1.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "page/document.h"
#include "pdf/font_codes.h"
#include "pdf/pictures.h"
#include "support/finding.h"

namespace tickleaf::pdf {

class ContentStream;

/// The drawings (by their shapes) that stand in the file more than once and so become form
/// XObjects, in order of first use.
class SharedDrawings {
  public:
    explicit SharedDrawings(const page::Document& document);
    const std::vector<const page::Drawing*>& all() const { return shared_; }
    /// "X0", "X1"..., or empty where the drawing stands once only.
    std::string name(const page::Drawing* drawing) const;

  private:
    std::vector<const page::Drawing*> shared_;
    std::map<const page::Drawing*, const page::Drawing*> alike_; ///< looked up only, never walked
    std::map<const page::Drawing*, std::size_t> index_;          ///< by the first alike
};

/// The operators of a drawing in its own space (y down).
void paint_drawing(ContentStream& stream, const page::Drawing& drawing);

/// A piece of a page that belongs to a structure element, in reading order.
struct Piece {
    enum class Kind { Marked, Annotation };
    Kind kind = Kind::Marked;
    std::size_t tag = 0;
    std::size_t number = 0; ///< MCID, or index of the item that is the link
    std::size_t item = 0;   ///< index of its first item
};

struct PageContent {
    std::string stream;
    std::vector<Piece> pieces;
    std::size_t marked = 0; ///< MCIDs are 0 to marked - 1
};

/// What all pages share while they are written.
struct ContentContext {
    const page::Document& document;
    const SharedDrawings& drawings;
    const Pictures& pictures;
    std::vector<FontCodes>& fonts;             ///< one a document font
    const std::vector<std::string>& languages; ///< one a tag: the language that holds inside it
    support::Findings& findings;
};

PageContent write_page(const page::Page& page, const ContentContext& context);

/// The structure type's name of a role.
const char* role_name(page::Tag::Role role);

} // namespace tickleaf::pdf
