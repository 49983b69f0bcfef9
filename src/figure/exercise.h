// SPDX-License-Identifier: MIT
// An exercise file (figures/ID.yaml): facts for planning and checking, poses for drawing. No words
// for patients. Units: degrees, millimetres or fractions of stature as each key says
// (figures/README.md). Errors: unknown joints, props and keys, angles out of range, missing parts:
// findings with position.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "figure/scene.h"
#include "support/finding.h"
#include "yaml/tree.h"

namespace tickleaf::figure {

enum class WeightBearing { None, Partial, Both, Single };
enum class DoseKind { Hold, Strength, Mobility, Stretch, Balance, Walk };

/// The facts of an exercise that other rooms plan and check with.
struct Facts {
    std::string id;
    std::string region;   ///< "ankle", "knee"...
    std::string family;   ///< what is loaded, such as "calf", for weekly load by family
    std::string position; ///< start position id, such as "standing", "long-sitting"
    std::vector<std::string> equipment; ///< kinds that must be at home
    WeightBearing weight_bearing = WeightBearing::None;
    bool impact = false;
    bool has_sides = true;       ///< one side works; the prescription must name it
    bool passing = false;        ///< the pose is only passed through, so balance is not asked of it
    bool support_needed = false; ///< a hand holds on
    DoseKind dose_kind = DoseKind::Strength;
    std::vector<std::string> easier; ///< neighbours in the chain
    std::vector<std::string> harder;
};

/// Facts and the poses as authored. Copyable value; the poses are opaque outside figure/.
class Exercise {
  public:
    const Facts& facts() const;
    struct Impl;
    std::shared_ptr<const Impl> impl;
};

/// Reads one exercise file.
std::optional<Exercise> read_exercise(const yaml::Node& root, std::string_view id,
                                      support::Findings& findings);

} // namespace tickleaf::figure
