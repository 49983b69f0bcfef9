// SPDX-License-Identifier: MIT
// What these tests read from: files held in memory, and the source tree's own locales/.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "support/environment.h"
#include "support/finding.h"
#include "tests/support/source_tree.h"

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

using TreeEnvironment = testing::SourceTree;

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
