// SPDX-License-Identifier: MIT
#include "draw/canvas.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

#include "draw/palette.h"

namespace tickleaf::draw {

namespace {

constexpr double kHalo = 1.1;    // white round a part, in points
constexpr double kOutline = 1.0; // round pale parts
constexpr double kHatchSpacing = 3.1;
constexpr double kHatchWidth = 1.05;

bool same_stroke(const page::Stroke& a, const page::Stroke& b) {
    return std::abs(a.width - b.width) < 1e-9 && a.colour == b.colour && a.dashes == b.dashes &&
           a.cap == b.cap;
}

bool is_outlined(Tone tone) {
    return tone == Tone::Far || tone == Tone::WorkingFar || tone == Tone::Thing ||
           tone == Tone::Heavy;
}

using Group = std::vector<const Part*>;

void paint_outline(Canvas& canvas, const Part& part, page::Colour colour, double extra) {
    for (const Piece& piece : part.outline) {
        canvas.fill_wider(piece.path, colour, piece.round + extra);
    }
}

void paint_outlines(Canvas& canvas, const Group& group, page::Colour colour, double extra) {
    for (const Part* const part : group) {
        paint_outline(canvas, *part, colour, extra);
    }
}

// Whether the part that a limb hangs on is painted together with it: then white over the joint is
// covered again, and the white round it may be the part's own path, which costs next to nothing.
bool has_parent(const Part& part, const Group& group) {
    using figure::Segment;
    if (part.segment != Segment::Forearm && part.segment != Segment::Shank) {
        return false;
    }
    const Segment parent = part.segment == Segment::Shank ? Segment::Thigh : Segment::UpperArm;
    return std::any_of(group.begin(), group.end(),
                       [parent](const Part* other) { return other->segment == parent; });
}

void paint_halo(Canvas& canvas, const Part& part, const Group& group) {
    if (part.halo.empty() || has_parent(part, group)) {
        paint_outline(canvas, part, kWhite, kHalo + (is_outlined(part.tone) ? kOutline : 0.0));
    } else {
        canvas.fill(part.halo, kWhite);
    }
}

Path hatch(const Group& group) {
    Path lines;
    for (const Part* const each : group) {
        const Part& part = *each;
        if (part.hatched.size() > 2) {
            append(lines, hatching(part.hatched, unit(part.to.flat() - part.from.flat()),
                                   kHatchSpacing, part.lean));
        }
    }
    return lines;
}

void paint_tone(Canvas& canvas, const Group& group) {
    Path details;
    for (const Part* const part : group) {
        append(details, part->lines);
    }
    const Tone tone = group.front()->tone;
    page::Stroke white = pen(kWhite, kHatchWidth);
    page::Stroke accent = pen(kAccent, kHatchWidth);
    switch (tone) {
    case Tone::Near:
        paint_outlines(canvas, group, kInk, 0.0);
        break;
    case Tone::Far:
        paint_outlines(canvas, group, kMuted, kOutline);
        paint_outlines(canvas, group, kFar, 0.0);
        break;
    case Tone::Working:
        paint_outlines(canvas, group, kAccent, 0.0);
        canvas.stroke(hatch(group), white);
        break;
    case Tone::WorkingFar:
        paint_outlines(canvas, group, kAccent, kOutline);
        paint_outlines(canvas, group, kWhite, 0.0);
        canvas.stroke(hatch(group), accent);
        break;
    case Tone::Thing:
        paint_outlines(canvas, group, kMuted, 0.7);
        paint_outlines(canvas, group, kTint, 0.0);
        break;
    case Tone::Heavy:
        paint_outlines(canvas, group, kInk, 0.7);
        paint_outlines(canvas, group, kMuted, 0.0);
        break;
    }
    canvas.stroke(details, white);
}

bool joins(const Part& a, const Part& b) {
    return a.chain == b.chain && a.chain != Chain::Thing && a.tone == b.tone;
}

} // namespace

void Canvas::fill(const Path& path, page::Colour colour) {
    if (path.empty()) {
        return;
    }
    box_.add(extent(path));
    if (!shapes.empty() && shapes.back().fill == colour && !shapes.back().stroke) {
        append(shapes.back().path, path);
        return;
    }
    shapes.push_back({path, colour, std::nullopt});
}

void Canvas::fill_wider(const Path& path, page::Colour colour, double extra) {
    if (extra <= 0.0) {
        fill(path, colour);
        return;
    }
    const Box covered = extent(Piece{path, extra});
    if (covered.is_empty()) {
        return;
    }
    box_.add(covered);
    const page::Stroke stroke = pen(colour, std::round(10.0 * extra) / 5.0);
    if (!shapes.empty() && shapes.back().fill == colour && shapes.back().stroke &&
        same_stroke(*shapes.back().stroke, stroke)) {
        append(shapes.back().path, path);
        return;
    }
    shapes.push_back({path, colour, stroke});
}

void Canvas::stroke(const Path& path, page::Stroke stroke) {
    const Box inner = extent(path);
    if (inner.is_empty()) {
        return;
    }
    box_.add(Point{inner.left, inner.top}, stroke.width / 2.0);
    box_.add(Point{inner.right, inner.bottom}, stroke.width / 2.0);
    if (!shapes.empty() && !shapes.back().fill && shapes.back().stroke &&
        same_stroke(*shapes.back().stroke, stroke)) {
        append(shapes.back().path, path);
        return;
    }
    shapes.push_back({path, std::nullopt, std::move(stroke)});
}

void Canvas::label(page::Label label, double width) {
    double left = label.at.x;
    if (label.anchor == page::Label::Anchor::Middle) {
        left -= width / 2.0;
    } else if (label.anchor == page::Label::Anchor::End) {
        left -= width;
    }
    box_.add(Point{left, label.at.y - label.height});
    box_.add(Point{left + width, label.at.y + label.height * 0.25});
    labels.push_back(std::move(label));
}

page::Stroke pen(page::Colour colour, double width) {
    page::Stroke stroke;
    stroke.colour = colour;
    stroke.width = width;
    return stroke;
}

double text_width(const std::string& text, double height) {
    double count = 0.0;
    for (const char c : text) {
        // Bytes that continue a UTF-8 character are not counted.
        count += (static_cast<unsigned char>(c) & 0xC0U) == 0x80U ? 0.0 : 1.0;
    }
    return count * height * 0.62;
}

void paint_parts(Canvas& canvas, const std::vector<Part>& ordered) {
    Group group;
    for (std::size_t i = 0; i < ordered.size(); ++i) {
        if (i == 0 || !joins(ordered[i - 1], ordered[i])) {
            group.clear();
        }
        group.push_back(&ordered[i]);
        if (i + 1 == ordered.size() || !joins(ordered[i], ordered[i + 1])) {
            for (const Part* const part : group) {
                paint_halo(canvas, *part, group);
            }
            paint_tone(canvas, group);
        }
    }
}

void paint_ghost(Canvas& canvas, const std::vector<Part>& parts) {
    std::vector<Piece> all;
    for (const Part& part : parts) {
        all.insert(all.end(), part.outline.begin(), part.outline.end());
    }
    // What is rounded alike becomes one shape.
    std::stable_sort(all.begin(), all.end(),
                     [](const Piece& a, const Piece& b) { return a.round < b.round; });
    for (const Piece& piece : all) {
        canvas.fill_wider(piece.path, kPale, piece.round);
    }
}

} // namespace tickleaf::draw
