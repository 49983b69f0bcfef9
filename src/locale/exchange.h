// SPDX-License-Identifier: MIT
// Catalogs out to a translator as a PO file and back. Shapes: msgctxt is FILE/KEY
// ("booklet/cover.title", "exercises/step-up/step.1", "language/side_words.left"), msgid the
// English. States: untranslated is an empty msgstr; draft is fuzzy; reviewed is not fuzzy; stale is
// fuzzy with "#| msgid", where "[earlier English, hash 1a2b3c4d]" stands for a text that is not
// known any more. Errors: every fault of the file is a finding at its line that names the key; with
// one of them nothing comes back, so that nothing is written. Only a person sets reviewed: a text
// becomes so when it is not fuzzy and the import is told by whom and when.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "locale/catalog.h"
#include "locale/po.h"

namespace tickleaf::locale {

/// Contexts that begin so are texts of a prescription, which the caller brings and takes back.
inline constexpr std::string_view kPrescriptionContext = "prescription/";

/// What an export holds besides the texts that every language must have.
struct Extras {
    std::vector<PoEntry> prescription;
    bool clinician = false; ///< the clinician's copy, though the language has none of it yet
};
/// The PO file of a language; of one that has no catalog yet, an empty one with the plural forms
/// CLDR asks for. Nothing, and findings, where the tag is not a language, or is English.
std::optional<std::string> export_po(std::string_view tag, const Reading& reading,
                                     const Extras& extras = {});

/// Who vouches for the texts that are not fuzzy.
struct Review {
    std::string by; ///< a role, such as "medical translator"
    std::string on; ///< YYYY-MM-DD
};

/// What an import does to one text.
struct TextChange {
    std::string context;
    std::string before; ///< empty where the text is new
    std::string after;
    std::string state_before; ///< "", "draft", "reviewed" or "stale"
    std::string state_after;
};

struct Import {
    std::string tag;
    /// Path below the data folder, and the whole new file; only files that change.
    std::vector<std::pair<std::string, std::string>> files;
    std::vector<TextChange> changes;
    std::vector<PoEntry> prescription; ///< entries of kPrescriptionContext
    int unchanged = 0;
    int untranslated = 0;
};

/// Reads `reading.sources.at(file)` as a PO file and compares it with the catalogs.
std::optional<Import> import_po(int file, const std::optional<Review>& review,
                                const Reading& reading);

} // namespace tickleaf::locale
