// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cctype>
#include <string>
#include <string_view>

#include "check/rule_set.h"

namespace tickleaf::check {

namespace {

using support::Side;

/// Parts of words that name a side. Words of most languages begin with theirs; Arabic puts articles
/// and prepositions before it, so it is looked for anywhere.
struct SideWords {
    std::string_view language;
    std::string_view left, right;
    bool is_at_start = true;
};
// Arabic: masculine and feminine form of both words, with and without hamza.
constexpr std::array<SideWords, 10> kSideWords = {{
    {"en", "left", "right"},
    {"es", "izquierd", "derech"},
    {"fr", "gauche", "droit"},
    {"pt", "esquerd", "direit"},
    {"pl", "lew", "praw"},
    {"uk", "лів", "прав"},
    {"ar", "أيسر", "أيمن", false},
    {"ar", "ايسر", "ايمن", false},
    {"ar", "يسرى", "يمنى", false},
    {"ar", "يسار", "يمين", false},
}};

/// Lower case of ASCII and Cyrillic letters, which are all that the tables here need.
std::string lower(const std::string& text) {
    std::string result;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        const auto next = static_cast<unsigned char>(i + 1 < text.size() ? text[i + 1] : '\0');
        const bool is_capital = byte == 0xD0u && next >= 0x90u && next <= 0xAFu;
        if (!is_capital) {
            result += static_cast<char>(std::tolower(byte));
            continue;
        }
        // U+0410 to U+041F and U+0420 to U+042F go to U+0430 and on, over two leading bytes.
        result += static_cast<char>(next < 0xA0u ? 0xD0 : 0xD1);
        result += static_cast<char>(next < 0xA0u ? next + 0x20 : next - 0x20);
        ++i;
    }
    return result;
}

bool has_word_starting(const std::string& text, std::string_view stem) {
    for (auto at = text.find(stem); at != std::string::npos; at = text.find(stem, at + 1)) {
        const auto before = at == 0 ? ' ' : text[at - 1];
        const bool inside_word = std::isalnum(static_cast<unsigned char>(before)) != 0 ||
                                 (static_cast<unsigned char>(before) & 0x80u) != 0;
        if (!inside_word) {
            return true;
        }
    }
    return false;
}

bool names(const std::string& text, const SideWords& words, Side side) {
    const std::string_view word = side == Side::Left ? words.left : words.right;
    return words.is_at_start ? has_word_starting(text, word) : text.find(word) != std::string::npos;
}

void contradict(const std::string& language, const support::Located<std::string>& text, Side side,
                const Report& report) {
    const std::string primary = lower(language.substr(0, language.find('-')));
    const std::string words = lower(text.value);
    bool own = false;
    bool other = false;
    for (const SideWords& row : kSideWords) {
        // A plain text does not say its language, so it is held against all of them.
        if (primary.empty() || row.language == primary) {
            own = own || names(words, row, side);
            other = other || names(words, row, support::opposite(side));
        }
    }
    if (other && !own) {
        report(text.span,
               "the problem \"" + text.value + "\" names the other side than \"side: " +
                   std::string(support::to_word(side)) + "\"",
               "correct the side or the problem");
    }
}

void side_contradicted(const Subject& subject, const Report& report) {
    const auto& rx = *subject.prescription;
    if (!rx.side || (rx.side->value != Side::Left && rx.side->value != Side::Right)) {
        return;
    }
    for (const auto& [language, text] : rx.problem.by_language) {
        contradict(language, text, rx.side->value, report);
    }
}

void side_missing(const Subject& subject, const Report& report) {
    for_each_exercise(subject, [&](const dose::PlannedStage& stage,
                                   const dose::PlannedExercise& planned,
                                   const figure::Facts& facts) {
        if (facts.has_sides && planned.side == Side::None) {
            const auto& line =
                subject.prescription->stages.at(stage.index).exercises.at(planned.line);
            report(line.exercise.span,
                   "\"" + planned.exercise + "\" works one side, but no side is given",
                   "add \"side: left\" or \"side: right\" to the prescription or to this line");
        }
    });
}

void no_criterion(const Subject& subject, const Report& report) {
    const auto& stages = subject.prescription->stages;
    for (std::size_t i = 0; i + 1 < stages.size(); ++i) {
        if (stages[i].move_on_when.empty() && stages[i].move_on_text.empty()) {
            report(stages[i].span,
                   "the stage \"" + stages[i].name.value + "\" does not say when to move on",
                   "add \"move_on_when: [pain-at-most-2-next-morning]\"");
        }
    }
}

void review_after_end(const Subject& subject, const Report& report) {
    const auto& rx = *subject.prescription;
    if (!rx.review || subject.schedule->stages.empty()) {
        return;
    }
    const auto last = subject.schedule->stages.back().last_day;
    if (last && std::chrono::sys_days(rx.review->value) > std::chrono::sys_days(*last)) {
        report(rx.review->span, "the review comes after the last day of the programme",
               "plan the review earlier or a longer last stage");
    }
}

/// Words in a problem text that ask for a medical look before any programme (check the source list
/// of the stop signs: cauda equina, deep vein thrombosis, joint infection, heart and lung signs).
constexpr std::array<std::string_view, 14> kAlarmWords = {
    "numb",  "incontinen", "bladder", "bowel",  "fever",     "chest pain", "breathless",
    "faint", "thrombos",   "clot",    "infect", "foot drop", "fracture",   "dizz"};

void alarm_in_problem(const Subject& subject, const Report& report) {
    for (const auto& [language, text] : subject.prescription->problem.by_language) {
        if (!language.empty() && !language.starts_with("en")) {
            continue;
        }
        const std::string words = lower(text.value);
        for (const std::string_view word : kAlarmWords) {
            if (has_word_starting(words, word)) {
                report(text.span,
                       "the problem names \"" + std::string(word) +
                           "\", a sign that is on the booklet's stop list",
                       "make sure that it was looked into; the booklet tells the patient to stop "
                       "for it");
            }
        }
    }
}

void language_of_patient(const Subject& subject, const Report& report) {
    const auto& rx = *subject.prescription;
    for (const auto& language : rx.patient.languages) {
        if (rx.problem.in(language.value) == nullptr && !rx.problem.empty()) {
            report(language.span,
                   "the problem is not given in the patient's language \"" + language.value + "\"",
                   "add a line \"" + language.value + ": ...\" under problem");
        }
    }
}

} // namespace

std::vector<CodedRule> frame_rules() {
    using support::Severity;
    return {
        {{"side-contradicted", Severity::Error, "The problem text and the side agree.",
          "common practice"},
         side_contradicted},
        {{"side-missing", Severity::Error, "An exercise that works one side has a side.",
          "common practice"},
         side_missing},
        {{"no-criterion", Severity::Warning, "Every stage but the last says when to move on.",
          "Slade et al. 2016, BJSM 50:1428-37 (CERT item 7)"},
         no_criterion},
        {{"review-after-end", Severity::Warning, "The review lies inside the programme.",
          "common practice"},
         review_after_end},
        {{"alarm-sign-in-problem", Severity::Warning,
          "A stop sign in the problem text was looked into.",
          "Finucane et al. 2020, JOSPT 50:350-72; Wells et al. 2003, NEJM 349:1227-35"},
         alarm_in_problem},
        {{"problem-language", Severity::Warning,
          "The problem is told in every language of the patient.", "common practice"},
         language_of_patient},
    };
}

} // namespace tickleaf::check
