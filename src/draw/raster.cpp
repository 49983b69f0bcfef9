// SPDX-License-Identifier: MIT
#include <cairo-pdf.h>
#include <cairo.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <memory>
#include <stdexcept>

#include "draw/draw.h"
#include "draw/pixels.h"
#include "draw/png_bytes.h"
#include "support/utf8.h"

namespace tickleaf::draw {

namespace {

// cairo refuses larger image surfaces.
constexpr double kLargestSide = 32000.0;

struct SurfaceEnd {
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
struct ContextEnd {
    void operator()(cairo_t* context) const { cairo_destroy(context); }
};
using Surface = std::unique_ptr<cairo_surface_t, SurfaceEnd>;
using Context = std::unique_ptr<cairo_t, ContextEnd>;

void check(cairo_status_t status) {
    if (status != CAIRO_STATUS_SUCCESS) {
        throw std::runtime_error(std::string("drawing with cairo: ") +
                                 cairo_status_to_string(status));
    }
}

void set_colour(cairo_t* cr, page::Colour colour) {
    cairo_set_source_rgb(cr, colour.red / 255.0, colour.green / 255.0, colour.blue / 255.0);
}

void trace(cairo_t* cr, const page::Path& path) {
    cairo_new_path(cr);
    for (const page::PathStep& step : path) {
        switch (step.kind) {
        case page::PathStep::Kind::Move:
            cairo_move_to(cr, step.to.x, step.to.y);
            break;
        case page::PathStep::Kind::Line:
            cairo_line_to(cr, step.to.x, step.to.y);
            break;
        case page::PathStep::Kind::Curve:
            cairo_curve_to(cr, step.a.x, step.a.y, step.b.x, step.b.y, step.to.x, step.to.y);
            break;
        case page::PathStep::Kind::Close:
            cairo_close_path(cr);
            break;
        }
    }
}

void paint(cairo_t* cr, const page::Shape& shape) {
    trace(cr, shape.placed());
    if (shape.fill) {
        set_colour(cr, *shape.fill);
        cairo_fill_preserve(cr);
    }
    if (shape.stroke) {
        const bool round = shape.stroke->cap == page::Stroke::Cap::Round;
        set_colour(cr, shape.stroke->colour);
        cairo_set_line_width(cr, shape.stroke->width);
        cairo_set_line_cap(cr, round ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
        cairo_set_line_join(cr, round ? CAIRO_LINE_JOIN_ROUND : CAIRO_LINE_JOIN_MITER);
        cairo_set_dash(cr, shape.stroke->dashes.data(),
                       static_cast<int>(shape.stroke->dashes.size()), 0.0);
        cairo_stroke_preserve(cr);
    }
    cairo_new_path(cr);
}

void paint(cairo_t* cr, const page::Label& label) {
    cairo_select_font_face(cr, "sans-serif", CAIRO_FONT_SLANT_NORMAL,
                           label.bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(cr, label.height);
    cairo_text_extents_t extents{};
    cairo_text_extents(cr, label.text.c_str(), &extents);
    double x = label.at.x;
    if (label.anchor == page::Label::Anchor::Middle) {
        x -= extents.x_advance / 2.0;
    } else if (label.anchor == page::Label::Anchor::End) {
        x -= extents.x_advance;
    }
    set_colour(cr, label.colour);
    cairo_move_to(cr, x, label.at.y);
    cairo_show_text(cr, label.text.c_str());
}

void paint(cairo_t* cr, const page::Drawing& drawing) {
    cairo_set_source_rgb(cr, 1.0, 1.0, 1.0);
    cairo_paint(cr);
    for (const page::Shape& shape : drawing.shapes) {
        paint(cr, shape);
    }
    for (const page::Label& label : drawing.labels) {
        paint(cr, label);
    }
    check(cairo_status(cr));
}

cairo_status_t append_bytes(void* closure, const unsigned char* bytes, unsigned int count) {
    static_cast<std::string*>(closure)->append(bytes, bytes + count);
    return CAIRO_STATUS_SUCCESS;
}

} // namespace

Pixels read_png(const std::string& bytes) {
    PngBytes reader{bytes};
    const Surface surface(cairo_image_surface_create_from_png_stream(read_png_bytes, &reader));
    check(cairo_surface_status(surface.get()));
    Pixels pixels;
    pixels.width = cairo_image_surface_get_width(surface.get());
    pixels.height = cairo_image_surface_get_height(surface.get());
    const std::size_t stride =
        static_cast<std::size_t>(cairo_image_surface_get_stride(surface.get()));
    const unsigned char* data = cairo_image_surface_get_data(surface.get());
    for (std::size_t y = 0; y < static_cast<std::size_t>(pixels.height); ++y) {
        for (std::size_t x = 0; x < static_cast<std::size_t>(pixels.width); ++x) {
            std::uint32_t rgb = 0;
            std::memcpy(&rgb, data + y * stride + x * 4, 4);
            const std::uint32_t luma =
                299 * (rgb >> 16U & 255U) + 587 * (rgb >> 8U & 255U) + 114 * (rgb & 255U);
            pixels.grey.push_back(static_cast<std::uint8_t>(luma / 1000));
        }
    }
    return pixels;
}

std::string to_png(const page::Drawing& drawing, double pixels_per_point) {
    const double wide = std::ceil(std::max(drawing.width, 1.0) * pixels_per_point);
    const double tall = std::ceil(std::max(drawing.height, 1.0) * pixels_per_point);
    if (!(wide <= kLargestSide && tall <= kLargestSide)) {
        throw std::runtime_error(
            "drawing with cairo: the picture has more than 32000 pixels a side");
    }
    const Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(wide),
                                                     static_cast<int>(tall)));
    check(cairo_surface_status(surface.get()));
    const Context context(cairo_create(surface.get()));
    cairo_scale(context.get(), pixels_per_point, pixels_per_point);
    paint(context.get(), drawing);
    std::string bytes;
    check(cairo_surface_write_to_png_stream(surface.get(), append_bytes, &bytes));
    return bytes;
}

std::string to_pdf(const page::Drawing& drawing) {
    std::string bytes;
    const Surface surface(cairo_pdf_surface_create_for_stream(
        append_bytes, &bytes, std::max(drawing.width, 1.0), std::max(drawing.height, 1.0)));
    check(cairo_surface_status(surface.get()));
    {
        const Context context(cairo_create(surface.get()));
        paint(context.get(), drawing);
        cairo_show_page(context.get());
    }
    cairo_surface_finish(surface.get());
    check(cairo_surface_status(surface.get()));
    return bytes;
}

} // namespace tickleaf::draw
