// SPDX-License-Identifier: MIT
#include "figure/read_words.h"

#include <algorithm>

namespace tickleaf::figure {
namespace {

struct SidedWord {
    Limb limb = Limb::None;
    std::string_view word;
};

/// Takes a side word off the front where there is one.
SidedWord part_sides(const std::vector<std::string_view>& words) {
    if (words.size() == 2) {
        if (const auto limb = limb_from_word(words[0])) {
            return {*limb, words[1]};
        }
    }
    return {Limb::None, words.size() == 1 ? words[0] : std::string_view{}};
}

std::string quoted(std::string_view word) {
    return "\"" + std::string(word) + "\"";
}

/// Whether the side word fits a thing that is there twice or once.
bool sides_fit(bool paired, Limb limb, std::string_view text, const support::Span& span,
               support::Findings& findings) {
    if (paired == (limb != Limb::None)) {
        return true;
    }
    if (paired) {
        findings.error(span, "figure-side", quoted(text) + " does not say which side",
                       "write work, other or both in front of it");
    } else {
        findings.error(span, "figure-side",
                       quoted(text) + " has a side, but there is only one of it",
                       "leave the side word out");
    }
    return false;
}

std::vector<PartName> simple_parts(const PartInfo& part, Limb limb) {
    std::vector<PartName> out;
    const std::vector<std::size_t> limbs =
        part.paired ? limb_indexes(limb) : std::vector<std::size_t>{1};
    for (const std::size_t right : limbs) {
        if (part.made_of.empty()) {
            out.push_back({&part, right});
        }
        for (const std::string_view word : part.made_of) {
            out.push_back({part_from_word(word), right});
        }
    }
    return out;
}

} // namespace

std::vector<std::string_view> split_words(std::string_view text) {
    std::vector<std::string_view> words;
    std::size_t at = 0;
    while (at < text.size()) {
        const std::size_t end = std::min(text.find(' ', at), text.size());
        if (end > at) {
            words.push_back(text.substr(at, end - at));
        }
        at = end + 1;
    }
    return words;
}

void unknown_word(std::string_view kind, std::string_view word,
                  const std::vector<std::string>& known, const support::Span& span,
                  support::Findings& findings) {
    std::string hint;
    if (const std::string near = support::closest(word, known); !near.empty()) {
        hint = "did you mean " + quoted(near) + "?";
    } else {
        hint = "known are:";
        for (const std::string& one : known) {
            hint += " " + one;
        }
    }
    findings.error(span, "figure-word",
                   "unknown " + std::string(kind) + " " + quoted(word.substr(0, 60)),
                   std::move(hint));
}

std::vector<Landmark> read_spots(std::string_view text, const support::Span& span,
                                 support::Findings& findings) {
    const SidedWord sided = part_sides(split_words(text));
    const SpotInfo* spot = spot_from_word(sided.word);
    if (spot == nullptr) {
        unknown_word("point of the body", text, spot_words(), span, findings);
        return {};
    }
    if (!sides_fit(spot->paired, sided.limb, text, span, findings)) {
        return {};
    }
    if (!spot->paired) {
        return {spot->landmark};
    }
    std::vector<Landmark> out;
    for (const std::size_t right : limb_indexes(sided.limb)) {
        out.push_back(left_or_right(spot->landmark, right));
    }
    return out;
}

std::vector<BandSpot> read_band_spots(std::string_view text, const support::Span& span,
                                      support::Findings& findings) {
    const SidedWord sided = part_sides(split_words(text));
    const BandSpotInfo* spot = band_spot_from_word(sided.word);
    if (spot == nullptr) {
        unknown_word("place for a band", text, band_spot_words(), span, findings);
        return {};
    }
    std::vector<BandSpot> out;
    if (sides_fit(true, sided.limb, text, span, findings)) {
        for (const std::size_t right : limb_indexes(sided.limb)) {
            out.push_back({spot, right});
        }
    }
    return out;
}

std::vector<PartName> read_part(std::string_view text, const support::Span& span,
                                support::Findings& findings) {
    const SidedWord sided = part_sides(split_words(text));
    const PartInfo* part = part_from_word(sided.word);
    if (part == nullptr) {
        unknown_word("part of the body", text, part_words(), span, findings);
        return {};
    }
    if (!sides_fit(part->paired, sided.limb, text, span, findings)) {
        return {};
    }
    return simple_parts(*part, sided.limb);
}

std::vector<WorkingPart> read_working(std::string_view text, const support::Span& span,
                                      support::Findings& findings) {
    const SidedWord sided = part_sides(split_words(text));
    const auto segment = segment_from_word(sided.word);
    if (!segment) {
        unknown_word("segment", text, segment_words(), span, findings);
        return {};
    }
    const bool paired = *segment != Segment::Head && *segment != Segment::Trunk;
    if (!sides_fit(paired, sided.limb, text, span, findings)) {
        return {};
    }
    if (!paired || sided.limb == Limb::Both) {
        return {{*segment, support::Side::Both}};
    }
    return {{*segment, sided.limb == Limb::Work ? support::Side::Right : support::Side::Left}};
}

std::vector<Contact> read_contact(std::string_view text, const support::Span& span,
                                  support::Findings& findings) {
    const std::size_t on = text.find(" on ");
    if (on == std::string_view::npos) {
        findings.error(span, "figure-contact",
                       "contact " + quoted(text.substr(0, 60)) + " has no place",
                       "write it as in \"work foot on floor\"");
        return {};
    }
    const std::vector<PartName> names = read_part(text.substr(0, on), span, findings);
    const SidedWord where = part_sides(split_words(text.substr(on + 4)));
    const auto place = place_from_word(where.word);
    if (!place) {
        unknown_word("place", text.substr(on + 4), place_words(), span, findings);
        return {};
    }
    std::vector<Contact> out;
    for (const PartName& name : names) {
        out.push_back({name.part, name.right, *place, where.limb, span});
    }
    return out;
}

} // namespace tickleaf::figure
