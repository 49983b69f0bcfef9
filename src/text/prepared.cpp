// SPDX-License-Identifier: MIT
#include "text/prepared.h"

#include <algorithm>
#include <utility>

#include "text/word_cache.h"

namespace tickleaf::text {

namespace {

double advance_of(std::span<const ShapedGlyph> glyphs, double scale) {
    std::int64_t sum = 0;
    for (const ShapedGlyph& glyph : glyphs) {
        sum += glyph.advance;
    }
    return static_cast<double>(sum) * scale;
}

} // namespace

ShapeContext Shaped::context(const ShapedItem& item, hb_buffer_t* buffer) const {
    return {collected.text, *item.item.face, shaping_language, buffer, extra_buffer_flags};
}

std::uint32_t Shaped::next_safe(const ShapedItem& prepared, std::uint32_t place) const {
    while (place < prepared.item.end && place > prepared.item.begin && !safe[place]) {
        ++place;
    }
    return place;
}

std::uint32_t Shaped::previous_safe(const ShapedItem& prepared, std::uint32_t place) const {
    while (place < prepared.item.end && place > prepared.item.begin && !safe[place]) {
        --place;
    }
    return place;
}

/// What lies between safe places is taken as it is (HarfBuzz manual, hb_glyph_flags_t).
std::span<const ShapedGlyph> Shaped::slice(const ShapedItem& prepared, std::uint32_t begin,
                                           std::uint32_t end,
                                           std::vector<ShapedGlyph>& anew) const {
    const Item& item = prepared.item;
    anew.clear();
    const auto shape_anew = [&](std::uint32_t from, std::uint32_t to) {
        if (from < to) {
            Item part = item;
            part.begin = from;
            part.end = to;
            words->shape_item(context(prepared, nullptr), part, anew);
        }
    };
    const std::uint32_t from = next_safe(prepared, begin);
    const std::uint32_t to = previous_safe(prepared, end);
    if (from > to) {
        shape_anew(begin, end);
        return anew;
    }
    const bool falls = item.right_to_left();
    const auto first = glyphs.begin() + prepared.glyph_begin;
    const auto last = glyphs.begin() + prepared.glyph_end;
    // Clusters rise from left to right, or fall where the item reads from right to left.
    const auto edge = [&](std::uint32_t place) {
        return std::partition_point(first, last, [place, falls](const ShapedGlyph& glyph) {
            return (glyph.cluster < place) != falls;
        });
    };
    const std::span<const ShapedGlyph> known(edge(falls ? to : from), edge(falls ? from : to));
    if (from == begin && to == end) {
        return known;
    }
    const auto [left_begin, left_end] = falls ? std::pair(to, end) : std::pair(begin, from);
    const auto [right_begin, right_end] = falls ? std::pair(begin, from) : std::pair(to, end);
    shape_anew(left_begin, left_end);
    anew.insert(anew.end(), known.begin(), known.end());
    shape_anew(right_begin, right_end);
    return anew;
}

std::uint32_t Shaped::without_spaces(std::uint32_t begin, std::uint32_t place) const {
    while (place > begin) {
        const char16_t unit = collected.text[place - 1];
        if (!is_breaking_space(unit) && !is_invisible(unit)) {
            break;
        }
        --place;
    }
    return place;
}

/// Where a cut is unsafe, both sides are shaped anew up to the next safe place and the difference
/// is added.
BreakPoint Shaped::point_at(std::uint32_t place) const {
    const std::uint32_t end = without_spaces(0, place);
    BreakPoint point{positions[end], positions[place], false, false};
    if (place == size() || place == 0 || safe[place]) {
        return point;
    }
    const auto found =
        std::find_if(items.begin(), items.end(), [place](const ShapedItem& prepared) {
            return prepared.item.begin < place && place < prepared.item.end;
        });
    if (found == items.end()) {
        return point;
    }
    const std::uint32_t before = previous_safe(*found, place);
    const std::uint32_t after = next_safe(*found, place);
    std::vector<ShapedGlyph> anew;
    if (end == place) {
        point.end =
            positions[before] + advance_of(slice(*found, before, place, anew), found->scale);
    }
    point.start = positions[after] - advance_of(slice(*found, place, after, anew), found->scale);
    return point;
}

} // namespace tickleaf::text
