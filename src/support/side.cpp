// SPDX-License-Identifier: MIT
#include "support/side.h"

namespace tickleaf::support {

std::string_view to_word(Side side) {
    switch (side) {
    case Side::Left:
        return "left";
    case Side::Right:
        return "right";
    case Side::Both:
        return "both";
    case Side::None:
        return "none";
    }
    return "none";
}

Side opposite(Side side) {
    switch (side) {
    case Side::Left:
        return Side::Right;
    case Side::Right:
        return Side::Left;
    case Side::Both:
    case Side::None:
        return side;
    }
    return side;
}

std::optional<Side> side_from_word(std::string_view word) {
    for (const Side side : {Side::Left, Side::Right, Side::Both, Side::None}) {
        if (word == to_word(side)) {
            return side;
        }
    }
    return std::nullopt;
}

} // namespace tickleaf::support
