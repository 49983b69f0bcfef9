// SPDX-License-Identifier: MIT
#include "pdf/run_text.h"

#include <algorithm>
#include <iterator>
#include <string_view>

#include "pdf/text_string.h"

namespace tickleaf::pdf {

namespace {

constexpr char32_t kZeroWidthSpace = 0x200B;
constexpr char32_t kLam = 0x0644;

bool is_between(char32_t c, char32_t low, char32_t high) {
    return c >= low && c <= high;
}

bool is_space(char32_t c) {
    return c == U' ' || c == 0xA0 || c == 0x3000 || is_between(c, 0x2000, 0x200A);
}

/// Arabic marks that may stand between lam and alef.
bool is_arabic_mark(char32_t c) {
    return is_between(c, 0x064B, 0x065F) || c == 0x0670 || is_between(c, 0x06D6, 0x06ED);
}

/// Letters that never join to the one after them (of the Arabic script, joining types R and U).
bool joins_to_next(char32_t c) {
    constexpr std::u32string_view kNotJoining =
        U"\u0621\u0622\u0623\u0624\u0625\u0627\u0629\u062F\u0630\u0631\u0632\u0648\u0649\u0671"
        U"\u0688\u0691\u0698\u06D2\u06C1\u06C7";
    return is_between(c, 0x0620, 0x06D3) && kNotJoining.find(c) == std::u32string_view::npos;
}

/// Presentation forms of lam and what follows it, isolated and final.
struct LamForm {
    char32_t next, isolated, final;
};
constexpr LamForm kLamForms[] = {{0x0622, 0xFEF5, 0xFEF6}, {0x0623, 0xFEF7, 0xFEF8},
                                 {0x0625, 0xFEF9, 0xFEFA}, {0x0627, 0xFEFB, 0xFEFC},
                                 {0x0649, 0xFC43, 0xFC86}, {0x064A, 0xFC44, 0xFC87}};

const LamForm* lam_form(char32_t next) {
    const auto* const found =
        std::find_if(std::begin(kLamForms), std::end(kLamForms),
                     [next](const LamForm& form) { return form.next == next; });
    return found == std::end(kLamForms) ? nullptr : found;
}

/// Scripts whose shaping moves or splits characters inside a cluster (Brahmic scripts but Thai and
/// Lao).
bool is_reordering(char32_t c) {
    return is_between(c, 0x0900, 0x0DFF) || is_between(c, 0x0F00, 0x109F) ||
           is_between(c, 0x1700, 0x17FF) || is_between(c, 0x1900, 0x1CFF) ||
           is_between(c, 0xA800, 0xA8DF) || is_between(c, 0xA900, 0xAADF);
}

std::u32string clean(std::string_view utf8) {
    std::u32string text = decode(utf8);
    std::erase_if(text, is_dropped);
    return text;
}

std::string_view cluster_bytes(const page::GlyphRun& run, const page::Glyph& glyph) {
    const std::size_t begin = std::min<std::size_t>(glyph.text_begin, run.text.size());
    const std::size_t end = std::clamp<std::size_t>(glyph.text_end, begin, run.text.size());
    return std::string_view(run.text).substr(begin, end - begin);
}

/// Puts the presentation form for lam and its follower where both are drawn by one glyph.
std::u32string with_lam_ligature(std::u32string text, char32_t before) {
    const std::size_t lam = text.find(kLam);
    if (lam == std::u32string::npos) {
        return text;
    }
    std::size_t next = lam + 1;
    while (next < text.size() && is_arabic_mark(text[next])) {
        ++next;
    }
    const LamForm* form = next < text.size() ? lam_form(text[next]) : nullptr;
    if (form != nullptr) {
        text.erase(next, 1);
        text[lam] = joins_to_next(before) ? form->final : form->isolated;
    }
    return text;
}

/// The last letter before a byte offset, marks skipped.
char32_t letter_before(const std::string& text, std::size_t offset) {
    const std::u32string before =
        clean(std::string_view(text).substr(0, std::min(offset, text.size())));
    const auto found =
        std::find_if(before.rbegin(), before.rend(), [](char32_t c) { return !is_arabic_mark(c); });
    return found == before.rend() ? U'\0' : *found;
}

/// Spreads the characters of one cluster over its glyphs [begin, end).
void spread(const std::u32string& text, bool right_to_left, std::size_t begin, std::size_t end,
            std::vector<std::u32string>& glyphs) {
    const std::size_t count = end - begin;
    if (text.empty()) {
        return;
    }
    for (std::size_t i = 0; i < count; ++i) {
        const std::size_t glyph = right_to_left ? end - 1 - i : begin + i;
        if (i >= text.size()) {
            glyphs[glyph] = std::u32string(1, kZeroWidthSpace);
        } else {
            glyphs[glyph] = i + 1 == count ? text.substr(i) : text.substr(i, 1);
        }
    }
}

/// A cluster whose glyphs, read one by one, might not give its text.
bool is_unfaithful(const std::u32string& text, std::size_t glyph_count) {
    return glyph_count > 1 &&
           (glyph_count > text.size() || std::any_of(text.begin(), text.end(), is_reordering));
}

/// Collects the words of a left-to-right run as its clusters go by.
class Words {
  public:
    explicit Words(std::vector<WordSpan>& words) : words_(words) {}
    void add(std::size_t begin, std::size_t end, const std::u32string& text, bool needs_text) {
        if (!text.empty() && std::all_of(text.begin(), text.end(), is_space)) {
            finish();
            return;
        }
        if (word_.text.empty() && word_.end == 0) {
            word_.begin = begin;
        }
        word_.end = end;
        word_.text += text;
        needs_text_ = needs_text_ || needs_text;
    }
    void finish() {
        if (needs_text_ && !word_.text.empty()) {
            words_.push_back(word_);
        }
        word_ = WordSpan{};
        needs_text_ = false;
    }

  private:
    std::vector<WordSpan>& words_;
    WordSpan word_;
    bool needs_text_ = false;
};

} // namespace

RunText distribute_text(const page::GlyphRun& run, const std::vector<bool>& forced) {
    RunText result;
    result.glyphs.resize(run.glyphs.size());
    Words words(result.words);
    for (std::size_t begin = 0; begin < run.glyphs.size();) {
        const page::Glyph& first = run.glyphs[begin];
        std::size_t end = begin + 1;
        bool needs_text = !forced.empty() && forced[begin];
        while (end < run.glyphs.size() && run.glyphs[end].text_begin == first.text_begin &&
               run.glyphs[end].text_end == first.text_end) {
            needs_text = needs_text || (!forced.empty() && forced[end]);
            ++end;
        }
        std::u32string text = clean(cluster_bytes(run, first));
        if (run.right_to_left && text.size() > end - begin) {
            text = with_lam_ligature(text, letter_before(run.text, first.text_begin));
        }
        spread(text, run.right_to_left, begin, end, result.glyphs);
        if (!run.right_to_left) {
            words.add(begin, end, text, needs_text || is_unfaithful(text, end - begin));
        }
        begin = end;
    }
    words.finish();
    return result;
}

} // namespace tickleaf::pdf
