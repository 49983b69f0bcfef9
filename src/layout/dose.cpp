// SPDX-License-Identifier: MIT
// The dose as a band of labelled cells: label small, value big enough to be read from a metre away
// while exercising.
#include "layout/blocks.h"

#include <algorithm>
#include <utility>

namespace tickleaf::layout {

namespace {

using content::Cell;
using content::Row;
using page::Tag;
using text::Weight;

/// One labelled value, with the structure elements made for both.
struct Entry {
    const content::Words* label = nullptr;
    const content::Words* value = nullptr;
    std::size_t label_tag = 0;
    std::size_t value_tag = 0;
    double wish = 0.0;
    double size = 0.0; ///< type size of the value
};

std::size_t cell_tag(Kit& kit, std::size_t row, const Cell& cell, Tag::Scope scope) {
    const std::size_t tag = kit.tag(scope == Tag::Scope::None ? Tag::Role::TD : Tag::Role::TH, row,
                                    cell.words.empty() ? nullptr : &cell.words);
    kit.tags->at(tag).scope = scope;
    return tag;
}

/// A row of labels over a row of values.
std::vector<Entry> from_columns(Kit& kit, const content::Table& block, std::size_t table) {
    std::vector<Entry> entries;
    const Row& labels = block.rows[0];
    const Row& values = block.rows[1];
    const std::size_t label_row = kit.tag(Tag::Role::TR, table);
    for (const Cell& cell : labels.cells) {
        Entry entry;
        entry.label = &cell.words;
        entry.label_tag = cell_tag(kit, label_row, cell, Tag::Scope::Column);
        entries.push_back(entry);
    }
    const std::size_t value_row = kit.tag(Tag::Role::TR, table);
    for (std::size_t i = 0; i < entries.size(); ++i) {
        entries[i].value = &values.cells[i].words;
        entries[i].value_tag = cell_tag(kit, value_row, values.cells[i], Tag::Scope::None);
    }
    return entries;
}

/// A label and its value in each row.
std::vector<Entry> from_rows(Kit& kit, const content::Table& block, std::size_t table) {
    std::vector<Entry> entries;
    for (const Row& row : block.rows) {
        const std::size_t tag = kit.tag(Tag::Role::TR, table);
        Entry entry;
        entry.label = &row.cells[0].words;
        entry.label_tag = cell_tag(kit, tag, row.cells[0], Tag::Scope::Row);
        entry.value = &row.cells[1].words;
        entry.value_tag = cell_tag(kit, tag, row.cells[1], Tag::Scope::None);
        entries.push_back(entry);
    }
    return entries;
}

bool has_spans(const Row& row) {
    return std::any_of(row.cells.begin(), row.cells.end(), [](const Cell& cell) {
        return cell.column_span > 1 || cell.tick_boxes > 0;
    });
}

bool is_columns(const content::Table& block) {
    return block.rows.size() == 2 && block.rows[0].header && !block.rows[1].header &&
           block.rows[0].cells.size() == block.rows[1].cells.size() && !has_spans(block.rows[0]) &&
           !has_spans(block.rows[1]);
}

bool is_rows(const content::Table& block) {
    return !block.rows.empty() &&
           std::all_of(block.rows.begin(), block.rows.end(), [](const Row& row) {
               return !row.header && row.cells.size() == 2 && row.cells[0].header &&
                      !has_spans(row);
           });
}

double pad(const Kit& kit) {
    return kit.em(0.55);
}

/// How a band is set: the size of its values and the lines each may take.
struct Setting {
    double size = 0.0;
    std::size_t lines = 1;
};

/// Sets the wishes of all cells; returns whether they stand in one row.
bool wish_all(Kit& kit, std::vector<Entry>& entries, Setting setting, const Context& context) {
    const double gap = kit.em(0.4);
    double sum = -gap;
    for (Entry& entry : entries) {
        const double label = width_in_lines(
            kit, *entry.label, kit.style(kit.page->small_size, Weight::Bold, context.muted), 2);
        const double value = width_in_lines(
            kit, *entry.value, kit.style(setting.size, Weight::Bold, context.text), setting.lines);
        entry.size = setting.size;
        entry.wish = std::min(std::max(label, value) + pad(kit) * 2.0, context.width);
        sum += entry.wish + gap;
    }
    return sum <= context.width + 0.01;
}

/// One row if there is a way: values a little smaller, then on two lines. Else as many rows as it
/// takes, at full size.
void choose_sizes(Kit& kit, std::vector<Entry>& entries, const Context& context) {
    const double full = kit.page->dose_size;
    const double less = std::max(full * 0.85, kit.page->lead_size);
    for (const Setting setting :
         {Setting{full, 1}, Setting{less, 1}, Setting{full, 2}, Setting{less, 2}}) {
        if (wish_all(kit, entries, setting, context)) {
            return;
        }
    }
    wish_all(kit, entries, {full, 1}, context);
}

struct RowOfCells {
    std::size_t first = 0;
    std::size_t last = 0;
};

/// As few rows as hold all cells at their wished widths, filled evenly.
std::vector<RowOfCells> pack(const std::vector<Entry>& entries, double width, double gap) {
    const auto rows_with = [&](double limit) {
        std::vector<RowOfCells> rows;
        double used = 0.0;
        for (std::size_t i = 0; i < entries.size(); ++i) {
            const double wanted = entries[i].wish + (used > 0.0 ? gap : 0.0);
            if (rows.empty() || used + wanted > limit + 0.01) {
                rows.push_back({i, i});
                used = entries[i].wish;
            } else {
                used += wanted;
            }
            rows.back().last = i + 1;
        }
        return rows;
    };
    std::vector<RowOfCells> best = rows_with(width);
    for (double limit = width * 0.95; limit > width * 0.4; limit -= width * 0.05) {
        std::vector<RowOfCells> tried = rows_with(limit);
        if (tried.size() > best.size()) {
            break;
        }
        best = std::move(tried);
    }
    return best;
}

struct BandRow {
    std::vector<double> widths;
    double gap = 0.0;
};

double label_height(Kit& kit, const Entry& entry, Slab& slab, const Context& context,
                    Placement at) {
    TextRequest request;
    request.words = entry.label;
    request.style = kit.style(kit.page->small_size, Weight::Bold, context.muted);
    request.second_colour = context.muted;
    request.role = Tag::Role::Span;
    request.at = at;
    request.at.tag = entry.label_tag;
    return entry.label->empty() ? 0.0 : add_words(kit, slab, request);
}

double value_height(Kit& kit, const Entry& entry, Slab& slab, const Context& context,
                    Placement at) {
    TextRequest request;
    request.words = entry.value;
    request.style = kit.style(entry.size, Weight::Bold, context.text);
    request.second_colour = context.muted;
    request.role = Tag::Role::Span;
    request.at = at;
    request.at.tag = entry.value_tag;
    return entry.value->empty() ? 0.0 : add_words(kit, slab, request);
}

Slab band_row(Kit& kit, const std::vector<Entry>& entries, RowOfCells row, const Context& context) {
    const double gap = kit.em(0.4);
    const double top = kit.gap(0.45);
    const auto count = static_cast<double>(row.last - row.first);
    double wished = gap * (count - 1.0);
    for (std::size_t i = row.first; i < row.last; ++i) {
        wished += entries[i].wish;
    }
    const double spare = (context.width - wished) / count;
    Slab labels;
    Slab values;
    std::vector<Placement> cells;
    double x = 0.0;
    double label = 0.0;
    for (std::size_t i = row.first; i < row.last; ++i) {
        Placement cell;
        cell.x = x;
        cell.width = entries[i].wish + spare;
        x += cell.width + gap;
        cells.push_back(cell);
        cell.x += pad(kit);
        cell.width -= pad(kit) * 2.0;
        cell.y = top;
        label = std::max(label, label_height(kit, entries[i], labels, context, cell));
    }
    double value = 0.0;
    for (std::size_t i = row.first; i < row.last; ++i) {
        Placement cell = cells[i - row.first];
        cell.x += pad(kit);
        cell.width -= pad(kit) * 2.0;
        cell.y = top + label;
        value = std::max(value, value_height(kit, entries[i], values, context, cell));
    }
    Slab slab;
    const double height = top * 2.0 + label + value;
    for (const Placement& cell : cells) {
        add_shape(
            slab,
            filled(page::rounded_rectangle(0, 0, cell.width, height, kit.em(0.35)), kit.page->tint),
            cell);
    }
    slab.where = labels.where;
    slab.span = labels.span;
    append(slab, std::move(labels));
    append(slab, std::move(values));
    slab.extents = {Extent{height, 0.0}};
    return slab;
}

} // namespace

Measured measure_dose(Kit& kit, const content::Table& block, const Context& context) {
    if (!is_columns(block) && !is_rows(block)) {
        // Several exercises in one table: an ordinary grid.
        content::Table plan = block;
        plan.role = content::Table::Role::Plan;
        return measure(kit, plan, context);
    }
    Measured result;
    result.before = kit.em(0.4);
    result.after = kit.em(0.8);
    const std::size_t table = kit.tag(Tag::Role::Table, context.tag);
    kit.tags->at(table).alternative = block.caption.text;
    std::vector<Entry> entries =
        is_columns(block) ? from_columns(kit, block, table) : from_rows(kit, block, table);
    choose_sizes(kit, entries, context);
    for (const RowOfCells row : pack(entries, context.width, kit.em(0.4))) {
        Slab slab = band_row(kit, entries, row, context);
        slab.before = result.slabs.empty() ? Break::Allowed : Break::Forbidden;
        slab.space_before = kit.em(0.4);
        result.slabs.push_back(std::move(slab));
    }
    return result;
}

} // namespace tickleaf::layout
