// SPDX-License-Identifier: MIT
// Operators of one content stream: paths, text and marked content, with the state remembered so
// that nothing is said twice. Marks and text objects are kept properly nested here, whatever the
// caller asks. Units: points in the stream's own space; positions are written to 1/10 (0.035 mm on
// a page; drawings come in tenths of a point and lose nothing), text with relative moves from the
// rounded position, so errors do not add up. Source: ISO 32000-1:2008, 8.4-8.5 graphics, 9.3-9.4
// text, 14.6 marked content.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "page/drawing.h"
#include "pdf/font_codes.h"

namespace tickleaf::pdf {

/// Where a drawing's or page's points go: x' = x * scale + dx, y' = y * (flip ? -scale : scale) +
/// dy.
struct Placement {
    double scale_x = 1.0;
    double scale_y = 1.0;
    page::Point offset{};
    page::Point apply(page::Point p) const {
        return {p.x * scale_x + offset.x, p.y * scale_y + offset.y};
    }
    /// The same for points that first move by `by`.
    Placement moved(page::Point by) const { return {scale_x, scale_y, apply(by)}; }
};

/// Appends value / 10^decimals without exponent, trailing zeros or "-0".
void append_scaled(std::string& out, std::int64_t value, int decimals);
void append_number(std::string& out, double value, int decimals = 2);

class ContentStream {
  public:
    /// Fill, then stroke.
    void shape(const page::Shape& shape, const Placement& placement);

    /// q, and the matrix [sx 0 0 sy x y].
    void push(double scale_x, double scale_y, page::Point offset);
    void pop();
    void draw_form(std::string_view name);

    /// Text. A text object is opened as needed and stays open until graphics come.
    void font(std::size_t index, double size);
    void fill_colour(page::Colour colour);
    /// Glyphs that follow are drawn along their edges, too, with a line of this width; 0 ends it.
    void outline(double width, page::Colour colour);
    void move_to(page::Point origin);
    /// Raises what follows above the baseline.
    void rise(double points);
    /// `adjust` is how far (1/1000 of the size) to move right before the code.
    void code(WrittenCode code, std::int64_t adjust);

    /// A marked-content sequence: `/Tag properties BDC`, or BMC without properties. `text_only`
    /// sequences stand inside the text object. Sequences opened within it must be closed before it.
    void begin_mark(std::string_view tag, std::string_view properties, bool text_only);
    void end_mark();

    std::string finish();

  private:
    struct State {
        std::optional<page::Colour> fill;
        std::optional<page::Colour> stroke;
        std::optional<double> line_width;
        std::optional<bool> round_caps;
        std::optional<bool> round_joins;
        std::optional<std::vector<double>> dashes; ///< unknown at the start: a form inherits them
    };
    void paint(const page::Shape& shape, const Placement& placement);
    void begin_text();
    void end_text();
    void end_show();
    void colour(page::Colour colour, bool stroking);
    void line(page::Colour colour, double width);
    void joins(bool round);
    void dashes(const std::vector<double>& lengths);
    void ends(const page::Stroke& stroke, const page::Path& path);
    void stroke_style(const page::Stroke& stroke, const page::Path& path);
    void path(const page::Path& path, const Placement& placement);
    void point(page::Point p, const Placement& placement);

    std::string out_;
    State state_;
    std::vector<State> saved_;
    std::vector<bool> marks_in_text_;
    bool in_text_ = false;
    std::size_t font_ = static_cast<std::size_t>(-1);
    double size_ = 0.0;
    std::int64_t line_x_ = 0, line_y_ = 0; ///< start of the text line, tenths of a point
    std::int64_t rise_ = 0;
    bool outlined_ = false;
    std::string show_;  ///< the array of a TJ being collected
    std::string codes_; ///< the string at its end
};

} // namespace tickleaf::pdf
