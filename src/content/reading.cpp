// SPDX-License-Identifier: MIT
#include "content/reading.h"

#include <algorithm>
#include <map>

namespace tickleaf::content {
namespace {

/// Visits every text that is read as a sentence.
class ProseWalker {
  public:
    explicit ProseWalker(ReadingReport& report) : report_(report) {}

    void operator()(const Heading& /*heading*/) {}
    void operator()(const Paragraph& paragraph) { take(paragraph.words); }
    void operator()(const List& list) { take(list.items); }
    void operator()(const Table& /*table*/) {}
    void operator()(const Figure& /*figure*/) {}
    void operator()(const Callout& callout) { walk(callout.blocks); }
    void operator()(const PainScale& scale) {
        for (const Words* action :
             {&scale.carry_on_action, &scale.ease_off_action, &scale.stop_action}) {
            take(*action);
        }
    }
    void operator()(const StageBar& /*bar*/) {}
    void operator()(const WritingLines& /*lines*/) {}
    void operator()(const TickList& list) { take(list.items); }
    void operator()(const Group& group) { walk(group.blocks); }
    void operator()(const Columns& columns) {
        walk(columns.first);
        walk(columns.second);
    }
    void operator()(const Contents& /*headings_again*/) {}
    void operator()(const PageBreak& /*page*/) {}
    void operator()(const Divider& /*divider*/) {}

    void walk(const std::vector<Block>& blocks) {
        for (const Block& block : blocks) {
            std::visit(*this, block.value);
        }
    }

    void finish() {
        for (auto& [word, use] : uses_) {
            report_.hard_words.push_back(std::move(use));
        }
        std::stable_sort(
            report_.hard_words.begin(), report_.hard_words.end(),
            [](const HardWordUse& a, const HardWordUse& b) { return a.times > b.times; });
        report_.scores = locale::reading_scores(report_.language, report_.counts);
    }

  private:
    void take(const std::vector<Words>& items) {
        for (const Words& words : items) {
            take(words);
        }
    }

    void take(const Words& words) {
        if (words.language == report_.language) {
            count(words);
        } else if (words.second && words.second->language == report_.language) {
            count(*words.second);
        }
    }

    void count(const Words& words) {
        const locale::CountedText text = locale::count_reading(report_.language, words.text);
        report_.counts.add(text.counts);
        for (const locale::HardWord& hard : text.hard) {
            HardWordUse& use = uses_[hard.word];
            if (use.times++ == 0) {
                use = {hard.word, hard.syllables, 1, words.key, words.span};
            }
        }
    }

    ReadingReport& report_;
    std::map<std::string, HardWordUse> uses_;
};

} // namespace

std::vector<ReadingReport> reading_reports(const Booklet& booklet) {
    std::vector<ReadingReport> reports;
    for (const std::string& language : {booklet.language, booklet.second_language}) {
        if (language.empty()) {
            continue;
        }
        ReadingReport report;
        report.language = language;
        ProseWalker walker(report);
        for (const Part& part : booklet.parts) {
            if (part.kind != Part::Kind::ClinicianCopy) {
                walker.walk(part.blocks);
            }
        }
        walker.finish();
        reports.push_back(std::move(report));
    }
    return reports;
}

} // namespace tickleaf::content
