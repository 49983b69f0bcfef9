// SPDX-License-Identifier: MIT
#include "pdf/font_codes.h"

#include <algorithm>
#include <cmath>

namespace tickleaf::pdf {

namespace {

constexpr std::size_t kMostCodes = 65535;

const page::Font::Mapped* find(const page::Font& font, std::uint32_t glyph) {
    const auto found = std::lower_bound(
        font.glyphs.begin(), font.glyphs.end(), glyph,
        [](const page::Font::Mapped& mapped, std::uint32_t id) { return mapped.original < id; });
    return found != font.glyphs.end() && found->original == glyph ? &*found : nullptr;
}

} // namespace

FontCodes::FontCodes(const page::Font& font) : font_(&font) {
    const std::uint32_t last = font.glyphs.empty() ? 0 : font.glyphs.back().original;
    first_.assign(std::min<std::size_t>(last, kMostCodes) + 1, kNone);
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
        entries_.size() >= kMostCodes) {
        return std::nullopt;
    }
    const auto index = static_cast<std::uint32_t>(entries_.size());
    const std::uint32_t code = is_cff ? mapped->subset : index + 1;
    const double width = std::nearbyint(mapped->advance * 1000.0 / font_->units_per_em);
    entries_.push_back(
        Slot{Entry{static_cast<std::uint16_t>(code), mapped->subset, static_cast<int>(width), text},
             kNone});
    (last == kNone ? first_[glyph] : entries_[last].next) = index;
    return Use{static_cast<std::uint16_t>(code), static_cast<int>(width), true};
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
