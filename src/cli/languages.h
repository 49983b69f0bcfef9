// SPDX-License-Identifier: MIT
// The languages of a command line: "ar,en" asks for two booklets, "ar+en" for one in both. Spaces
// around a tag do not count, its letters may be large or small, and a booklet asked for twice is
// made once.
#pragma once

#include <string>
#include <vector>

namespace tickleaf::cli {

/// The languages of one booklet.
struct Languages {
    std::string first;
    std::string second; ///< empty in a booklet of one language

    friend bool operator==(const Languages&, const Languages&) = default;
};

/// What is wrong with such a list and what to write, or empty. Whether there are catalogs for the
/// languages is not known here.
std::string languages_fault(const std::string& list);
/// A list without fault.
std::vector<Languages> read_languages(const std::string& list);

} // namespace tickleaf::cli
