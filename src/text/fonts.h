// SPDX-License-Identifier: MIT
// The fonts of a run: the table templates/fonts.yaml (script and style to files), and the loaded
// faces. Immutable once loaded, shared by threads. A file is mapped when first needed; a missing
// file is a finding that names the Debian package to install.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "page/document.h"
#include "support/environment.h"
#include "support/finding.h"

namespace tickleaf::text {

enum class Weight { Regular, Bold };

/// Whether the fonts of one language are installed, and what to install where not.
struct FontState {
    bool ready = false;
    std::vector<std::string> missing_packages;
};

class Fonts {
  public:
    /// Reads the table; faces load on demand. Nothing where the table itself is unusable.
    static std::shared_ptr<const Fonts> load(const support::Environment& environment,
                                             support::Sources& sources,
                                             support::Findings& findings);
    ~Fonts();
    FontState state(std::string_view language) const;

    /// x-height of the main face of a language in fractions of the type size (OS/2 sxHeight /
    /// unitsPerEm).
    double x_height(std::string_view language) const;
    /// Least line height of the main face as a factor of the type size (Nastaliq needs more).
    double line_height(std::string_view language) const;

    struct Impl;
    const Impl& impl() const { return *impl_; }

  private:
    Fonts();
    std::unique_ptr<Impl> impl_;
};

/// The fonts used by one document. Runs refer to them by index; embed() makes the subsets when all
/// is laid out.
class FontSet {
  public:
    explicit FontSet(std::shared_ptr<const Fonts> fonts);
    ~FontSet();
    FontSet(FontSet&&) noexcept;
    FontSet& operator=(FontSet&&) noexcept;
    const Fonts& fonts() const;
    struct Impl;
    Impl& impl() { return *impl_; }

  private:
    std::unique_ptr<Impl> impl_;
};

/// One subset a font, from the glyphs that the document's runs use; fills document.fonts.
void embed(FontSet& set, page::Document& document, support::Findings& findings);

} // namespace tickleaf::text
