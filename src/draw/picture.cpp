// SPDX-License-Identifier: MIT
#include "draw/picture.h"

#include <cairo.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <limits>
#include <memory>
#include <string_view>

#include "draw/png_bytes.h"
#include "draw/svg_library.h"
#include "support/number.h"

namespace tickleaf::draw {

namespace {

constexpr double kPixelsPerPoint = 300.0 / 72.0;
/// A line between: a logo a hundred times as wide as high is a mistake.
constexpr double kMostProportion = 100.0;

struct SurfaceEnd {
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
struct ContextEnd {
    void operator()(cairo_t* context) const { cairo_destroy(context); }
};
struct HandleEnd {
    decltype(SvgLibrary::object_unref) unref;
    void operator()(RsvgHandle* handle) const { unref(handle); }
};
using Surface = std::unique_ptr<cairo_surface_t, SurfaceEnd>;
using Context = std::unique_ptr<cairo_t, ContextEnd>;

/// What is wrong with a picture, and what to do about it.
struct Fault {
    std::string what;
    std::string hint;
};
using MaybeFault = std::optional<Fault>;

Fault broken_png() {
    return {"is no whole PNG file", "save it again; it may have been cut off while it was copied"};
}

struct Size {
    double width = 0.0;
    double height = 0.0;
};

std::string in_words(Size size) {
    return support::fixed(size.width, 0) + " x " + support::fixed(size.height, 0);
}

MaybeFault fault_of(Size size) {
    if (!(size.width > 0.0 && size.height > 0.0)) {
        return Fault{"has no size: " + in_words(size), "give it a width and a height"};
    }
    if (std::max(size.width / size.height, size.height / size.width) > kMostProportion) {
        return Fault{"is " + in_words(size) + ", more than a hundred times as long as wide",
                     "cut it to what is to be seen"};
    }
    return std::nullopt;
}

/// A surface of whole pixels that holds a picture of this size at 300 dots an inch in its box, but
/// is not enlarged more than `most_scale`: pixels that are not there would cost and show nothing.
struct Canvas {
    Surface surface;
    int width = 0;
    int height = 0;
};

Canvas canvas_for(const PictureFile& file, Size size, double most_scale) {
    const double fit =
        kPixelsPerPoint * std::min(file.width / size.width, file.height / size.height);
    const double scale = std::min(fit, most_scale);
    Canvas canvas;
    canvas.width = std::max(1, static_cast<int>(std::lround(size.width * scale)));
    canvas.height = std::max(1, static_cast<int>(std::lround(size.height * scale)));
    canvas.surface.reset(
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, canvas.width, canvas.height));
    return canvas;
}

page::Picture picture_of(const Canvas& canvas) {
    cairo_surface_flush(canvas.surface.get());
    page::Picture picture;
    picture.width = canvas.width;
    picture.height = canvas.height;
    const auto stride =
        static_cast<std::size_t>(cairo_image_surface_get_stride(canvas.surface.get()));
    const unsigned char* data = cairo_image_surface_get_data(canvas.surface.get());
    bool grey = true;
    for (std::size_t y = 0; y < static_cast<std::size_t>(canvas.height); ++y) {
        for (std::size_t x = 0; x < static_cast<std::size_t>(canvas.width); ++x) {
            std::uint32_t rgb = 0;
            std::memcpy(&rgb, data + y * stride + x * 4, 4);
            const std::array<std::uint8_t, 3> channels{static_cast<std::uint8_t>(rgb >> 16U & 255U),
                                                       static_cast<std::uint8_t>(rgb >> 8U & 255U),
                                                       static_cast<std::uint8_t>(rgb & 255U)};
            picture.samples.insert(picture.samples.end(), channels.begin(), channels.end());
            grey = grey && channels[0] == channels[1] && channels[1] == channels[2];
        }
    }
    if (grey) {
        for (std::size_t i = 0; i * 3 < picture.samples.size(); ++i) {
            picture.samples[i] = picture.samples[i * 3];
        }
        picture.samples.resize(picture.samples.size() / 3);
        picture.grey = true;
    }
    return picture;
}

void paint_white(cairo_t* cr) {
    cairo_set_source_rgb(cr, 1.0, 1.0, 1.0);
    cairo_paint(cr);
}

/// Width and height as the file's first chunk has them, so that nothing huge is ever unpacked.
/// Source: PNG (ISO/IEC 15948), 5.2 signature and 11.2.2 IHDR.
std::optional<Size> png_size(std::string_view bytes) {
    constexpr std::string_view kSignature("\x89PNG\r\n\x1a\n", 8);
    constexpr std::size_t kSizeEnd = 24;
    if (bytes.size() < kSizeEnd || bytes.substr(0, 8) != kSignature ||
        bytes.substr(12, 4) != "IHDR") {
        return std::nullopt;
    }
    const auto number = [&](std::size_t at) {
        std::uint32_t value = 0;
        for (std::size_t i = at; i < at + 4; ++i) {
            value = value << 8U | static_cast<unsigned char>(bytes[i]);
        }
        return static_cast<double>(value);
    };
    return Size{number(16), number(20)};
}

MaybeFault read_png(const PictureFile& file, page::Picture& picture) {
    const auto size = png_size(file.bytes);
    if (!size) {
        return broken_png();
    }
    if (const MaybeFault fault = fault_of(*size)) {
        return fault;
    }
    if (size->width * size->height > kMostPicturePixels) {
        return Fault{"has " + in_words(*size) + " pixels, " +
                         support::fixed(size->width * size->height / 1e6, 0) +
                         " million; at most " + support::fixed(kMostPicturePixels / 1e6, 0) +
                         " million are read",
                     "save it smaller: 1000 pixels along its longer side print sharply"};
    }
    PngBytes reader{file.bytes};
    const Surface source(cairo_image_surface_create_from_png_stream(read_png_bytes, &reader));
    if (cairo_surface_status(source.get()) != CAIRO_STATUS_SUCCESS) {
        return broken_png();
    }
    const Canvas canvas = canvas_for(file, *size, 1.0);
    const Context context(cairo_create(canvas.surface.get()));
    paint_white(context.get());
    cairo_scale(context.get(), canvas.width / size->width, canvas.height / size->height);
    cairo_set_source_surface(context.get(), source.get(), 0.0, 0.0);
    cairo_pattern_set_filter(cairo_get_source(context.get()), CAIRO_FILTER_BEST);
    cairo_pattern_set_extend(cairo_get_source(context.get()), CAIRO_EXTEND_PAD);
    cairo_paint(context.get());
    if (cairo_status(context.get()) != CAIRO_STATUS_SUCCESS) {
        return broken_png();
    }
    picture = picture_of(canvas);
    return std::nullopt;
}

std::string lower(std::string text) {
    for (char& c : text) {
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    return text;
}

/// What an SVG may not hold. Looked for in the text itself, before anything reads it.
struct Banned {
    std::string_view text;
    const char* what;
    const char* hint;
};
constexpr const char* kPathsOnly = "save it as plain SVG with paths alone, or as PNG";
constexpr std::array<Banned, 5> kBannedText{{
    {"<!entity", "declares entities", kPathsOnly},
    {"<!doctype", "has a document type, which can load other files",
     "leave the DOCTYPE line out: SVG needs none"},
    {"<?xml-stylesheet", "loads a style sheet", kPathsOnly},
    {"@import", "loads a style sheet", kPathsOnly},
    {"\\", "hides letters behind a backslash", kPathsOnly},
}};
/// Elements, whatever prefix stands before their names.
constexpr std::array<Banned, 9> kBannedElements{{
    {"script", "holds a script", kPathsOnly},
    {"foreignobject", "holds a foreign document", kPathsOnly},
    {"image", "holds a picture of its own", "save the whole logo as PNG"},
    {"feimage", "holds a picture of its own", "save the whole logo as PNG"},
    {"filter", "uses a filter", kPathsOnly},
    {"animate", "moves", kPathsOnly},
    {"set", "moves", kPathsOnly},
    {"include", "includes another file", kPathsOnly},
    {"text", "holds text in a font of the machine it was made on", "turn its text into paths"},
}};

/// Where an element whose name begins so is opened, or npos.
std::size_t element_at(const std::string& text, std::string_view name) {
    for (std::size_t at = text.find('<'); at != std::string::npos; at = text.find('<', at + 1)) {
        const std::size_t end = text.find_first_of(" \t\r\n/>", at + 1);
        const std::string_view tag = std::string_view(text).substr(at + 1, end - at - 1);
        const std::size_t colon = tag.find(':');
        if (tag.substr(colon == std::string_view::npos ? 0 : colon + 1).starts_with(name)) {
            return at;
        }
    }
    return std::string::npos;
}

/// A reference that leads out of the file: one that does not begin with "#".
std::optional<std::string> outside_reference(const std::string& text) {
    for (const std::string_view opening : {"href", "url("}) {
        for (std::size_t at = text.find(opening); at != std::string::npos;
             at = text.find(opening, at)) {
            at += opening.size();
            const std::size_t target = text.find_first_not_of(" \t\r\n='\"", at);
            if (target == std::string::npos || text[target] == '#') {
                continue;
            }
            const std::size_t end = text.find_first_of("'\")<> \t\r\n", target);
            constexpr std::size_t kShown = 60;
            return text.substr(target, std::min(end - target, kShown));
        }
    }
    return std::nullopt;
}

MaybeFault unsafe_svg(const std::string& bytes) {
    const std::string text = lower(bytes);
    const auto banned = [&](const Banned& it, std::size_t at) {
        const auto end = text.begin() + static_cast<std::ptrdiff_t>(at);
        const auto line = 1 + std::count(text.begin(), end, '\n');
        return Fault{std::string(it.what) + " (its line " + std::to_string(line) + ")", it.hint};
    };
    // Another encoding could hide what is looked for here.
    if (text.find('\0') != std::string::npos ||
        (text.find("encoding=") < text.find("<svg") && text.find("utf-8") > text.find("<svg"))) {
        return Fault{"is not in UTF-8", "save it as UTF-8"};
    }
    for (const Banned& it : kBannedText) {
        if (const std::size_t at = text.find(it.text); at != std::string::npos) {
            return banned(it, at);
        }
    }
    for (const Banned& it : kBannedElements) {
        if (const std::size_t at = element_at(text, it.text); at != std::string::npos) {
            return banned(it, at);
        }
    }
    if (const auto target = outside_reference(text)) {
        const std::string what = "refers to \"" + *target + "\" outside of it";
        return banned({{}, what.c_str(), kPathsOnly}, text.find(*target));
    }
    return std::nullopt;
}

std::optional<Size> svg_size(const SvgLibrary& rsvg, RsvgHandle* handle) {
    gboolean has_width = FALSE, has_height = FALSE, has_box = FALSE;
    RsvgLength width{}, height{};
    RsvgRectangle box{};
    rsvg.get_intrinsic_dimensions(handle, &has_width, &width, &has_height, &height, &has_box, &box);
    if (has_box != FALSE) {
        return Size{box.width, box.height};
    }
    Size size;
    return rsvg.get_intrinsic_size(handle, &size.width, &size.height) != FALSE ? std::optional(size)
                                                                               : std::nullopt;
}

MaybeFault broken_svg(const SvgLibrary& rsvg, GError* error) {
    std::string what = "is no SVG that can be drawn";
    if (error != nullptr) {
        what += ": " + std::string(error->message);
        rsvg.error_free(error);
    }
    return Fault{what, kPathsOnly};
}

MaybeFault read_svg(const PictureFile& file, page::Picture& picture) {
    if (MaybeFault fault = unsafe_svg(file.bytes)) {
        return fault;
    }
    const auto rsvg = SvgLibrary::load();
    if (!rsvg) {
        return Fault{"is an SVG, and the library that draws these is not installed",
                     "install Debian's librsvg2-2, or save the logo as PNG"};
    }
    GError* error = nullptr;
    // Without a base address, so that even an overlooked reference leads nowhere.
    const std::unique_ptr<RsvgHandle, HandleEnd> handle(
        rsvg->handle_new_from_data(reinterpret_cast<const guint8*>(file.bytes.data()),
                                   file.bytes.size(), &error),
        HandleEnd{rsvg->object_unref});
    if (!handle) {
        return broken_svg(*rsvg, error);
    }
    const auto size = svg_size(*rsvg, handle.get());
    if (!size) {
        return Fault{"says neither its size nor its viewBox", "give it a viewBox"};
    }
    if (MaybeFault fault = fault_of(*size)) {
        return fault;
    }
    const Canvas canvas = canvas_for(file, *size, std::numeric_limits<double>::infinity());
    const Context context(cairo_create(canvas.surface.get()));
    paint_white(context.get());
    const RsvgRectangle whole{0.0, 0.0, static_cast<double>(canvas.width),
                              static_cast<double>(canvas.height)};
    if (rsvg->render_document(handle.get(), context.get(), &whole, &error) == FALSE ||
        cairo_status(context.get()) != CAIRO_STATUS_SUCCESS) {
        return broken_svg(*rsvg, error);
    }
    picture = picture_of(canvas);
    return std::nullopt;
}

} // namespace

std::optional<page::Picture> read_picture(const PictureFile& file, support::Findings& findings) {
    page::Picture picture;
    MaybeFault fault;
    if (file.bytes.size() > kMostPictureBytes) {
        fault = Fault{"is larger than 4 MiB", "save it smaller"};
    } else {
        fault =
            lower(file.name).ends_with(".svg") ? read_svg(file, picture) : read_png(file, picture);
    }
    if (fault) {
        findings.error(file.span, "template-logo", "the logo \"" + file.name + "\" " + fault->what,
                       fault->hint);
        return std::nullopt;
    }
    return picture;
}

} // namespace tickleaf::draw
