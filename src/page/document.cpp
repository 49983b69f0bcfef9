// SPDX-License-Identifier: MIT
#include "page/document.h"

namespace tickleaf::page {

double GlyphRun::width() const {
    double sum = 0.0;
    for (const Glyph& glyph : glyphs) {
        sum += glyph.advance;
    }
    return sum;
}

} // namespace tickleaf::page
