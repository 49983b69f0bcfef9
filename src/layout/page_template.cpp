// SPDX-License-Identifier: MIT
#include "layout/page_template.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "support/number.h"
#include "yaml/reader.h"

namespace tickleaf::layout {

namespace {

using support::Findings;
using support::Length;
using Kind = content::Part::Kind;

struct PartName {
    const char* word;
    Kind kind;
    bool required; ///< unless a part that is safe by itself is printed
    bool safe;     ///< carries pain rule, signs, emergency number and contact by itself
};
// What keeps the patient safe cannot be left out by a template: the stop signs, whom to call, the
// stages.
constexpr std::array<PartName, 11> kParts{{{"cover", Kind::Cover, false, false},
                                           {"contents", Kind::Contents, false, false},
                                           {"safety", Kind::Safety, true, false},
                                           {"stage", Kind::Stage, true, false},
                                           {"logbook", Kind::Logbook, false, false},
                                           {"contact", Kind::Contact, true, false},
                                           {"clinician-copy", Kind::ClinicianCopy, false, false},
                                           {"notes", Kind::Notes, false, false},
                                           {"spare-log", Kind::SpareLog, false, false},
                                           {"sheet", Kind::Sheet, false, true},
                                           {"refill", Kind::Refill, false, true}}};

// WCAG 2.x 1.4.6 (text, level AAA) and 1.4.11 (parts of graphics).
constexpr double kTextContrast = 7.0;
constexpr double kGraphicsContrast = 3.0;
constexpr page::Colour kWhite{255, 255, 255};

struct Bounds {
    double low;
    double high;
};

/// A map of the template with typed access to lengths and colours.
class Section {
  public:
    Section(const yaml::Node& node, std::string what, Findings& findings)
        : reader_(node, what, findings), what_(std::move(what)), findings_(&findings) {}
    yaml::MapReader& reader() { return reader_; }

    std::optional<Length> length(std::string_view key, Bounds points) {
        const auto text = reader_.required_text(key);
        if (!text) {
            return std::nullopt;
        }
        return checked_length(text->value, text->span, key, points);
    }
    std::optional<double> points(std::string_view key, Bounds bounds) {
        const auto found = length(key, bounds);
        return found ? std::optional<double>(found->pt()) : std::nullopt;
    }
    std::optional<page::Colour> colour(std::string_view key) {
        const auto text = reader_.required_text(key);
        if (!text) {
            return std::nullopt;
        }
        const auto parsed = parse_colour(text->value);
        if (!parsed) {
            findings_->error(text->span, "template-colour",
                             std::string(key) + " is \"" + text->value +
                                 "\"; a colour is # and six hexadecimal digits",
                             "write it in quotes, such as \"#1C2126\"");
        }
        return parsed;
    }
    std::optional<Length> checked_length(const std::string& text, const support::Span& span,
                                         std::string_view key, Bounds bounds) {
        const auto parsed = parse_length(text);
        if (!parsed) {
            findings_->error(span, "template-length",
                             std::string(key) + " of " + what_ + " is \"" + text +
                                 "\"; a length is a number with mm or pt",
                             "write for example 20 mm or 12 pt");
            return std::nullopt;
        }
        if (parsed->pt() < bounds.low - 1e-6 || parsed->pt() > bounds.high + 1e-6) {
            findings_->error(span, "template-range",
                             std::string(key) + " of " + what_ + " is " + text + "; expected " +
                                 support::fixed(bounds.low, 1) + " to " +
                                 support::fixed(bounds.high, 1) + " pt",
                             "1 mm is 2.83 pt");
            return std::nullopt;
        }
        return parsed;
    }

  private:
    static std::optional<Length> parse_length(std::string_view text) {
        if (text.size() < 3) {
            return std::nullopt;
        }
        const std::string_view unit = text.substr(text.size() - 2);
        std::string_view number = text.substr(0, text.size() - 2);
        while (!number.empty() && number.back() == ' ') {
            number.remove_suffix(1);
        }
        const auto value = support::parse_decimal(number);
        if (!value || (unit != "mm" && unit != "pt")) {
            return std::nullopt;
        }
        return unit == "mm" ? Length::from_mm(*value) : Length::from_pt(*value);
    }
    static std::optional<page::Colour> parse_colour(std::string_view text) {
        unsigned value = 0;
        if (text.size() != 7 || text[0] != '#') {
            return std::nullopt;
        }
        const auto [end, error] =
            std::from_chars(text.data() + 1, text.data() + text.size(), value, 16);
        if (error != std::errc{} || end != text.data() + text.size()) {
            return std::nullopt;
        }
        const auto channel = [value](unsigned shift) {
            return static_cast<std::uint8_t>((value >> shift) & 0xFFu);
        };
        return page::Colour{channel(16), channel(8), channel(0)};
    }

    yaml::MapReader reader_;
    std::string what_;
    Findings* findings_;
};

constexpr double mm(double value) {
    return Length::from_mm(value).pt();
}

template <class T>
void put(T& target, const std::optional<T>& value) {
    if (value) {
        target = *value;
    }
}

void read_margins(const yaml::Node& node, PageTemplate& result, Findings& findings) {
    Section section(node, "the margins", findings);
    // 10 mm: home printers cannot print nearer to the edge (common practice).
    const Bounds bounds{mm(10), mm(80)};
    put(result.margin_top, section.length("top", bounds));
    put(result.margin_bottom, section.length("bottom", bounds));
    put(result.margin_inner, section.length("inner", bounds));
    put(result.margin_outer, section.length("outer", bounds));
    section.reader().finish();
}

void read_headings(Section& section, PageTemplate& result) {
    const auto texts = section.reader().optional_texts("headings");
    for (std::size_t i = 0; i < texts.size() && i < 3; ++i) {
        const auto size =
            section.checked_length(texts[i].value, texts[i].span, "headings", {10, 60});
        result.heading_sizes[i] = size ? size->pt() : result.heading_sizes[i];
    }
}

/// A template that prints the clinician's copy and nothing for the patient.
bool is_for_clinician(const PageTemplate& page_template) {
    return page_template.parts == std::vector<Kind>{Kind::ClinicianCopy};
}

void read_type(const yaml::Node& node, PageTemplate& result, Findings& findings) {
    Section section(node, "the type", findings);
    // Clear print starts at 12 pt (UKAAF G003, 2019, section 3.1). A clinician's tables are read at
    // a desk: 8 pt, the size of a reference work (common practice).
    const bool at_desk = is_for_clinician(result);
    put(result.body_size, section.points("body", {at_desk ? 8.0 : 12.0, 40}));
    put(result.small_size, section.points("small", {at_desk ? 7.0 : 9.0, 40}));
    put(result.lead_size, section.points("lead", {at_desk ? 8.0 : 12.0, 48}));
    put(result.dose_size, section.points("dose", {14, 60}));
    read_headings(section, result);
    if (const auto spacing = section.reader().required_number("line_spacing")) {
        if (spacing->value < 1.2 || spacing->value > 2.5) {
            findings.error(spacing->span, "template-range",
                           "line_spacing is " + support::fixed(spacing->value, 2) +
                               "; expected 1.2 to 2.5",
                           "1.35 suits most languages");
        } else {
            result.line_spacing = spacing->value;
        }
    }
    section.reader().finish();
}

struct Pair {
    const char* name;
    page::Colour one;
    page::Colour other;
    double least;
};

void check_contrast(const PageTemplate& result, const support::Span& span, Findings& findings) {
    const std::array<Pair, 6> pairs{{{"text on white", result.text, kWhite, kTextContrast},
                                     {"text on tint", result.text, result.tint, kTextContrast},
                                     {"muted on white", result.muted, kWhite, kTextContrast},
                                     {"white on accent", kWhite, result.accent, kTextContrast},
                                     {"muted on tint", result.muted, result.tint, kTextContrast},
                                     {"rule on white", result.rule, kWhite, kGraphicsContrast}}};
    for (const Pair& pair : pairs) {
        const double ratio = contrast(pair.one, pair.other);
        if (ratio < pair.least) {
            findings.error(span, "template-contrast",
                           std::string(pair.name) + " has a contrast of " +
                               support::fixed(ratio, 2) + ":1; at least " +
                               support::fixed(pair.least, 1) + ":1 is needed",
                           "make one of the two colours darker or lighter");
        }
    }
}

void read_colours(const yaml::Node& node, PageTemplate& result, Findings& findings) {
    Section section(node, "the colours", findings);
    put(result.text, section.colour("text"));
    put(result.muted, section.colour("muted"));
    put(result.rule, section.colour("rule"));
    put(result.tint, section.colour("tint"));
    put(result.accent, section.colour("accent"));
    section.reader().finish();
    check_contrast(result, node.span, findings);
}

void read_parts(Section& section, const support::Span& span, PageTemplate& result,
                Findings& findings) {
    std::vector<std::string> known;
    std::transform(kParts.begin(), kParts.end(), std::back_inserter(known),
                   [](const PartName& part) { return part.word; });
    for (const auto& text : section.reader().optional_texts("parts")) {
        const auto found = std::find(known.begin(), known.end(), text.value);
        if (found == known.end()) {
            const std::string near = support::closest(text.value, known);
            findings.error(text.span, "template-part",
                           "\"" + text.value + "\" is not a part of a booklet",
                           near.empty() ? "" : "did you mean \"" + near + "\"?");
            continue;
        }
        const Kind kind = kParts.at(static_cast<std::size_t>(found - known.begin())).kind;
        if (std::find(result.parts.begin(), result.parts.end(), kind) != result.parts.end()) {
            findings.error(text.span, "template-part", "part \"" + text.value + "\" stands twice");
            continue;
        }
        result.parts.push_back(kind);
    }
    const auto printed = [&](const PartName& part) {
        return std::find(result.parts.begin(), result.parts.end(), part.kind) != result.parts.end();
    };
    const bool safe = std::any_of(kParts.begin(), kParts.end(),
                                  [&](const PartName& part) { return part.safe && printed(part); });
    for (const PartName& part : kParts) {
        if (part.required && !safe && !is_for_clinician(result) && !printed(part)) {
            findings.error(span, "template-part",
                           std::string("part \"") + part.word +
                               "\" is missing; no template may leave it out",
                           std::string("add ") + part.word + " to parts");
        }
    }
}

// Narrower or lower than this nothing of a booklet can be set at 12 pt (common practice).
constexpr double kLeastWidth = 90.0;
constexpr double kLeastHeight = 120.0;

bool check_space(const PageTemplate& result, const support::Span& span, Findings& findings) {
    const double width =
        result.paper.width.mm() - result.margin_inner.mm() - result.margin_outer.mm();
    const double height =
        result.paper.height.mm() - result.margin_top.mm() - result.margin_bottom.mm();
    if (width >= kLeastWidth && height >= kLeastHeight) {
        return true;
    }
    const std::string paper = "paper \"" + result.paper.name + "\"";
    findings.error(span, "template-space",
                   width <= 0.0 || height <= 0.0
                       ? "the margins are larger than " + paper
                       : "the margins leave " + support::fixed(width, 1) + " x " +
                             support::fixed(height, 1) + " mm of " + paper +
                             "; at least 90 x 120 mm is needed",
                   "make the margins smaller or the paper larger");
    return false;
}

/// Half a sheet, as it comes out of one fold across its longer side. Source: ISO 216:2007 rounds
/// half of A4 down to 148 mm; half a Letter sheet is 5.5 x 8.5 in.
Paper half_of(const Paper& sheet) {
    return sheet.name == "a4"
               ? *paper("a5")
               : Paper{"half-" + sheet.name, Length::from_mm(sheet.height.mm() / 2.0), sheet.width};
}

void read_fold(Section& section, PageTemplate& result, Findings& findings) {
    const auto name = section.reader().optional_text("fold_on");
    if (!name) {
        return;
    }
    const auto sheet = paper(name->value);
    if (!sheet || sheet->name == "a5") {
        findings.error(name->span, "template-fold",
                       "fold_on is \"" + name->value + "\"; pages are folded on a4 or letter",
                       "write a4 or letter, and leave paper out or give its half");
        return;
    }
    result.fold_on = sheet;
    result.paper = half_of(*sheet);
}

void read_paper(Section& section, PageTemplate& result, Findings& findings) {
    const auto name = section.reader().required_text("paper");
    if (!name) {
        return;
    }
    if (const auto found = paper(name->value)) {
        result.paper = *found;
    } else {
        findings.error(name->span, "template-paper", "paper \"" + name->value + "\" is not known",
                       "write a4, letter or a5");
    }
}

/// A name beside the template: nothing that leads to another folder.
bool is_picture_beside(std::string_view file) {
    return file.find_first_of("/\\") == std::string_view::npos &&
           (file.ends_with(".png") || file.ends_with(".svg") || file.ends_with(".PNG") ||
            file.ends_with(".SVG"));
}

void read_place(yaml::MapReader& reader, Logo& logo, Findings& findings) {
    const auto place = reader.optional_text("place");
    if (!place || place->value == "start") {
        return;
    }
    if (place->value == "centre") {
        logo.place = Logo::Place::Centre;
    } else if (place->value == "end") {
        logo.place = Logo::Place::End;
    } else {
        findings.error(place->span, "template-logo",
                       "the place of the logo is \"" + place->value + "\"",
                       "write start, centre or end");
    }
}

/// A side of the logo's box; as it is where left out.
void read_side(Section& section, std::string_view key, Bounds bounds, Length& side) {
    if (const auto text = section.reader().optional_text(key)) {
        put(side, section.checked_length(text->value, text->span, key, bounds));
    }
}

void read_logo(const yaml::Node& node, PageTemplate& result, Findings& findings) {
    Section section(node, "the logo", findings);
    Logo logo;
    if (const auto file = section.reader().required_text("file")) {
        logo.file = file->value;
        logo.span = file->span;
        if (!is_picture_beside(file->value)) {
            findings.error(file->span, "template-logo",
                           "the logo is \"" + file->value +
                               "\"; it is a PNG or SVG file in the folder of the template",
                           "put the file beside the template and write its name alone");
        }
    }
    if (const auto name = section.reader().optional_text("name")) {
        logo.name = name->value;
    }
    // Smaller cannot be read, larger leaves too little of the page it stands on.
    read_side(section, "width", {mm(10), mm(120)}, logo.width);
    read_side(section, "height", {mm(5), mm(40)}, logo.height);
    read_place(section.reader(), logo, findings);
    section.reader().finish();
    result.logo = std::move(logo);
}

void read_format(Section& section, Findings& findings) {
    const auto format = section.reader().required_integer("format");
    if (format && format->value != 1) {
        findings.error(format->span, "template-format",
                       "format is " + std::to_string(format->value) + "; expected 1");
    }
}

} // namespace

std::optional<Paper> paper(std::string_view name) {
    struct Size {
        std::string_view name;
        double width;
        double height;
    };
    // ISO 216:2007 trimmed sizes; Letter is 8.5 x 11 in.
    static constexpr std::array<Size, 3> kSizes{
        {{"a4", 210, 297}, {"letter", 215.9, 279.4}, {"a5", 148, 210}}};
    for (const Size& size : kSizes) {
        if (size.name == name) {
            return Paper{std::string(name), Length::from_mm(size.width),
                         Length::from_mm(size.height)};
        }
    }
    return std::nullopt;
}

bool set_paper(PageTemplate& page_template, std::string_view name, Findings& findings) {
    const auto wished = paper(name);
    if (!wished) {
        findings.error({}, "unknown-paper", "there is no paper \"" + std::string(name) + "\"",
                       "choose a4, letter or a5");
        return false;
    }
    if (page_template.fold_on) {
        page_template.fold_on = wished->name == "letter" ? wished : paper("a4");
        page_template.paper = half_of(*page_template.fold_on);
    } else {
        page_template.paper = *wished;
    }
    return check_space(page_template, {}, findings);
}

double contrast(page::Colour one, page::Colour other) {
    const auto linear = [](std::uint8_t channel) {
        const double c = channel / 255.0;
        return c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
    };
    const auto luminance = [&](page::Colour c) {
        return 0.2126 * linear(c.red) + 0.7152 * linear(c.green) + 0.0722 * linear(c.blue);
    };
    const double a = luminance(one);
    const double b = luminance(other);
    return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05);
}

std::optional<PageTemplate> read_template(const yaml::Node& root, std::string_view name,
                                          Findings& findings) {
    const std::size_t before = findings.size();
    PageTemplate result;
    result.name = name;
    result.paper = *paper("a4");
    Section section(root, "the page template", findings);
    read_format(section, findings);
    read_paper(section, result, findings);
    read_parts(section, root.span, result, findings);
    if (const yaml::Node* margins = section.reader().required_node("margins")) {
        read_margins(*margins, result, findings);
    }
    if (const yaml::Node* type = section.reader().required_node("type")) {
        read_type(*type, result, findings);
    }
    if (const yaml::Node* colours = section.reader().required_node("colours")) {
        read_colours(*colours, result, findings);
    }
    put(result.figure_height, section.length("figure_height", {mm(25), mm(180)}));
    put(result.tick_box, section.length("tick_box", {mm(5), mm(15)}));
    put(result.writing_row, section.length("writing_row", {mm(8.5), mm(25)}));
    read_fold(section, result, findings);
    if (const yaml::Node* logo = section.reader().optional_node("logo")) {
        read_logo(*logo, result, findings);
    }
    section.reader().finish();
    const yaml::Node* margins = section.reader().optional_node("margins");
    check_space(result, margins != nullptr ? margins->span : root.span, findings);
    const auto& all = findings.all();
    const bool usable = std::none_of(
        all.begin() + static_cast<std::ptrdiff_t>(before), all.end(),
        [](const support::Finding& f) { return f.severity == support::Severity::Error; });
    return usable ? std::optional<PageTemplate>(std::move(result)) : std::nullopt;
}

} // namespace tickleaf::layout
