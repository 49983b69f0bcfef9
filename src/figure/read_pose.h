// SPDX-License-Identifier: MIT
// One key pose of an exercise file. Errors: unknown keys, joints and movements, angles out of the
// normal range.
#pragma once

#include <string_view>

#include "figure/authored.h"
#include "yaml/tree.h"

namespace tickleaf::figure {

/// Reads a pose; what is wrong is reported and left out.
KeyPose read_pose(const yaml::Node& node, support::Findings& findings);

} // namespace tickleaf::figure
