// SPDX-License-Identifier: MIT
#include "locale/reading_level.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <unicode/locid.h>
#include <unicode/uchar.h>
#include <unicode/unistr.h>

#include "locale/syllables.h"

namespace tickleaf::locale {
namespace {

using Counts = ReadingCounts;

double words_a_sentence(const Counts& c) {
    return static_cast<double>(c.words) / c.sentences;
}
double syllables_a_word(const Counts& c) {
    return static_cast<double>(c.syllables) / c.words;
}
double percent(int part, const Counts& c) {
    return 100.0 * part / c.words;
}

/// `base` less so much a word of a sentence and so much a syllable of a word: Flesch's form, which
/// most languages took over with numbers of their own.
template <int Base1000, int Sentence1000, int Syllable1000>
double flesch_form(const Counts& c) {
    return Base1000 / 1000.0 - Sentence1000 / 1000.0 * words_a_sentence(c) -
           Syllable1000 / 1000.0 * syllables_a_word(c);
}

double flesch_kincaid(const Counts& c) {
    return 0.39 * words_a_sentence(c) + 11.8 * syllables_a_word(c) - 15.59;
}
double smog(const Counts& c) {
    return 3.1291 + 1.0430 * std::sqrt(30.0 * c.polysyllables / c.sentences);
}
double gulpease(const Counts& c) {
    return 89.0 + (300.0 * c.sentences - 10.0 * c.letters) / c.words;
}
double lix(const Counts& c) {
    return words_a_sentence(c) + percent(c.long_words, c);
}
double wstf1(const Counts& c) {
    return 0.1935 * percent(c.polysyllables, c) + 0.1672 * words_a_sentence(c) +
           0.1297 * percent(c.long_words, c) - 0.0327 * percent(c.one_syllable, c) - 0.875;
}
double wstf2(const Counts& c) {
    return 0.2007 * percent(c.polysyllables, c) + 0.1682 * words_a_sentence(c) +
           0.1373 * percent(c.long_words, c) - 2.779;
}
double wstf3(const Counts& c) {
    return 0.2963 * percent(c.polysyllables, c) + 0.1905 * words_a_sentence(c) - 1.1144;
}
double wstf4(const Counts& c) {
    return 0.2744 * percent(c.polysyllables, c) + 0.2656 * words_a_sentence(c) - 1.693;
}
double pisarek(const Counts& c) {
    const double hard = percent(c.four_syllables, c);
    return 0.5 * std::sqrt(words_a_sentence(c) * words_a_sentence(c) + hard * hard);
}
double oborneva_grade(const Counts& c) {
    return 0.5 * words_a_sentence(c) + 8.4 * syllables_a_word(c) - 15.59;
}

struct Formula {
    std::string_view language; ///< empty: of any language
    std::string_view name;
    std::string_view source;
    double (*value)(const Counts&);
    bool is_grade;
    double easy; ///< at most (a grade) or at least (a scale) this is easy
};

// Bands of Flesch's scale are his own (70 and above: fairly easy to very easy), used for its
// children too; INFLESZ names 65 and above fairly easy (Barrio-Cantalejo 2008).
constexpr std::array<Formula, 21> kFormulas = {{
    {"en", "Flesch-Kincaid grade", "Kincaid et al. 1975, Navy RBR 8-75", flesch_kincaid, true,
     kHighestGrade},
    {"en", "Flesch reading ease", "Flesch 1948", flesch_form<206835, 1015, 84600>, false, 70},
    {"en", "SMOG", "McLaughlin 1969", smog, true, 8},
    {"es", "Szigriszt-Pazos", "Szigriszt-Pazos 1993; band: INFLESZ",
     flesch_form<206835, 1000, 62300>, false, 65},
    {"es", "Fernandez Huerta", "Fernandez Huerta 1959", flesch_form<206840, 1020, 60000>, false,
     70},
    {"fr", "Kandel-Moles", "Kandel and Moles 1958", flesch_form<207000, 1015, 73600>, false, 70},
    {"de", "Amstad", "Amstad 1978", flesch_form<180000, 1000, 58500>, false, 70},
    {"de", "WSTF1", "Bamberger and Vanecek 1984", wstf1, true, kHighestGrade},
    {"de", "WSTF2", "Bamberger and Vanecek 1984", wstf2, true, kHighestGrade},
    {"de", "WSTF3", "Bamberger and Vanecek 1984", wstf3, true, kHighestGrade},
    {"de", "WSTF4", "Bamberger and Vanecek 1984", wstf4, true, kHighestGrade},
    {"it", "Gulpease", "Lucisano and Piemontese 1988", gulpease, false, 60},
    {"it", "Flesch-Vacca", "Franchina and Vacca 1986", flesch_form<217000, 1300, 60000>, false, 70},
    {"nl", "Douma", "Douma 1960", flesch_form<206840, 930, 77000>, false, 70},
    {"pl", "Pisarek", "Pisarek 1969, hard words counted as printed", pisarek, true, kHighestGrade},
    // Value from memory: Flesch's with 42 added for the longer words of Portuguese.
    {"pt", "Flesch-Martins", "Martins et al. 1996 (value from memory)",
     flesch_form<248835, 1015, 84600>, false, 70},
    {"ru", "Oborneva", "Oborneva 2006", flesch_form<206835, 1300, 60100>, false, 70},
    {"ru", "Oborneva grade", "Oborneva 2006", oborneva_grade, true, kHighestGrade},
    {"tr", "Atesman", "Atesman 1997 (value from memory)", flesch_form<198825, 2610, 40175>, false,
     70},
    {"uk", "Partiko", "Partiko 2001", flesch_form<206840, 5930, 28300>, false, 70},
    {"", "LIX", "Bjornsson 1968", lix, false, 0},
}};

/// A tag's language without script and region.
std::string_view primary(std::string_view tag) {
    return tag.substr(0, std::min(tag.find('-'), tag.size()));
}

bool is_letter(UChar32 c) {
    return u_isalpha(c) || u_charType(c) == U_NON_SPACING_MARK ||
           u_charType(c) == U_COMBINING_SPACING_MARK;
}

bool joins(UChar32 c) {
    return c == '\'' || c == 0x2019 || c == '-' || c == 0x2010 || c == 0x2011 || c == 0x00AD;
}

bool ends_sentence(UChar32 c) {
    return c == '.' || c == '!' || c == '?' || c == 0x2026 || c == 0x0964 || c == 0x061F ||
           c == 0x06D4 || c == 0x3002;
}

/// Gathers words and sentences of one text.
class Tally {
  public:
    explicit Tally(std::string_view language) : language_(language) {}

    void letter(UChar32 c) {
        part_ += static_cast<char32_t>(u_tolower(c));
        printed_.append(c);
        ++letters_;
    }
    void digit() {
        ++digits_;
        printed_.append(UChar32{'0'});
    }
    void join(UChar32 c) {
        finish_part();
        printed_.append(c);
    }
    bool in_word() const { return letters_ + digits_ > 0; }

    void finish_word() {
        finish_part();
        if (!in_word()) {
            printed_.remove();
            return;
        }
        Counts& counts = out_.counts;
        // Slavic prepositions of one consonant are read with the next word.
        const bool may_be_none = language_ == "ru" || language_ == "uk" || language_ == "pl";
        const int syllables =
            std::max(syllables_ + (letters_ == 0 ? digits_ : 0), may_be_none ? 0 : 1);
        ++counts.words;
        counts.syllables += syllables;
        counts.letters += letters_;
        counts.long_words += letters_ > 6 ? 1 : 0;
        counts.polysyllables += syllables >= 3 ? 1 : 0;
        counts.four_syllables += syllables >= 4 ? 1 : 0;
        counts.one_syllable += syllables == 1 ? 1 : 0;
        const int hard = language_ == "en" ? 3 : 4;
        if (letters_ > 0 && syllables >= hard && has_syllables(language_)) {
            std::string word;
            printed_.toLower(icu::Locale::getRoot()).toUTF8String(word);
            out_.hard.push_back({std::move(word), syllables});
        }
        open_ = true;
        letters_ = digits_ = syllables_ = 0;
        printed_.remove();
    }
    void finish_sentence() {
        finish_word();
        out_.counts.sentences += open_ ? 1 : 0;
        open_ = false;
    }
    CountedText take() { return std::move(out_); }

  private:
    void finish_part() {
        syllables_ += part_.empty() ? 0 : syllables(language_, part_);
        part_.clear();
    }

    std::string_view language_;
    CountedText out_;
    std::u32string part_;
    icu::UnicodeString printed_;
    int letters_ = 0;
    int digits_ = 0;
    int syllables_ = 0;
    bool open_ = false;
};

} // namespace

void ReadingCounts::add(const ReadingCounts& other) {
    words += other.words;
    sentences += other.sentences;
    syllables += other.syllables;
    letters += other.letters;
    long_words += other.long_words;
    polysyllables += other.polysyllables;
    four_syllables += other.four_syllables;
    one_syllable += other.one_syllable;
}

CountedText count_reading(std::string_view tag, std::string_view text) {
    Tally tally(primary(tag));
    const auto unicode = icu::UnicodeString::fromUTF8(
        icu::StringPiece(text.data(), static_cast<std::int32_t>(text.size())));
    for (std::int32_t i = 0; i < unicode.length(); i = unicode.moveIndex32(i, 1)) {
        const UChar32 c = unicode.char32At(i);
        const std::int32_t after = unicode.moveIndex32(i, 1);
        const bool word_follows = after < unicode.length() && (is_letter(unicode.char32At(after)) ||
                                                               u_isdigit(unicode.char32At(after)));
        if (is_letter(c)) {
            tally.letter(c);
        } else if (u_isdigit(c)) {
            tally.digit();
        } else if ((joins(c) || c == '.' || c == ',') && tally.in_word() && word_follows) {
            tally.join(c);
        } else if (ends_sentence(c)) {
            tally.finish_sentence();
        } else {
            tally.finish_word();
        }
    }
    tally.finish_sentence();
    return tally.take();
}

std::vector<ReadingScore> reading_scores(std::string_view tag, const ReadingCounts& counts) {
    std::vector<ReadingScore> out;
    if (counts.words < kFewestWords || counts.sentences == 0) {
        return out;
    }
    for (const Formula& formula : kFormulas) {
        if (formula.language == primary(tag)) {
            const double value = formula.value(counts);
            out.push_back({std::string(formula.name), std::string(formula.source), value,
                           formula.is_grade,
                           formula.is_grade ? value <= formula.easy : value >= formula.easy});
        }
    }
    return out;
}

std::optional<double> reading_formula(std::string_view name, const ReadingCounts& counts) {
    for (const Formula& formula : kFormulas) {
        if (formula.name == name && counts.words > 0 && counts.sentences > 0) {
            return formula.value(counts);
        }
    }
    return std::nullopt;
}

} // namespace tickleaf::locale
