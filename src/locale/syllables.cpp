// SPDX-License-Identifier: MIT
#include "locale/syllables.h"

#include <algorithm>
#include <array>
#include <utility>

namespace tickleaf::locale {
namespace {

using Word = std::u32string_view;

bool is_in(char32_t c, Word set) {
    return set.find(c) != Word::npos;
}

/// Runs of vowels.
int groups(Word word, Word vowels) {
    int count = 0;
    bool before = false;
    for (const char32_t c : word) {
        const bool vowel = is_in(c, vowels);
        count += vowel && !before ? 1 : 0;
        before = vowel;
    }
    return count;
}

int letters(Word word, Word vowels) {
    return static_cast<int>(
        std::count_if(word.begin(), word.end(), [vowels](char32_t c) { return is_in(c, vowels); }));
}

constexpr Word kEnglishVowels = U"aeiouy";

bool ends_with_any(Word word, std::initializer_list<Word> endings) {
    return std::any_of(endings.begin(), endings.end(),
                       [word](Word ending) { return word.ends_with(ending); });
}

/// "le", "les", "led" after a consonant make a syllable of their own: "table", but not "filled".
bool has_syllabic_l(Word stem) {
    const std::size_t n = stem.size();
    return n >= 2 && stem[n - 1] == U'l' && stem[n - 2] != U'l' &&
           !is_in(stem[n - 2], kEnglishVowels);
}

bool is_silent_end(Word word) {
    const std::size_t n = word.size();
    if (word.ends_with(U"e")) {
        const Word stem = word.substr(0, n - 1);
        return n > 1 && !is_in(word[n - 2], kEnglishVowels) && !has_syllabic_l(stem);
    }
    if (n < 3 || is_in(word[n - 3], kEnglishVowels)) {
        return false;
    }
    const Word stem = word.substr(0, n - 2);
    if (word.ends_with(U"es")) {
        return !ends_with_any(stem, {U"s", U"x", U"z", U"ch", U"sh", U"c", U"g"}) &&
               !has_syllabic_l(stem);
    }
    return word.ends_with(U"ed") && !ends_with_any(stem, {U"t", U"d"}) && !has_syllabic_l(stem);
}

int english(Word word) {
    static constexpr std::array<std::pair<Word, int>, 12> kExceptions = {{{U"barefoot", 2},
                                                                          {U"centimetre", 4},
                                                                          {U"centimetres", 4},
                                                                          {U"easier", 3},
                                                                          {U"ok", 2},
                                                                          {U"react", 2},
                                                                          {U"reacts", 2},
                                                                          {U"safety", 2},
                                                                          {U"sideways", 2},
                                                                          {U"something", 2},
                                                                          {U"sometimes", 2},
                                                                          {U"tired", 2}}};
    for (const auto& [exception, count] : kExceptions) {
        if (word == exception) {
            return count;
        }
    }
    for (const Word suffix :
         {Word(U"ly"), Word(U"ful"), Word(U"less"), Word(U"ness"), Word(U"ment"), Word(U"ments")}) {
        const Word stem = word.substr(0, word.size() - std::min(word.size(), suffix.size()));
        if (word.ends_with(suffix) && stem.size() >= 3 && stem.back() == U'e' &&
            groups(stem, kEnglishVowels) > 0) {
            return english(stem) + 1;
        }
    }
    const Word before_ing = word.substr(0, word.size() - std::min<std::size_t>(word.size(), 3));
    if (word.ends_with(U"ing") && word.size() > 4 && groups(before_ing, kEnglishVowels) > 0) {
        return groups(before_ing, kEnglishVowels) + 1;
    }
    const int count = groups(word, kEnglishVowels);
    return count > 1 && is_silent_end(word) ? count - 1 : count;
}

/// Vowels in a row are one syllable where one of them is weak and not stressed: Spanish, Portuguese
/// and Italian.
int romance(Word word, Word strong, Word weak) {
    int count = 0;
    char32_t before = 0;
    for (std::size_t i = 0; i < word.size(); ++i) {
        const char32_t c = word[i];
        const char32_t next = i + 1 < word.size() ? word[i + 1] : U'\0';
        const bool is_consonant = c == U'y' && (is_in(next, strong) || is_in(next, weak));
        const bool is_strong = is_in(c, strong);
        const bool is_vowel = (is_strong || is_in(c, weak)) && !is_consonant;
        const bool is_nasal = (before == U'ã' || before == U'õ') && (c == U'o' || c == U'e');
        const bool joins =
            is_in(before, weak) || is_nasal || (is_vowel && !is_strong && is_in(before, strong));
        count += is_vowel && !joins ? 1 : 0;
        before = is_vowel ? c : U'\0';
    }
    return count;
}

int french(Word word) {
    constexpr Word kVowels = U"aeiouyàâäéèêëîïôöùûüœæ";
    int count = 0;
    char32_t before = 0;
    for (std::size_t i = 0; i < word.size(); ++i) {
        const char32_t c = word[i];
        const bool is_silent_u = c == U'u' && i > 0 &&
                                 (word[i - 1] == U'q' || word[i - 1] == U'g') &&
                                 (i + 1 == word.size() || is_in(word[i + 1], U"eéèêi"));
        const bool vowel = is_in(c, kVowels) && !is_silent_u;
        // An accent or a diaeresis parts it from the vowel before: "réaction", "maïs".
        const bool parted = before == U'é' || c == U'é' || c == U'ï' || c == U'ë';
        const bool weak_before = before == U'i' || before == U'u' || before == U'o';
        count += vowel && (!is_in(before, kVowels) || (parted && !weak_before)) ? 1 : 0;
        before = vowel ? c : U'\0';
    }
    const std::size_t n = word.size();
    const bool mute = (n > 2 && word.ends_with(U"e") && !is_in(word[n - 2], U"aàéèo")) ||
                      (n > 3 && word.ends_with(U"es") && !is_in(word[n - 3], U"aàéèo"));
    const bool own_group = mute && !is_in(word[word.ends_with(U"es") ? n - 3 : n - 2], U"iuy");
    const bool after_qu = mute && n > 3 && ends_with_any(word, {U"que", U"ques", U"gue", U"gues"});
    return count > 1 && (own_group || after_qu) ? count - 1 : count;
}

int germanic(Word word, Word vowels, std::initializer_list<Word> pairs) {
    int count = 0;
    for (std::size_t i = 0; i < word.size(); ++i) {
        if (!is_in(word[i], vowels)) {
            continue;
        }
        ++count;
        const Word two = word.substr(i, 2);
        if (std::any_of(pairs.begin(), pairs.end(), [two](Word pair) { return pair == two; })) {
            ++i;
        }
    }
    return count;
}

/// "i" before another vowel only softens the consonant: "nie", "siedem".
int polish(Word word) {
    constexpr Word kVowels = U"aąeęioóuy";
    int count = 0;
    for (std::size_t i = 0; i < word.size(); ++i) {
        const bool softens = word[i] == U'i' && i + 1 < word.size() && is_in(word[i + 1], kVowels);
        count += is_in(word[i], kVowels) && !softens ? 1 : 0;
    }
    return count;
}

using Counter = int (*)(Word);

Counter counter_of(std::string_view language) {
    struct Row {
        std::string_view language;
        Counter counter;
    };
    static constexpr std::array<Row, 11> kRows = {{
        {"de",
         [](Word word) {
             return germanic(
                 word, U"aeiouyäöü",
                 {U"ei", U"ai", U"au", U"eu", U"äu", U"ie", U"aa", U"ee", U"oo", U"ey", U"ay"});
         }},
        {"en", english},
        {"es", [](Word word) { return romance(word, U"aeoáéóíúý", U"iuüy"); }},
        {"fr", french},
        {"it", [](Word word) { return romance(word, U"aeoàèéòóìíùú", U"iu"); }},
        {"nl",
         [](Word word) {
             return germanic(word, U"aeiouyëïöü",
                             {U"aa", U"ee", U"oo", U"uu", U"ie", U"oe", U"eu", U"ui", U"ei", U"ij",
                              U"ou", U"au", U"ai"});
         }},
        {"pl", polish},
        {"pt", [](Word word) { return romance(word, U"aeoáâàãéêíóôõú", U"iu"); }},
        {"ru", [](Word word) { return letters(word, U"аеёиоуыэюя"); }},
        {"tr", [](Word word) { return letters(word, U"aeıioöuüâîû"); }},
        {"uk", [](Word word) { return letters(word, U"аеєиіїоуюя"); }},
    }};
    for (const Row& row : kRows) {
        if (row.language == language) {
            return row.counter;
        }
    }
    return nullptr;
}

} // namespace

bool has_syllables(std::string_view language) {
    return counter_of(language) != nullptr;
}

int syllables(std::string_view language, const std::u32string& word) {
    const Counter counter = counter_of(language);
    return counter == nullptr ? 1 : counter(word);
}

} // namespace tickleaf::locale
