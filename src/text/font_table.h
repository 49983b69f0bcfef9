// SPDX-License-Identifier: MIT
// The table templates/fonts.yaml as data: families, and which of them sets which script and
// language. Shapes: families are referred to by index; `scripts` and `languages` are sorted by key.
// Errors: unknown keys, families that are named but not described, unusable numbers: findings.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "support/finding.h"
#include "yaml/tree.h"

namespace tickleaf::text {

/// The width a glyph should have, in font units, where a font file has it wrong.
struct GlyphAdvance {
    std::string glyph; ///< its name in the file
    int advance = 0;
};

/// One hand in two weights. `bold` is empty where the regular outlines make the bold, too.
struct Family {
    std::string name;
    std::string package;
    std::string regular;      ///< absolute path
    std::string bold;         ///< absolute path or empty
    double bold_stroke = 0.0; ///< without a bold file: width in ems of a line along the outlines
    unsigned index = 0;       ///< face in a collection
    double line_height = 1.3;
    double closest_lines = 0.0; ///< no page draws lines closer; 0 where the page decides
    std::vector<GlyphAdvance> bold_advances; ///< mends the bold file
};

struct FontTable {
    std::vector<Family> families;
    std::map<std::string, std::size_t, std::less<>> scripts;   ///< ISO 15924 code
    std::map<std::string, std::size_t, std::less<>> languages; ///< language, -Script, -Region
    std::vector<std::size_t> fallback;                         ///< never empty
};

std::optional<FontTable> read_font_table(const yaml::Node& root, support::Findings& findings);

} // namespace tickleaf::text
