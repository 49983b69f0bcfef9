// SPDX-License-Identifier: MIT
// The house's own templates and fonts for layout tests, read from the source tree.
#pragma once

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <memory>
#include <optional>
#include <span>
#include <sstream>
#include <string>
#include <vector>

#include "layout/page_template.h"
#include "support/environment.h"
#include "yaml/tree.h"

namespace tickleaf::test {

using layout::PageTemplate;
using layout::read_template;

inline std::string slurp(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

class FileBytes : public support::Bytes {
  public:
    explicit FileBytes(std::string text) : text_(std::move(text)) {}
    std::span<const std::byte> view() const override {
        return std::as_bytes(std::span(text_.data(), text_.size()));
    }

  private:
    std::string text_;
};

class SourceTree : public support::Environment {
  public:
    std::optional<std::string> read_data(const std::string& path) const override {
        const std::string full = std::string(TICKLEAF_ROOT) + "/" + path;
        return std::filesystem::exists(full) ? std::optional(slurp(full)) : std::nullopt;
    }
    std::vector<std::string> list_data(const std::string&) const override { return {}; }
    std::unique_ptr<support::Bytes> map_file(const std::string& path) const override {
        return std::filesystem::exists(path) ? std::make_unique<FileBytes>(slurp(path)) : nullptr;
    }
};

struct Read {
    support::Findings findings;
    std::optional<PageTemplate> result;
};

inline Read read_text(const std::string& text) {
    Read read;
    support::Sources sources;
    const int file = sources.add("t.yaml", text);
    const auto root = yaml::read(sources, file, read.findings);
    if (root) {
        read.result = read_template(*root, "t", read.findings);
    }
    return read;
}

inline PageTemplate template_of(const std::string& name) {
    Read read = read_text(slurp(std::string(TICKLEAF_ROOT) + "/templates/pages/" + name + ".yaml"));
    REQUIRE(read.findings.size() == 0);
    return *read.result;
}

} // namespace tickleaf::test
