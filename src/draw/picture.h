// SPDX-License-Identifier: MIT
// A clinic's logo, PNG or SVG, to pixels as large as its place on paper can show (300 dots an inch:
// what print is made for, common practice). PNG by cairo, SVG by librsvg.
// Errors: findings at the place that names the file. Nothing in the file can lead out of it: an
// SVG that refers to anything outside, that runs or loads something, or whose looks depend on the
// machine's fonts is refused before it is drawn. Cost: bounded, see the limits below.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "page/document.h"
#include "support/finding.h"

namespace tickleaf::draw {

/// Larger files and pictures are refused: 16 megapixels are a hand's breadth at 1200 dots an inch.
inline constexpr std::size_t kMostPictureBytes = std::size_t{4} << 20;
inline constexpr double kMostPicturePixels = 16e6;

struct PictureFile {
    std::string name; ///< ends in .png or .svg
    std::string bytes;
    support::Span span{}; ///< where it is named
    double width = 0.0;   ///< of the box it has to fit, in points
    double height = 0.0;
};

/// On white, in its own proportions, as large as the box or as it is.
std::optional<page::Picture> read_picture(const PictureFile& file, support::Findings& findings);

} // namespace tickleaf::draw
