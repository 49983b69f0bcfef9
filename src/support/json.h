// SPDX-License-Identifier: MIT
// The one JSON type of the house (nlohmann-json, keys in the order they were written). Included by
// the dump.cpp file of each room only: every type on the way from prescription to page can be
// printed.
#pragma once

#include <nlohmann/json.hpp>

namespace tickleaf::support {

using Json = nlohmann::ordered_json;

} // namespace tickleaf::support
