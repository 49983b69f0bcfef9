// SPDX-License-Identifier: MIT
#include "text/prepared.h"

#include <algorithm>
#include <utility>

namespace tickleaf::text {

namespace {

struct Span16 {
    std::uint32_t begin;
    std::uint32_t end;
};

/// A stretch of one direction on the line, as UAX #9 L2 orders them.
struct VisualRun {
    Span16 span;
    bool right_to_left;
};

/// From left to right.
template <class Visit>
void for_each_visual_run(const Shaped& paragraph, Span16 line, const Visit& visit) {
    const UBiDiDirection direction = ubidi_getDirection(paragraph.bidi.get());
    if (direction != UBIDI_MIXED) {
        visit(VisualRun{line, direction == UBIDI_RTL});
        return;
    }
    UErrorCode status = U_ZERO_ERROR;
    const Bidi bidi(ubidi_open());
    ubidi_setLine(paragraph.bidi.get(), static_cast<int32_t>(line.begin),
                  static_cast<int32_t>(line.end), bidi.get(), &status);
    const int32_t count = ubidi_countRuns(bidi.get(), &status);
    support::internal_error_if(U_FAILURE(status) != 0, "ICU cannot order a line");
    for (int32_t i = 0; i < count; ++i) {
        int32_t start = 0;
        int32_t length = 0;
        const UBiDiDirection run = ubidi_getVisualRun(bidi.get(), i, &start, &length);
        const std::uint32_t begin = line.begin + static_cast<std::uint32_t>(start);
        visit(VisualRun{{begin, begin + static_cast<std::uint32_t>(length)}, run == UBIDI_RTL});
    }
}

class LinePlacer {
  public:
    LinePlacer(const Paragraph::Impl& paragraph, Span16 line)
        : paragraph_(paragraph),
          shaped_(*paragraph.shaped),
          line_(line),
          trimmed_(shaped_.without_spaces(line.begin, line.end)) {}
    Line run();

  private:
    void place_visual_run(const VisualRun& run);
    void place_piece(const ShapedItem& prepared, Span16 piece, bool right_to_left);
    void set_text_ranges(page::GlyphRun& run, std::span<const ShapedGlyph> glyphs,
                         Span16 piece) const;
    bool hangs(const ShapedGlyph& glyph) const { return glyph.cluster >= trimmed_; }

    const Paragraph::Impl& paragraph_;
    const Shaped& shaped_;
    Span16 line_;
    std::uint32_t trimmed_;
    Line result_;
    std::vector<std::pair<std::uint32_t, page::GlyphRun>> runs_; ///< by where their text begins
};

/// Glyphs of one cluster share its text; a cluster ends where the next one begins.
void LinePlacer::set_text_ranges(page::GlyphRun& run, std::span<const ShapedGlyph> glyphs,
                                 Span16 piece) const {
    const auto& offsets = shaped_.collected.offsets;
    const std::uint32_t base = offsets[piece.begin];
    // Clusters only rise or only fall along the line, so the next one is met just before.
    std::uint32_t end = piece.end;
    std::uint32_t cluster = piece.end;
    const bool falls = glyphs.size() > 1 && glyphs.front().cluster > glyphs.back().cluster;
    for (std::size_t i = 0; i < glyphs.size(); ++i) {
        const std::size_t at = falls ? i : glyphs.size() - 1 - i;
        if (glyphs[at].cluster != cluster) {
            end = cluster;
            cluster = glyphs[at].cluster;
        }
        run.glyphs[at].text_begin = offsets[cluster] - base;
        run.glyphs[at].text_end = offsets[end] - base;
    }
}

void LinePlacer::place_piece(const ShapedItem& prepared, Span16 piece, bool right_to_left) {
    std::vector<ShapedGlyph> anew;
    std::span<const ShapedGlyph> glyphs = shaped_.slice(prepared, piece.begin, piece.end, anew);
    if (right_to_left != prepared.item.right_to_left()) {
        // Spaces at the end of a line go back to the paragraph's direction (UAX #9 L1).
        anew = std::vector<ShapedGlyph>(glyphs.rbegin(), glyphs.rend());
        glyphs = anew;
    }
    const auto& offsets = shaped_.collected.offsets;
    page::GlyphRun run;
    const auto index = static_cast<std::size_t>(&prepared - shaped_.items.data());
    const double scale = prepared.scale * paragraph_.style.size;
    run.font = paragraph_.numbers[index];
    run.size = paragraph_.style.size;
    run.colour = paragraph_.style.colour;
    run.outline = prepared.bold_stroke * paragraph_.style.size;
    run.text = shaped_.collected.utf8.substr(offsets[piece.begin],
                                             offsets[piece.end] - offsets[piece.begin]);
    run.language = shaped_.language;
    run.right_to_left = right_to_left;
    run.origin = {result_.width, 0.0};
    run.glyphs.reserve(glyphs.size());
    for (const ShapedGlyph& glyph : glyphs) {
        page::Glyph placed;
        placed.id = glyph.id;
        if (!hangs(glyph)) {
            placed.advance = glyph.advance * scale;
            placed.x_offset = glyph.x_offset * scale;
            placed.y_offset = glyph.y_offset * scale;
        }
        result_.width += placed.advance;
        run.glyphs.push_back(placed);
    }
    set_text_ranges(run, glyphs, piece);
    result_.ascent = std::max(result_.ascent, prepared.item.face->ascent * scale);
    result_.descent = std::max(result_.descent, prepared.item.face->descent * scale);
    runs_.emplace_back(piece.begin, std::move(run));
}

void LinePlacer::place_visual_run(const VisualRun& run) {
    const auto& items = shaped_.items;
    const auto ends_before = [&run](const ShapedItem& p) { return p.item.end <= run.span.begin; };
    const auto begins_before = [&run](const ShapedItem& p) { return p.item.begin < run.span.end; };
    const auto first = std::partition_point(items.begin(), items.end(), ends_before);
    const auto last = std::partition_point(first, items.end(), begins_before);
    const auto place = [&](const ShapedItem& prepared) {
        place_piece(prepared,
                    {std::max(prepared.item.begin, run.span.begin),
                     std::min(prepared.item.end, run.span.end)},
                    run.right_to_left);
    };
    if (run.right_to_left) {
        std::for_each(std::make_reverse_iterator(last), std::make_reverse_iterator(first), place);
    } else {
        std::for_each(first, last, place);
    }
}

Line LinePlacer::run() {
    result_.ascent = shaped_.ascent * paragraph_.style.size;
    result_.descent = shaped_.descent * paragraph_.style.size;
    if (line_.begin < line_.end) {
        for_each_visual_run(shaped_, line_, [this](VisualRun run) { place_visual_run(run); });
    }
    // Placed as they are seen, handed on as they are read: "Article 1" is not "1 Article" in
    // Arabic.
    std::sort(runs_.begin(), runs_.end(),
              [](const auto& a, const auto& b) { return a.first < b.first; });
    result_.runs.reserve(runs_.size());
    for (auto& run : runs_) {
        result_.runs.push_back(std::move(run.second));
    }
    return std::move(result_);
}

} // namespace

Line place_line(const Paragraph::Impl& paragraph, std::uint32_t begin, std::uint32_t end) {
    return LinePlacer(paragraph, {begin, end}).run();
}

} // namespace tickleaf::text
