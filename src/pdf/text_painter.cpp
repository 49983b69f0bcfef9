// SPDX-License-Identifier: MIT
#include "pdf/text_painter.h"

#include <cmath>
#include <optional>
#include <vector>

#include "pdf/content_stream.h"
#include "pdf/run_text.h"
#include "pdf/text_string.h"

namespace tickleaf::pdf {

namespace {

using Uses = std::vector<std::optional<FontCodes::Use>>;

void report_missing(const page::Glyph& glyph, const TextPlace& place) {
    place.findings.error({}, "pdf-glyph",
                         "glyph " + std::to_string(glyph.id) + " is not in the embedded font " +
                             place.codes.font().postscript_name,
                         "install a font that covers this text");
}

/// Codes for all glyphs; `conflict` tells which ones stand for another text already.
Uses allocate(const page::GlyphRun& run, const RunText& text, const TextPlace& place,
              std::vector<bool>& conflict) {
    Uses uses(run.glyphs.size());
    for (std::size_t i = 0; i < run.glyphs.size(); ++i) {
        if (text.glyphs[i].empty()) {
            continue;
        }
        uses[i] = place.codes.use(run.glyphs[i].id, text.glyphs[i]);
        if (!uses[i]) {
            report_missing(run.glyphs[i], place);
        } else if (!uses[i]->same_text) {
            conflict.resize(run.glyphs.size());
            conflict[i] = true;
        }
    }
    return uses;
}

std::string actual_text(const std::u32string& text) {
    std::string properties = "<</ActualText";
    append_text_string(properties, text);
    return properties + ">>";
}

void show(ContentStream& stream, const page::GlyphRun& run, const Uses& uses, const RunText& text,
          const FontCodes& codes) {
    const double unit = 1000.0 / run.size;
    double wanted = 0.0;
    std::int64_t pen = 0;
    auto word = text.words.begin();
    for (std::size_t i = 0; i < run.glyphs.size(); ++i) {
        const page::Glyph& glyph = run.glyphs[i];
        if (word != text.words.end() && i == word->begin) {
            stream.begin_mark("Span", actual_text(word->text), true);
        }
        if (uses[i]) {
            const std::int64_t adjust = std::llround(wanted + glyph.x_offset * unit) - pen;
            stream.rise(glyph.y_offset);
            stream.code(codes.written(uses[i]->code), adjust);
            pen += adjust + uses[i]->width;
        }
        wanted += glyph.advance * unit;
        if (word != text.words.end() && i + 1 == word->end) {
            stream.end_mark();
            ++word;
        }
    }
    stream.rise(0.0);
}

} // namespace

void paint_run(ContentStream& stream, const page::GlyphRun& run, const TextPlace& place) {
    if (run.glyphs.empty() || run.size <= 0.0) {
        return;
    }
    RunText text = distribute_text(run);
    std::vector<bool> conflict;
    const Uses uses = allocate(run, text, place, conflict);
    if (!conflict.empty()) {
        text.words = distribute_text(run, conflict).words;
    }
    stream.font(run.font, run.size);
    stream.fill_colour(run.colour);
    stream.outline(run.outline, run.colour);
    const bool foreign =
        !run.language.empty() && run.language != place.language && is_language_tag(run.language);
    if (foreign) {
        stream.begin_mark("Span", "<</Lang(" + run.language + ")>>", true);
    }
    if (run.right_to_left) {
        stream.begin_mark("ReversedChars", "", true);
    }
    stream.move_to({run.origin.x, place.page_height - run.origin.y});
    show(stream, run, uses, text, place.codes);
    if (run.right_to_left) {
        stream.end_mark();
    }
    if (foreign) {
        stream.end_mark();
    }
}

} // namespace tickleaf::pdf
