// SPDX-License-Identifier: MIT
// A YAML file as its lines, so that single entries can be put in and everything else (order,
// comments, spelling) stays as people wrote it. Shapes: an entry is the lines from its key to the
// next key, without the comments and blank lines that lead over to that one. Errors: of() gives
// nothing where two keys share a line; who writes must read the result again and compare, because
// lines know no YAML.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "yaml/tree.h"

namespace tickleaf::locale {

class LineSheet {
  public:
    /// `map` is a map of the file's tree, the root or one below, whose entries are to be changed.
    static std::optional<LineSheet> of(std::string_view text, const yaml::Node& root,
                                       const yaml::Node& map);
    bool has(std::string_view key) const;
    /// Keys in file order.
    std::vector<std::string> keys() const;
    /// Replaces the entry, or puts it in after the entry `after` (first where that is empty).
    void put(const std::string& key, const std::string& lines, std::string_view after);
    void drop(std::string_view key);
    std::string text() const;

  private:
    struct Block {
        std::string key; ///< empty for lines that belong to no entry
        std::string lines;
    };
    std::vector<Block> blocks_;
    std::size_t first_ = 0; ///< where the first entry stands or would stand
};

/// A text in double quotes, as YAML reads it back.
std::string yaml_quoted(std::string_view text);

} // namespace tickleaf::locale
