// SPDX-License-Identifier: MIT
#include "pdf/document_check.h"

#include <cmath>
#include <string>
#include <vector>

#include "pdf/text_string.h"

namespace tickleaf::pdf {

namespace {

constexpr std::size_t kMostPages = 2000;
constexpr std::size_t kMostTags = 200000;
constexpr double kLargestPage = 14400.0;
constexpr double kLargestCoordinate = 30000.0;

/// Reports in one place and remembers whether anything was wrong. Messages are made where there is
/// something to say: a booklet has thousands of parts, and nothing wrong with them.
class Checker {
  public:
    Checker(support::Findings& findings, support::Severity severity, std::string id)
        : findings_(findings), severity_(severity), id_(std::move(id)) {}
    template <class Message>
    void require(bool condition, const Message& message, const char* hint = "") {
        if (!condition) {
            findings_.add(support::Finding{severity_, {}, id_, message(), hint});
            good_ = false;
        }
    }
    bool is_good() const { return good_; }

  private:
    support::Findings& findings_;
    support::Severity severity_;
    std::string id_;
    bool good_ = true;
};

auto saying(const char* message) {
    return [message] { return std::string(message); };
}

std::string element(std::size_t i) {
    return "structure element " + std::to_string(i);
}

bool is_small(double value) {
    return std::isfinite(value) && std::abs(value) <= kLargestCoordinate;
}
bool is_small(page::Point p) {
    return is_small(p.x) && is_small(p.y);
}

bool is_drawable(const page::Shape& shape) {
    const auto is_placed_well = [&shape](page::Point p) {
        return is_small({p.x + shape.offset.x, p.y + shape.offset.y});
    };
    for (const page::PathStep& step : shape.path) {
        if (!is_placed_well(step.to) || !is_placed_well(step.a) || !is_placed_well(step.b)) {
            return false;
        }
    }
    if (shape.stroke) {
        double total = 0.0;
        for (const double dash : shape.stroke->dashes) {
            if (!is_small(dash) || dash < 0.0) {
                return false;
            }
            total += dash;
        }
        const bool dashes_good = shape.stroke->dashes.empty() || total >= 0.001;
        return is_small(shape.stroke->width) && shape.stroke->width >= 0.0 && dashes_good;
    }
    return true;
}

bool is_drawable(const page::GlyphRun& run, const page::Document& document) {
    if (run.font >= document.fonts.size() || !is_small(run.size) || !is_small(run.origin)) {
        return false;
    }
    for (const page::Glyph& glyph : run.glyphs) {
        if (!is_small(glyph.advance) || !is_small(glyph.x_offset) || !is_small(glyph.y_offset)) {
            return false;
        }
    }
    return true;
}

bool is_drawable(const page::PlacedDrawing& placed) {
    if (placed.drawing == nullptr || !is_small(placed.origin) || !is_small(placed.scale)) {
        return false;
    }
    for (const page::Shape& shape : placed.drawing->shapes) {
        if (!is_drawable(shape)) {
            return false;
        }
    }
    return is_small(placed.drawing->width) && is_small(placed.drawing->height);
}

bool is_drawable(const page::PlacedPicture& placed) {
    if (placed.picture == nullptr || placed.picture->width < 1 || placed.picture->height < 1) {
        return false;
    }
    const std::size_t pixels = static_cast<std::size_t>(placed.picture->width) *
                               static_cast<std::size_t>(placed.picture->height);
    return placed.picture->samples.size() == pixels * (placed.picture->grey ? 1 : 3) &&
           is_small(placed.origin) && is_small(placed.width) && is_small(placed.height);
}

bool is_drawable(const page::Content& content, const page::Document& document) {
    if (const auto* run = std::get_if<page::GlyphRun>(&content)) {
        return is_drawable(*run, document);
    }
    if (const auto* placed = std::get_if<page::PlacedDrawing>(&content)) {
        return is_drawable(*placed);
    }
    if (const auto* picture = std::get_if<page::PlacedPicture>(&content)) {
        return is_drawable(*picture);
    }
    if (const auto* shape = std::get_if<page::Shape>(&content)) {
        return is_drawable(*shape);
    }
    const auto& link = std::get<page::Link>(content);
    return is_small(link.x) && is_small(link.y) && is_small(link.width) && is_small(link.height) &&
           (!link.uri.empty() || link.page < document.pages.size());
}

void check_page(const page::Document& document, std::size_t number, Checker& check) {
    const page::Page& page = document.pages[number];
    const auto where = [number] { return "page " + std::to_string(number + 1) + ": "; };
    check.require(
        page.width >= 3.0 && page.height >= 3.0 && page.width <= kLargestPage &&
            page.height <= kLargestPage,
        [&] { return where() + "its size is not between 3 and 14400 points"; },
        "choose another paper");
    for (std::size_t i = 0; i < page.items.size(); ++i) {
        const page::Item& item = page.items[i];
        const auto which = [&] { return where() + "item " + std::to_string(i + 1); };
        check.require(item.tag == page::kArtifact || item.tag < document.tags.size(), [&] {
            return which() + " belongs to a structure element that does not exist";
        });
        check.require(is_drawable(item.content, document), [&] {
            return which() + " has a position, size, font or target that cannot be written";
        });
    }
}

void check_fonts(const page::Document& document, Checker& check) {
    for (const page::Font& font : document.fonts) {
        check.require(std::isfinite(font.units_per_em) && font.units_per_em > 0.0, [&] {
            return "font " + font.postscript_name + " has no valid units per em";
        });
        // A font that was only measured with has no glyphs, and is not written.
        check.require(font.glyphs.empty() || !font.program.empty(),
                      [&] { return "font " + font.postscript_name + " has no font program"; });
    }
}

int heading_level(page::Tag::Role role) {
    switch (role) {
    case page::Tag::Role::H1:
        return 1;
    case page::Tag::Role::H2:
        return 2;
    case page::Tag::Role::H3:
        return 3;
    default:
        return 0;
    }
}

void check_tag(const page::Document& document, std::size_t i, int& level, Checker& check) {
    const page::Tag& tag = document.tags[i];
    const int own_level = heading_level(tag.role);
    if (own_level > 0) {
        check.require(own_level <= level + 1, [&] {
            return element(i) + " is a heading of level " + std::to_string(own_level) +
                   " after level " + std::to_string(level);
        });
        level = own_level;
    }
    check.require(tag.role != page::Tag::Role::Figure || !tag.alternative.empty() ||
                      !tag.actual_text.empty(),
                  [&] { return element(i) + " is a figure without alternative text"; });
    check.require(tag.role != page::Tag::Role::TH || tag.scope != page::Tag::Scope::None,
                  [&] { return element(i) + " is a header cell that does not say what it heads"; });
    check.require(tag.language.empty() || is_language_tag(tag.language), [&] {
        return element(i) + " has the language \"" + tag.language + "\", which is no language tag";
    });
}

/// A table needs at least one cell that heads others.
void check_tables(const page::Document& document, Checker& check) {
    std::vector<bool> headed(document.tags.size());
    for (const page::Tag& tag : document.tags) {
        for (std::size_t i = tag.parent; tag.role == page::Tag::Role::TH && i != page::kArtifact;
             i = document.tags[i].parent) {
            headed[i] = true;
        }
    }
    for (std::size_t i = 0; i < document.tags.size(); ++i) {
        check.require(document.tags[i].role != page::Tag::Role::Table || headed[i],
                      [&] { return element(i) + " is a table without header cells"; });
    }
}

/// Text in another language than the document's must say so.
void check_languages(const page::Document& document, Checker& check) {
    for (const page::Page& page : document.pages) {
        for (const page::Item& item : page.items) {
            const auto* run = std::get_if<page::GlyphRun>(&item.content);
            check.require(run == nullptr || run->language.empty() || is_language_tag(run->language),
                          [&] {
                              return "a text has the language \"" + run->language +
                                     "\", which is no language tag";
                          });
        }
    }
}

} // namespace

bool is_writable(const page::Document& document, support::Findings& findings) {
    Checker check(findings, support::Severity::Error, "pdf-document");
    check.require(!document.pages.empty(), saying("the document has no pages"));
    check.require(
        document.pages.size() <= kMostPages,
        [] { return "the document has more than " + std::to_string(kMostPages) + " pages"; },
        "split the prescription into several");
    check.require(document.tags.size() <= kMostTags,
                  saying("the document has too many structure elements"),
                  "split the prescription into several");
    for (std::size_t i = 0; i < document.tags.size(); ++i) {
        const std::size_t parent = document.tags[i].parent;
        check.require(parent == page::kArtifact || parent < i,
                      [i] { return element(i) + " stands before its parent"; });
    }
    for (const page::OutlineEntry& entry : document.outline) {
        check.require(entry.page < document.pages.size() && is_small(entry.y), [&] {
            return "bookmark \"" + entry.title + "\" leads to a page that does not exist";
        });
    }
    for (std::size_t i = 0; i < document.pages.size(); ++i) {
        check_page(document, i, check);
    }
    check_fonts(document, check);
    return check.is_good();
}

bool may_claim_accessibility(const page::Document& document, support::Findings& findings) {
    if (!document.claims_accessibility) {
        return false;
    }
    Checker check(findings, support::Severity::Warning, "pdf-accessibility");
    check.require(!document.tags.empty(), saying("the document has no structure elements"));
    check.require(!document.title.empty(), saying("the document has no title"));
    check.require(is_language_tag(document.language), [&] {
        return "the document's language \"" + document.language + "\" is no language tag";
    });
    int level = 0;
    for (std::size_t i = 0; i < document.tags.size(); ++i) {
        check_tag(document, i, level, check);
    }
    check_tables(document, check);
    check_languages(document, check);
    for (const page::Page& page : document.pages) {
        for (const page::Item& item : page.items) {
            if (const auto* link = std::get_if<page::Link>(&item.content)) {
                check.require(item.tag != page::kArtifact &&
                                  document.tags[item.tag].role == page::Tag::Role::Link,
                              saying("a link is not in a link element of the structure"));
                check.require(!link->description.empty() || !link->uri.empty(),
                              saying("a link has no description"));
            }
        }
    }
    return check.is_good();
}

} // namespace tickleaf::pdf
