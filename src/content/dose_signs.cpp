// SPDX-License-Identifier: MIT
#include "content/dose_signs.h"

#include <algorithm>
#include <utility>
#include <variant>
#include <vector>

namespace tickleaf::content {
namespace {

using page::Drawing;
using page::Path;
using page::PathStep;
using page::Point;
using support::Range;
using support::Seconds;

constexpr double kHeight = 44.0;
constexpr double kMiddle = kHeight / 2.0;
constexpr double kGap = 7.0;     ///< between a sign and its number
constexpr double kSpace = 22.0;  ///< between one sign and the next
constexpr double kRadius = 12.0; ///< of ring and clock
constexpr double kBox = 15.0;
constexpr double kType = 20.0;
constexpr double kDigitWidth = 12.5; ///< of bold digits at kType
constexpr double kDiagonal = 0.7071; ///< sine of 45 degrees
constexpr std::int64_t kSecondsAMinute = 60;
constexpr int kDaysAWeek = 7;
/// More boxes or suns than this are a number.
constexpr int kMostDrawn = 6;
constexpr page::Colour kInk{33, 37, 41};
constexpr page::Colour kPale{118, 124, 130}; ///< 4:1 on white

/// A sign or a number, drawn from its own top left corner.
struct Piece {
    double width = 0.0;
    double space = 0.0; ///< before it
    std::vector<page::Shape> shapes;
    std::vector<page::Label> labels;
};

page::Stroke stroke(double width, bool is_dashed = false) {
    page::Stroke out;
    out.width = width;
    out.colour = is_dashed ? kPale : kInk;
    if (is_dashed) {
        out.dashes = {2.5, 2.5};
    }
    return out;
}

page::Shape outline(Path path, double width, bool is_dashed = false) {
    page::Shape shape;
    shape.path = std::move(path);
    shape.stroke = stroke(width, is_dashed);
    return shape;
}

page::Shape filled(Path path) {
    page::Shape shape;
    shape.path = std::move(path);
    shape.fill = kInk;
    return shape;
}

Piece number_piece(const std::string& text, double digits) {
    Piece piece;
    piece.width = digits * kDigitWidth;
    piece.space = kGap;
    page::Label label;
    label.at = {piece.width / 2.0, kMiddle + kType * 0.36};
    label.text = text;
    label.height = kType;
    label.colour = kInk;
    piece.labels.push_back(std::move(label));
    return piece;
}

/// From the low to the high number, in the direction of reading.
Piece arrow_piece(bool right_to_left) {
    constexpr double kLength = 16.0;
    constexpr double kHead = 5.0;
    Piece piece;
    piece.width = kLength;
    piece.space = kGap;
    const double tip = right_to_left ? 0.0 : kLength;
    const double back = right_to_left ? kHead : kLength - kHead;
    piece.shapes.push_back(outline(page::line({0.0, kMiddle}, {kLength, kMiddle}), 1.6));
    piece.shapes.push_back(
        filled(page::polygon({{tip, kMiddle}, {back, kMiddle - kHead}, {back, kMiddle + kHead}})));
    return piece;
}

/// Three quarters of a ring and a head: again and again.
Piece ring_piece() {
    Piece piece;
    piece.width = 2.0 * kRadius;
    piece.space = kSpace;
    const Path whole = page::circle({kRadius, kMiddle}, kRadius - 1.5);
    // Begins at the right, goes down and round; the last quarter, up to the right again, is left
    // open.
    piece.shapes.push_back(outline(Path(whole.begin(), whole.begin() + 4), 2.4));
    const Point top{kRadius, kMiddle - kRadius + 1.5};
    piece.shapes.push_back(filled(page::polygon(
        {{top.x + 8.0, top.y}, {top.x - 1.0, top.y - 5.5}, {top.x - 1.0, top.y + 5.5}})));
    return piece;
}

Piece clock_piece() {
    Piece piece;
    piece.width = 2.0 * kRadius;
    piece.space = kSpace;
    const Point centre{kRadius, kMiddle};
    piece.shapes.push_back(outline(page::circle(centre, kRadius - 1.5), 2.4));
    piece.shapes.push_back(outline(page::line(centre, {centre.x, centre.y - 7.0}), 2.0));
    piece.shapes.push_back(outline(page::line(centre, {centre.x + 5.0, centre.y}), 2.0));
    return piece;
}

Piece pause_piece() {
    Piece piece;
    piece.width = 15.0;
    piece.space = kSpace;
    for (const double x : {0.0, 9.5}) {
        piece.shapes.push_back(filled(page::rectangle(x, kMiddle - 10.0, 5.5, 20.0)));
    }
    return piece;
}

/// Both sides in turn.
Piece both_sides_piece() {
    Piece piece;
    piece.width = 30.0;
    piece.space = kGap;
    piece.shapes.push_back(outline(page::line({4.0, kMiddle}, {26.0, kMiddle}), 2.0));
    piece.shapes.push_back(
        filled(page::polygon({{0.0, kMiddle}, {7.0, kMiddle - 5.5}, {7.0, kMiddle + 5.5}})));
    piece.shapes.push_back(
        filled(page::polygon({{30.0, kMiddle}, {23.0, kMiddle - 5.5}, {23.0, kMiddle + 5.5}})));
    return piece;
}

Piece sun_piece(bool is_optional) {
    constexpr double kSun = 5.5;
    constexpr double kIn = 8.0;
    constexpr double kOut = 11.5;
    Piece piece;
    piece.width = 2.0 * kOut;
    piece.space = kGap;
    const Point c{kOut, kMiddle};
    page::Shape disc = outline(page::circle(c, kSun), 1.6, is_optional);
    if (!is_optional) {
        disc.fill = kInk;
    }
    piece.shapes.push_back(std::move(disc));
    for (const Point ray : {Point{1, 0}, Point{-1, 0}, Point{0, 1}, Point{0, -1},
                            Point{kDiagonal, kDiagonal}, Point{-kDiagonal, kDiagonal},
                            Point{kDiagonal, -kDiagonal}, Point{-kDiagonal, -kDiagonal}}) {
        piece.shapes.push_back(outline(page::line({c.x + ray.x * kIn, c.y + ray.y * kIn},
                                                  {c.x + ray.x * kOut, c.y + ray.y * kOut}),
                                       1.8));
    }
    return piece;
}

Piece box_piece(bool is_optional) {
    Piece piece;
    piece.width = kBox;
    piece.space = kGap;
    piece.shapes.push_back(
        outline(page::rectangle(0.0, kMiddle - kBox / 2.0, kBox, kBox), 2.0, is_optional));
    return piece;
}

/// Seven days, as many filled as there are exercise days.
Piece week_piece(Range<int> days, bool right_to_left) {
    constexpr double kDay = 8.0;
    constexpr double kStep = 10.5;
    Piece piece;
    piece.width = kStep * kDaysAWeek;
    piece.space = kSpace;
    for (int day = 0; day < kDaysAWeek; ++day) {
        const double x = kStep * (right_to_left ? kDaysAWeek - 1 - day : day);
        const Path square = page::rectangle(x, kMiddle - kDay / 2.0, kDay, kDay);
        piece.shapes.push_back(day < days.low ? filled(square)
                                              : outline(square, 1.2, day < days.high));
    }
    return piece;
}

class Strip {
  public:
    explicit Strip(Tongue& tongue) : tongue_(tongue) {}

    void add(Piece piece) { pieces_.push_back(std::move(piece)); }

    void counted(Range<int> range) {
        number(range.low);
        if (!range.is_single()) {
            add(arrow_piece(tongue_.right_to_left()));
            number(range.high);
        }
    }

    /// The unit stands behind the last number only.
    void time(Range<Seconds> range) {
        const bool minutes = range.low.count >= kSecondsAMinute &&
                             range.low.count % kSecondsAMinute == 0 &&
                             range.high.count % kSecondsAMinute == 0;
        const std::int64_t unit = minutes ? kSecondsAMinute : 1;
        if (!range.is_single()) {
            number(range.low.count / unit);
            add(arrow_piece(tongue_.right_to_left()));
        }
        const std::int64_t high = range.high.count / unit;
        const std::string text =
            tongue_.say(minutes ? "figure.hold_minutes" : "figure.hold_seconds",
                        {{"time", tongue_.number(high)}});
        add(number_piece(text, digits(high) + (minutes ? 3.2 : 1.8)));
    }

    /// One sign each, those beyond the low end dashed; a number where they would be many.
    template <class Make>
    void repeated(Range<int> range, const Make& make) {
        const int drawn = range.high > kMostDrawn ? 1 : range.high;
        for (int i = 0; i < drawn; ++i) {
            Piece piece = make(drawn > 1 && i >= range.low);
            piece.space = i == 0 ? kSpace : piece.space;
            add(std::move(piece));
        }
        if (range.high > kMostDrawn) {
            counted(range);
        }
    }

    /// Laid out from the reading start; the signs themselves are not mirrored.
    Drawing take() const {
        Drawing out;
        out.height = kHeight;
        for (std::size_t i = 0; i < pieces_.size(); ++i) {
            out.width += pieces_[i].width + (i == 0 ? 0.0 : pieces_[i].space);
        }
        double x = 0.0;
        for (std::size_t i = 0; i < pieces_.size(); ++i) {
            x += i == 0 ? 0.0 : pieces_[i].space;
            place(pieces_[i], tongue_.right_to_left() ? out.width - x - pieces_[i].width : x, out);
            x += pieces_[i].width;
        }
        return out;
    }

  private:
    static double digits(std::int64_t value) {
        return static_cast<double>(std::to_string(value).size());
    }
    void number(std::int64_t value) { add(number_piece(tongue_.number(value), digits(value))); }

    static void place(const Piece& piece, double x, Drawing& out) {
        for (page::Shape shape : piece.shapes) {
            shape.offset = {x, 0.0};
            out.shapes.push_back(std::move(shape));
        }
        for (page::Label label : piece.labels) {
            label.at.x += x;
            out.labels.push_back(std::move(label));
        }
    }

    Tongue& tongue_;
    std::vector<Piece> pieces_;
};

void add_content(const dose::PlannedExercise& exercise, Strip& strip) {
    const prescription::SetContent& content = exercise.dose.content;
    if (const auto* set = std::get_if<prescription::Repetitions>(&content)) {
        strip.add(ring_piece());
        strip.counted(set->count);
    } else if (const auto* tired = std::get_if<prescription::ToFatigue>(&content)) {
        // As many as go, never more than the cap.
        strip.add(ring_piece());
        strip.counted({1, tired->at_most});
    } else if (const auto* held = std::get_if<prescription::Holds>(&content)) {
        if (held->count > 1) {
            strip.add(ring_piece());
            strip.counted({held->count, held->count});
        }
        strip.add(clock_piece());
        strip.time(held->length);
    } else if (const auto* spent = std::get_if<prescription::TimeSpent>(&content)) {
        strip.add(clock_piece());
        strip.time(spent->length);
    }
    if (exercise.totals.sides > 1) {
        strip.add(both_sides_piece());
    }
}

} // namespace

Drawing dose_signs(Tongue& tongue, const dose::PlannedExercise& exercise) {
    const prescription::Dose& dose = exercise.dose;
    Strip strip(tongue);
    strip.repeated(dose.sets, box_piece);
    add_content(exercise, strip);
    if (dose.has_rest && dose.sets.high > 1) {
        strip.add(pause_piece());
        strip.time(dose.rest);
    }
    strip.repeated(dose.per_day, sun_piece);
    strip.add(week_piece(exercise.days_per_week, tongue.right_to_left()));
    return strip.take();
}

} // namespace tickleaf::content
