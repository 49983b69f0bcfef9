// SPDX-License-Identifier: MIT
// Invented booklets for layout tests: the shape of a real one (stages, exercises, dose, log), any
// size, any seed. People and numbers are reserved for fiction; the sentences are filler and no
// advice.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "content/booklet.h"
#include "page/drawing.h"

namespace tickleaf::test {

using namespace tickleaf::content;

/// A small generator of its own, the same on every machine (splitmix64).
class Dice {
  public:
    explicit Dice(std::uint64_t seed) : state_(seed) {}
    std::uint64_t next() {
        std::uint64_t z = (state_ += 0x9E3779B97F4A7C15ull);
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ull;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBull;
        return z ^ (z >> 31);
    }
    int between(int low, int high) {
        return low + static_cast<int>(next() % static_cast<std::uint64_t>(high - low + 1));
    }
    double share() { return static_cast<double>(next() % 10'000) / 10'000.0; }

  private:
    std::uint64_t state_;
};

struct SampleOptions {
    std::uint64_t seed = 1;
    std::string language = "en";
    std::string second_language;
    bool right_to_left = false;
    int stages = 3;
    int exercises = 8;   ///< in all stages together
    double length = 1.0; ///< of texts, about
    int log_weeks = 2;
};

inline const std::vector<std::string>& sentences(const std::string& language) {
    static const std::vector<std::string> english{
        "Stand behind the chair and rest both hands on its back.",
        "Push the floor away and rise slowly.",
        "Keep the knee straight over the middle toes.",
        "Hold the top for one second, then lower slowly.",
        "You may feel your calf working; this is expected.",
        "Breathe out as you rise.",
        "Sit tall with both feet flat on the floor.",
        "Press the outer edge of the foot against the wall.",
        "The heel stays where it is.",
        "Let the band pull the foot back slowly and under control."};
    static const std::vector<std::string> arabic{"قف خلف الكرسي وضع يديك على ظهره.",
                                                 "ادفع الأرض بعيدا عنك وارتفع ببطء.",
                                                 "حافظ على الركبة فوق منتصف أصابع القدم.",
                                                 "اثبت ثانية واحدة ثم انزل ببطء.",
                                                 "قد تشعر بعمل عضلة الساق، وهذا متوقع.",
                                                 "أخرج الزفير عند الارتفاع.",
                                                 "اجلس مستقيما وقدماك على الأرض.",
                                                 "اضغط الحافة الخارجية للقدم على الحائط.",
                                                 "يبقى الكعب في مكانه.",
                                                 "دع الشريط يسحب القدم ببطء وتحكم."};
    static const std::vector<std::string> spanish{
        "Póngase de pie detrás de la silla y apoye las manos.",
        "Empuje el suelo y suba despacio.",
        "Mantenga la rodilla sobre los dedos centrales del pie.",
        "Aguante un segundo y baje despacio.",
        "Puede notar que trabaja la pantorrilla; es lo esperado.",
        "Suelte el aire al subir.",
        "Siéntese erguido con los pies apoyados.",
        "Presione el borde externo del pie contra la pared.",
        "El talón no se mueve.",
        "Deje que la banda lleve el pie despacio."};
    return language == "ar" ? arabic : language == "es" ? spanish : english;
}

class Sampler {
  public:
    explicit Sampler(SampleOptions options) : options_(std::move(options)), dice_(options_.seed) {}

    Booklet booklet() {
        Booklet result;
        result.language = options_.language;
        result.second_language = options_.second_language;
        result.right_to_left = options_.right_to_left;
        result.title = line("Your ankle programme", "برنامج الكاحل");
        result.author = "T. Adeyemi, physiotherapist";
        result.running_head =
            line("Rosa M. · Sprain of the outer right ankle", "روزا م. · التواء الكاحل الأيمن");
        result.digits = digits();
        result.page_pattern = is_arabic() ? "صفحة {0} من {1}" : "Page {0} of {1}";
        result.date = "2026-03-02";
        result.parts.push_back(cover());
        result.parts.push_back(safety());
        int left = options_.exercises;
        for (int i = 0; i < options_.stages; ++i) {
            const int here =
                i + 1 == options_.stages ? left : std::max(1, options_.exercises / options_.stages);
            result.parts.push_back(stage(i, std::max(1, std::min(here, left))));
            left -= here;
        }
        result.parts.push_back(logbook());
        result.parts.push_back(contact());
        return result;
    }

    Words line(const std::string& english, const std::string& arabic) {
        Words words;
        words.language = options_.language;
        words.text = is_arabic() ? arabic : english;
        words.key = "sample.line";
        words.second = second();
        return words;
    }

    /// One to four sentences, as long as the options ask.
    Words prose(int least = 1, int most = 2) {
        Words words;
        words.language = options_.language;
        words.key = "sample.prose";
        const auto& pool = sentences(options_.language);
        const int count =
            std::max(1, static_cast<int>(dice_.between(least, most) * options_.length + 0.5));
        for (int i = 0; i < count; ++i) {
            words.text += (i == 0 ? "" : " ") + pool[dice_.next() % pool.size()];
        }
        words.second = second();
        return words;
    }

    Group exercise(int number) {
        Group group;
        group.blocks.push_back(
            {Heading{2, line(name(number), "تمرين رفع الكعبين"), digit(number), false}});
        Columns columns;
        columns.first_share = 0.46;
        columns.first.push_back({Figure{drawing(), prose(), {}}});
        columns.second.push_back({steps(dice_.between(2, 5))});
        group.blocks.push_back({dose()});
        group.blocks.push_back({columns});
        if (dice_.share() < 0.5) {
            Callout callout;
            callout.kind = dice_.share() < 0.3   ? Callout::Kind::Warning
                           : dice_.share() < 0.5 ? Callout::Kind::Caution
                                                 : Callout::Kind::Tip;
            callout.title = line("Too much?", "هل هو كثير؟");
            callout.blocks.push_back({Paragraph{Paragraph::Role::Body, prose()}});
            group.blocks.push_back({callout});
        }
        return group;
    }

    Table log(int exercises) {
        Table table;
        table.role = Table::Role::Log;
        table.caption = line("Week 1", "الأسبوع ١");
        table.show_caption = true;
        Row head;
        head.header = true;
        head.cells.push_back(header(line("Exercise", "التمرين")));
        const char* days[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
        for (int d = 0; d < 7; ++d) {
            head.cells.push_back(
                header(line(std::string(days[d]) + " " + std::to_string(d + 2), "سبت")));
        }
        table.rows.push_back(head);
        for (int i = 0; i < exercises; ++i) {
            Row row;
            row.cells.push_back(header(line(name(i + 1), "رفع الكعبين")));
            for (int d = 0; d < 7; ++d) {
                Cell cell;
                cell.tick_boxes = dice_.between(1, 3);
                for (int b = 0; b < cell.tick_boxes; ++b) {
                    cell.tick_labels.push_back(line("Set " + std::to_string(b + 1), "مجموعة"));
                }
                row.cells.push_back(cell);
            }
            table.rows.push_back(row);
        }
        for (const char* what : {"Pain before", "Pain during", "Pain next morning"}) {
            Row row;
            row.cells.push_back(header(line(what, "الألم قبل التمرين")));
            for (int d = 0; d < 7; ++d) {
                Cell cell;
                cell.write_in = true;
                row.cells.push_back(cell);
            }
            table.rows.push_back(row);
        }
        return table;
    }

    PainScale pain() {
        PainScale scale;
        scale.carry_on = line("Carry on", "استمر");
        scale.ease_off = line("Ease off", "خفف");
        scale.stop = line("Stop", "توقف");
        scale.carry_on_action = line("Carry on as planned.", "استمر كما هو مخطط.");
        scale.ease_off_action = line("Do half as many and go slower.", "قم بالنصف وببطء أكثر.");
        scale.stop_action = line("Stop the exercise today and call your clinic.",
                                 "أوقف التمرين اليوم واتصل بالعيادة.");
        for (int i = 0; i <= 10; ++i) {
            scale.numbers.push_back(digit(i));
        }
        scale.alternative = line("Pain line from 0 to 10.", "خط الألم من ٠ إلى ١٠.");
        return scale;
    }

    Table dose() {
        Table table;
        table.role = Table::Role::Dose;
        table.caption = line("Dose", "الجرعة");
        Row head;
        head.header = true;
        Row values;
        const std::pair<Words, Words> cells[] = {
            {line("Sets", "مجموعات"), line("3", "٣")},
            {line("Repetitions", "تكرارات"), line("8 to 12", "٨ إلى ١٢")},
            {line("Rest between sets", "راحة"), line("60 to 90 seconds", "٦٠ إلى ٩٠ ثانية")},
            {line("Times a day", "مرات في اليوم"), line("2", "٢")}};
        for (const auto& [label, value] : cells) {
            head.cells.push_back(header(label));
            Cell cell;
            cell.words = value;
            cell.strong = true;
            values.cells.push_back(cell);
        }
        table.rows = {head, values};
        return table;
    }

    static Figure figure_of(Sampler& sampler) { return Figure{drawing(), sampler.prose(), {}}; }

    List steps(int count) {
        List list;
        list.numbered = true;
        for (int i = 0; i < count; ++i) {
            list.numbers.push_back(digit(i + 1));
            list.items.push_back(prose(1, 2));
        }
        return list;
    }

  private:
    bool is_arabic() const { return options_.language == "ar"; }

    std::shared_ptr<const Words> second() {
        if (options_.second_language.empty()) {
            return nullptr;
        }
        auto words = std::make_shared<Words>();
        words->language = options_.second_language;
        const auto& pool = sentences(options_.second_language);
        words->text = pool[dice_.next() % pool.size()];
        return words;
    }

    std::vector<std::string> digits() const {
        if (is_arabic()) {
            return {"٠", "١", "٢", "٣", "٤", "٥", "٦", "٧", "٨", "٩"};
        }
        return {"0", "1", "2", "3", "4", "5", "6", "7", "8", "9"};
    }

    std::string digit(int number) const {
        std::string result;
        for (const char c : std::to_string(number)) {
            result += digits()[static_cast<std::size_t>(c - '0')];
        }
        return result;
    }

    static std::string name(int number) {
        const char* names[] = {"Heel raise on two legs",
                               "Press outwards",
                               "Balance on one leg",
                               "Step up",
                               "Towel curl",
                               "Band pull",
                               "Wall sit",
                               "Side step"};
        return names[static_cast<std::size_t>(number) % 8];
    }

    static Cell header(Words words) {
        Cell cell;
        cell.words = std::move(words);
        cell.header = true;
        return cell;
    }

    /// Two panels with a stick person each: enough to judge size and place.
    static std::shared_ptr<const page::Drawing> drawing() {
        auto result = std::make_shared<page::Drawing>();
        result->width = 300;
        result->height = 170;
        page::Stroke limb;
        limb.width = 6;
        limb.colour = {28, 33, 38};
        for (int panel = 0; panel < 2; ++panel) {
            const double x = 75 + 150 * panel;
            page::Shape head;
            head.path = page::circle({x, 30}, 11);
            head.fill = limb.colour;
            result->shapes.push_back(head);
            for (const auto& [from, to] : std::vector<std::pair<page::Point, page::Point>>{
                     {{x, 45}, {x, 95}}, {{x, 95}, {x - 8, 150}}, {{x, 55}, {x + 35, 75}}}) {
                page::Shape part;
                part.path = page::line(from, to);
                part.stroke = limb;
                result->shapes.push_back(part);
            }
            page::Label label;
            label.at = {x - 55, 24};
            label.text = std::to_string(panel + 1);
            label.height = 12;
            result->labels.push_back(label);
        }
        page::Shape floor;
        floor.path = page::line({4, 158}, {296, 158});
        floor.stroke = limb;
        floor.stroke->width = 1.5;
        result->shapes.push_back(floor);
        return result;
    }

    Part cover() {
        Part part;
        part.kind = Part::Kind::Cover;
        part.title = line("Your ankle programme", "برنامج الكاحل");
        part.blocks.push_back({Heading{1, part.title, "", false}});
        part.blocks.push_back(
            {Paragraph{Paragraph::Role::Lead, line("Sprain of the outer right ankle",
                                                   "التواء الجزء الخارجي من الكاحل الأيمن")}});
        Table facts;
        facts.caption = line("About this plan", "عن هذه الخطة");
        for (const auto& [label, value] : std::vector<std::pair<Words, Words>>{
                 {line("For", "لـ"), line("Rosa M.", "روزا م.")},
                 {line("Prescribed by", "وصفها"),
                  line("T. Adeyemi, physiotherapist, Riverside Community Clinic", "ت. أديمي")},
                 {line("Starts", "تبدأ"), line("Monday 2 March 2026", "الاثنين ٢ مارس ٢٠٢٦")}}) {
            Row row;
            Cell cell;
            cell.words = value;
            row.cells = {header(label), cell};
            facts.rows.push_back(row);
        }
        part.blocks.push_back({facts});
        part.blocks.push_back({Heading{2, line("Your stages", "مراحلك"), "", false}});
        StageBar bar;
        for (int i = 0; i < options_.stages; ++i) {
            bar.stages.push_back({line("Settle the ankle", "تهدئة الكاحل"), digit(i + 1),
                                  line("weeks 1 to 2", "الأسبوع ١ إلى ٢"), i * 2.0, 2.0});
        }
        part.blocks.push_back({bar});
        part.blocks.push_back(
            {Heading{2, line("How to use this booklet", "كيف تستخدم هذا الكتيب"), "", false}});
        part.blocks.push_back({steps(3)});
        return part;
    }

    Part safety() {
        Part part;
        part.kind = Part::Kind::Safety;
        part.title = line("Pain and safety", "الألم والسلامة");
        part.blocks.push_back({Heading{1, part.title, "", true}});
        part.blocks.push_back({Paragraph{Paragraph::Role::Body, prose(2, 3)}});
        part.blocks.push_back({pain()});
        Callout callout;
        callout.kind = Callout::Kind::Warning;
        callout.title = line("Stop and call 112", "توقف واتصل بالرقم ١١٢");
        List signs;
        for (int i = 0; i < 5; ++i) {
            signs.items.push_back(prose(1, 1));
        }
        callout.blocks.push_back({signs});
        part.blocks.push_back({callout});
        Callout notice;
        notice.kind = Callout::Kind::Notice;
        notice.title = line("Made for you", "أعدت لك");
        notice.blocks.push_back({Paragraph{Paragraph::Role::Body, prose(1, 2)}});
        part.blocks.push_back({notice});
        return part;
    }

    Part stage(int index, int exercises) {
        Part part;
        part.kind = Part::Kind::Stage;
        part.stage = static_cast<std::size_t>(index);
        part.title = line("Settle the ankle", "تهدئة الكاحل");
        part.blocks.push_back({Heading{1, part.title, digit(index + 1), true}});
        part.blocks.push_back({Paragraph{Paragraph::Role::Body, prose(1, 3)}});
        part.blocks.push_back({Heading{3, line("Move on when", "انتقل عندما"), "", false}});
        TickList ticks;
        ticks.items = {prose(1, 1), prose(1, 1)};
        part.blocks.push_back({ticks});
        for (int i = 0; i < exercises; ++i) {
            part.blocks.push_back({exercise(i + 1)});
        }
        return part;
    }

    Part logbook() {
        Part part;
        part.kind = Part::Kind::Logbook;
        part.title = line("Logbook", "السجل");
        part.blocks.push_back({Heading{1, part.title, "", true}});
        part.blocks.push_back({Paragraph{Paragraph::Role::Body, prose(1, 2)}});
        for (int week = 0; week < options_.log_weeks; ++week) {
            part.blocks.push_back({log(std::max(1, options_.exercises / options_.stages))});
            part.blocks.push_back({WritingLines{line("Notes", "ملاحظات"), 2}});
        }
        return part;
    }

    Part contact() {
        Part part;
        part.kind = Part::Kind::Contact;
        part.title = line("Whom to call", "بمن تتصل");
        part.blocks.push_back({Heading{1, part.title, "", true}});
        part.blocks.push_back(
            {Paragraph{Paragraph::Role::Lead, line("Riverside Community Clinic", "عيادة")}});
        part.blocks.push_back(
            {Paragraph{Paragraph::Role::Strong, line("+44 1632 960123", "+44 1632 960123")}});
        part.blocks.push_back({Divider{}});
        part.blocks.push_back({Paragraph{Paragraph::Role::Small, prose(1, 2)}});
        return part;
    }

    SampleOptions options_;
    Dice dice_;
};

} // namespace tickleaf::test
