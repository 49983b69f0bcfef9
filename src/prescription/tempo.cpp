// SPDX-License-Identifier: MIT
#include "prescription/dose_form.h"

#include <algorithm>
#include <array>

#include "prescription/dose_quantities.h"
#include "prescription/notation.h"
#include "yaml/reader.h"

namespace tickleaf::prescription {

namespace {

using support::Findings;
using support::Seconds;
using Kind = Token::Kind;

constexpr const char* kSyntax = "tempo-syntax";
constexpr const char* kDigitsHint = "write lift-hold-lower in seconds, such as 1-1-3, with rest as "
                                    "a fourth; X for as fast as is safe";
constexpr std::array<TempoPhase, 4> kDigitOrder = {TempoPhase::Lift, TempoPhase::HoldTop,
                                                   TempoPhase::Lower, TempoPhase::Rest};

bool is_movement(TempoPhase phase) {
    return phase == TempoPhase::Lift || phase == TempoPhase::Lower || phase == TempoPhase::Out ||
           phase == TempoPhase::Back;
}

std::optional<TempoPhase> phase_from_word(std::string_view word) {
    constexpr std::array<TempoPhase, 6> named = {TempoPhase::Lift,  TempoPhase::HoldTop,
                                                 TempoPhase::Lower, TempoPhase::Rest,
                                                 TempoPhase::Out,   TempoPhase::Back};
    for (const TempoPhase phase : named) {
        if (to_word(phase) == word) {
            return phase;
        }
    }
    return std::nullopt;
}

/// "as fast as safe" or "as fast as is safe", whole or not at all.
bool accept_as_fast_as_safe(Phrase& phrase) {
    constexpr std::array<std::string_view, 5> words = {"as", "fast", "as", "is", "safe"};
    const bool has_is = lower_case(phrase.peek(3).text) == "is";
    std::size_t ahead = 0;
    for (const std::string_view word : words) {
        if (word == "is" && !has_is) {
            continue;
        }
        if (lower_case(phrase.peek(ahead++).text) != word) {
            return false;
        }
    }
    for (std::size_t i = 0; i < ahead; ++i) {
        phrase.take();
    }
    return true;
}

/// "X", "quick", "slow", "as fast as safe", or whole seconds from 0 with or without "s".
std::optional<TempoStep> read_length(Phrase& phrase, TempoPhase phase) {
    TempoStep step{phase, {}, false};
    if (phrase.accept(Kind::Times) || accept_as_fast_as_safe(phrase)) {
        step.length = {kFastSeconds};
        step.as_fast_as_safe = true;
        return step;
    }
    if (phrase.accept_word("quick") || phrase.at_word("slow")) {
        const bool slow = phrase.accept_word("slow");
        step.length = {slow ? kSlowSeconds : kQuickSeconds};
        return step;
    }
    const Token token = phrase.peek();
    if (token.kind == Kind::Number && token.text == "0") {
        phrase.take();
        phrase.accept_word("s");
        if (is_movement(phase)) {
            phrase.error(token, "a movement cannot take 0 seconds",
                         "write X for as fast as is safe");
            return std::nullopt;
        }
        return step;
    }
    const auto seconds = read_counts(phrase, {"seconds of a phase", kLongestPhaseSeconds, true});
    if (!seconds) {
        return std::nullopt;
    }
    if (!seconds->is_single()) {
        phrase.error(token, "the seconds of a phase are a range, but one number was expected",
                     "write one whole number of seconds");
        return std::nullopt;
    }
    if (!phrase.accept_word("s")) {
        phrase.accept_word("seconds");
    }
    step.length = {seconds->low};
    return step;
}

/// Adds a step; a pause of no length is left out.
void add(Tempo& tempo, const TempoStep& step) {
    if (step.length.count > 0) {
        tempo.steps.push_back(step);
    }
}

/// Pieces between dashes. Walks by hand because "1-3" is no range here.
std::optional<Tempo> read_digits(const yaml::Node& node, Findings& findings) {
    Phrase phrase(node, "tempo", kSyntax, findings);
    Tempo tempo{{}, node.span};
    std::size_t count = 0;
    do {
        const Token token = phrase.peek();
        const bool is_step = token.kind == Kind::Times || token.kind == Kind::Number;
        if (!is_step || count == kDigitOrder.size()) {
            phrase.error(token,
                         phrase.found(token) +
                             (is_step ? " is a fifth phase, but at most four were expected"
                                      : " stands where seconds are expected"),
                         kDigitsHint);
            return std::nullopt;
        }
        yaml::Node piece = node;
        piece.text = std::string(token.text);
        // The piece is read as a text of its own, so its column is moved to where it stands.
        piece.span = phrase.span_of(token);
        piece.quoted = false;
        Phrase one(piece, "tempo phase", kSyntax, findings);
        const auto step = read_length(one, kDigitOrder.at(count));
        if (!step) {
            return std::nullopt;
        }
        add(tempo, *step);
        phrase.take();
        ++count;
    } while (phrase.accept(Kind::Dash));
    if (!phrase.at_end() || count < 3) {
        phrase.error(phrase.peek(),
                     phrase.at_end()
                         ? std::to_string(count) + (count == 1 ? " phase is" : " phases are") +
                               " given, but three or four were expected"
                         : phrase.found(phrase.peek()) + " stands where \"-\" is expected",
                     kDigitsHint);
        return std::nullopt;
    }
    return tempo;
}

std::string unknown_phase_hint(const std::string& word) {
    const std::string near = did_you_mean(word, {"lift", "hold", "lower", "rest", "out", "back"});
    return near.empty() ? "the phases are lift, hold, lower, rest, out, back" : near;
}

std::optional<Tempo> read_named_text(const yaml::Node& node, Findings& findings) {
    Phrase phrase(node, "tempo", kSyntax, findings);
    Tempo tempo{{}, node.span};
    do {
        const Token token = phrase.take();
        const auto phase = phase_from_word(lower_case(token.text));
        if (!phase) {
            phrase.error(token, phrase.found(token) + " is no phase of a repetition",
                         unknown_phase_hint(lower_case(token.text)));
            return std::nullopt;
        }
        const auto step = read_length(phrase, *phase);
        if (!step) {
            return std::nullopt;
        }
        add(tempo, *step);
    } while (phrase.accept(Kind::Comma));
    if (!phrase.at_end()) {
        phrase.error(
            phrase.peek(), phrase.found(phrase.peek()) + " stands where a comma is expected",
            "write phases with commas between them, such as lift 1 s, hold 1 s, lower 3 s");
        return std::nullopt;
    }
    return tempo;
}

bool add_entry(const yaml::Entry& entry, Tempo& tempo, Findings& findings) {
    const auto phase = phase_from_word(entry.key.value);
    if (!phase) {
        findings.error(entry.key.span, kSyntax,
                       quoted(entry.key.value) + " is no phase of a repetition",
                       unknown_phase_hint(entry.key.value));
        return false;
    }
    if (entry.value.kind != yaml::Node::Kind::Scalar) {
        findings.error(entry.value.span, kSyntax,
                       "the phase " + quoted(entry.key.value) + " is " +
                           yaml::describe(entry.value) + ", but seconds were expected",
                       "write seconds, such as " + entry.key.value + ": 2 s");
        return false;
    }
    Phrase phrase(entry.value, "tempo phase", kSyntax, findings);
    const auto step = read_length(phrase, *phase);
    if (!step) {
        return false;
    }
    if (!phrase.at_end()) {
        phrase.error(phrase.peek(),
                     phrase.found(phrase.peek()) + " is left over behind the seconds",
                     "write one whole number of seconds");
        return false;
    }
    add(tempo, *step);
    return true;
}

std::optional<Tempo> read_entries(const yaml::Node& node, Findings& findings) {
    Tempo tempo{{}, node.span};
    bool good = true;
    for (const yaml::Entry& entry : node.entries) {
        good = add_entry(entry, tempo, findings) && good;
    }
    for (const yaml::Node& item : node.items) {
        if (item.kind != yaml::Node::Kind::Map || item.entries.size() != 1) {
            findings.error(item.span, kSyntax,
                           "a phase is " + yaml::describe(item) +
                               ", but one name with its seconds was expected",
                           "write - lift: 2 s");
            good = false;
            continue;
        }
        good = add_entry(item.entries.front(), tempo, findings) && good;
    }
    return good ? std::optional<Tempo>(tempo) : std::nullopt;
}

bool has(const Tempo& tempo, TempoPhase phase) {
    return std::any_of(tempo.steps.begin(), tempo.steps.end(),
                       [&](const TempoStep& step) { return step.phase == phase; });
}

/// What no single phase shows: a repetition moves, in one pair of words, and has each phase once.
std::optional<Tempo> checked(std::optional<Tempo> tempo, Findings& findings) {
    if (!tempo) {
        return tempo;
    }
    const bool up_down = has(*tempo, TempoPhase::Lift) || has(*tempo, TempoPhase::Lower);
    const bool out_back = has(*tempo, TempoPhase::Out) || has(*tempo, TempoPhase::Back);
    if (up_down == out_back) {
        findings.error(
            tempo->span, kSyntax,
            up_down ? "the tempo mixes lift and lower with out and back"
                    : "the tempo has no movement",
            up_down
                ? "use lift and lower, or out and back"
                : "add lift and lower, or out and back; a hold alone is a dose such as 5 x 45 s");
        return std::nullopt;
    }
    for (std::size_t i = 0; i < tempo->steps.size(); ++i) {
        TempoStep& step = tempo->steps.at(i);
        for (std::size_t j = 0; j < i; ++j) {
            if (tempo->steps.at(j).phase == step.phase) {
                findings.error(tempo->span, kSyntax,
                               "the tempo has " + std::string(to_word(step.phase)) + " twice",
                               "keep one of them");
                return std::nullopt;
            }
        }
    }
    if (out_back) {
        for (TempoStep& step : tempo->steps) {
            step.phase = step.phase == TempoPhase::HoldTop ? TempoPhase::HoldEnd : step.phase;
        }
    }
    return tempo;
}

} // namespace

std::string_view to_word(TempoPhase phase) {
    switch (phase) {
    case TempoPhase::Lift:
        return "lift";
    case TempoPhase::HoldTop:
    case TempoPhase::HoldEnd:
        return "hold";
    case TempoPhase::Lower:
        return "lower";
    case TempoPhase::Rest:
        return "rest";
    case TempoPhase::Out:
        return "out";
    case TempoPhase::Back:
        return "back";
    }
    return "";
}

std::optional<Tempo> read_tempo(const yaml::Node& node, Findings& findings) {
    if (node.kind == yaml::Node::Kind::Null) {
        findings.error(node.span, kSyntax, "the tempo is empty", kDigitsHint);
        return std::nullopt;
    }
    if (node.kind != yaml::Node::Kind::Scalar) {
        return checked(read_entries(node, findings), findings);
    }
    const bool is_named = tokenize(node.text).front().kind == Kind::Word;
    return checked(is_named ? read_named_text(node, findings) : read_digits(node, findings),
                   findings);
}

std::optional<BeginValue> read_begin(const yaml::Node& node, Findings& findings) {
    constexpr const char* id = "begin-syntax";
    if (node.kind != yaml::Node::Kind::Scalar) {
        findings.error(node.span, id,
                       "begin is " + yaml::describe(node) + ", but a start value was expected",
                       "write a hold such as 15 s, or repetitions such as 5");
        return std::nullopt;
    }
    Phrase phrase(node, "begin", id, findings);
    const std::vector<Token> tokens = tokenize(node.text);
    const bool is_time = std::any_of(tokens.begin(), tokens.end(), is_unit_of_time);
    BeginValue begin{0, node.span};
    bool is_single = true;
    if (is_time) {
        const auto time = read_duration(phrase, {"the start value", kLongestTimeSeconds, false});
        if (!time) {
            return std::nullopt;
        }
        is_single = time->is_single();
        begin.value = time->low;
    } else {
        const auto count =
            read_counts(phrase, {"repetitions to start with", kMostRepetitions, true});
        if (!count) {
            return std::nullopt;
        }
        is_single = count->is_single();
        begin.value = count->low;
    }
    if (!is_single || !phrase.at_end()) {
        phrase.error(phrase.peek(),
                     is_single
                         ? phrase.found(phrase.peek()) + " is left over behind the start value"
                         : "a range is given, but one start value was expected",
                     "write one number, such as 15 s or 5");
        return std::nullopt;
    }
    return begin;
}

std::string to_notation(const Tempo& tempo) {
    std::string text;
    for (const TempoStep& step : tempo.steps) {
        text += (text.empty() ? "" : ", ") + std::string(to_word(step.phase)) + ' ';
        text += step.as_fast_as_safe ? "X" : std::to_string(step.length.count) + " s";
    }
    return text;
}

} // namespace tickleaf::prescription
