// SPDX-License-Identifier: MIT
// Shaped runs and embedded subsets for tests of the writer, made straight with HarfBuzz, so that
// the writer is tested without the rooms above it. One script and direction a run; no line
// breaking, no bidi. Units: points for runs, font units for fonts.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "page/document.h"

namespace tickleaf::testing {

class TestFonts {
  public:
    TestFonts() = default;
    ~TestFonts();
    TestFonts(const TestFonts&) = delete;
    TestFonts& operator=(const TestFonts&) = delete;

    /// False where the font is not installed.
    bool add(const std::string& path, unsigned face_index = 0);
    page::GlyphRun shape(std::size_t font, const std::string& text, const std::string& language,
                         bool right_to_left, double size) const;
    /// Fills document.fonts with subsets of what the pages use.
    void embed(page::Document& document) const;
    /// The whole font program instead of a subset.
    page::Font whole(std::size_t font) const;

  private:
    struct Face;
    std::vector<Face*> faces_;
};

} // namespace tickleaf::testing
