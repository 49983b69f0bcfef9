// SPDX-License-Identifier: MIT
#include "locale/exchange_files.h"

#include <algorithm>

#include "locale/line_sheet.h"

namespace tickleaf::locale {
namespace {

/// The data folder as it will be.
class Overlay : public support::Environment {
  public:
    Overlay(const support::Environment& below, const NewFiles& files)
        : below_(below), files_(files.begin(), files.end()) {}
    std::optional<std::string> read_data(const std::string& path) const override {
        const auto found = files_.find(path);
        return found != files_.end() ? std::optional(found->second) : below_.read_data(path);
    }
    std::vector<std::string> list_data(const std::string& folder) const override {
        std::vector<std::string> names = below_.list_data(folder);
        for (const auto& [path, bytes] : files_) {
            if (path.starts_with(folder + "/")) {
                const std::string rest = path.substr(folder.size() + 1);
                names.push_back(rest.substr(0, rest.find('/')));
            }
        }
        std::sort(names.begin(), names.end());
        names.erase(std::unique(names.begin(), names.end()), names.end());
        return names;
    }
    std::unique_ptr<support::Bytes> map_file(const std::string& path) const override {
        return below_.map_file(path);
    }

  private:
    const support::Environment& below_;
    std::map<std::string, std::string> files_;
};

std::string entry_line(const std::string& key, const Entry& entry, std::size_t indent) {
    std::string line = std::string(indent, ' ') + key + ": {text: " + yaml_quoted(entry.written) +
                       ", of: " + entry.of + ", state: ";
    if (entry.state == ReviewState::Reviewed) {
        line += "reviewed, by: " + yaml_quoted(entry.by) + ", on: " + entry.on;
    } else {
        line += "draft";
    }
    return line + "}";
}

std::optional<yaml::Node> tree_of(const std::string& path, const std::string& text,
                                  const Reading& reading) {
    return yaml::read(reading.sources, reading.sources.add(path, text), reading.findings);
}

void refuse_layout(const std::string& path, const Reading& reading) {
    reading.findings.error({}, "catalog-layout",
                           path + " cannot be changed line by line; expected one text a line",
                           "give each key a line of its own, then import again");
}

struct Target {
    std::string tag;
    const Sheet& sheet;
    const NewEntries& entries;
};

/// A new file: the English one with its texts replaced, so that order and comments are the same.
std::optional<std::string> fresh_file(const Target& target, const Reading& reading) {
    const std::string path = path_of(kSourceTag, target.sheet);
    const std::string english = reading.environment.read_data(path).value_or("");
    const auto root = tree_of(path, english, reading);
    const yaml::Node* texts = root ? root->find("texts") : nullptr;
    auto lines = texts != nullptr ? LineSheet::of(english, *root, *texts) : std::nullopt;
    if (!lines) {
        refuse_layout(path, reading);
        return std::nullopt;
    }
    for (const std::string& key : lines->keys()) {
        const auto found = target.entries.find(target.sheet.prefix + key);
        if (found == target.entries.end()) {
            lines->drop(key);
        } else {
            const auto indent = static_cast<std::size_t>(texts->entries[0].key.span.column) - 1;
            lines->put(key, entry_line(key, found->second, indent), "");
        }
    }
    return lines->text();
}

std::optional<std::string> changed_file(const Target& target, const std::string& before,
                                        const Reading& reading) {
    const std::string path = path_of(target.tag, target.sheet);
    const auto root = tree_of(path, before, reading);
    const yaml::Node* texts = root ? root->find("texts") : nullptr;
    auto lines = texts != nullptr ? LineSheet::of(before, *root, *texts) : std::nullopt;
    if (!lines) {
        refuse_layout(path, reading);
        return std::nullopt;
    }
    const auto indent = texts->entries.empty()
                            ? std::size_t{2}
                            : static_cast<std::size_t>(texts->entries[0].key.span.column) - 1;
    std::string after;
    for (const std::string& key : target.sheet.keys) {
        const auto found = target.entries.find(target.sheet.prefix + key);
        if (found != target.entries.end()) {
            lines->put(key, entry_line(key, found->second, indent), after);
        }
        after = lines->has(key) ? key : after;
    }
    return lines->text();
}

std::string list_of(const std::vector<std::string>& words) {
    std::string out;
    for (const std::string& word : words) {
        out += (out.empty() ? "" : ", ") + yaml_quoted(word);
    }
    return "[" + out + "]";
}

std::string side_line(const LanguageFile& language) {
    return "side_words: {left: " + list_of(language.left_words) +
           ", right: " + list_of(language.right_words) + "}";
}

std::string number_lines(const LanguageFile& language) {
    std::string out;
    for (const auto& [n, forms] : language.number_words) {
        out += forms.empty() ? "" : "\n  " + std::to_string(n) + ": " + list_of(forms);
    }
    return out.empty() ? "" : "number_words:" + out;
}

std::string not_number_line(const LanguageFile& language) {
    return language.not_number_words.empty()
               ? ""
               : "not_number_words: " + list_of(language.not_number_words);
}

std::string fresh_language(const LanguageFile& language) {
    std::string out = "format: 1\nname: " + yaml_quoted(language.name) +
                      "\nenglish_name: " + yaml_quoted(language.english_name) +
                      "\nlocale: " + language.formats.locale +
                      "\nlong_date: " + yaml_quoted(language.formats.long_date) +
                      "\nshort_date: " + yaml_quoted(language.formats.short_date) + "\n" +
                      side_line(language) + "\n";
    out += language.glossary.empty() ? "" : "glossary:\n";
    for (const Term& term : language.glossary) {
        out += "  " + term.key + ": " + list_of(term.forms) + "\n";
    }
    for (const std::string& line : {number_lines(language), not_number_line(language)}) {
        out += line.empty() ? "" : line + "\n";
    }
    return out;
}

} // namespace

NewFiles catalog_files(std::string_view tag, const std::vector<Sheet>& sheets,
                       const NewEntries& entries, const Reading& reading) {
    NewFiles files;
    for (const Sheet& sheet : sheets) {
        const bool any =
            std::any_of(sheet.keys.begin(), sheet.keys.end(), [&](const std::string& key) {
                return entries.contains(sheet.prefix + key);
            });
        if (!any) {
            continue;
        }
        const std::string path = path_of(tag, sheet);
        const Target target{std::string(tag), sheet, entries};
        const auto before = reading.environment.read_data(path);
        Catalog own;
        support::Findings told_before; // by who read the catalogs
        static_cast<void>(read_catalog({target.tag, path, sheet.prefix},
                                       {reading.environment, reading.sources, told_before}, own));
        auto after = own.texts.empty() ? fresh_file(target, reading)
                                       : changed_file(target, before.value_or(""), reading);
        if (after) {
            files.emplace_back(path, std::move(*after));
        }
    }
    return files;
}

std::optional<std::string> language_file(const LanguageFile& language, bool is_new,
                                         const Reading& reading) {
    if (is_new) {
        return fresh_language(language);
    }
    const std::string path = main_file(language.tag, "language").path;
    std::string text = reading.environment.read_data(path).value_or("");
    auto root = tree_of(path, text, reading);
    auto lines = root ? LineSheet::of(text, *root, *root) : std::nullopt;
    if (!lines) {
        refuse_layout(path, reading);
        return std::nullopt;
    }
    lines->put("name", "name: " + yaml_quoted(language.name), "format");
    lines->put("side_words", side_line(language), "locale");
    if (const std::string numbers = number_lines(language); !numbers.empty()) {
        lines->put("number_words", numbers, lines->has("glossary") ? "glossary" : "side_words");
    }
    if (const std::string line = not_number_line(language); !line.empty()) {
        lines->put("not_number_words", line,
                   lines->has("number_words") ? "number_words" : "side_words");
    }
    if (!lines->has("glossary") && !language.glossary.empty()) {
        lines->put("glossary", "glossary:\n  pain: []", "side_words");
    }
    text = lines->text();
    root = tree_of(path, text, reading);
    const yaml::Node* terms = root ? root->find("glossary") : nullptr;
    if (terms == nullptr) {
        return text;
    }
    lines = LineSheet::of(text, *root, *terms);
    if (!lines) {
        refuse_layout(path, reading);
        return std::nullopt;
    }
    std::string after;
    for (const Term& term : language.glossary) {
        lines->put(term.key, "  " + term.key + ": " + list_of(term.forms), after);
        after = term.key;
    }
    return lines->text();
}

bool reads_back(std::string_view tag, const NewFiles& files, const Catalog& before,
                const NewEntries& entries, const Reading& reading) {
    const Overlay overlay(reading.environment, files);
    const Reading again{overlay, reading.sources, reading.findings};
    const Catalog after = read_exchanged(tag, again);
    const auto file = read_language_file(tag, again);
    Catalog expected = before;
    for (const auto& [key, entry] : entries) {
        expected.texts[key] = entry;
    }
    const auto same = [](const Entry& a, const Entry& b) {
        return a.written == b.written && a.of == b.of && a.state == b.state && a.by == b.by &&
               a.on == b.on;
    };
    return file.has_value() &&
           std::equal(expected.texts.begin(), expected.texts.end(), after.texts.begin(),
                      after.texts.end(), [&](const auto& a, const auto& b) {
                          return a.first == b.first && same(a.second, b.second);
                      });
}

} // namespace tickleaf::locale
