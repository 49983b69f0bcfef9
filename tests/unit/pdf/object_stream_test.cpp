// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include <map>
#include <string>
#include <vector>

#include "pdf/object_stream.h"

using namespace tickleaf;

namespace {

/// Undoes PNG's "Up" (PNG specification, 9.2: Recon(x) = Filt(x) + Recon(b), modulo 256).
std::string undone(const std::string& rows, std::size_t columns) {
    std::string bytes;
    std::string above(columns, '\0');
    REQUIRE(rows.size() % (columns + 1) == 0);
    for (std::size_t at = 0; at < rows.size(); at += columns + 1) {
        REQUIRE(rows[at] == 2);
        for (std::size_t i = 0; i < columns; ++i) {
            above[i] = static_cast<char>(rows[at + 1 + i] + above[i]);
        }
        bytes += above;
    }
    return bytes;
}

/// Reads an object stream as ISO 32000-1, 7.5.7 says: N pairs, then the values from `first`.
std::map<std::size_t, std::string> values(const std::string& bytes, std::size_t first,
                                          std::size_t count) {
    std::map<std::size_t, std::string> found;
    std::vector<std::size_t> numbers;
    std::string token;
    for (const char c : bytes.substr(0, first) + " ") {
        if (c != ' ') {
            token += c;
        } else if (!token.empty()) {
            numbers.push_back(std::stoul(token));
            token.clear();
        }
    }
    REQUIRE(numbers.size() == 2 * count);
    for (std::size_t i = 0; i < numbers.size(); i += 2) {
        const std::size_t begin = first + numbers[i + 1];
        const std::size_t end = i + 3 < numbers.size() ? first + numbers[i + 3] : bytes.size();
        std::string value = bytes.substr(begin, end - begin);
        value.erase(value.find_last_not_of(" \n") + 1);
        found[numbers[i]] = value;
    }
    return found;
}

} // namespace

TEST_CASE("object streams give back every value under its number") {
    for (const std::size_t count : {1U, 9U, 100U, 1500U}) {
        std::vector<std::string> texts;
        std::vector<pdf::NumberedValue> objects;
        for (std::size_t i = 0; i < count; ++i) {
            texts.push_back("<</P " + std::to_string(7 * i) + " 0 R" +
                            std::string(i % 3 * pdf::kGridRow, 'x') + ">>");
        }
        for (std::size_t i = 0; i < count; ++i) {
            objects.push_back({900 + i * (i > 50 ? 100 : 1), texts[i]});
        }
        const pdf::ObjectStream free = pdf::free_objects(objects);
        const pdf::ObjectStream grid = pdf::grid_objects(objects, pdf::kGridRow);
        const auto from_free = values(free.bytes, free.first, count);
        const auto from_grid = values(undone(grid.bytes, pdf::kGridRow), grid.first, count);
        CHECK(from_free.size() == count);
        CHECK(from_free == from_grid);
        for (std::size_t i = 0; i < count; ++i) {
            CHECK(from_grid.at(objects[i].number) == texts[i]);
        }
    }
}

TEST_CASE("each value of a grid begins a row") {
    const pdf::ObjectStream grid =
        pdf::grid_objects({{1, "<<>>"}, {2, "[1 2]"}, {3, "null"}}, pdf::kGridRow);
    CHECK(grid.first == pdf::kGridRow);
    const std::string bytes = undone(grid.bytes, pdf::kGridRow);
    CHECK(bytes.size() == 4 * pdf::kGridRow);
    CHECK(bytes.substr(2 * pdf::kGridRow, 6) == "[1 2] ");
}
