// SPDX-License-Identifier: MIT
// Blocks of the booklet to slabs: each block kind is one function from block and column to measured
// slabs. Shapes: Kit is what all of them use; Context is the column they are set in. Errors: a
// Group taller than a page in every form goes on under its name with a note; a callout is split
// with a warning; a row taller than a page is an error.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "content/booklet.h"
#include "layout/page_template.h"
#include "layout/signs.h"
#include "layout/slab.h"
#include "layout/typesetter.h"
#include "page/document.h"
#include "support/finding.h"

namespace tickleaf::layout {

/// What every measuring function needs.
struct Kit {
    const PageTemplate* page = nullptr;
    const content::Booklet* booklet = nullptr;
    Typesetter* type = nullptr;
    std::vector<page::Tag>* tags = nullptr;
    Flow* flow = nullptr;
    std::vector<support::Finding> said; ///< of the measurements that count, see Trial
    double page_height = 0.0;           ///< of the text area
    double figure_share = 1.0; ///< of the template's figure height, where a group needs the room
    double part_share = 1.0;   ///< the same for a whole part that wants one page
    double split_share = 1.0;  ///< the most of it where a group goes over two pages
    std::size_t abreast = 1;   ///< exercises of a sheet side by side
    bool one_column = false;   ///< columns go one under the other
    bool is_first_part = false;
    std::optional<int> filling; ///< lines that fill a page up, where that is known

    int tightness = 0;  ///< see tighten()
    double space = 1.0; ///< of the usual space between blocks and inside frames

    double em(double factor) const { return factor * page->body_size; }
    double gap(double factor) const { return em(factor) * space; }
    std::size_t tag(page::Tag::Role role, std::size_t parent,
                    const content::Words* words = nullptr);
    text::Style style(double size, text::Weight weight, page::Colour colour) const;
    void say(support::Severity severity, const support::Span& span, std::string id,
             std::string message, std::string hint);
};

/// Sets everything closer, down to what is still clear print; 0 is as the template has it.
inline constexpr int kTightest = 3;
/// Of a sheet for the door and weeks to fill in: only less space between blocks, lines no closer.
inline constexpr int kTightestSheet = 4;
void tighten(Kit& kit, int level);

/// Share of the template's drawing height that is seen from the floor still (common practice), for
/// a group over two pages.
inline constexpr double kSmallSplitDrawing = 0.55;

/// Remembers how far the kit has come, so that a measurement made on trial leaves nothing behind.
class Trial {
  public:
    explicit Trial(const Kit& kit)
        : tags_(kit.tags->size()), heads_(kit.flow->heads.size()), said_(kit.said.size()) {}
    void undo(Kit& kit) const;

  private:
    std::size_t tags_;
    std::size_t heads_;
    std::size_t said_;
};

/// The column a block is set in.
struct Context {
    double width = 0.0;
    std::size_t tag = 0; ///< structure element the block's elements belong to
    bool rigid = false;  ///< drawings keep their size
    bool in_columns = false;
    page::Colour text{};
    page::Colour muted{};
    bool on_accent = false; ///< white on the accent colour
};

/// The slabs of a block and the space it asks for around it.
struct Measured {
    std::vector<Slab> slabs;
    double before = 0.0;
    double after = 0.0;
    bool keep_with_next = false;
    bool leads = false;     ///< a heading of more than the block under it
    bool near_next = false; ///< a break after it is only for a page that would be all but empty
};

std::vector<Slab> measure_blocks(Kit& kit, const std::vector<content::Block>& blocks,
                                 const Context& context);

Measured measure(Kit& kit, const content::Heading& block, const Context& context);
Measured measure(Kit& kit, const content::Paragraph& block, const Context& context);
Measured measure(Kit& kit, const content::List& block, const Context& context);
Measured measure(Kit& kit, const content::Table& block, const Context& context);
Measured measure(Kit& kit, const content::Figure& block, const Context& context);
Measured measure(Kit& kit, const content::Callout& block, const Context& context);
Measured measure(Kit& kit, const content::PainScale& block, const Context& context);
Measured measure(Kit& kit, const content::StageBar& block, const Context& context);
Measured measure(Kit& kit, const content::WritingLines& block, const Context& context);
Measured measure(Kit& kit, const content::TickList& block, const Context& context);
Measured measure(Kit& kit, const content::Group& block, const Context& context);
Measured measure(Kit& kit, const content::Columns& block, const Context& context);
Measured measure(Kit& kit, const content::Contents& block, const Context& context);
Measured measure(Kit& kit, const content::PageBreak& block, const Context& context);
Measured measure(Kit& kit, const content::Divider& block, const Context& context);
/// Greatest height of a drawing as things are measured now.
double figure_limit(const Kit& kit);
/// Columns of steps and drawing as two rows, so that a page may end between them: the drawing
/// beside the words up to the last step, then what follows the steps beside what stands under the
/// drawing. Empty where there are no steps beside a drawing, or no room for two columns in `width`.
std::vector<content::Block> parted_after_steps(const Kit& kit, const content::Columns& block,
                                               double width);
/// An exercise of a sheet: words and a drawing.
bool is_cell(const content::Block& block);
/// Whether words of so many exercises side by side have lines long enough.
bool may_stand_abreast(const Kit& kit, std::size_t count, double width);
/// Cells side by side, as many to the width as the kit says.
Measured measure_abreast(Kit& kit, const content::Block* blocks, std::size_t count,
                         const Context& context);
/// The slabs of a part as the kit has it.
using SetPart = std::vector<Slab> (*)(Kit& kit, const content::Part& part, const Context& context);
/// A sheet for the door is read standing: space goes before the drawings get small, exercises stand
/// one under the other or side by side as makes them larger, and at the closest they are as large
/// as the page lets them be.
std::vector<Slab> on_a_sheet(Kit& kit, const content::Part& part, const Context& context,
                             SetPart set);
/// A logbook on the fewest pages, its rows as tall as these have room for: the pen is glad of it.
std::vector<Slab> on_log_pages(Kit& kit, const content::Part& part, const Context& context,
                               SetPart set);
/// A row to fill in by so much taller, what stands in it in the middle still.
void make_taller(Slab& row, double by);
/// A Dose table as a band of big labelled cells.
Measured measure_dose(Kit& kit, const content::Table& block, const Context& context);

/// One text with its second language under it, set into a slab. `role` is the element made for each
/// text under at.tag; Span means none: the text belongs to at.tag itself (a second text then gets
/// an element of its own).
struct TextRequest {
    const content::Words* words = nullptr;
    text::Style style{};
    page::Colour second_colour{};
    page::Tag::Role role = page::Tag::Role::P;
    Placement at{};
};
/// Returns the height used.
double add_words(Kit& kit, Slab& slab, const TextRequest& request);
/// Width on one line, of the wider language.
double natural_width(Kit& kit, const content::Words& words, const text::Style& style);
double least_width(Kit& kit, const content::Words& words, const text::Style& style);
/// The least width at which a text takes no more than so many lines.
double width_in_lines(Kit& kit, const content::Words& words, const text::Style& style,
                      std::size_t lines);

/// What findings call a text: its first words, as whoever reads them sees them on the page.
std::string first_words(const content::Words& words);

/// A number in the reader's digits.
std::string in_digits(const content::Booklet& booklet, std::size_t number);
/// The number of a page as it is set behind words, with a space that keeps them apart in a copy.
std::string page_number_text(const content::Booklet& booklet, std::size_t number);

void add_shape(Slab& slab, page::Shape shape, Placement at);
void add_shapes(Slab& slab, const Shapes& shapes, Placement at);
/// Slabs under one another as one that cannot be broken.
Slab stack(std::vector<Slab> slabs);
/// Moves all of a slab's fragments.
void shift(Slab& slab, double x, double y);
void append(Slab& slab, Slab&& other);
double total_height(const std::vector<Slab>& slabs, double k);

} // namespace tickleaf::layout
