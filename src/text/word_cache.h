// SPDX-License-Identifier: MIT
// Words that were shaped before: glyphs of a stretch from one word's start to the next, with the
// spaces between. A face whose rules do not reach over spaces sets them the same in every text.
// Shapes: clusters count from the word's start; glyphs in visual order. Bounded; when full, all is
// forgotten. Shared by threads. What comes out does not depend on what is in here.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <mutex>
#include <string>
#include <string_view>
#include <tuple>
#include <unordered_map>
#include <vector>

#include "text/itemise.h"
#include "text/shape.h"
#include "text/space_rules.h"

namespace tickleaf::text {

/// Words of one face, script, direction and language.
struct WordTable {
    struct Hash {
        using is_transparent = void;
        std::size_t operator()(std::u16string_view text) const {
            return std::hash<std::u16string_view>()(text);
        }
    };
    using Glyphs =
        std::unordered_map<std::u16string, std::vector<ShapedGlyph>, Hash, std::equal_to<>>;
    static const std::vector<ShapedGlyph>* find(const Glyphs& glyphs, std::u16string_view text) {
        const auto found = glyphs.find(text);
        return found != glyphs.end() ? &found->second : nullptr;
    }

    Glyphs words;
    Glyphs behind; ///< of words that mind the word before, by both their texts
};

class WordCache {
  public:
    /// Appends the glyphs of an item, as text::shape() would.
    void shape_item(const ShapeContext& context, const Item& item,
                    std::vector<ShapedGlyph>& glyphs);
    void clear();

  private:
    class Pass;
    struct Rules {
        std::size_t seen = 0; ///< UTF-16 units shaped with this face
        bool known = false;
        SpaceRules space;
    };
    using TableKey = std::tuple<std::size_t, UScriptCode, bool, hb_language_t>;

    const SpaceRules* rules(const Face& face, std::size_t length);

    std::mutex mutex_;
    std::map<std::size_t, Rules> rules_; ///< by serial of the face; entries never move
    std::map<TableKey, WordTable> tables_;
    std::size_t units_ = 0; ///< of all words and glyphs held
};

} // namespace tickleaf::text
