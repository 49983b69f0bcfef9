// SPDX-License-Identifier: MIT
// The paragraphs of one translation of the Universal Declaration of Human Rights, as fetch.sh puts
// them: HTML of headings, paragraphs and list items. Shapes: UTF-8, logical order. Errors: an empty
// answer where the file cannot be read.
#pragma once

#include <fstream>
#include <iterator>
#include <string>
#include <vector>

namespace tickleaf::testing {

/// A translation: its file, and the language as the program is asked for it.
struct Translation {
    const char* language; ///< BCP 47
    const char* file;     ///< without .html
};

/// The text of a tag, with its entities resolved and the package's own slips mended.
inline std::string clean(std::string text) {
    struct Change {
        const char* from;
        const char* to;
    };
    const Change changes[] = {
        {"&#x26;", "&"}, // the only entity in these files
        // bod.html: vowel signs torn from their letters by a space, which Tickleaf reports.
        {"\u0F51\u0F42 \u0F7C\u0F66", "\u0F51\u0F42\u0F7C\u0F66"},
        {"\u0F42\u0F4F \u0F7C\u0F42", "\u0F42\u0F4F\u0F7C\u0F42"},
    };
    for (const auto& [from, to] : changes) {
        for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; ++at) {
            text.replace(at, std::string(from).size(), to);
        }
    }
    return text;
}

/// What stands in <h1>, <h2>, <p> and <li> before the next tag.
inline std::vector<std::string> paragraphs_of(const std::string& html) {
    std::vector<std::string> result;
    const std::size_t body = html.find("<body");
    for (std::size_t at = body; at != std::string::npos; at = html.find('<', at + 1)) {
        const std::size_t begin = html.find('>', at) + 1;
        const std::string tag = html.substr(at, begin - at);
        if (tag != "<h1>" && tag != "<h2>" && tag != "<p>" && tag != "<li>") {
            continue;
        }
        const std::string text = html.substr(begin, html.find('<', begin) - begin);
        if (text.find_first_not_of(" \n") != std::string::npos) {
            result.push_back(clean(text));
        }
    }
    return result;
}

inline std::vector<std::string> read_translation(const std::string& folder,
                                                 const std::string& file) {
    std::ifstream stream(folder + "/" + file + ".html", std::ios::binary);
    return stream ? paragraphs_of(std::string(std::istreambuf_iterator<char>(stream), {}))
                  : std::vector<std::string>();
}

} // namespace tickleaf::testing
