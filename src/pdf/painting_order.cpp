// SPDX-License-Identifier: MIT
#include "pdf/painting_order.h"

#include <algorithm>
#include <array>
#include <numeric>

namespace tickleaf::pdf {

namespace {

bool is_link(const page::Item& item) {
    return std::holds_alternative<page::Link>(item.content);
}

/// What an item covers, at the least; nothing for links.
struct Cover {
    double x0 = 0.0, y0 = 0.0, x1 = 0.0, y1 = 0.0;
    bool meets(const Cover& other) const {
        return x0 < other.x1 && other.x0 < x1 && y0 < other.y1 && other.y0 < y1;
    }
};

Cover cover_of(const page::Item& item) {
    if (const auto* run = std::get_if<page::GlyphRun>(&item.content)) {
        return {run->origin.x, run->origin.y - run->size, run->origin.x + run->width(),
                run->origin.y + run->size * 0.4};
    }
    if (const auto* placed = std::get_if<page::PlacedDrawing>(&item.content)) {
        return {placed->origin.x, placed->origin.y,
                placed->origin.x + placed->drawing->width * placed->scale,
                placed->origin.y + placed->drawing->height * placed->scale};
    }
    if (const auto* picture = std::get_if<page::PlacedPicture>(&item.content)) {
        return {picture->origin.x, picture->origin.y, picture->origin.x + picture->width,
                picture->origin.y + picture->height};
    }
    const auto* shape = std::get_if<page::Shape>(&item.content);
    if (shape == nullptr || shape->path.empty()) {
        return {};
    }
    constexpr double kFar = 1e9;
    const double pen = shape->stroke ? shape->stroke->width / 2.0 : 0.0;
    Cover cover{kFar, kFar, -kFar, -kFar};
    for (const page::PathStep& step : shape->path) {
        if (step.kind == page::PathStep::Kind::Close) {
            continue;
        }
        cover = {std::min(cover.x0, step.to.x - pen), std::min(cover.y0, step.to.y - pen),
                 std::max(cover.x1, step.to.x + pen), std::max(cover.y1, step.to.y + pen)};
    }
    return {cover.x0 + shape->offset.x, cover.y0 + shape->offset.y, cover.x1 + shape->offset.x,
            cover.y1 + shape->offset.y};
}

/// What is covered, by bands of the page: a rule is held against its neighbours in height
/// alone, not against the whole page.
class Covered {
  public:
    explicit Covered(double page_height) : band_height_(std::max(page_height, 1.0) / kBands) {}

    void add(const Cover& cover) {
        for (std::size_t band = band_of(cover.y0); band <= band_of(cover.y1); ++band) {
            bands_[band].push_back(cover);
        }
    }
    bool meets(const Cover& cover) const {
        for (std::size_t band = band_of(cover.y0); band <= band_of(cover.y1); ++band) {
            if (std::any_of(bands_[band].begin(), bands_[band].end(),
                            [&](const Cover& other) { return cover.meets(other); })) {
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
    std::array<std::vector<Cover>, kBands> bands_;
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
        const Cover cover = cover_of(item);
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
