// SPDX-License-Identifier: MIT
// The booklet as a tree of semantic blocks in one language (or two): what is said, in which order,
// what belongs together. No fonts, no millimetres, no pages. Shapes: Block is a closed variant;
// layout/ visits it without a default branch.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "page/drawing.h"
#include "support/source.h"

namespace tickleaf::content {

/// A text and its language. `second` is the same in the second language of a two-language booklet.
struct Words {
    std::string text;
    std::string language;
    std::string key;      ///< catalog key or "" for free text, for findings
    support::Span span{}; ///< where free text was written
    std::shared_ptr<const Words> second;
    bool empty() const { return text.empty(); }
};

struct Block;

struct Heading {
    int level = 1; ///< 1 booklet or stage, 2 exercise or section, 3 part of an exercise
    Words words;
    std::string badge; ///< stage or exercise number in the reader's digits; may be empty
    bool starts_page = false;
    std::size_t anchor = 0; ///< what the contents call it; 0 where they do not
};

struct Paragraph {
    enum class Role { Body, Lead, Small, Strong };
    Role role = Role::Body;
    Words words;
};

/// Numbered or bulleted; never more than 7 items without a break (CDC Clear Communication Index,
/// item 8).
struct List {
    bool numbered = false;
    std::vector<std::string> numbers; ///< in the reader's digits, where numbered
    std::vector<Words> items;
};

struct Cell {
    Words words;
    bool header = false;
    bool numeric = false;
    bool strong = false;
    int column_span = 1;
    int tick_boxes = 0; ///< boxes to tick instead of words
    int ticked = 0;     ///< the first so many boxes are shown ticked (the filled-in example only)
    std::vector<Words> tick_labels; ///< what each box is for, read by screen readers; one a box
    bool write_in = false;          ///< left empty for a pen
};
struct Row {
    std::vector<Cell> cells;
    bool header = false;
};
/// Rows in order. Header rows come first and are repeated on every page. The first column holds row
/// headers where its cells say so.
struct Table {
    /// Sheet: the clinician's dense tables.
    enum class Role { Facts, Dose, Log, Plan, Sheet };
    Role role = Role::Facts;
    Words caption; ///< read by screen readers, printed where not empty and `show_caption`
    bool show_caption = false;
    std::vector<Row> rows;
    std::vector<double> column_shares; ///< wished shares of the width; from content where empty
};

/// A drawing with its text alternative.
struct Figure {
    std::shared_ptr<const page::Drawing> drawing;
    Words alternative; ///< position, movement, side: what a blind patient hears
    Words caption;     ///< printed under it; may be empty
};

/// Framed by shape and word, not by colour alone.
struct Callout {
    enum class Kind { Warning, Caution, Notice, Tip };
    Kind kind = Kind::Notice;
    Words title;
    std::vector<Block> blocks;
};

/// The pain line 0 to 10 with its three zones, each with sign, word and action.
struct PainScale {
    int carry_on_up_to = 2;
    int ease_off_up_to = 5;
    Words carry_on, ease_off, stop; ///< zone words
    Words carry_on_action, ease_off_action, stop_action;
    std::vector<std::string> numbers; ///< 0 to 10 in the reader's digits
    Words alternative;
};

/// Stages on a time line in weeks.
struct StageBar {
    struct Stage {
        Words name;
        std::string badge;
        Words when;             ///< "weeks 1 to 2", with dates where known
        double from_week = 0.0; ///< 0-based start
        double weeks = 1.0;
    };
    std::vector<Stage> stages;
};

/// Lines for a pen, with a label.
struct WritingLines {
    Words label;
    int lines = 1; ///< 0 for as many as fill the page; in a logbook none where a week follows on it
};

/// Boxes to tick, each with a sentence.
struct TickList {
    std::vector<Words> items;
};

/// Blocks that stay on one page together. An exercise is a Group.
struct Group {
    std::vector<Block> blocks;
};

/// Side by side: the first (at the reading start) and the second column.
struct Columns {
    double first_share = 0.5; ///< of the width; 0 lets both columns end together
    std::vector<Block> first;
    std::vector<Block> second;
};

/// What stands where, by the headings' anchors; layout/ knows the pages.
struct Contents {
    struct Entry {
        int level = 1; ///< 1 part or stage, 2 exercise
        std::string badge;
        Words words;
        std::string link; ///< said of the way there, with kPageHole for the page's number
        std::size_t anchor = 0;
    };
    std::vector<Entry> entries;
};
/// Stands for a page's number in a text until pages are known.
inline constexpr const char* kPageHole = "{0}";

struct PageBreak {};
/// Thin rule or space between parts.
struct Divider {};

struct Block {
    std::variant<Heading, Paragraph, List, Table, Figure, Callout, PainScale, StageBar,
                 WritingLines, TickList, Group, Columns, Contents, PageBreak, Divider>
        value;
};

/// A part of the booklet, so that a page template can choose parts and their order.
struct Part {
    enum class Kind {
        Cover,
        Contents,
        Safety,
        Stage,
        Logbook,
        Contact,
        ClinicianCopy,
        Notes,    ///< a page of lines to write on
        SpareLog, ///< a week of the logbook without dates
        Sheet,    ///< one stage on one page, with all that keeps the patient safe
        Refill    ///< more weeks of the logbook, with what keeps the patient safe in short
    };
    Kind kind = Kind::Cover;
    Words title; ///< for outline and section
    std::vector<Block> blocks;
    std::size_t stage = 0; ///< of a Stage or Sheet part
};

struct Booklet {
    std::string language;
    std::string second_language; ///< empty where there is one language
    bool right_to_left = false;
    Words title;        ///< document title
    std::string author; ///< the clinician
    std::string subject;
    Words running_head;              ///< patient and plan, on every page but the first
    std::vector<std::string> digits; ///< the ten digits of the reader, for page numbers
    std::string page_pattern;        ///< "Page {0} of {1}" with both holes
    std::optional<std::string> date; ///< start date as YYYY-MM-DD
    std::vector<Part> parts;
};

/// Every string that must be found in the finished file, in reading order: what is printed, not the
/// text alternatives. Running head and page numbers are the page template's and not in it.
std::vector<std::string> all_strings(const Booklet& booklet);
/// The booklet as JSON (for `tickleaf inspect --stage booklet`).
std::string dump(const Booklet& booklet);

} // namespace tickleaf::content
