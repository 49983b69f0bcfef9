// SPDX-License-Identifier: MIT
#include "text/breaks.h"

#include <algorithm>
#include <array>
#include <string_view>

#include <unicode/uchar.h>
#include <unicode/uscript.h>

#include "text/collect.h"

namespace tickleaf::text {

namespace {

using Text = std::u16string_view;

/// Symbols that mean nothing without their number. Words for units are left to the translators'
/// NBSP.
constexpr std::array<Text, 57> kUnits = {
    u"%",   u"‰",  u"°",  u"°C",  u"°F",  u"kg",    u"g",   u"mg",   u"lb",  u"lbs", u"oz", u"m",
    u"cm",  u"mm", u"km", u"in",  u"ft",  u"km/h",  u"m/s", u"s",    u"sec", u"min", u"h",  u"N",
    u"Nm",  u"ml", u"l",  u"pt",  u"bpm", u"кг",    u"г",   u"м",    u"см",  u"мм",  u"км", u"с",
    u"мин", u"ч",  u"Н",  u"κ",   u"εκ",  u"δ",     u"كغ",  u"كجم",  u"سم",  u"م",   u"مم", u"كم",
    u"ث",   u"د",  u"٪",  u"ק״ג", u"ס״מ", u"किग्रा", u"सेमी", u"公斤", u"厘米"};
constexpr std::size_t kLongestUnit = 8;

bool is_digit(char16_t c) {
    return (c >= u'0' && c <= u'9') || (c >= 0x0660 && u_isdigit(c) != 0);
}
bool is_dash(char16_t c) {
    return c == u'-' || (c >= u'\u2010' && c <= u'\u2014') || c == u'\u2212';
}
bool is_hangul(char16_t c) {
    return c >= u'\uAC00' && c <= u'\uD7A3';
}
bool is_letter(char16_t c) {
    return u_isalnum(c) != 0;
}

char16_t at(const std::u16string& text, std::size_t i) {
    return i < text.size() ? text[i] : u'\0';
}

/// The unit symbol that begins at a place and ends with a word, or an empty view.
Text unit_at(const std::u16string& text, std::size_t place) {
    std::size_t end = place;
    while (end < text.size() && end - place <= kLongestUnit &&
           (is_letter(text[end]) || text[end] == u'/' || text[end] == u'%' || text[end] == u'°' ||
            text[end] == u'‰' || text[end] == u'٪' || text[end] == u'״' ||
            (U_GET_GC_MASK(text[end]) & U_GC_M_MASK) != 0)) {
        ++end;
    }
    const Text word = Text(text).substr(place, end - place);
    return std::find(kUnits.begin(), kUnits.end(), word) != kUnits.end() ? word : Text();
}

bool splits_range(const std::u16string& text, std::size_t place) {
    return place >= 2 && is_dash(text[place - 1]) && is_digit(text[place - 2]) &&
           is_digit(at(text, place));
}

bool splits_quantity(const std::u16string& text, std::size_t place) {
    if (place < 2) {
        return false;
    }
    // After the space between number and unit.
    if (text[place - 1] == u' ' && is_digit(text[place - 2]) && !unit_at(text, place).empty()) {
        return true;
    }
    // Inside a unit, as in "5 km/|h".
    for (std::size_t begin = place; begin-- > 1 && place - begin <= kLongestUnit;) {
        const bool after_number =
            is_digit(text[begin - 1]) ||
            (begin >= 2 && text[begin - 1] == u' ' && is_digit(text[begin - 2]));
        if (after_number && begin + unit_at(text, begin).size() > place) {
            return true;
        }
    }
    return false;
}

bool splits_product(const std::u16string& text, std::size_t place) {
    if (place < 2 || text[place - 1] != u' ') {
        return false;
    }
    const char16_t before = text[place - 2];
    const char16_t after = at(text, place);
    return (is_digit(before) && after == u'×') || (before == u'×' && is_digit(after));
}

/// Inside a telephone number written as "+44 1632 960123" or "1632 960123".
bool splits_telephone(const std::u16string& text, std::size_t place) {
    if (place < 2 || text[place - 1] != u' ' || !is_digit(at(text, place))) {
        return false;
    }
    if (!is_digit(text[place - 2]) && text[place - 2] != u')') {
        return false;
    }
    std::size_t groups = place;
    while (is_digit(at(text, groups))) {
        ++groups;
    }
    std::size_t begin = place - 1;
    while (begin > 0 &&
           (is_digit(text[begin - 1]) || text[begin - 1] == u' ' || text[begin - 1] == u'(' ||
            text[begin - 1] == u')' || text[begin - 1] == u'-')) {
        --begin;
    }
    return groups - place >= 3 || (begin > 0 && text[begin - 1] == u'+');
}

bool splits_punctuation(const std::u16string& text, std::size_t place) {
    if (place < 2 || text[place - 1] != u' ') {
        return false;
    }
    const char16_t after = at(text, place);
    return text[place - 2] == u'«' || after == u'»' || after == u'!' || after == u'?' ||
           after == u':' || after == u';';
}

/// Korean words stay whole; they are set apart by spaces (common practice for prose).
bool splits_korean(const std::u16string& text, std::size_t place) {
    if (place < 1) {
        return false;
    }
    const char16_t before = text[place - 1];
    const char16_t after = at(text, place);
    return (is_hangul(before) && is_letter(after)) || (is_letter(before) && is_hangul(after));
}

bool is_hiragana(char16_t c) {
    return c >= u'\u3041' && c <= u'\u309F';
}

/// Polite endings and requests that ICU's phrases cut in two, as in "kuda|sai" (common practice: a
/// line does not begin inside a word).
bool splits_ending(const std::u16string& text, std::size_t place) {
    if (place < 1 || !is_hiragana(text[place - 1]) || !is_hiragana(at(text, place))) {
        return false;
    }
    constexpr std::array<Text, 6> kEndings = {u"ください", u"ましょう", u"でしょう",
                                              u"ません",   u"ました",   u"ながら"};
    return std::any_of(kEndings.begin(), kEndings.end(), [&](Text ending) {
        for (std::size_t inside = 1; inside < ending.size() && inside <= place; ++inside) {
            if (Text(text).substr(place - inside, ending.size()) == ending) {
                return true;
            }
        }
        return false;
    });
}

/// A number and the counter word that follows it without a space, as in Chinese and Japanese.
bool splits_counter(const std::u16string& text, std::size_t place) {
    if (place < 1 || !is_digit(text[place - 1])) {
        return false;
    }
    UErrorCode status = U_ZERO_ERROR;
    const UScriptCode script = uscript_getScript(at(text, place), &status);
    return script == USCRIPT_HAN || script == USCRIPT_HIRAGANA || script == USCRIPT_KATAKANA;
}

} // namespace

bool may_end_line(const std::u16string& text, std::uint32_t place) {
    if (place == text.size()) {
        return true;
    }
    const bool soft_hyphen = place >= 1 && text[place - 1] == u'\u00AD';
    return !soft_hyphen && !splits_range(text, place) && !splits_quantity(text, place) &&
           !splits_product(text, place) && !splits_telephone(text, place) &&
           !splits_punctuation(text, place) && !splits_korean(text, place) &&
           !splits_counter(text, place) && !splits_ending(text, place);
}

std::vector<std::uint32_t> standard_breaks(BreakIterator& iterator, const std::string& locale,
                                           const std::u16string& text) {
    UErrorCode status = U_ZERO_ERROR;
    const auto length = static_cast<int32_t>(text.size());
    if (!iterator) {
        iterator.reset(ubrk_open(UBRK_LINE, locale.c_str(), nullptr, 0, &status));
    }
    std::vector<std::uint32_t> places;
    ubrk_setText(iterator.get(), text.data(), length, &status);
    support::internal_error_if(U_FAILURE(status) != 0, "ICU cannot find line breaks");
    ubrk_first(iterator.get());
    for (int32_t i = ubrk_next(iterator.get()); i != UBRK_DONE; i = ubrk_next(iterator.get())) {
        places.push_back(static_cast<std::uint32_t>(i));
    }
    return places;
}

std::vector<std::uint32_t> allowed_breaks(LanguageState& language, const std::u16string& text) {
    auto places = standard_breaks(language.lines, language.info.break_locale, text);
    places.erase(std::remove_if(places.begin(), places.end(),
                                [&](std::uint32_t place) { return !may_end_line(text, place); }),
                 places.end());
    return places;
}

bool parts_number(const std::u16string& text, std::uint32_t word_end, std::uint32_t place) {
    if (word_end == 0 || !is_digit(text[word_end - 1])) {
        return false;
    }
    std::size_t next = place;
    while (next < text.size() && is_invisible(text[next])) {
        ++next;
    }
    return u_isalpha(at(text, next)) != 0;
}

std::vector<std::uint32_t> graphemes(LanguageState& language, const std::u16string& text,
                                     std::uint32_t begin, std::uint32_t end) {
    UErrorCode status = U_ZERO_ERROR;
    if (!language.graphemes) {
        language.graphemes.reset(ubrk_open(UBRK_CHARACTER, "", nullptr, 0, &status));
    }
    UBreakIterator* iterator = language.graphemes.get();
    ubrk_setText(iterator, text.data(), static_cast<int32_t>(text.size()), &status);
    support::internal_error_if(U_FAILURE(status) != 0, "ICU cannot find graphemes");
    std::vector<std::uint32_t> places;
    int32_t place = ubrk_following(iterator, static_cast<int32_t>(begin));
    for (; place != UBRK_DONE && place < static_cast<int32_t>(end); place = ubrk_next(iterator)) {
        places.push_back(static_cast<std::uint32_t>(place));
    }
    return places;
}

} // namespace tickleaf::text
