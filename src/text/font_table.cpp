// SPDX-License-Identifier: MIT
#include "text/font_table.h"

#include <string_view>

#include "yaml/reader.h"

namespace tickleaf::text {

namespace {

constexpr std::int64_t kFormat = 1;
constexpr std::int64_t kMostFaces = 64;
constexpr std::int64_t kMostAdvance = 10000;
/// Wider lines close the inner spaces of letters.
constexpr double kMostStroke = 0.1;
constexpr double kLeastLineHeight = 0.8;
constexpr double kMostLineHeight = 4.0;

class TableReader {
  public:
    explicit TableReader(support::Findings& findings) : findings_(findings) {}
    std::optional<FontTable> read(const yaml::Node& root);

  private:
    void read_package(const yaml::Entry& entry);
    void read_family(const yaml::Entry& entry, const std::string& package,
                     const std::string& folder);
    std::vector<GlyphAdvance> read_advances(const yaml::Node& node);
    void read_choices(const yaml::Node* node,
                      std::map<std::string, std::size_t, std::less<>>& choices);
    std::optional<std::size_t> family(const support::Located<std::string>& name);

    support::Findings& findings_;
    FontTable table_;
};

void TableReader::read_family(const yaml::Entry& entry, const std::string& package,
                              const std::string& folder) {
    yaml::MapReader map(entry.value, "the font family", findings_);
    Family family;
    family.name = entry.key.value;
    family.package = package;
    if (const auto file = map.required_text("regular")) {
        family.regular = folder + "/" + file->value;
    }
    if (const auto file = map.optional_text("bold")) {
        family.bold = folder + "/" + file->value;
    }
    if (const auto width = map.optional_number("bold_stroke")) {
        if (!(width->value > 0.0 && width->value <= kMostStroke) || !family.bold.empty()) {
            findings_.error(width->span, "font-table",
                            "bold_stroke must be from 0 to 0.1, in place of a bold file",
                            "write it as a part of the type size, such as 0.03");
        } else {
            family.bold_stroke = width->value;
        }
    }
    if (const auto index = map.optional_integer("index")) {
        if (index->value < 0 || index->value >= kMostFaces) {
            findings_.error(index->span, "font-table",
                            "the face index must be from 0 to " + std::to_string(kMostFaces - 1));
        } else {
            family.index = static_cast<unsigned>(index->value);
        }
    }
    const auto take_height = [this](const char* key, const auto& factor, double& height) {
        if (factor && (factor->value < kLeastLineHeight || factor->value > kMostLineHeight)) {
            findings_.error(factor->span, "font-table", std::string(key) + " must be from 0.8 to 4",
                            "write it as a factor of the type size, such as 1.3");
        } else if (factor) {
            height = factor->value;
        }
    };
    take_height("line_height", map.required_number("line_height"), family.line_height);
    take_height("closest_lines", map.optional_number("closest_lines"), family.closest_lines);
    if (const yaml::Node* mends = map.optional_node("bold_advances")) {
        family.bold_advances = read_advances(*mends);
    }
    map.finish();
    table_.families.push_back(std::move(family));
}

std::vector<GlyphAdvance> TableReader::read_advances(const yaml::Node& node) {
    yaml::MapReader map(node, "bold_advances", findings_);
    std::vector<GlyphAdvance> advances;
    for (const yaml::Entry& entry : node.entries) {
        const auto advance = map.required_integer(entry.key.value);
        if (advance && (advance->value < 0 || advance->value > kMostAdvance)) {
            findings_.error(advance->span, "font-table",
                            "an advance must be from 0 to 10000 units");
        } else if (advance) {
            advances.push_back({entry.key.value, static_cast<int>(advance->value)});
        }
    }
    return advances;
}

void TableReader::read_package(const yaml::Entry& entry) {
    yaml::MapReader map(entry.value, "the font package", findings_);
    const auto folder = map.required_text("folder");
    const yaml::Node* families = map.required_node("families");
    map.finish();
    if (!folder || families == nullptr) {
        return;
    }
    for (const yaml::Entry& family : families->entries) {
        read_family(family, entry.key.value, folder->value);
    }
}

std::optional<std::size_t> TableReader::family(const support::Located<std::string>& name) {
    std::vector<std::string> names;
    for (std::size_t i = 0; i < table_.families.size(); ++i) {
        if (table_.families[i].name == name.value) {
            return i;
        }
        names.push_back(table_.families[i].name);
    }
    const std::string near = support::closest(name.value, names);
    findings_.error(name.span, "font-table", "there is no font family \"" + name.value + "\"",
                    near.empty() ? std::string() : "did you mean \"" + near + "\"?");
    return std::nullopt;
}

void TableReader::read_choices(const yaml::Node* node,
                               std::map<std::string, std::size_t, std::less<>>& choices) {
    if (node == nullptr) {
        return;
    }
    for (const yaml::Entry& entry : node->entries) {
        const auto name = yaml::as_text(entry.value, "the font family", findings_);
        if (!name) {
            continue;
        }
        if (const auto index = family({*name, entry.value.span})) {
            choices[entry.key.value] = *index;
        }
    }
}

std::optional<FontTable> TableReader::read(const yaml::Node& root) {
    yaml::MapReader map(root, "the font table", findings_);
    const auto format = map.required_integer("format");
    const yaml::Node* packages = map.required_node("packages");
    const yaml::Node* scripts = map.required_node("scripts");
    const yaml::Node* languages = map.optional_node("languages");
    const auto fallback = map.optional_texts("fallback");
    map.finish();
    if (format && format->value != kFormat) {
        findings_.error(format->span, "font-table", "the font table must have format 1");
        return std::nullopt;
    }
    if (packages == nullptr) {
        return std::nullopt;
    }
    for (const yaml::Entry& package : packages->entries) {
        read_package(package);
    }
    read_choices(scripts, table_.scripts);
    read_choices(languages, table_.languages);
    for (const auto& name : fallback) {
        if (const auto index = family(name)) {
            table_.fallback.push_back(*index);
        }
    }
    if (table_.fallback.empty()) {
        findings_.error(root.span, "font-table", "the font table names no fallback family",
                        "add a line such as 'fallback: [sans]'");
        return std::nullopt;
    }
    return std::move(table_);
}

} // namespace

std::optional<FontTable> read_font_table(const yaml::Node& root, support::Findings& findings) {
    return TableReader(findings).read(root);
}

} // namespace tickleaf::text
