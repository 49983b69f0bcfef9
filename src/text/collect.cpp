// SPDX-License-Identifier: MIT
#include "text/collect.h"

#include <algorithm>
#include <array>

#include <unicode/uchar.h>

#include "support/utf8.h"

namespace tickleaf::text {

namespace {

constexpr int kMostMarks = 30;

enum class Verdict { Keep, Space, LineEnd, Skip, Reject };

struct Judgement {
    Verdict verdict = Verdict::Keep;
    const char* id = "";
    const char* what = "";
    const char* hint = "";
};

constexpr Judgement kControl{Verdict::Reject, "text-control", "a control character", "delete it"};
constexpr Judgement kBidi{Verdict::Reject, "text-bidi-control",
                          "a direction override or embedding, which can turn numbers round",
                          "delete it; directions are worked out from the text and its language"};
constexpr Judgement kPrivate{Verdict::Reject, "text-private-use",
                             "a private-use character, which has no agreed meaning",
                             "write it with a character of the Unicode Standard"};
constexpr Judgement kUnassigned{Verdict::Reject, "text-unassigned",
                                "a code point without a character", "delete it"};

constexpr Judgement kZeroWidth{Verdict::Reject, "text-zero-width",
                               "an invisible character that does nothing here",
                               "delete it; U+2060 keeps words on one line"};
constexpr Judgement kSplitNumber{Verdict::Reject, "text-split-number",
                                 "an invisible place to end a line inside a number", "delete it"};
constexpr Judgement kTurnedNumber{
    Verdict::Reject, "text-split-number",
    "a direction mark inside a number, which prints its parts the other way round", "delete it"};
constexpr Judgement kLost{Verdict::Reject, "text-lost",
                          "what a program leaves where it lost a character",
                          "write the character that belongs here"};

bool in_range(char32_t c, char32_t first, char32_t last) {
    return c >= first && c <= last;
}

Judgement judge_control(char32_t c) {
    switch (c) {
    case U'\t':
        return {Verdict::Space};
    case U'\r':
        return {Verdict::Skip};
    case U'\n':
    case U'\v':
    case U'\f':
    case U'\u0085':
        return {Verdict::LineEnd};
    default:
        return kControl;
    }
}

/// Format characters: some are kept, some steer us, the rest have no place in a patient's text.
Judgement judge_format(char32_t c) {
    if (in_range(c, 0x202A, 0x202E)) {
        return kBidi;
    }
    if (c == 0xFEFF || c == 0x180E || in_range(c, 0x2061, 0x2064)) {
        return kZeroWidth;
    }
    const bool deprecated = in_range(c, 0x206A, 0x206F) || in_range(c, 0xFFF9, 0xFFFB);
    return deprecated || c >= 0xE0000 ? kControl : Judgement{};
}

/// Letters and signs without ink: fillers of Hangul, the blank of Braille.
bool is_blank_letter(char32_t c) {
    return c == 0x115F || c == 0x1160 || c == 0x2800 || c == 0x3164 || c == 0xFFA0;
}

Judgement judge(char32_t c) {
    if (in_range(c, 0x20, 0x7E)) {
        return {};
    }
    if (c == 0xFFFD) {
        return kLost;
    }
    if (is_blank_letter(c)) {
        return kZeroWidth;
    }
    switch (u_charType(static_cast<UChar32>(c))) {
    case U_CONTROL_CHAR:
        return judge_control(c);
    case U_LINE_SEPARATOR:
    case U_PARAGRAPH_SEPARATOR:
        return {Verdict::LineEnd};
    case U_FORMAT_CHAR:
        return judge_format(c);
    case U_PRIVATE_USE_CHAR:
        return kPrivate;
    case U_UNASSIGNED:
        return kUnassigned;
    default:
        return {};
    }
}

bool is_mark(char32_t c) {
    return c >= 0x300 && (U_GET_GC_MASK(static_cast<UChar32>(c)) & U_GC_M_MASK) != 0 &&
           u_hasBinaryProperty(static_cast<UChar32>(c), UCHAR_DEFAULT_IGNORABLE_CODE_POINT) == 0;
}

/// Marks that count as a right-to-left letter. Left-to-right marks keep a number as it is.
bool is_right_to_left_mark(char32_t c) {
    return c == 0x200F || c == 0x061C;
}

/// Signs that stand before or between the digits of a number or a range.
bool is_number_sign(char32_t c) {
    constexpr std::u32string_view kSigns = U"+-/.,:\u00D7\u2010\u2011\u2013\u2212";
    return kSigns.find(c) != std::u32string_view::npos;
}

class Collector {
  public:
    Collector(const ParagraphSource& source, support::Findings& findings)
        : source_(source), findings_(findings) {
        out_.text.reserve(source.text.size());
        out_.utf8.reserve(source.text.size());
        out_.offsets.reserve(source.text.size() + 1);
    }
    Collected run();

  private:
    void take(char32_t c);
    void keep(char32_t c);
    bool refuse_mark(char32_t c);
    bool refuse_isolate(char32_t c);
    void report_split_number(char32_t c);
    void report(const Judgement& judgement, char32_t c);
    void append(char32_t c);

    const ParagraphSource& source_;
    support::Findings& findings_;
    Collected out_;
    std::vector<char32_t> reported_;
    int marks_ = 0;
    bool has_base_ = false;
    int open_isolates_ = 0;
    bool after_digit_ = false; ///< but for what `splitter_` holds
    bool after_sign_ = false;  ///< that may belong to a number
    bool in_number_ = false;   ///< after a sign after a digit
    char32_t splitter_ = 0;    ///< what is invisible after the beginning of a number
};

void Collector::report(const Judgement& judgement, char32_t c) {
    if (std::find(reported_.begin(), reported_.end(), c) != reported_.end()) {
        return;
    }
    reported_.push_back(c);
    findings_.error(source_.span, judgement.id,
                    name_character(c) + in_place(source_) + " is " + judgement.what,
                    judgement.hint);
}

void Collector::append(char32_t c) {
    const auto offset = static_cast<std::uint32_t>(out_.utf8.size());
    if (c > 0xFFFF) {
        out_.text += static_cast<char16_t>(0xD7C0 + (c >> 10));
        out_.text += static_cast<char16_t>(0xDC00 + (c & 0x3FF));
        out_.offsets.push_back(offset);
    } else {
        out_.text += static_cast<char16_t>(c);
    }
    out_.offsets.push_back(offset);
    support::append_utf8(out_.utf8, c);
}

bool Collector::refuse_mark(char32_t c) {
    if (!is_mark(c)) {
        marks_ = 0;
        return false;
    }
    if (!has_base_) {
        report({Verdict::Reject, "text-lone-mark", "a combining mark with no letter before it",
                "write the letter first, then its marks"},
               c);
        return true;
    }
    if (++marks_ > kMostMarks) {
        report({Verdict::Reject, "text-marks", "one of more than 30 marks on one letter",
                "delete the surplus marks"},
               c);
        return true;
    }
    return false;
}

bool Collector::refuse_isolate(char32_t c) {
    if (in_range(c, 0x2066, 0x2068)) {
        ++open_isolates_;
    } else if (c == 0x2069 && --open_isolates_ < 0) {
        open_isolates_ = 0;
        report({Verdict::Reject, "text-bidi-control", "the end of an isolate that was not begun",
                "delete it"},
               c);
        return true;
    }
    return false;
}

/// "1" and "5" with a zero width space between are 15 on one line and 1 on another; "5" and "-10"
/// with a right-to-left mark between print as "510-".
void Collector::report_split_number(char32_t c) {
    if (c == 0x200B || c == 0x00AD || is_right_to_left_mark(c)) {
        const bool inside = after_digit_ || in_number_;
        splitter_ = inside || (after_sign_ && is_right_to_left_mark(c)) ? c : splitter_;
        return;
    }
    const bool digit = u_isdigit(static_cast<UChar32>(c)) != 0;
    if (digit && splitter_ != 0) {
        report(is_right_to_left_mark(splitter_) ? kTurnedNumber : kSplitNumber, splitter_);
    }
    after_sign_ = is_number_sign(c);
    in_number_ = after_sign_ && after_digit_;
    splitter_ = in_number_ ? splitter_ : 0;
    after_digit_ = digit;
}

void Collector::keep(char32_t c) {
    if (refuse_mark(c) || refuse_isolate(c)) {
        return;
    }
    report_split_number(c);
    const bool invisible = is_invisible(c);
    out_.has_invisible = out_.has_invisible || invisible;
    has_base_ = c != U' ' && !invisible;
    append(c);
}

void Collector::take(char32_t c) {
    const Judgement judgement = judge(c);
    switch (judgement.verdict) {
    case Verdict::Keep:
        keep(c);
        break;
    case Verdict::Space:
        keep(U' ');
        break;
    case Verdict::LineEnd:
        keep(U' ');
        out_.hard_breaks.push_back(static_cast<std::uint32_t>(out_.text.size()));
        break;
    case Verdict::Skip:
        break;
    case Verdict::Reject:
        report(judgement, c);
        break;
    }
}

Collected Collector::run() {
    std::string_view rest = source_.text;
    while (!rest.empty() && (rest.back() == '\n' || rest.back() == '\r')) {
        rest.remove_suffix(1);
    }
    bool reported_bytes = false;
    while (!rest.empty()) {
        const auto decoded = support::decode_utf8(rest);
        if (decoded) {
            take(decoded->code_point);
        } else if (!reported_bytes) {
            reported_bytes = true;
            findings_.error(source_.span, "text-encoding",
                            "byte " + std::to_string(source_.text.size() - rest.size() + 1) +
                                in_place(source_) + " is not UTF-8",
                            "save the file as UTF-8");
        }
        rest.remove_prefix(decoded ? decoded->length : 1);
    }
    if (open_isolates_ > 0) {
        findings_.error(source_.span, "text-bidi-control",
                        "an isolate" + in_place(source_) + " is begun but not ended",
                        "add U+2069 where it ends");
    }
    out_.offsets.push_back(static_cast<std::uint32_t>(out_.utf8.size()));
    return std::move(out_);
}

} // namespace

Collected collect(const ParagraphSource& source, support::Findings& findings) {
    return Collector(source, findings).run();
}

bool is_invisible(char32_t c) {
    if (c < 0xAD) {
        return false;
    }
    return c == 0x00AD || c == 0x061C || c == 0x200B || c == 0x200E || c == 0x200F || c == 0x180E ||
           in_range(c, 0x2060, 0x2064) || in_range(c, 0x2066, 0x2069) || c == 0xFEFF;
}

bool is_breaking_space(char16_t unit) {
    return unit == u' ' || unit == u'\u1680' || unit == u'\u3000' ||
           (unit >= u'\u2000' && unit <= u'\u200A' && unit != u'\u2007');
}

std::string name_character(char32_t character) {
    static constexpr std::array<char, 16> kHex = {'0', '1', '2', '3', '4', '5', '6', '7',
                                                  '8', '9', 'A', 'B', 'C', 'D', 'E', 'F'};
    std::string digits;
    for (char32_t rest = character; rest != 0 || digits.size() < 4; rest >>= 4) {
        digits.insert(digits.begin(), kHex[rest & 0xF]);
    }
    std::array<char, 128> name{};
    UErrorCode status = U_ZERO_ERROR;
    u_charName(static_cast<UChar32>(character), U_EXTENDED_CHAR_NAME, name.data(),
               static_cast<int32_t>(name.size()), &status);
    const std::string known = U_FAILURE(status) != 0 ? std::string() : std::string(name.data());
    return "U+" + digits + (known.empty() ? std::string() : " " + known);
}

std::string in_place(const ParagraphSource& source) {
    return source.where.empty() ? std::string() : " in " + std::string(source.where);
}

} // namespace tickleaf::text
