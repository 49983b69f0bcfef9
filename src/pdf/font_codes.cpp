// SPDX-License-Identifier: MIT
#include "pdf/font_codes.h"

#include <algorithm>
#include <cmath>

namespace tickleaf::pdf {

namespace {

constexpr std::size_t kMostCodes = 65535;
/// A glyph rarely stands for more than one or two texts, so that the short codes cannot run out.
constexpr std::size_t kMostGlyphsOfShort = kLastTwoByte / 4;
constexpr std::uint16_t kAfterAscii = 0x7F;

const page::Font::Mapped* find(const page::Font& font, std::uint32_t glyph) {
    const auto found = std::lower_bound(
        font.glyphs.begin(), font.glyphs.end(), glyph,
        [](const page::Font::Mapped& mapped, std::uint32_t id) { return mapped.original < id; });
    return found != font.glyphs.end() && found->original == glyph ? &*found : nullptr;
}

} // namespace

FontCodes::FontCodes(const page::Font& font)
    : font_(&font),
      short_(font.kind == page::Font::Kind::TrueType && font.glyphs.size() <= kMostGlyphsOfShort) {
    const std::uint32_t last = font.glyphs.empty() ? 0 : font.glyphs.back().original;
    first_.assign(std::min<std::size_t>(last, kMostCodes) + 1, kNone);
    taken_.assign(kFirstTwoByte, false);
    next_ = short_ ? kFirstTwoByte : 1;
}

std::optional<FontCodes::Use> FontCodes::use(std::uint32_t glyph, const std::u32string& text) {
    if (glyph >= first_.size()) {
        return std::nullopt;
    }
    const bool is_cff = font_->kind == page::Font::Kind::CffCid;
    std::uint32_t last = kNone;
    for (std::uint32_t slot = first_[glyph]; slot != kNone; slot = entries_[slot].next) {
        const Entry& entry = entries_[slot].entry;
        if (is_cff || entry.text == text) {
            return Use{entry.code, entry.width, entry.text == text};
        }
        last = slot;
    }
    const page::Font::Mapped* mapped = find(*font_, glyph);
    if (mapped == nullptr || mapped->subset == 0 || mapped->subset > kMostCodes ||
        entries_.size() >= (short_ ? kLastTwoByte - kFirstTwoByte : kMostCodes)) {
        return std::nullopt;
    }
    const auto index = static_cast<std::uint32_t>(entries_.size());
    const std::uint16_t code =
        is_cff ? static_cast<std::uint16_t>(mapped->subset) : free_code(text);
    const double width = std::nearbyint(mapped->advance * 1000.0 / font_->units_per_em);
    entries_.push_back(Slot{Entry{code, mapped->subset, static_cast<int>(width), text}, kNone});
    (last == kNone ? first_[glyph] : entries_[last].next) = index;
    return Use{code, static_cast<int>(width), true};
}

/// The character's own value where that is free, else the next free code; printable ASCII is left
/// to its own characters as long as there are others.
std::uint16_t FontCodes::free_code(const std::u32string& text) {
    if (!short_) {
        return static_cast<std::uint16_t>(next_++);
    }
    const auto take = [this](std::uint32_t begin, std::uint32_t end) -> std::uint16_t {
        const auto last = taken_.begin() + end;
        const auto found = std::find(taken_.begin() + begin, last, false);
        if (found == last) {
            return 0;
        }
        *found = true;
        return static_cast<std::uint16_t>(found - taken_.begin());
    };
    std::uint16_t code = 0;
    if (text.size() == 1 && text[0] >= kFirstOneByte && text[0] < kFirstTwoByte) {
        code = take(text[0], text[0] + 1);
    }
    code = code == 0 ? take(kAfterAscii, kFirstTwoByte) : code;
    code = code == 0 ? take(kFirstOneByte, kAfterAscii) : code;
    return code == 0 ? static_cast<std::uint16_t>(next_++) : code;
}

WrittenCode FontCodes::written(std::uint16_t code) const {
    return {code, short_ && code < kFirstTwoByte ? 1 : 2};
}

std::vector<FontCodes::Entry> FontCodes::entries() const {
    std::vector<Entry> sorted;
    sorted.reserve(entries_.size());
    for (const Slot& slot : entries_) {
        sorted.push_back(slot.entry);
    }
    std::sort(sorted.begin(), sorted.end(),
              [](const Entry& a, const Entry& b) { return a.code < b.code; });
    return sorted;
}

} // namespace tickleaf::pdf
