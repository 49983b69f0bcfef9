// SPDX-License-Identifier: MIT
#include "text/space_rules.h"

#include <algorithm>

#include <harfbuzz/hb-ot.h>

namespace tickleaf::text {

namespace {

constexpr hb_tag_t kGsub = HB_TAG('G', 'S', 'U', 'B');
constexpr hb_tag_t kGpos = HB_TAG('G', 'P', 'O', 'S');
constexpr unsigned kIgnoreBaseGlyphs = 0x0002;

constexpr std::size_t kAnyReach = static_cast<std::size_t>(-1);

struct Lookup {
    unsigned type = 0;
    unsigned flags = 0;
    std::size_t backtrack = 0; ///< most glyphs looked at before the one that is changed
};

/// Big-endian numbers of a table; 0 where it is cut short.
class Table {
  public:
    Table(hb_face_t* face, hb_tag_t tag) : blob_(hb_face_reference_table(face, tag)) {
        data_ = hb_blob_get_data(blob_.get(), &length_);
    }
    std::size_t number(std::size_t at) {
        whole_ = whole_ && at + 2 <= length_;
        const auto byte = [this](std::size_t i) {
            return std::size_t{static_cast<unsigned char>(data_[i])};
        };
        return whole_ ? byte(at) << 8 | byte(at + 1) : 0;
    }
    std::size_t long_number(std::size_t at) { return number(at) << 16 | number(at + 2); }
    bool whole() const { return whole_; }

  private:
    HbHandle<hb_blob_t> blob_;
    const char* data_ = nullptr;
    unsigned length_ = 0;
    bool whole_ = true;
};

/// Chained contexts by coverage (format 3) that pass over nothing say how far they reach.
std::size_t backtrack_of(Table& table, std::size_t subtable, const Lookup& lookup, hb_tag_t tag) {
    const bool chained = lookup.type == (tag == kGsub ? 6 : 8);
    return chained && lookup.flags == 0 && table.number(subtable) == 3 ? table.number(subtable + 2)
                                                                       : kAnyReach;
}

Lookup read_lookup(Table& table, std::size_t at, hb_tag_t tag) {
    const unsigned extension = tag == kGsub ? 7 : 9;
    Lookup lookup{static_cast<unsigned>(table.number(at)),
                  static_cast<unsigned>(table.number(at + 2)), 0};
    const bool extended = lookup.type == extension;
    const std::size_t count = table.number(at + 4);
    for (std::size_t i = 0; table.whole() && i < count; ++i) {
        std::size_t subtable = at + table.number(at + 6 + 2 * i);
        if (extended) {
            lookup.type = static_cast<unsigned>(table.number(subtable + 2));
            subtable += table.long_number(subtable + 4);
        }
        lookup.backtrack = std::max(lookup.backtrack, backtrack_of(table, subtable, lookup, tag));
    }
    return lookup;
}

/// The lookups of a layout table, extensions looked into; empty where the table is cut short.
std::vector<Lookup> lookups_of(hb_face_t* face, hb_tag_t tag) {
    Table table(face, tag);
    const std::size_t list = table.number(8);
    const std::size_t count = table.number(list);
    std::vector<Lookup> lookups;
    for (std::size_t i = 0; table.whole() && i < count; ++i) {
        lookups.push_back(read_lookup(table, list + table.number(list + 2 + 2 * i), tag));
    }
    return table.whole() ? lookups : std::vector<Lookup>();
}

bool sees_one_glyph(hb_tag_t tag, const Lookup& lookup) {
    return tag == kGsub && (lookup.type == 1 || lookup.type == 3);
}

class RuleReader {
  public:
    explicit RuleReader(const Face& face) : face_(face), spaces_(hb_set_create()) {}
    SpaceRules read();

  private:
    bool add_alternates(const std::vector<Lookup>& lookups);
    struct Sight;
    bool has_space(const HbHandle<hb_set_t>& glyphs) const;
    bool read_lookup_sight(hb_tag_t tag, unsigned index, const Lookup& lookup,
                           SpaceRules& rules) const;
    bool read_table(hb_tag_t tag, SpaceRules& rules) const;

    const Face& face_;
    HbHandle<hb_set_t> spaces_; ///< the space and what single substitutions make of it
};

/// What rules for one glyph make of the space. False where there is no end to it.
bool RuleReader::add_alternates(const std::vector<Lookup>& lookups) {
    constexpr unsigned kMost = 16;
    for (unsigned known = 0; known != hb_set_get_population(spaces_.get());) {
        known = hb_set_get_population(spaces_.get());
        for (unsigned i = 0; i < lookups.size(); ++i) {
            if (sees_one_glyph(kGsub, lookups[i])) {
                hb_ot_layout_lookup_substitute_closure(face_.face.get(), i, spaces_.get());
            }
        }
    }
    return hb_set_get_population(spaces_.get()) <= kMost;
}

/// Where a lookup looks for a space.
struct RuleReader::Sight {
    HbHandle<hb_set_t> before{hb_set_create()};
    HbHandle<hb_set_t> input{hb_set_create()};
    HbHandle<hb_set_t> after{hb_set_create()};
};

bool RuleReader::has_space(const HbHandle<hb_set_t>& glyphs) const {
    const HbHandle<hb_set_t> common(hb_set_create());
    hb_set_set(common.get(), glyphs.get());
    hb_set_intersect(common.get(), spaces_.get());
    return hb_set_is_empty(common.get()) == 0;
}

/// False where the lookup reaches over spaces in a way that cannot be watched for.
bool RuleReader::read_lookup_sight(hb_tag_t tag, unsigned index, const Lookup& lookup,
                                   SpaceRules& rules) const {
    const Sight sight;
    hb_ot_layout_lookup_collect_glyphs(face_.face.get(), tag, index, sight.before.get(),
                                       sight.input.get(), sight.after.get(), nullptr);
    const bool before = has_space(sight.before);
    const bool elsewhere = has_space(sight.input) || has_space(sight.after);
    if (sees_one_glyph(tag, lookup) || (!before && !elsewhere)) {
        return true;
    }
    if (tag == kGsub || elsewhere) {
        return false;
    }
    hb_codepoint_t glyph = HB_SET_VALUE_INVALID;
    while (hb_set_next(sight.input.get(), &glyph) != 0) {
        rules.watchful.push_back(glyph);
    }
    rules.reach = std::max(rules.reach, lookup.backtrack);
    return true;
}

bool RuleReader::read_table(hb_tag_t tag, SpaceRules& rules) const {
    const auto lookups = lookups_of(face_.face.get(), tag);
    if (lookups.size() != hb_ot_layout_table_get_lookup_count(face_.face.get(), tag)) {
        return false;
    }
    hb_codepoint_t space = HB_SET_VALUE_INVALID;
    bool is_base = false;
    while (hb_set_next(spaces_.get(), &space) != 0) {
        is_base = is_base || hb_ot_layout_get_glyph_class(face_.face.get(), space) ==
                                 HB_OT_LAYOUT_GLYPH_CLASS_BASE_GLYPH;
    }
    for (unsigned i = 0; i < lookups.size(); ++i) {
        if (is_base && (lookups[i].flags & kIgnoreBaseGlyphs) != 0) {
            return false;
        }
        if (!read_lookup_sight(tag, i, lookups[i], rules)) {
            return false;
        }
    }
    return true;
}

SpaceRules RuleReader::read() {
    SpaceRules rules;
    const std::uint32_t space = face_.glyph(U' ');
    for (const hb_tag_t other :
         {HB_TAG('k', 'e', 'r', 'n'), HB_TAG('k', 'e', 'r', 'x'), HB_TAG('m', 'o', 'r', 'x')}) {
        const HbHandle<hb_blob_t> table(hb_face_reference_table(face_.face.get(), other));
        if (hb_blob_get_length(table.get()) > 0) {
            return rules;
        }
    }
    hb_set_add(spaces_.get(), space);
    rules.words_apart = space != 0 && add_alternates(lookups_of(face_.face.get(), kGsub)) &&
                        read_table(kGsub, rules) && read_table(kGpos, rules);
    std::sort(rules.watchful.begin(), rules.watchful.end());
    return rules;
}

} // namespace

bool SpaceRules::is_watchful(std::uint32_t glyph) const {
    return std::binary_search(watchful.begin(), watchful.end(), glyph);
}

SpaceRules read_space_rules(const Face& face) {
    return RuleReader(face).read();
}

} // namespace tickleaf::text
