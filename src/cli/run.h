// SPDX-License-Identifier: MIT
// The program without its main(): arguments in, exit code out, so that tests can call it in the
// same process. Paths written and lists go to `out`, findings to `err`.
#pragma once

#include <ostream>
#include <string>
#include <vector>

namespace tickleaf::cli {

int run(const std::vector<std::string>& arguments, std::ostream& out, std::ostream& err);

} // namespace tickleaf::cli
