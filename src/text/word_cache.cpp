// SPDX-License-Identifier: MIT
#include "text/word_cache.h"

#include <algorithm>
#include <array>

#include <unicode/uchar.h>

namespace tickleaf::text {

namespace {

/// A single booklet would never gain what reading a face's rules costs.
constexpr std::size_t kWorthReading = 30000;
/// About 8 MB.
constexpr std::size_t kMostUnits = 300000;
constexpr std::size_t kLongestWord = 400;

/// Whether a character begins a word that nothing before a space has a part in. Marks, joiners,
/// emoji modifiers and halfwidth voicing marks cling to what stands before them; so do Thai and
/// Lao am, which HarfBuzz takes apart.
bool begins_word(char16_t unit) {
    if (unit > u' ' && unit < u'\u007F') {
        return true;
    }
    constexpr std::uint32_t kPlain =
        U_GC_L_MASK | U_GC_N_MASK | U_GC_P_MASK | U_GC_SM_MASK | U_GC_SC_MASK | U_GC_SO_MASK;
    return (U_GET_GC_MASK(unit) & kPlain) != 0 && unit != u'\u0E33' && unit != u'\u0EB3' &&
           unit != u'\uFF9E' && unit != u'\uFF9F';
}

/// Scripts whose letters take another form for what stands beside them. Source: Unicode 15,
/// ArabicShaping.txt.
bool joins_letters(UScriptCode script) {
    constexpr std::array<UScriptCode, 13> kJoining = {
        USCRIPT_ARABIC,    USCRIPT_SYRIAC,     USCRIPT_MONGOLIAN,       USCRIPT_NKO,
        USCRIPT_MANDAIC,   USCRIPT_MANICHAEAN, USCRIPT_PHAGS_PA,        USCRIPT_PSALTER_PAHLAVI,
        USCRIPT_ADLAM,     USCRIPT_SOGDIAN,    USCRIPT_HANIFI_ROHINGYA, USCRIPT_CHORASMIAN,
        USCRIPT_OLD_UYGHUR};
    return std::find(kJoining.begin(), kJoining.end(), script) != kJoining.end();
}

struct Word {
    std::uint32_t begin = 0;
    std::uint32_t end = 0;
    bool known = false;
    std::size_t glyph_begin = 0; ///< in Pass::recalled_ or Pass::fresh_
    std::size_t glyph_end = 0;
};

std::vector<Word> cut(const std::u16string& text, std::uint32_t begin, std::uint32_t end) {
    std::vector<Word> words;
    for (std::uint32_t i = begin + 1; i < end; ++i) {
        if (text[i - 1] == u' ' && begins_word(text[i])) {
            words.push_back({begin, i});
            begin = i;
        }
    }
    words.push_back({begin, end});
    return words;
}

} // namespace

/// One item on its way through the cache.
class WordCache::Pass {
  public:
    Pass(WordCache& cache, const ShapeContext& context, const Item& item, const SpaceRules& rules)
        : cache_(cache),
          context_(context),
          item_(item),
          rules_(rules),
          words_(cut(context.text, item.begin, item.end)) {}
    void append_to(std::vector<ShapedGlyph>& glyphs);

  private:
    std::u16string_view text_of(const Word& word) const {
        return std::u16string_view(context_.text).substr(word.begin, word.end - word.begin);
    }
    /// With the word before, where there is one.
    std::u16string_view text_behind(std::size_t i) const {
        const std::uint32_t begin = words_[i == 0 ? 0 : i - 1].begin;
        return std::u16string_view(context_.text).substr(begin, words_[i].end - begin);
    }
    TableKey table_key() const {
        return {context_.face.serial, item_.script, item_.right_to_left(), context_.language};
    }
    void recall();
    bool shape_unknown();
    bool starts_watchful(std::size_t glyph_begin, std::size_t glyph_end) const;
    bool shape_run(std::size_t first, std::size_t last);
    void absorb(const Word& before, std::size_t glyphs);
    void divide(std::size_t first, std::size_t last, std::size_t glyphs);
    bool is_apart(const Word& word) const;
    void keep() const;
    void keep(std::size_t i, WordTable& table) const;

    WordCache& cache_;
    const ShapeContext& context_;
    const Item& item_;
    const SpaceRules& rules_;
    std::vector<Word> words_;
    std::vector<ShapedGlyph> recalled_; ///< clusters count from the word's start
    std::vector<ShapedGlyph> fresh_;    ///< clusters count from the paragraph's start
};

void WordCache::Pass::recall() {
    const std::lock_guard lock(cache_.mutex_);
    const auto table = cache_.tables_.find(table_key());
    if (table == cache_.tables_.end()) {
        return;
    }
    recalled_.reserve(item_.end - item_.begin);
    const WordTable& known = table->second;
    for (std::size_t i = 0; i < words_.size(); ++i) {
        const std::vector<ShapedGlyph>* glyphs = WordTable::find(known.words, text_of(words_[i]));
        if (glyphs == nullptr && !known.behind.empty()) {
            glyphs = WordTable::find(known.behind, text_behind(i));
        }
        if (glyphs != nullptr) {
            words_[i].known = true;
            words_[i].glyph_begin = recalled_.size();
            recalled_.insert(recalled_.end(), glyphs->begin(), glyphs->end());
            words_[i].glyph_end = recalled_.size();
        }
    }
}

/// Glyphs of the words first to last, which stand at the end of fresh_, to each its own.
void WordCache::Pass::divide(std::size_t first, std::size_t last, std::size_t glyphs) {
    const std::size_t count = last - first;
    for (std::size_t i = 0; i < count; ++i) {
        Word& word = words_[item_.right_to_left() ? last - 1 - i : first + i];
        word.glyph_begin = glyphs;
        while (glyphs < fresh_.size() && fresh_[glyphs].cluster >= word.begin &&
               fresh_[glyphs].cluster < word.end) {
            ++glyphs;
        }
        word.glyph_end = glyphs;
    }
}

bool WordCache::Pass::starts_watchful(std::size_t glyph_begin, std::size_t glyph_end) const {
    if (rules_.watchful.empty()) {
        return false;
    }
    const std::size_t count = std::min(glyph_end - glyph_begin, rules_.reach);
    const std::size_t from = item_.right_to_left() ? glyph_end - count : glyph_begin;
    return std::any_of(fresh_.begin() + static_cast<std::ptrdiff_t>(from),
                       fresh_.begin() + static_cast<std::ptrdiff_t>(from + count),
                       [this](const ShapedGlyph& g) { return rules_.is_watchful(g.id); });
}

/// Glyphs of the word before a run, which were shaped with it at the end of fresh_, give way to
/// those at hand; only where the word may not be cut is learned from them.
void WordCache::Pass::absorb(const Word& before, std::size_t glyphs) {
    auto& known = before.known ? recalled_ : fresh_;
    std::size_t at = before.glyph_begin;
    const auto is_before = [&before](const ShapedGlyph& glyph) {
        return glyph.cluster >= before.begin && glyph.cluster < before.end;
    };
    for (std::size_t i = glyphs; i < fresh_.size(); ++i) {
        if (is_before(fresh_[i]) && at < before.glyph_end) {
            known[at].unsafe = fresh_[i].unsafe;
            ++at;
        }
    }
    fresh_.erase(std::remove_if(fresh_.begin() + static_cast<std::ptrdiff_t>(glyphs), fresh_.end(),
                                is_before),
                 fresh_.end());
}

/// Words that mind what stands before the space are shaped with the word before. False where that
/// does not reach far enough.
bool WordCache::Pass::shape_run(std::size_t first, std::size_t last) {
    const std::size_t glyphs = fresh_.size();
    shape(context_, item_, words_[first].begin, words_[last - 1].end, fresh_);
    if (first > 0 && starts_watchful(glyphs, fresh_.size())) {
        const Word& before = words_[first - 1];
        if (before.glyph_end - before.glyph_begin < rules_.reach) {
            return false;
        }
        fresh_.resize(glyphs);
        shape(context_, item_, before.begin, words_[last - 1].end, fresh_);
        absorb(before, glyphs);
    }
    divide(first, last, glyphs);
    return true;
}

bool WordCache::Pass::shape_unknown() {
    for (std::size_t first = 0; first < words_.size(); ++first) {
        std::size_t last = first;
        while (last < words_.size() && !words_[last].known) {
            ++last;
        }
        if (last > first && !shape_run(first, last)) {
            return false;
        }
        first = last;
    }
    return true;
}

/// Cut off safely, with nothing beside it that joins. Its glyphs are its own, or, where it starts
/// with a watchful one, its own and those of the word before.
bool WordCache::Pass::is_apart(const Word& word) const {
    const auto& text = context_.text;
    const bool joins = joins_letters(item_.script);
    const bool starts_apart = !joins || word.begin == 0 || text[word.begin - 1] == u' ';
    const bool ends_apart =
        !joins || word.end == text.size() || text[word.end] == u' ' || text[word.end - 1] == u' ';
    if (word.known || word.end - word.begin > kLongestWord || !starts_apart || !ends_apart ||
        !begins_word(text[word.begin]) || word.glyph_begin == word.glyph_end) {
        return false;
    }
    const ShapedGlyph& front =
        fresh_[item_.right_to_left() ? word.glyph_end - 1 : word.glyph_begin];
    return front.cluster == word.begin && !front.unsafe;
}

void WordCache::Pass::keep(std::size_t i, WordTable& table) const {
    const Word& word = words_[i];
    const bool watchful = starts_watchful(word.glyph_begin, word.glyph_end);
    if (watchful &&
        (i == 0 || words_[i - 1].glyph_end - words_[i - 1].glyph_begin < rules_.reach)) {
        return;
    }
    std::vector<ShapedGlyph> glyphs(fresh_.begin() + static_cast<std::ptrdiff_t>(word.glyph_begin),
                                    fresh_.begin() + static_cast<std::ptrdiff_t>(word.glyph_end));
    for (ShapedGlyph& glyph : glyphs) {
        glyph.cluster -= word.begin;
    }
    const std::u16string_view key = watchful ? text_behind(i) : text_of(word);
    cache_.units_ += glyphs.size() + key.size();
    (watchful ? table.behind : table.words).emplace(std::u16string(key), std::move(glyphs));
}

void WordCache::Pass::keep() const {
    const std::lock_guard lock(cache_.mutex_);
    if (cache_.units_ > kMostUnits) {
        cache_.tables_.clear();
        cache_.units_ = 0;
    }
    WordTable& table = cache_.tables_[table_key()];
    for (std::size_t i = 0; i < words_.size(); ++i) {
        const bool last = i + 1 == words_.size();
        if (is_apart(words_[i]) && (last || words_[i + 1].known || is_apart(words_[i + 1]))) {
            keep(i, table);
        }
    }
}

void WordCache::Pass::append_to(std::vector<ShapedGlyph>& glyphs) {
    recall();
    if (!shape_unknown()) {
        shape(context_, item_, item_.begin, item_.end, glyphs);
        return;
    }
    for (std::size_t i = 0; i < words_.size(); ++i) {
        const Word& word = words_[item_.right_to_left() ? words_.size() - 1 - i : i];
        const auto& from = word.known ? recalled_ : fresh_;
        for (std::size_t k = word.glyph_begin; k < word.glyph_end; ++k) {
            glyphs.push_back(from[k]);
            glyphs.back().cluster += word.known ? word.begin : 0;
        }
    }
    if (!fresh_.empty()) {
        keep();
    }
}

const SpaceRules* WordCache::rules(const Face& face, std::size_t length) {
    const std::lock_guard lock(mutex_);
    Rules& rules = rules_[face.serial];
    rules.seen += length;
    if (!rules.known && rules.seen > kWorthReading) {
        rules.space = read_space_rules(face);
        rules.known = true;
    }
    return rules.known && rules.space.words_apart ? &rules.space : nullptr;
}

void WordCache::shape_item(const ShapeContext& context, const Item& item,
                           std::vector<ShapedGlyph>& glyphs) {
    const SpaceRules* space =
        context.extra_flags == 0 ? rules(context.face, item.end - item.begin) : nullptr;
    if (space == nullptr) {
        shape(context, item, item.begin, item.end, glyphs);
    } else {
        Pass(*this, context, item, *space).append_to(glyphs);
    }
}

void WordCache::clear() {
    const std::lock_guard lock(mutex_);
    tables_.clear();
    units_ = 0;
}

} // namespace tickleaf::text
