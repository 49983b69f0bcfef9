// SPDX-License-Identifier: MIT
// Exit codes of the program, and which one a set of findings asks for.
#pragma once

#include "support/finding.h"

namespace tickleaf::cli {

inline constexpr int kDone = 0;
inline constexpr int kFileTrouble = 1; ///< a file could not be read or written
inline constexpr int kWrongCommandLine = 2;
inline constexpr int kWrongPrescription = 3;
/// A font, language, template or exercise that is not there, or broken.
inline constexpr int kSomethingMissing = 4;
inline constexpr int kOurBug = 70;

/// kDone without errors; kSomethingMissing where every error is about a missing thing; else
/// kWrongPrescription.
int exit_code(const support::Findings& findings);

} // namespace tickleaf::cli
