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

/// Lower case of ASCII letters; only English is looked for here.
std::string lower(std::string text) {
    for (char& c : text) {
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    return text;
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

void side_contradicted(const Subject& subject, const Report& report) {
    const auto& rx = *subject.prescription;
    if (!rx.side || (rx.side->value != Side::Left && rx.side->value != Side::Right)) {
        return;
    }
    const bool is_left = rx.side->value == Side::Left;
    for (const auto& [language, text] : rx.problem.by_language) {
        const auto named = subject.side_names->in(language, text.value);
        if ((is_left ? named.right : named.left) && !(is_left ? named.left : named.right)) {
            report(text.span,
                   "the problem \"" + text.value + "\" names the other side than \"side: " +
                       std::string(support::to_word(rx.side->value)) + "\"",
                   "correct the side or the problem, or name both sides in the problem");
        }
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

/// The reader refuses such weeks too; here they stand among what was looked at.
void stages_in_order(const Subject& subject, const Report& report) {
    int next = 1;
    for (const prescription::Stage& stage : subject.prescription->stages) {
        if (!stage.has_whole_frame) {
            return;
        }
        if (stage.weeks.low != next) {
            report(stage.weeks_span,
                   "the stage \"" + stage.name.value + "\" starts in week " +
                       std::to_string(stage.weeks.low) + ", but week " + std::to_string(next) +
                       " is due",
                   "let the stages follow on without gap or overlap");
        }
        next = stage.weeks.high + 1;
    }
}

void no_criterion(const Subject& subject, const Report& report) {
    const auto& stages = subject.prescription->stages;
    for (std::size_t i = 0; i + 1 < stages.size(); ++i) {
        if (stages[i].has_whole_frame && stages[i].move_on_when.empty() &&
            stages[i].move_on_text.empty()) {
            report(stages[i].span,
                   "the stage \"" + stages[i].name.value + "\" does not say when to move on",
                   "add \"move_on_when: [pain-at-most-2-next-morning]\"");
        }
    }
}

void review_after_end(const Subject& subject, const Report& report) {
    const auto& rx = *subject.prescription;
    const bool known_weeks =
        std::all_of(rx.stages.begin(), rx.stages.end(),
                    [](const prescription::Stage& stage) { return stage.has_whole_frame; });
    if (!rx.review || rx.unread.dates || !known_weeks || subject.schedule->stages.empty()) {
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
    if (rx.unread.problem) {
        return;
    }
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
        {{"stages-in-order", Severity::Error,
          "The weeks of the stages follow on without gap or overlap.", "common practice"},
         stages_in_order},
        {{"no-criterion", Severity::Warning, "Every stage but the last says when to move on.",
          "Slade et al. 2016, BJSM 50:1428-37 (CERT item 7)"},
         no_criterion},
        {{"review-after-end", Severity::Warning, "The review lies inside the programme.",
          "common practice"},
         review_after_end},
        {{"alarm-sign-in-problem", Severity::Warning,
          "A stop sign named in the English problem text was looked into.",
          "Finucane et al. 2020, JOSPT 50:350-72; Wells et al. 2003, NEJM 349:1227-35"},
         alarm_in_problem},
        {{"problem-language", Severity::Warning,
          "The problem is told in every language of the patient.", "common practice"},
         language_of_patient},
    };
}

} // namespace tickleaf::check
