// SPDX-License-Identifier: MIT
// A command line that cannot be understood, in the words of this program: what was found, what was
// expected, and how to mend it. Exit code 2.
#pragma once

#include <string>

namespace CLI {
class App;
class ParseError;
} // namespace CLI

namespace tickleaf::cli {

/// "tickleaf: MESSAGE", and a line with the hint. The program has just failed to parse with
/// `error`.
std::string wrong_command_line(const CLI::App& program, const CLI::ParseError& error);

} // namespace tickleaf::cli
