// SPDX-License-Identifier: MIT
#include "pdf/content_stream.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "pdf/round_shapes.h"
#include "pdf/text_string.h"

namespace tickleaf::pdf {

namespace {

std::int64_t hundredths(double value) {
    return std::llround(value * 100.0);
}
std::int64_t tenths(double value) {
    return std::llround(value * 10.0);
}

bool is_same(page::Point a, page::Point b) {
    return tenths(a.x) == tenths(b.x) && tenths(a.y) == tenths(b.y);
}

bool is_axis_parallel(const page::Path& path) {
    using Kind = page::PathStep::Kind;
    if (path.size() != 5 || path[0].kind != Kind::Move || path[4].kind != Kind::Close) {
        return false;
    }
    for (std::size_t i = 1; i < 4; ++i) {
        if (path[i].kind != Kind::Line) {
            return false;
        }
    }
    const auto& [a, b, c, d] = std::array{path[0].to, path[1].to, path[2].to, path[3].to};
    return a.y == b.y && b.x == c.x && c.y == d.y && d.x == a.x;
}

} // namespace

void append_scaled(std::string& out, std::int64_t value, int decimals) {
    if (value < 0) {
        out.push_back('-');
        value = -value;
    }
    std::int64_t unit = 1;
    for (int i = 0; i < decimals; ++i) {
        unit *= 10;
    }
    std::int64_t whole = value / unit;
    std::int64_t rest = value % unit;
    if (whole != 0 || rest == 0) {
        std::array<char, 24> buffer{};
        const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), whole).ptr;
        out.append(buffer.data(), end);
    }
    if (rest != 0) {
        out.push_back('.');
        while (rest != 0) {
            unit /= 10;
            out.push_back(static_cast<char>('0' + rest / unit));
            rest %= unit;
        }
    }
}

void append_number(std::string& out, double value, int decimals) {
    append_scaled(out, std::llround(value * std::pow(10.0, decimals)), decimals);
}

void ContentStream::colour(page::Colour colour, bool stroking) {
    const auto channel = [this](std::uint8_t value) {
        append_scaled(out_, std::llround(value * 1000.0 / 255.0), 3);
        out_.push_back(' ');
    };
    channel(colour.red);
    if (colour.red == colour.green && colour.green == colour.blue) {
        out_ += stroking ? "G\n" : "g\n";
        return;
    }
    channel(colour.green);
    channel(colour.blue);
    out_ += stroking ? "RG\n" : "rg\n";
}

void ContentStream::fill_colour(page::Colour value) {
    if (state_.fill != value) {
        end_show();
        state_.fill = value;
        colour(value, false);
    }
}

/// Caps are said only where a line has ends, joins only where it has corners.
void ContentStream::ends(const page::Stroke& stroke, const page::Path& path) {
    const auto count = [&path](page::PathStep::Kind kind) {
        return std::count_if(path.begin(), path.end(),
                             [kind](const page::PathStep& step) { return step.kind == kind; });
    };
    const bool is_closed = count(page::PathStep::Kind::Move) == count(page::PathStep::Kind::Close);
    const bool is_round = stroke.cap == page::Stroke::Cap::Round;
    if ((!is_closed || !stroke.dashes.empty()) && state_.round_caps != is_round) {
        state_.round_caps = is_round;
        out_ += is_round ? "1 J\n" : "0 J\n";
    }
    if (path.size() > 2) {
        joins(is_round);
    }
}

void ContentStream::joins(bool round) {
    if (state_.round_joins != round) {
        state_.round_joins = round;
        out_ += round ? "1 j\n" : "0 j\n";
    }
}

void ContentStream::line(page::Colour value, double width) {
    if (state_.stroke != value) {
        state_.stroke = value;
        colour(value, true);
    }
    if (state_.line_width != width) {
        state_.line_width = width;
        append_number(out_, width, 3);
        out_ += " w\n";
    }
}

void ContentStream::dashes(const std::vector<double>& lengths) {
    if (state_.dashes != lengths) {
        state_.dashes = lengths;
        out_.push_back('[');
        for (const double length : lengths) {
            append_number(out_, length, 3);
            out_.push_back(' ');
        }
        out_ += "]0 d\n";
    }
}

void ContentStream::stroke_style(const page::Stroke& stroke, const page::Path& path) {
    line(stroke.colour, stroke.width);
    ends(stroke, path);
    dashes(stroke.dashes);
}

void ContentStream::point(page::Point p, const Placement& placement) {
    const page::Point placed = placement.apply(p);
    append_scaled(out_, tenths(placed.x), 1);
    out_.push_back(' ');
    append_scaled(out_, tenths(placed.y), 1);
    out_.push_back(' ');
}

void ContentStream::path(const page::Path& path, const Placement& placement) {
    if (is_axis_parallel(path)) {
        const page::Point from = placement.apply(path[0].to);
        const page::Point to = placement.apply(path[2].to);
        point(path[0].to, placement);
        append_scaled(out_, tenths(to.x) - tenths(from.x), 1);
        out_.push_back(' ');
        append_scaled(out_, tenths(to.y) - tenths(from.y), 1);
        out_ += " re\n";
        return;
    }
    page::Point current{};
    for (const page::PathStep& step : path) {
        switch (step.kind) {
        case page::PathStep::Kind::Move:
            point(step.to, placement);
            out_ += "m\n";
            break;
        case page::PathStep::Kind::Line:
            point(step.to, placement);
            out_ += "l\n";
            break;
        case page::PathStep::Kind::Curve: {
            const bool short_start = is_same(step.a, current);
            const bool short_end = !short_start && is_same(step.b, step.to);
            if (!short_start) {
                point(step.a, placement);
            }
            if (!short_end) {
                point(step.b, placement);
            }
            point(step.to, placement);
            out_ += short_start ? "v\n" : (short_end ? "y\n" : "c\n");
            break;
        }
        case page::PathStep::Kind::Close:
            out_ += "h\n";
            break;
        }
        if (step.kind != page::PathStep::Kind::Close) {
            current = step.to;
        }
    }
}

void ContentStream::shape(const page::Shape& shape, const Placement& placement) {
    if (shape.path.empty() || (!shape.fill && !shape.stroke)) {
        return;
    }
    if (auto round = with_round_stroke(shape)) {
        round->stroke->width *= std::abs(placement.scale_x);
        paint(*round, placement);
    } else {
        paint(shape, placement);
    }
}

void ContentStream::paint(const page::Shape& shape, const Placement& placement) {
    end_text();
    if (shape.fill) {
        fill_colour(*shape.fill);
    }
    if (shape.stroke) {
        stroke_style(*shape.stroke, shape.path);
    }
    path(shape.path, placement.moved(shape.offset));
    out_ += shape.fill ? (shape.stroke ? "B\n" : "f\n") : "S\n";
}

void ContentStream::push(double scale_x, double scale_y, page::Point offset) {
    end_text();
    saved_.push_back(state_);
    out_ += "q ";
    append_number(out_, scale_x, 5);
    out_ += " 0 0 ";
    append_number(out_, scale_y, 5);
    out_.push_back(' ');
    append_number(out_, offset.x);
    out_.push_back(' ');
    append_number(out_, offset.y);
    out_ += " cm\n";
}

void ContentStream::pop() {
    end_text();
    if (!saved_.empty()) {
        state_ = saved_.back();
        saved_.pop_back();
        out_ += "Q\n";
    }
}

void ContentStream::draw_form(std::string_view name) {
    end_text();
    out_.push_back('/');
    out_ += name;
    out_ += " Do\n";
}

void ContentStream::begin_text() {
    if (!in_text_) {
        out_ += "BT\n";
        in_text_ = true;
        line_x_ = 0;
        line_y_ = 0;
    }
}

void ContentStream::end_text() {
    end_show();
    if (in_text_) {
        out_ += "ET\n";
        in_text_ = false;
    }
}

void ContentStream::end_show() {
    if (codes_.empty() && show_.empty()) {
        return;
    }
    if (show_.empty()) {
        append_literal(out_, codes_);
        out_ += "Tj\n";
    } else {
        if (!codes_.empty()) {
            append_literal(show_, codes_);
        }
        out_ += "[" + show_ + "]TJ\n";
    }
    show_.clear();
    codes_.clear();
}

void ContentStream::font(std::size_t index, double size) {
    begin_text();
    if (font_ != index || size_ != size) {
        end_show();
        font_ = index;
        size_ = size;
        out_ += "/F" + std::to_string(index) + " ";
        append_number(out_, size);
        out_ += " Tf\n";
    }
}

void ContentStream::outline(double width, page::Colour colour) {
    const bool wanted = width > 0.0;
    if (wanted != outlined_) {
        end_show();
        outlined_ = wanted;
        out_ += wanted ? "2 Tr\n" : "0 Tr\n";
    }
    if (wanted) {
        end_show();
        line(colour, width);
        joins(true);
        dashes({});
    }
}

void ContentStream::move_to(page::Point origin) {
    begin_text();
    end_show();
    const std::int64_t x = tenths(origin.x);
    const std::int64_t y = tenths(origin.y);
    append_scaled(out_, x - line_x_, 1);
    out_.push_back(' ');
    append_scaled(out_, y - line_y_, 1);
    out_ += " Td\n";
    line_x_ = x;
    line_y_ = y;
}

void ContentStream::rise(double points) {
    const std::int64_t value = hundredths(points);
    if (value != rise_) {
        end_show();
        rise_ = value;
        append_scaled(out_, value, 2);
        out_ += " Ts\n";
    }
}

void ContentStream::code(WrittenCode code, std::int64_t adjust) {
    if (adjust != 0) {
        if (!codes_.empty()) {
            append_literal(show_, codes_);
            codes_.clear();
        }
        append_scaled(show_, -adjust, 0);
    }
    if (code.length == 2) {
        codes_.push_back(static_cast<char>(static_cast<unsigned char>(code.value >> 8U)));
    }
    codes_.push_back(static_cast<char>(static_cast<unsigned char>(code.value)));
}

void ContentStream::begin_mark(std::string_view tag, std::string_view properties, bool text_only) {
    if (text_only) {
        begin_text();
        end_show();
    } else {
        end_text();
    }
    marks_in_text_.push_back(text_only);
    out_.push_back('/');
    out_ += tag;
    if (properties.empty()) {
        out_ += " BMC\n";
    } else {
        out_ += properties;
        out_ += "BDC\n";
    }
}

void ContentStream::end_mark() {
    if (marks_in_text_.empty()) {
        return;
    }
    if (marks_in_text_.back()) {
        end_show();
    } else {
        end_text();
    }
    marks_in_text_.pop_back();
    out_ += "EMC\n";
}

std::string ContentStream::finish() {
    end_text();
    while (!marks_in_text_.empty()) {
        end_mark();
    }
    while (!saved_.empty()) {
        pop();
    }
    return std::move(out_);
}

} // namespace tickleaf::pdf
