// SPDX-License-Identifier: MIT
// The bytes of an object stream before they are deflated: the index of numbers and offsets, then
// the values. Free values follow each other. In a grid every value begins a new row of so many
// bytes, filled up with spaces, the index has columns of fixed width, and each row is written as
// the difference to the row above (PNG predictor "Up"): thousands of structure elements that count
// up their references then deflate to a byte or two each. Source: ISO 32000-1:2008, 7.5.7 object
// streams, 7.4.4.4 predictors; the widths are the best of those measured on the demo booklet.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace tickleaf::pdf {

/// Rows for values that are short, for those that hold references by the dozen, and for long arrays
/// of references, one a row: a reference is mostly the one above plus one.
inline constexpr std::size_t kGridRow = 50;
inline constexpr std::size_t kWideGridRow = 100;
inline constexpr std::size_t kListRow = 12;

struct NumberedValue {
    std::size_t number = 0;
    std::string_view value;
};

struct ObjectStream {
    std::string bytes;
    std::size_t first = 0; ///< offset of the first value once predictors are undone
};

ObjectStream free_objects(const std::vector<NumberedValue>& objects);
/// To be read with /Predictor 12 and `row` as /Columns.
ObjectStream grid_objects(const std::vector<NumberedValue>& objects, std::size_t row);

/// Rows of `columns` bytes, each as a type byte and its difference to the row above. The last row
/// is filled up with spaces.
std::string rows_up(std::string_view bytes, std::size_t columns);

} // namespace tickleaf::pdf
