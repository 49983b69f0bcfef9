// SPDX-License-Identifier: MIT
// The texts of one language as they stand in its catalog files: not yet messages, only texts with
// their place, the English they were made from and who vouches for them. Shapes: a Catalog gathers
// several files; exercise files' local keys get their prefix here. Errors: wrong structure, states,
// hashes and dates: findings with file, line, key.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "locale/language.h"
#include "support/environment.h"
#include "support/finding.h"
#include "support/source.h"

namespace tickleaf::locale {

inline constexpr std::string_view kSourceTag = "en";
/// The file of the clinician's copy, which no language but English need have.
inline constexpr std::string_view kClinicianFile = "clinician";

/// One text. `state` is Source, Draft or Reviewed; whether it is stale depends on the English.
struct Entry {
    std::string text;                 ///< in full; empty where it lacks a phrase
    std::string written;              ///< as in the file: phrases are named, see phrases.h
    std::vector<std::string> phrases; ///< keys of those it names
    std::string lacks;                ///< key of a phrase that cannot be put in
    bool is_inherited = false;        ///< not in the file: nothing but a phrase, as in English
    support::Span span{};             ///< of the text
    std::string of;                   ///< hash of the English; empty in English
    ReviewState state = ReviewState::Source;
    std::string by; ///< role of the reviewer
    std::string on; ///< date of the review, YYYY-MM-DD
};

struct Catalog {
    std::map<std::string, Entry, std::less<>> texts;
    const Entry* find(std::string_view key) const;
};

/// Which file of which language, and how its keys begin.
struct CatalogFile {
    std::string tag;
    std::string path;   ///< below the data folder
    std::string prefix; ///< "exercise.ID." or empty
};
CatalogFile main_file(std::string_view tag, std::string_view name);
CatalogFile phrase_file(std::string_view tag);
CatalogFile exercise_file(std::string_view tag, std::string_view id);

/// Where data and findings go while reading.
struct Reading {
    const support::Environment& environment;
    support::Sources& sources;
    support::Findings& findings;
};

/// Adds the texts of one file, in full where the phrases are there before. False where there is no
/// such file; its contents' faults are findings.
bool read_catalog(const CatalogFile& file, const Reading& reading, Catalog& catalog);
/// All files a patient's language must have: phrases, booklet, units and every exercise.
Catalog read_all_catalogs(std::string_view tag, const Reading& reading);

/// Lower-case letters, digits and hyphens: what may stand in a path.
bool is_plain_name(std::string_view name);
/// The state of an entry by itself, against the English entry it should be made from (nullptr where
/// there is none).
ReviewState state_of(const Entry& entry, const Entry* english);
/// How far the text of a key can be trusted: not further than the phrases in it. The key is in
/// `own`.
ReviewState state_of(std::string_view key, const Catalog& own, const Catalog& english);

} // namespace tickleaf::locale
