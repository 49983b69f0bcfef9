// SPDX-License-Identifier: MIT
// The disk: data files and fonts for the library, the user's files for the commands.
// Errors: reading gives nothing where a file cannot be read; writing gives the system's sentence. A
// file is written whole (temporary name in the same folder, synced, renamed) or not at all.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "support/environment.h"

namespace tickleaf::cli {

class Disk : public support::Environment {
  public:
    /// `data` is the folder that holds templates/, figures/ and locales/.
    explicit Disk(std::filesystem::path data);
    std::optional<std::string> read_data(const std::string& path) const override;
    std::vector<std::string> list_data(const std::string& folder) const override;
    std::unique_ptr<support::Bytes> map_file(const std::string& path) const override;

  private:
    std::filesystem::path data_;
};

/// A user's file, up to `most` bytes; on failure `why` says what the system said.
std::optional<std::string> read_file(const std::string& path, std::size_t most, std::string& why);
/// Empty on success, else what went wrong in one sentence.
std::string write_file(const std::filesystem::path& path, std::string_view bytes);
/// Several files, each whole: all are written under temporary names before the first one is
/// renamed, so that what can fail fails while everything is as it was.
std::string write_files(const std::vector<std::pair<std::filesystem::path, std::string>>& files);
/// The data folder: the one asked for, and no other, where one is; else beside the installed
/// program, else the source tree, else what TICKLEAF_DATA names.
std::optional<std::filesystem::path> find_data(const std::filesystem::path& wished = {});

} // namespace tickleaf::cli
