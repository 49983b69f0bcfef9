// SPDX-License-Identifier: MIT
#include "layout/column_widths.h"

#include <algorithm>
#include <numeric>

namespace tickleaf::layout {

namespace {

// Rounding in sums of widths is no lack of room.
constexpr double kTolerance = 1e-6;

double sum(const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0);
}

/// Wished shares, with the columns that would get less than their least width raised to it.
std::vector<double> from_shares(const std::vector<ColumnWish>& wishes, std::vector<double> shares,
                                double width) {
    shares.resize(wishes.size(), 0.0);
    std::vector<double> widths(wishes.size(), 0.0);
    std::vector<bool> raised(wishes.size(), false);
    for (std::size_t round = 0; round <= wishes.size(); ++round) {
        double left = width;
        double shared = 0.0;
        for (std::size_t i = 0; i < wishes.size(); ++i) {
            left -= raised[i] ? wishes[i].least : 0.0;
            shared += raised[i] ? 0.0 : std::max(shares[i], 1e-9);
        }
        bool changed = false;
        for (std::size_t i = 0; i < wishes.size(); ++i) {
            widths[i] = raised[i] ? wishes[i].least : left * std::max(shares[i], 1e-9) / shared;
            if (!raised[i] && widths[i] < wishes[i].least) {
                raised[i] = true;
                changed = true;
            }
        }
        if (!changed) {
            break;
        }
    }
    return widths;
}

std::vector<double> from_content(const std::vector<ColumnWish>& wishes, double width) {
    std::vector<double> widths;
    std::vector<double> lacks;
    for (const ColumnWish& wish : wishes) {
        widths.push_back(wish.least);
        lacks.push_back(std::max(0.0, wish.natural - wish.least));
    }
    const double left = width - sum(widths);
    const double lack = sum(lacks);
    for (std::size_t i = 0; i < widths.size(); ++i) {
        if (left <= lack && lack > 0.0) {
            widths[i] += left * lacks[i] / lack;
        } else {
            widths[i] += lacks[i] + (left - lack) / static_cast<double>(widths.size());
        }
    }
    return widths;
}

} // namespace

ColumnWidths column_widths(const std::vector<ColumnWish>& wishes, const std::vector<double>& shares,
                           double width) {
    ColumnWidths result;
    if (wishes.empty()) {
        return result;
    }
    double least = 0.0;
    for (const ColumnWish& wish : wishes) {
        least += wish.least;
    }
    if (least > width + kTolerance) {
        // Words break inside their cells: nothing is lost, but it is said.
        result.fits = false;
        for (const ColumnWish& wish : wishes) {
            result.widths.push_back(width * wish.least / least);
        }
        return result;
    }
    result.widths =
        shares.empty() ? from_content(wishes, width) : from_shares(wishes, shares, width);
    return result;
}

} // namespace tickleaf::layout
