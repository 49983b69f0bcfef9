// SPDX-License-Identifier: MIT
// Pictures in pixels as image XObjects, each once however often it stands in the document.
// Source: ISO 32000-1, 8.9.5; DeviceRGB and DeviceGray under an sRGB output intent: ISO 19005-2,
// 6.2.4.3.
#pragma once

#include <string>
#include <vector>

#include "page/document.h"
#include "pdf/objects.h"

namespace tickleaf::pdf {

/// The pictures of a document in order of first use.
class Pictures {
  public:
    explicit Pictures(const page::Document& document);
    const std::vector<const page::Picture*>& all() const { return all_; }
    /// "I0", "I1"...
    std::string name(const page::Picture& picture) const;

  private:
    std::vector<const page::Picture*> all_;
};

/// Writes them and puts them into the resources under their names.
void add_pictures(Objects& objects, const Pictures& pictures, Dict resources);

} // namespace tickleaf::pdf
