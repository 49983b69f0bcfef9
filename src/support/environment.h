// SPDX-License-Identifier: MIT
// The world outside as one value passed in from cli/: data files, fonts. No other code opens a
// file, reads the clock or the environment; tests pass their own.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace tickleaf::support {

/// The bytes of a file kept open (mapped) for as long as this object lives.
class Bytes {
  public:
    virtual ~Bytes() = default;
    virtual std::span<const std::byte> view() const = 0;
};

/// Reads what the program needs; never writes.
class Environment {
  public:
    virtual ~Environment() = default;
    /// A data file by its path below the data folder, such as "figures/heel-raise.yaml".
    virtual std::optional<std::string> read_data(const std::string& path) const = 0;
    /// Names in a data folder, sorted, without "." and "..".
    virtual std::vector<std::string> list_data(const std::string& folder) const = 0;
    /// A font file by absolute path, mapped; nothing where it is missing.
    virtual std::unique_ptr<Bytes> map_file(const std::string& path) const = 0;
};

} // namespace tickleaf::support
