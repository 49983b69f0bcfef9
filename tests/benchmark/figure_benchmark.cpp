// SPDX-License-Identifier: MIT
// What one exercise costs: solving and drawing, each the best of many rounds, so that what else
// runs on the machine does not count. Slowest first; `--top N` shows only N, `--rounds N` repeats.
// With an exercise's id only that one is run, for a profiler.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>
#include <string>
#include <vector>

#include "draw/draw.h"
#include "figure/solve.h"
#include "yaml/tree.h"

using namespace tickleaf;

namespace {

struct Choice {
    int rounds = 200;
    std::size_t top = 1000;
    std::string only;
};

struct Cost {
    std::string id;
    double solve = 0.0;
    double draw = 0.0;
    double total() const { return solve + draw; }
};

double best_milliseconds(int rounds, const std::function<void()>& work) {
    double best = 1e9;
    for (int i = 0; i < rounds; ++i) {
        const auto begin = std::chrono::steady_clock::now();
        work();
        const std::chrono::duration<double, std::milli> took =
            std::chrono::steady_clock::now() - begin;
        best = std::min(best, took.count());
    }
    return best;
}

figure::Request usual_request() {
    figure::Request request;
    request.step_height_mm = 150;
    request.band_rest_length_mm = 1200;
    request.band_force_at_double_newtons = 22;
    request.hold_seconds = 45;
    return request;
}

bool measure(const std::filesystem::path& path, const Choice& choice, std::vector<Cost>& costs) {
    std::ifstream file(path, std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(file), {}};
    support::Sources sources;
    support::Findings findings;
    const auto tree = yaml::read(sources, sources.add(path.string(), text), findings);
    const std::string id = path.stem().string();
    const auto exercise = tree ? figure::read_exercise(*tree, id, findings) : std::nullopt;
    const figure::Request request = usual_request();
    const auto solution = exercise ? figure::solve(*exercise, request, findings) : std::nullopt;
    if (!solution) {
        std::printf("%s: cannot be solved\n", id.c_str());
        return false;
    }
    Cost cost{id};
    cost.solve = best_milliseconds(choice.rounds, [&] {
        support::Findings own;
        static_cast<void>(figure::solve(*exercise, request, own));
    });
    cost.draw = best_milliseconds(choice.rounds,
                                  [&] { static_cast<void>(draw::draw(solution->scene, {})); });
    costs.push_back(cost);
    return true;
}

Choice read_choice(int count, char** values) {
    Choice choice;
    for (int i = 1; i < count; ++i) {
        const std::string word = values[i];
        if (word == "--rounds" && i + 1 < count) {
            choice.rounds = std::max(1, std::atoi(values[++i]));
        } else if (word == "--top" && i + 1 < count) {
            choice.top = static_cast<std::size_t>(std::max(1, std::atoi(values[++i])));
        } else {
            choice.only = word;
        }
    }
    return choice;
}

} // namespace

int main(int count, char** values) {
    const Choice choice = read_choice(count, values);
    std::vector<Cost> costs;
    bool all = true;
    for (const auto& entry : std::filesystem::directory_iterator(TICKLEAF_ROOT "/figures")) {
        const bool wanted = choice.only.empty() || entry.path().stem() == choice.only;
        if (entry.path().extension() == ".yaml" && wanted) {
            all = measure(entry.path(), choice, costs) && all;
        }
    }
    if (costs.empty()) {
        std::printf("no exercise measured\n");
        return 1;
    }
    std::sort(costs.begin(), costs.end(),
              [](const Cost& a, const Cost& b) { return a.total() > b.total(); });
    std::printf("%-30s %8s %8s %8s  ms, best of %d\n", "exercise", "solve", "draw", "total",
                choice.rounds);
    double sum = 0.0;
    for (std::size_t i = 0; i < costs.size(); ++i) {
        sum += costs[i].total();
        if (i < choice.top) {
            std::printf("%-30s %8.3f %8.3f %8.3f\n", costs[i].id.c_str(), costs[i].solve,
                        costs[i].draw, costs[i].total());
        }
    }
    std::printf("%zu exercises, %.3f ms on average; worst %s %.3f ms\n", costs.size(),
                sum / static_cast<double>(costs.size()), costs.front().id.c_str(),
                costs.front().total());
    return all ? 0 : 1;
}
