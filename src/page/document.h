// SPDX-License-Identifier: MIT
// The finished pages as data: all that a writer sees. Made by layout/, read by pdf/ and draw/.
// Units: points, origin top left of the page, y down; baselines at their y. Items are in reading
// order. Source: structure roles are those of ISO 32000-1, 14.8.4; PDF/UA-1 (ISO 14289-1) says how
// they are used.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "page/drawing.h"

namespace tickleaf::page {

/// A glyph of a run. Glyphs stand in visual order, left to right. `text_begin`/`text_end` are byte
/// offsets into GlyphRun::text; glyphs of one cluster share the same range.
struct Glyph {
    std::uint32_t id = 0; ///< glyph id in the original font file
    double advance = 0.0; ///< to the next glyph's origin
    double x_offset = 0.0;
    double y_offset = 0.0; ///< positive is up, as in the font
    std::uint32_t text_begin = 0;
    std::uint32_t text_end = 0;
};

/// A stretch of one font, size, direction and language.
struct GlyphRun {
    std::size_t font = 0; ///< index into Document::fonts
    double size = 12.0;
    Colour colour{};
    double outline = 0.0; ///< width of a line of the same colour along the glyphs' edges
    std::string text;     ///< logical order, UTF-8
    std::string language; ///< BCP 47
    bool right_to_left = false;
    Point origin{}; ///< of the first glyph in visual order
    std::vector<Glyph> glyphs;
    double width() const;
};

/// A drawing placed on the page, scaled. Labels of drawings are set as glyph runs by layout/.
struct PlacedDrawing {
    std::shared_ptr<const Drawing> drawing; ///< shared where one drawing stands on several pages
    Point origin{};
    double scale = 1.0;
};

/// A picture in pixels, such as a clinic's logo: row by row from the top, three bytes a pixel
/// (sRGB) or one where all of it is grey. Without transparency, as PDF/A-2 output intents are kept
/// simple.
struct Picture {
    int width = 0;
    int height = 0;
    bool grey = false;
    std::vector<std::uint8_t> samples;
};

/// A picture stretched over a rectangle of the page.
struct PlacedPicture {
    std::shared_ptr<const Picture> picture;
    Point origin{};
    double width = 0.0;
    double height = 0.0;
};

/// A rectangle of the page that leads somewhere: a page of this document or a telephone/web
/// address.
struct Link {
    double x = 0.0, y = 0.0, width = 0.0, height = 0.0;
    std::size_t page = 0; ///< target page where `uri` is empty
    std::string uri;
    std::string description;
    double target_y = 0.0; ///< how far down the target page
};

using Content = std::variant<GlyphRun, PlacedDrawing, PlacedPicture, Shape, Link>;

inline constexpr std::size_t kArtifact = static_cast<std::size_t>(-1);

/// What stands on a page, and the structure element it belongs to.
struct Item {
    Content content;
    std::size_t tag = kArtifact; ///< index into Document::tags, or kArtifact for rules, running
                                 ///< heads, backgrounds
    bool pagination = false;     ///< an artifact that is a running head or page number
};

struct Page {
    double width = 0.0;
    double height = 0.0;
    std::vector<Item> items; ///< reading order
};

/// A structure element. Children come in the order of their first appearance in `Document::tags`.
struct Tag {
    enum class Role {
        Document,
        Sect,
        H1,
        H2,
        H3,
        P,
        L,
        LI,
        Lbl,
        LBody,
        Table,
        TR,
        TH,
        TD,
        Figure,
        Caption,
        Form,
        Link,
        Reference,
        Span,
        TOC,
        TOCI,
        Note,
        Div
    };
    enum class Scope { None, Row, Column, Both };
    Role role = Role::P;
    std::size_t parent =
        kArtifact;           ///< kArtifact for the root; a parent always stands before its children
    std::string language;    ///< where it differs from the parent's
    std::string alternative; ///< Alt of a Figure, description of a Form, summary of a Table
    std::string actual_text;
    Scope scope = Scope::None; ///< of a TH
    int column_span = 1;
    int row_span = 1;
    bool numbered = false; ///< of an L
};

/// One outline entry (bookmark).
struct OutlineEntry {
    std::string title;
    int level = 1;
    std::size_t page = 0;
    double y = 0.0;
};

/// A font as it goes into the file: the subset's bytes and everything a font descriptor asks for.
/// Units: font units (1/units_per_em).
struct Font {
    enum class Kind { TrueType, CffCid };
    std::string postscript_name;
    Kind kind = Kind::TrueType;
    double units_per_em = 1000.0;
    double ascent = 0.0, descent = 0.0, cap_height = 0.0, italic_angle = 0.0, stem_v = 80.0;
    double x_min = 0.0, y_min = 0.0, x_max = 0.0, y_max = 0.0;
    bool bold = false;
    std::vector<std::byte> program; ///< subset font file (TrueType) or bare CFF
    struct Mapped {
        std::uint32_t original = 0; ///< glyph id used in GlyphRuns
        std::uint32_t subset = 0;   ///< glyph id in `program` (TrueType) or CID (CFF)
        double advance = 0.0;       ///< nominal advance from hmtx
    };
    std::vector<Mapped> glyphs; ///< sorted by `original`
};

struct Document {
    std::string title;
    std::string author;
    std::string subject;
    std::string language; ///< BCP 47
    bool right_to_left = false;
    bool claims_accessibility = true;
    bool duplex_short_edge = false;
    bool no_print_scaling = true;
    std::optional<std::string> date; ///< "YYYY-MM-DD" where the prescription gives one
    std::vector<Page> pages;
    std::vector<Tag> tags; ///< tags[0] is the Document element
    std::vector<OutlineEntry> outline;
    std::vector<Font> fonts;
};

/// The document as JSON: boxes, texts, tags (for `tickleaf inspect --stage document`).
std::string dump(const Document& document);

} // namespace tickleaf::page
