// SPDX-License-Identifier: MIT
// Prescriptions written in a line or two, read and planned, for the tests of dose/.
#pragma once

#include <catch2/catch.hpp>

#include <optional>
#include <string>
#include <vector>

#include "dose/schedule.h"
#include "yaml/tree.h"

namespace tickleaf::tests {

using dose::PlannedExercise;
using dose::Schedule;
using dose::SidedExercises;

/// Exercises whose id starts with "both-" have no sides.
struct BySpelling : SidedExercises {
    bool has_sides(const std::string& exercise) const override {
        return exercise.rfind("both-", 0) != 0;
    }
};

inline std::string with_people(const std::string& rest) {
    return "format: 1\npatient: {name: Rosa M., languages: [en]}\n"
           "clinic: {name: C, clinician: T, phone: \"+44 1632 960123\", emergency: \"112\"}\n" +
           rest;
}

struct Planned {
    std::optional<Schedule> schedule;
    support::Findings findings;
};

inline Planned plan_text(const std::string& text) {
    Planned result;
    support::Sources sources;
    const int file = sources.add("rx.yaml", text);
    const auto root = yaml::read(sources, file, result.findings);
    REQUIRE(root);
    const auto rx = prescription::read(*root, result.findings);
    REQUIRE(rx);
    result.schedule = plan(*rx, BySpelling{}, result.findings);
    return result;
}

/// One stage of the right side with the lines given.
inline Planned plan_stage(const std::string& weeks, const std::string& days,
                          const std::vector<std::string>& lines) {
    std::string text = "side: right\nstages:\n  - name: one\n    weeks: " + weeks +
                       "\n    days_per_week: " + days + "\n    exercises:\n";
    for (const std::string& line : lines) {
        text += "      - {" + line + "}\n";
    }
    return plan_text(with_people(text));
}

inline const PlannedExercise& first(const Planned& planned) {
    for (const auto& finding : planned.findings.all()) {
        UNSCOPED_INFO(finding.message);
    }
    REQUIRE_FALSE(planned.findings.has_errors());
    REQUIRE(planned.schedule);
    return planned.schedule->stages.front().exercises.front();
}

} // namespace tickleaf::tests
