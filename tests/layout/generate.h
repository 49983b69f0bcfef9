// SPDX-License-Identifier: MIT
// Prescriptions and booklets for property tests: the same for the same seed on every machine.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "content/booklet.h"

namespace tickleaf::tests {

/// Numbers that do not depend on the standard library (splitmix64, public domain algorithm).
class Dice {
  public:
    explicit Dice(std::uint64_t seed) : state_(seed) {}
    std::uint64_t next() {
        state_ += 0x9E3779B97F4A7C15u;
        std::uint64_t z = state_;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
        return z ^ (z >> 31);
    }
    int between(int low, int high) {
        return low + static_cast<int>(next() % static_cast<std::uint64_t>(high - low + 1));
    }
    double share() { return static_cast<double>(next() >> 11) / 9007199254740992.0; }
    template <class T>
    const T& one_of(const std::vector<T>& all) {
        return all[next() % all.size()];
    }

  private:
    std::uint64_t state_;
};

/// What is made of a seed.
struct Wish {
    std::string language;
    std::string second_language;
    std::string page_template;
    std::string paper;
    int stages = 1;
    int exercises = 1;
    double length = 1.0;
};

inline Wish wish_of(std::uint64_t seed) {
    Dice dice(seed * 7919);
    Wish wish;
    wish.language = dice.one_of<std::string>({"en", "es", "ar", "hi", "uk", "zh-Hans"});
    if (dice.between(0, 9) == 0) {
        wish.second_language = wish.language == "en" ? "ar" : "en";
    }
    wish.page_template = dice.one_of<std::string>(
        {"standard", "large-print", "fold-booklet", "one-sheet", "log-refill"});
    wish.paper = dice.one_of<std::string>({"a4", "letter", "a5"});
    wish.stages = dice.between(1, 6);
    wish.exercises = dice.between(1, 12);
    wish.length = 0.5 + dice.share() * 2.5;
    return wish;
}

inline std::string dose(Dice& dice) {
    const std::string sets = std::to_string(dice.between(1, 5));
    const int low = dice.between(3, 20);
    switch (dice.between(0, 3)) {
    case 0:
        return sets + " x " + std::to_string(low) + ", rest 60 s, 3 days/week";
    case 1:
        return sets + " x " + std::to_string(low) + "-" + std::to_string(low + 5) +
               ", rest 60-90 s, " + std::to_string(dice.between(1, 3)) + "/day";
    case 2:
        return sets + " x " + std::to_string(low * 2) + " s, rest 30 s";
    default:
        return sets + " x 5 x " + std::to_string(low) + " s, 2/day";
    }
}

/// A prescription with so many stages and exercises from those there are.
inline std::string prescription(std::uint64_t seed, const Wish& wish,
                                const std::vector<std::string>& exercises) {
    Dice dice(seed * 104729);
    std::string text = "format: 1\npatient: {name: Ana P., languages: [en]}\n"
                       "clinic: {name: Hilltop Clinic, clinician: \"R. Oduya, physiotherapist\", "
                       "phone: \"+44 1632 960555\", emergency: \"112\"}\nside: right\n"
                       "pain: {carry_on_up_to: 3, ease_off_up_to: 5}\n"
                       "home: {equipment: [chair, wall, {step: 15 cm}, {band: {name: soft, "
                       "rest_length: 120 cm, force_at_double_length: 20 N}}]}\n";
    if (dice.between(0, 1) == 0) {
        text += "starts: 2026-03-02\n";
    }
    text += "logbook: {weeks: " + std::to_string(dice.between(1, 3)) + "}\nstages:\n";
    static const std::vector<std::string> names{"settle", "move",  "strengthen",
                                                "steady", "build", "return"};
    int week = 1;
    for (int stage = 0; stage < wish.stages; ++stage) {
        const int last = week + dice.between(0, 1);
        text += "  - name: " + names[static_cast<std::size_t>(stage)] +
                "\n    weeks: " + std::to_string(week) +
                (last > week ? "-" + std::to_string(last) : "") +
                "\n    days_per_week: " + std::to_string(dice.between(1, 7)) + "\n";
        if (dice.between(0, 2) > 0) {
            text += "    move_on_when: [walks-without-limp, stands-one-leg-30-seconds]\n";
        }
        text += "    exercises:\n";
        const int here = std::max(1, wish.exercises / wish.stages +
                                         (stage < wish.exercises % wish.stages ? 1 : 0));
        for (int i = 0; i < here; ++i) {
            text += "      - {do: " + dice.one_of(exercises) + ", dose: \"" + dose(dice) + "\"}\n";
        }
        week = last + 1;
    }
    return text;
}

/// The booklet's texts made shorter or longer, word by word, or sign by sign where there are no
/// spaces; numbers and names of days stay.
void stretch(content::Booklet& booklet, double factor);

} // namespace tickleaf::tests
