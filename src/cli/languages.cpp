// SPDX-License-Identifier: MIT
#include "cli/languages.h"

#include <algorithm>

#include "prescription/language_tag.h"

namespace tickleaf::cli {

namespace {

using prescription::usual_case;
using Names = std::vector<std::string>;

constexpr std::size_t kSideBySide = 2; ///< languages that one page has room for

std::string trimmed(const std::string& text) {
    const std::size_t begin = text.find_first_not_of(' ');
    return begin == std::string::npos ? std::string()
                                      : text.substr(begin, text.find_last_not_of(' ') - begin + 1);
}

Names split(const std::string& text, char separator) {
    Names parts;
    std::size_t begin = 0;
    while (begin <= text.size()) {
        const std::size_t end = std::min(text.find(separator, begin), text.size());
        parts.push_back(trimmed(text.substr(begin, end - begin)));
        begin = end + 1;
    }
    return parts;
}

std::string booklet_fault(const std::string& booklet) {
    const Names tags = split(booklet, '+');
    if (std::find(tags.begin(), tags.end(), "") != tags.end()) {
        return "a language is missing in \"" + booklet + "\"";
    }
    if (tags.size() > kSideBySide) {
        return '"' + booklet + "\" puts " + std::to_string(tags.size()) +
               " languages side by side, at most two fit; a comma makes a booklet of its own";
    }
    if (tags.size() == kSideBySide && prescription::is_same_tag(tags[0], tags[1])) {
        return '"' + booklet + "\" puts a language beside itself";
    }
    return {};
}

} // namespace

std::string languages_fault(const std::string& list) {
    for (const auto& booklet : split(list, ',')) {
        const std::string fault = booklet_fault(booklet);
        if (!fault.empty()) {
            return fault + (booklet == list ? "" : " (of \"" + list + "\")");
        }
    }
    return {};
}

std::vector<Languages> read_languages(const std::string& list) {
    std::vector<Languages> booklets;
    for (const auto& booklet : split(list, ',')) {
        const Names tags = split(booklet, '+');
        const Languages read{usual_case(tags.at(0)),
                             tags.size() > 1 ? usual_case(tags[1]) : std::string()};
        if (std::find(booklets.begin(), booklets.end(), read) == booklets.end()) {
            booklets.push_back(read);
        }
    }
    return booklets;
}

} // namespace tickleaf::cli
