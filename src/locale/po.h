// SPDX-License-Identifier: MIT
// PO files, the exchange format of translators' tools: reading and writing, nothing of what the
// texts mean. Shapes: a PoFile is a header and entries in file order; texts are unescaped UTF-8.
// Errors: every fault of a file is a finding with line and column; nothing is read where there was
// one. Only what the exchange needs is accepted: one text an entry (plural forms live inside the
// text), UTF-8. Source: GNU gettext manual, chapter "The Format of PO Files"; msgfmt and msgmerge
// are the outside check in tests/translate.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "support/finding.h"
#include "support/source.h"

namespace tickleaf::locale {

/// One text with all that stands around it.
struct PoEntry {
    std::vector<std::string> notes;      ///< "# ": the translator's own
    std::vector<std::string> extracted;  ///< "#. ": explanations from the source
    std::vector<std::string> references; ///< "#: "
    bool fuzzy = false;
    std::optional<std::string> previous; ///< "#| msgid": the source it was made from
    std::string context;
    std::string source;      ///< msgid
    std::string translation; ///< msgstr; empty where untranslated
    support::Span span{};    ///< of the msgctxt
    support::Span translation_span{};
};

struct PoFile {
    std::vector<std::string> notes;                          ///< above the header
    std::vector<std::pair<std::string, std::string>> header; ///< "Language": "es"
    std::vector<PoEntry> entries;
    int obsolete = 0; ///< entries that a tool has put aside with "#~"
    /// The value of a header field, or empty.
    std::string field(std::string_view name) const;
};

std::string write_po(const PoFile& file);
/// Reads `sources.at(file)`. Nothing where findings were added.
std::optional<PoFile> read_po(const support::Sources& sources, int file,
                              support::Findings& findings);

} // namespace tickleaf::locale
