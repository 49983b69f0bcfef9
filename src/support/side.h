// SPDX-License-Identifier: MIT
// Body side. A wrong side is the worst bug there is, so it is a type and never a string or a bool.
#pragma once

#include <optional>
#include <string_view>

namespace tickleaf::support {

/// Side of the body. Both: each side in turn or together; None: the exercise has no sides.
enum class Side { Left, Right, Both, None };

/// "left", "right", "both", "none": the words of prescriptions and of select arguments in catalogs.
std::string_view to_word(Side side);
/// The other side; Both and None stay as they are.
Side opposite(Side side);
std::optional<Side> side_from_word(std::string_view word);

} // namespace tickleaf::support
