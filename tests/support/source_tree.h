// SPDX-License-Identifier: MIT
// The data folders of the source tree and the fonts of the machine, read without the program's own
// Disk, which stands above most rooms.
#pragma once

#include <algorithm>
#include <cstddef>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "support/environment.h"

namespace tickleaf::testing {

class ReadBytes : public support::Bytes {
  public:
    explicit ReadBytes(std::string bytes) : bytes_(std::move(bytes)) {}
    std::span<const std::byte> view() const override {
        return std::as_bytes(std::span(bytes_.data(), bytes_.size()));
    }

  private:
    std::string bytes_;
};

inline std::optional<std::string> bytes_of(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    return in ? std::optional(std::string(std::istreambuf_iterator<char>(in), {})) : std::nullopt;
}

class SourceTree : public support::Environment {
  public:
    std::optional<std::string> read_data(const std::string& path) const override {
        return bytes_of(std::filesystem::path(TICKLEAF_ROOT) / path);
    }
    std::vector<std::string> list_data(const std::string& folder) const override {
        std::vector<std::string> names;
        std::error_code ignored;
        for (const auto& entry : std::filesystem::directory_iterator(
                 std::filesystem::path(TICKLEAF_ROOT) / folder, ignored)) {
            names.push_back(entry.path().filename().string());
        }
        std::sort(names.begin(), names.end());
        return names;
    }
    std::unique_ptr<support::Bytes> map_file(const std::string& path) const override {
        auto bytes = bytes_of(path);
        return bytes ? std::make_unique<ReadBytes>(std::move(*bytes)) : nullptr;
    }
};

} // namespace tickleaf::testing
