// SPDX-License-Identifier: MIT
#include "generate.h"

#include <algorithm>
#include <cmath>
#include <memory>

#include "support/utf8.h"

namespace tickleaf::tests {

namespace {

using namespace content;

/// Words, or characters where a text has no spaces; isolates are left out, so that cutting cannot
/// part a pair of them.
std::vector<std::string> pieces_of(const std::string& text, bool& spaced) {
    std::vector<std::string> words(1);
    std::vector<std::string> characters;
    for (std::size_t at = 0; at < text.size();) {
        const auto decoded = support::decode_utf8(std::string_view(text).substr(at));
        const std::size_t length = decoded ? decoded->length : 1;
        const std::string one = text.substr(at, length);
        at += length;
        if (decoded && decoded->code_point >= 0x2066 && decoded->code_point <= 0x2069) {
            continue;
        }
        if (one == " ") {
            words.emplace_back();
        } else {
            words.back() += one;
        }
        characters.push_back(one);
    }
    spaced = words.size() > 1 || characters.size() < 12;
    return spaced ? words : characters;
}

std::string stretched(const std::string& text, double factor) {
    bool spaced = false;
    const std::vector<std::string> pieces = pieces_of(text, spaced);
    const auto count = static_cast<std::size_t>(
        std::max(1.0, std::round(static_cast<double>(pieces.size()) * factor)));
    std::string result;
    for (std::size_t i = 0; i < count; ++i) {
        result += (i > 0 && spaced ? " " : "") + pieces[i % pieces.size()];
    }
    return result;
}

class Stretcher {
  public:
    explicit Stretcher(double factor) : factor_(factor) {}

    void operator()(Heading& heading) const { words(heading.words); }
    void operator()(Paragraph& paragraph) const { words(paragraph.words); }
    void operator()(List& list) const { all(list.items); }
    void operator()(Table& table) const {
        for (Row& row : table.rows) {
            for (Cell& cell : row.cells) {
                const bool day = table.role == Table::Role::Log && row.header;
                if (!cell.numeric && !day && table.role != Table::Role::Dose) {
                    words(cell.words);
                }
            }
        }
    }
    void operator()(Figure& figure) const { words(figure.caption); }
    void operator()(Callout& callout) const {
        words(callout.title);
        blocks(callout.blocks);
    }
    void operator()(PainScale& scale) const {
        for (Words* one : {&scale.carry_on_action, &scale.ease_off_action, &scale.stop_action}) {
            words(*one);
        }
    }
    void operator()(StageBar& bar) const {
        for (StageBar::Stage& stage : bar.stages) {
            words(stage.name);
        }
    }
    void operator()(WritingLines& lines) const { words(lines.label); }
    void operator()(TickList& list) const { all(list.items); }
    void operator()(Group& group) const { blocks(group.blocks); }
    void operator()(Columns& columns) const {
        blocks(columns.first);
        blocks(columns.second);
    }
    void operator()(Contents& contents) const {
        for (Contents::Entry& entry : contents.entries) {
            words(entry.words);
        }
    }
    void operator()(PageBreak&) const {}
    void operator()(Divider&) const {}

    void blocks(std::vector<Block>& list) const {
        for (Block& block : list) {
            std::visit(*this, block.value);
        }
    }

  private:
    void words(Words& value) const {
        value.text = stretched(value.text, factor_);
        if (value.second) {
            auto second = std::make_shared<Words>(*value.second);
            second->text = stretched(second->text, factor_);
            value.second = std::move(second);
        }
    }
    void all(std::vector<Words>& list) const {
        for (Words& one : list) {
            words(one);
        }
    }

    double factor_;
};

} // namespace

void stretch(Booklet& booklet, double factor) {
    for (Part& part : booklet.parts) {
        Stretcher(factor).blocks(part.blocks);
    }
}

} // namespace tickleaf::tests
