// SPDX-License-Identifier: MIT
// Numbers to and from text without any locale: std::to_chars and std::from_chars behind two names.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace tickleaf::support {

/// At most `decimals` places, no exponent, no trailing zeros, never "-0".
std::string fixed(double value, int decimals);
/// The whole text as a decimal integer (no sign but a leading minus, no spaces, no octal), or
/// nothing.
std::optional<std::int64_t> parse_integer(std::string_view text);
/// The whole text as a finite decimal number with a point, or nothing.
std::optional<double> parse_decimal(std::string_view text);

} // namespace tickleaf::support
