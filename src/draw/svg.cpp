// SPDX-License-Identifier: MIT
#include <string_view>

#include "draw/draw.h"
#include "support/number.h"

namespace tickleaf::draw {

namespace {

using support::fixed;

std::string hex(page::Colour colour) {
    constexpr std::string_view digits = "0123456789abcdef";
    std::string text = "#";
    for (const unsigned channel : {colour.red, colour.green, colour.blue}) {
        text += digits[channel >> 4U];
        text += digits[channel & 15U];
    }
    return text;
}

std::string escaped(const std::string& text) {
    std::string result;
    for (const char c : text) {
        switch (c) {
        case '&':
            result += "&amp;";
            break;
        case '<':
            result += "&lt;";
            break;
        case '>':
            result += "&gt;";
            break;
        default:
            // XML 1.0 has no place for control characters.
            result += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
        }
    }
    return result;
}

std::string pair(page::Point p) {
    return fixed(p.x, 2) + " " + fixed(p.y, 2);
}

std::string data(const page::Path& path) {
    std::string d;
    for (const page::PathStep& step : path) {
        switch (step.kind) {
        case page::PathStep::Kind::Move:
            d += "M" + pair(step.to);
            break;
        case page::PathStep::Kind::Line:
            d += "L" + pair(step.to);
            break;
        case page::PathStep::Kind::Curve:
            d += "C" + pair(step.a) + " " + pair(step.b) + " " + pair(step.to);
            break;
        case page::PathStep::Kind::Close:
            d += "Z";
            break;
        }
    }
    return d;
}

std::string stroke_attributes(const page::Stroke& stroke) {
    std::string text =
        " stroke=\"" + hex(stroke.colour) + "\" stroke-width=\"" + fixed(stroke.width, 2) + "\"";
    if (stroke.cap == page::Stroke::Cap::Round) {
        text += " stroke-linecap=\"round\" stroke-linejoin=\"round\"";
    }
    if (!stroke.dashes.empty()) {
        text += " stroke-dasharray=\"";
        for (std::size_t i = 0; i < stroke.dashes.size(); ++i) {
            text += (i > 0 ? " " : "") + fixed(stroke.dashes[i], 2);
        }
        text += "\"";
    }
    return text;
}

std::string_view anchor_word(page::Label::Anchor anchor) {
    switch (anchor) {
    case page::Label::Anchor::Start:
        return "start";
    case page::Label::Anchor::Middle:
        return "middle";
    case page::Label::Anchor::End:
        return "end";
    }
    return "start";
}

std::string text_element(const page::Label& label) {
    return "<text x=\"" + fixed(label.at.x, 2) + "\" y=\"" + fixed(label.at.y, 2) +
           "\" font-family=\"sans-serif\" font-size=\"" + fixed(label.height, 2) + "\"" +
           (label.bold ? " font-weight=\"bold\"" : "") + " text-anchor=\"" +
           std::string(anchor_word(label.anchor)) + "\" fill=\"" + hex(label.colour) + "\">" +
           escaped(label.text) + "</text>\n";
}

} // namespace

std::string to_svg(const page::Drawing& drawing) {
    const std::string size = fixed(drawing.width, 2) + " " + fixed(drawing.height, 2);
    std::string svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"" +
                      fixed(drawing.width, 2) + "pt\" height=\"" + fixed(drawing.height, 2) +
                      "pt\" viewBox=\"0 0 " + size + "\">\n";
    for (const page::Shape& shape : drawing.shapes) {
        svg += "<path d=\"" + data(shape.placed()) + "\" fill=\"" +
               (shape.fill ? hex(*shape.fill) : "none") + "\"";
        if (shape.stroke) {
            svg += stroke_attributes(*shape.stroke);
        }
        svg += "/>\n";
    }
    for (const page::Label& label : drawing.labels) {
        svg += text_element(label);
    }
    return svg + "</svg>\n";
}

} // namespace tickleaf::draw
