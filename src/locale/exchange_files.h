// SPDX-License-Identifier: MIT
// The new bytes of catalog files after an import: what people wrote around the texts stays. Used by
// exchange only. Errors: a file whose lines cannot be changed singly is a finding; what was built
// is read again and compared text by text, so that no text is lost on the way.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "locale/catalog.h"
#include "locale/exchange_parts.h"

namespace tickleaf::locale {

using NewFiles = std::vector<std::pair<std::string, std::string>>;
/// Whole key to its new entry.
using NewEntries = std::map<std::string, Entry>;

/// Files of one language with these entries put in.
NewFiles catalog_files(std::string_view tag, const std::vector<Sheet>& sheets,
                       const NewEntries& entries, const Reading& reading);
/// language.yaml with the own name, the side words and the glossary of `language`; a whole new file
/// where there is none.
std::optional<std::string> language_file(const LanguageFile& language, bool is_new,
                                         const Reading& reading);
/// Whether the catalogs with these files say what they said before, but for the new entries.
bool reads_back(std::string_view tag, const NewFiles& files, const Catalog& before,
                const NewEntries& entries, const Reading& reading);

} // namespace tickleaf::locale
