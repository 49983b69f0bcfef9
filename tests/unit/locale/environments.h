// SPDX-License-Identifier: MIT
// What these tests read from: files held in memory, and the source tree's own locales/.
#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <memory>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "support/environment.h"
#include "support/finding.h"

namespace tickleaf::locale::test {

class MemoryEnvironment : public support::Environment {
  public:
    explicit MemoryEnvironment(std::map<std::string, std::string> files)
        : files_(std::move(files)) {}
    std::optional<std::string> read_data(const std::string& path) const override {
        const auto found = files_.find(path);
        return found == files_.end() ? std::nullopt : std::optional<std::string>(found->second);
    }
    std::vector<std::string> list_data(const std::string& folder) const override {
        std::vector<std::string> names;
        for (const auto& [path, text] : files_) {
            if (path.starts_with(folder + "/")) {
                const std::string rest = path.substr(folder.size() + 1);
                names.push_back(rest.substr(0, rest.find('/')));
            }
        }
        names.erase(std::unique(names.begin(), names.end()), names.end());
        return names;
    }
    std::unique_ptr<support::Bytes> map_file(const std::string&) const override { return nullptr; }

  private:
    std::map<std::string, std::string> files_;
};

class TreeEnvironment : public support::Environment {
  public:
    std::optional<std::string> read_data(const std::string& path) const override {
        std::ifstream in(std::filesystem::path(TICKLEAF_ROOT) / path, std::ios::binary);
        if (!in) {
            return std::nullopt;
        }
        std::ostringstream out;
        out << in.rdbuf();
        return out.str();
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
    std::unique_ptr<support::Bytes> map_file(const std::string&) const override { return nullptr; }
};

/// All findings as text, one after the other, so that a failing check shows them.
inline std::string told(const support::Findings& findings, const support::Sources& sources) {
    std::string out;
    for (const auto& finding : findings.sorted()) {
        out += support::to_text(finding, sources) + "\n";
    }
    return out;
}

inline std::vector<std::string> ids(const support::Findings& findings) {
    std::vector<std::string> out;
    for (const auto& finding : findings.sorted()) {
        out.push_back(finding.id);
    }
    return out;
}

} // namespace tickleaf::locale::test
