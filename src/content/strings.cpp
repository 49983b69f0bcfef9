// SPDX-License-Identifier: MIT
#include "content/booklet.h"

namespace tickleaf::content {
namespace {

/// Collects what is printed, in reading order.
class Collector {
  public:
    std::vector<std::string> take() { return std::move(strings_); }

    void operator()(const Heading& heading) {
        text(heading.badge);
        words(heading.words);
    }
    void operator()(const Paragraph& paragraph) { words(paragraph.words); }
    void operator()(const List& list) {
        for (std::size_t i = 0; i < list.items.size(); ++i) {
            if (list.numbered && i < list.numbers.size()) {
                text(list.numbers[i]);
            }
            words(list.items[i]);
        }
    }
    void operator()(const Table& table) {
        if (table.show_caption) {
            words(table.caption);
        }
        for (const Row& row : table.rows) {
            for (const Cell& cell : row.cells) {
                words(cell.words);
            }
        }
    }
    void operator()(const Figure& figure) { words(figure.caption); }
    void operator()(const Callout& callout) {
        words(callout.title);
        blocks(callout.blocks);
    }
    void operator()(const PainScale& scale) {
        for (const std::string& number : scale.numbers) {
            text(number);
        }
        for (const Words* zone : {&scale.carry_on, &scale.carry_on_action, &scale.ease_off,
                                  &scale.ease_off_action, &scale.stop, &scale.stop_action}) {
            words(*zone);
        }
    }
    void operator()(const StageBar& bar) {
        for (const StageBar::Stage& stage : bar.stages) {
            text(stage.badge);
            words(stage.name);
            words(stage.when);
        }
    }
    void operator()(const WritingLines& lines) { words(lines.label); }
    void operator()(const TickList& list) {
        for (const Words& item : list.items) {
            words(item);
        }
    }
    void operator()(const Group& group) { blocks(group.blocks); }
    void operator()(const Columns& columns) {
        blocks(columns.first);
        blocks(columns.second);
    }
    void operator()(const Contents& contents) {
        for (const Contents::Entry& entry : contents.entries) {
            text(entry.badge);
            words(entry.words);
        }
    }
    void operator()(const PageBreak&) {}
    void operator()(const Divider&) {}

    void blocks(const std::vector<Block>& list) {
        for (const Block& block : list) {
            std::visit(*this, block.value);
        }
    }

  private:
    void text(const std::string& value) {
        if (!value.empty()) {
            strings_.push_back(value);
        }
    }
    void words(const Words& value) {
        text(value.text);
        if (value.second) {
            text(value.second->text);
        }
    }

    std::vector<std::string> strings_;
};

} // namespace

std::vector<std::string> all_strings(const Booklet& booklet) {
    Collector collector;
    for (const Part& part : booklet.parts) {
        collector.blocks(part.blocks);
    }
    return collector.take();
}

} // namespace tickleaf::content
