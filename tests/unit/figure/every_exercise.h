// SPDX-License-Identifier: MIT
// Exercises for tests: those of figures/, and small ones written in the test.
#pragma once

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "figure/solve.h"
#include "yaml/tree.h"

namespace tickleaf::figure_test {

inline std::optional<figure::Exercise> read_text(const std::string& text,
                                                 support::Findings& findings) {
    support::Sources sources;
    const int file = sources.add("exercise.yaml", text);
    const auto tree = yaml::read(sources, file, findings);
    return tree ? figure::read_exercise(*tree, "exercise", findings) : std::nullopt;
}

inline std::string listing(const support::Findings& findings) {
    std::string out;
    for (const support::Finding& finding : findings.sorted()) {
        out += std::to_string(finding.span.line) + ":" + std::to_string(finding.span.column) + " " +
               finding.message + " [" + finding.id + "]\n";
    }
    return out;
}

inline std::vector<std::pair<std::string, figure::Exercise>> all_exercises() {
    std::vector<std::pair<std::string, figure::Exercise>> out;
    for (const auto& entry : std::filesystem::directory_iterator(TICKLEAF_ROOT "/figures")) {
        if (entry.path().extension() != ".yaml") {
            continue;
        }
        std::ifstream file(entry.path(), std::ios::binary);
        const std::string text{std::istreambuf_iterator<char>(file), {}};
        support::Findings findings;
        const auto exercise = read_text(text, findings);
        INFO(entry.path().filename().string() << '\n' << listing(findings));
        REQUIRE(exercise);
        out.emplace_back(entry.path().stem().string(), *exercise);
    }
    std::sort(out.begin(), out.end(),
              [](const auto& a, const auto& b) { return a.first < b.first; });
    return out;
}

inline figure::Request request_for(support::Side side, double stature) {
    figure::Request request;
    request.side = side;
    request.stature_mm = stature;
    request.step_height_mm = 150;
    request.band_rest_length_mm = 1200;
    request.band_force_at_double_newtons = 22;
    request.hold_seconds = 45;
    return request;
}

} // namespace tickleaf::figure_test
