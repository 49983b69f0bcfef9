// SPDX-License-Identifier: MIT
#include "pdf/object_stream.h"

#include <algorithm>
#include <array>

namespace tickleaf::pdf {

namespace {

constexpr char kTypeUp = 2;

void append_padded(std::string& out, std::size_t value, std::size_t width) {
    const std::string digits = std::to_string(value);
    out.append(width > digits.size() ? width - digits.size() : 0, ' ');
    out += digits;
}

void fill_row(std::string& out, std::size_t row) {
    out.append((row - out.size() % row) % row, ' ');
}

/// Widths of an index entry; one that divides the row, or is divided by it, keeps columns.
constexpr std::array<std::size_t, 7> kEntryWidths{10, 12, 15, 20, 24, 25, 30};

std::size_t entry_width(std::size_t number_digits, std::size_t offset_digits, std::size_t row) {
    const std::size_t needed = number_digits + offset_digits + 2;
    const auto* const found =
        std::find_if(kEntryWidths.begin(), kEntryWidths.end(), [&](std::size_t width) {
            return width >= needed && (row % width == 0 || width % row == 0);
        });
    return found == kEntryWidths.end() ? kGridRow : *found;
}

} // namespace

ObjectStream free_objects(const std::vector<NumberedValue>& objects) {
    std::string index;
    std::string body;
    body.reserve(objects.size() * 128);
    for (const NumberedValue& object : objects) {
        index += std::to_string(object.number) + " " + std::to_string(body.size()) + " ";
        body += object.value;
        body.push_back('\n');
    }
    const std::size_t first = index.size();
    return {std::move(index) + body, first};
}

ObjectStream grid_objects(const std::vector<NumberedValue>& objects, std::size_t row) {
    std::string body;
    body.reserve(objects.size() * row * 2);
    std::vector<std::size_t> offsets;
    std::size_t last = 0;
    for (const NumberedValue& object : objects) {
        offsets.push_back(body.size());
        last = std::max(last, object.number);
        body += object.value;
        body.push_back(' ');
        fill_row(body, row);
    }
    const std::size_t number_digits = std::to_string(last).size();
    const std::size_t width =
        entry_width(number_digits, std::to_string(body.size()).size(), row) - number_digits - 2;
    std::string index;
    index.reserve(objects.size() * (number_digits + width + 2) + row + body.size());
    for (std::size_t i = 0; i < objects.size(); ++i) {
        append_padded(index, objects[i].number, number_digits);
        index.push_back(' ');
        append_padded(index, offsets[i], width);
        index.push_back(' ');
    }
    fill_row(index, row);
    const std::size_t first = index.size();
    return {rows_up(index += body, row), first};
}

std::string rows_up(std::string_view bytes, std::size_t columns) {
    const std::size_t count = (bytes.size() + columns - 1) / columns;
    std::string rows(count * (columns + 1), kTypeUp);
    const std::string nothing(columns, '\0');
    std::string last;
    const char* above = nothing.data();
    for (std::size_t i = 0; i < count; ++i) {
        const char* row = bytes.data() + i * columns;
        if (bytes.size() - i * columns < columns) {
            last.assign(bytes.substr(i * columns));
            last.resize(columns, ' ');
            row = last.data();
        }
        // Chars wrap around as the predictor asks; a plain loop is what compilers make wide.
        std::transform(row, row + columns, above, rows.data() + i * (columns + 1) + 1,
                       [](char here, char up) { return static_cast<char>(here - up); });
        above = row;
    }
    return rows;
}

} // namespace tickleaf::pdf
