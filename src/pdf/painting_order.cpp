// SPDX-License-Identifier: MIT
#include "pdf/painting_order.h"

#include <algorithm>
#include <array>
#include <numeric>

#include "page/bounds.h"

namespace tickleaf::pdf {

namespace {

using page::Box;

bool is_link(const page::Item& item) {
    return std::holds_alternative<page::Link>(item.content);
}

/// What an item covers with its line; nothing for links.
Box cover_of(const page::Item& item) {
    constexpr page::Reach kAll{1.0, 0.4};
    const auto* shape = std::get_if<page::Shape>(&item.content);
    const double pen = shape != nullptr && shape->stroke ? shape->stroke->width / 2.0 : 0.0;
    const auto bounds = page::bounds_of(item.content, kAll);
    return bounds ? bounds->grown(pen) : Box{};
}

/// What is covered, by bands of the page: a rule is held against its neighbours in height
/// alone, not against the whole page.
class Covered {
  public:
    explicit Covered(double page_height) : band_height_(std::max(page_height, 1.0) / kBands) {}

    void add(const Box& cover) {
        for (std::size_t band = band_of(cover.y0); band <= band_of(cover.y1); ++band) {
            bands_[band].push_back(cover);
        }
    }
    bool meets(const Box& cover) const {
        for (std::size_t band = band_of(cover.y0); band <= band_of(cover.y1); ++band) {
            if (std::any_of(bands_[band].begin(), bands_[band].end(),
                            [&](const Box& other) { return cover.meets(other); })) {
                return true;
            }
        }
        return false;
    }

  private:
    static constexpr std::size_t kBands = 64;

    std::size_t band_of(double y) const {
        constexpr double kLast = kBands - 1;
        return static_cast<std::size_t>(std::clamp(y / band_height_, 0.0, kLast));
    }

    double band_height_;
    std::array<std::vector<Box>, kBands> bands_;
};

bool is_setting(const page::Item& item) {
    return item.tag == page::kArtifact && !item.pagination && !is_link(item);
}

bool is_box(const page::Item& item, const std::vector<page::Tag>& tags) {
    return item.tag != page::kArtifact && tags[item.tag].role == page::Tag::Role::Form &&
           std::holds_alternative<page::Shape>(item.content);
}

/// Moves what may go before all that stays, where nothing that stays lies under it.
template <class MayGo>
std::vector<std::size_t> to_front(const page::Page& page, const std::vector<std::size_t>& order,
                                  const MayGo& may_go) {
    std::vector<std::size_t> front;
    std::vector<std::size_t> rest;
    Covered passed(page.height);
    for (const std::size_t i : order) {
        const page::Item& item = page.items[i];
        const Box cover = cover_of(item);
        const bool goes = may_go(item) && !passed.meets(cover);
        (goes ? front : rest).push_back(i);
        if (!goes && !is_link(item)) {
            passed.add(cover);
        }
    }
    front.insert(front.end(), rest.begin(), rest.end());
    return front;
}

} // namespace

std::vector<std::size_t> painting_order(const page::Page& page,
                                        const std::vector<page::Tag>& tags) {
    std::vector<std::size_t> order(page.items.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    order = to_front(page, order, is_setting);
    // Read from the end, the last are the first.
    std::reverse(order.begin(), order.end());
    order = to_front(page, order, [&](const page::Item& item) { return is_box(item, tags); });
    std::reverse(order.begin(), order.end());
    return order;
}

} // namespace tickleaf::pdf
