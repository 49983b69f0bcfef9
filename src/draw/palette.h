// SPDX-License-Identifier: MIT
// The few colours of every drawing, and the contrast formula that they are held against.
// Source: WCAG 2.x relative luminance and contrast ratio; 3:1 for graphics (1.4.11), 4.5:1 for text
// (1.4.3).
#pragma once

#include "page/drawing.h"

namespace tickleaf::draw {

inline constexpr page::Colour kInk{0x1C, 0x21, 0x26};    ///< body
inline constexpr page::Colour kAccent{0x0F, 0x4C, 0x5C}; ///< the part that works
inline constexpr page::Colour kMuted{0x59, 0x59, 0x59};  ///< outlines of furniture and far limbs
inline constexpr page::Colour kArrow{0xB3, 0x40, 0x0F};  ///< movement; dark enough in grey
inline constexpr page::Colour kFar{0x8C, 0x96, 0x9C};    ///< far limbs: dark enough to be copied
inline constexpr page::Colour kPale{0xC9, 0xD0, 0xD4};   ///< ghost, floor: carries no meaning alone
inline constexpr page::Colour kTint{0xE9, 0xEE, 0xF0};   ///< inside of furniture
inline constexpr page::Colour kWhite{0xFF, 0xFF, 0xFF};

/// Contrast ratio of two colours, 1 to 21.
double contrast(page::Colour first, page::Colour second);

} // namespace tickleaf::draw
