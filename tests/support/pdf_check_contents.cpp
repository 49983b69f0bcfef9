// SPDX-License-Identifier: MIT
// Contents: what stands in them, and that the way, the printed number and the heading agree.
// Source: ISO 32000-1:2008, 14.8.4.3 Table 333 (TOC, TOCI, Reference), 12.3.2 destinations, 12.4.2
// page labels; ISO 14289-1:2014, 7.2.
#include "tests/support/pdf_check.h"

#include <algorithm>
#include <optional>

#include <qpdf/QPDFPageLabelDocumentHelper.hh>

#include "support/utf8.h"

namespace tickleaf::testing {

namespace {

/// The value of a decimal digit (The Unicode Standard 15, Nd), or nothing.
std::optional<int> digit_value(char32_t c) {
    for (const char32_t zero : {U'0', U'\u0660', U'\u06F0', U'\u0966', U'\u09E6'}) {
        if (c >= zero && c <= zero + 9) {
            return static_cast<int>(c - zero);
        }
    }
    return std::nullopt;
}

std::u32string code_points(const std::string& utf8) {
    std::u32string result;
    for (std::size_t at = 0; at < utf8.size();) {
        const auto decoded = support::decode_utf8(std::string_view(utf8).substr(at));
        result += decoded ? decoded->code_point : U'\uFFFD';
        at += decoded ? decoded->length : 1;
    }
    return result;
}

bool is_space(char32_t c) {
    return c == U' ' || c == U'\n' || c == U'\u00A0';
}

/// The number at the end of a line, apart from its words; nothing where there is none.
std::optional<long long> last_number(const std::string& line) {
    std::u32string text = code_points(line);
    while (!text.empty() && is_space(text.back())) {
        text.pop_back();
    }
    long long value = 0;
    long long place = 1;
    std::size_t digits = 0;
    for (; !text.empty() && digit_value(text.back()); ++digits) {
        value += place * *digit_value(text.back());
        place *= 10;
        text.pop_back();
    }
    const bool apart = !text.empty() && is_space(text.back());
    return digits > 0 && apart ? std::optional(value) : std::nullopt;
}

/// Whether all words stand in a line, one after another.
bool has_words(const std::string& line, const std::string& words) {
    const std::u32string text = code_points(line);
    std::size_t at = 0;
    std::u32string word;
    for (const char32_t c : code_points(words) + U" ") {
        if (!is_space(c)) {
            word += c;
        } else if (!word.empty()) {
            at = text.find(word, at);
            if (at == std::u32string::npos) {
                return false;
            }
            at += word.size();
            word.clear();
        }
    }
    return true;
}

class ContentsChecker {
  public:
    ContentsChecker(PdfReader& reader, std::vector<ClauseFailure>& failures)
        : reader_(reader), failures_(failures), pages_(reader.file().getAllPages()) {}

    void check(const StructureElement& root) {
        collect_headings(root);
        walk(root, false);
    }

  private:
    void require(bool condition, const char* clause, const std::string& message) {
        if (!condition) {
            failures_.push_back({clause, message});
        }
    }

    std::size_t page_index(QPDFObjectHandle page) const {
        const auto found = std::find_if(pages_.begin(), pages_.end(), [&](QPDFObjectHandle one) {
            return one.getObjGen() == page.getObjGen();
        });
        return static_cast<std::size_t>(found - pages_.begin());
    }

    void collect_headings(const StructureElement& element) {
        if (element.role == "H1" || element.role == "H2" || element.role == "H3") {
            headings_.emplace_back(page_index(QPDFObjectHandle(element.object).getKey("/Pg")),
                                   element.text());
        }
        for (const auto& kid : element.kids) {
            if (kid.element != nullptr) {
                collect_headings(*kid.element);
            }
        }
    }

    void walk(const StructureElement& element, bool in_contents) {
        const bool list = element.role == "TOC";
        const bool item = element.role == "TOCI";
        for (const auto& kid : element.kids) {
            const std::string role = kid.element == nullptr ? "text" : kid.element->role;
            require(!list || role == "TOC" || role == "TOCI" || role == "Caption", "7.2-27",
                    role + " stands in a TOC");
            require(!item || role == "TOC" || role == "Lbl" || role == "Reference" || role == "P" ||
                        role == "NonStruct",
                    "14.8.4.3", role + " stands in a TOCI");
            if (kid.element != nullptr) {
                walk(*kid.element, in_contents || list);
            } else if (kid.is_object_reference && in_contents && element.role == "Link") {
                check_entry(element);
            }
        }
    }

    void check_entry(const StructureElement& link) {
        const auto kids = QPDFObjectHandle(link.object).getKey("/K").getArrayAsVector();
        const auto found = std::find_if(kids.begin(), kids.end(), [](QPDFObjectHandle kid) {
            return kid.isDictionary() && kid.hasKey("/Obj");
        });
        QPDFObjectHandle target = QPDFObjectHandle(*found).getKey("/Obj").getKey("/Dest");
        const std::string line = link.text();
        if (!target.isArray()) {
            require(false, "12.3.2", "\"" + line + "\" leads to no page");
            return;
        }
        const std::size_t page = page_index(target.getArrayItem(0));
        require(last_number(line) == label(page), "12.4.2",
                "\"" + line + "\" leads to page " + std::to_string(page + 1));
        const bool there =
            std::any_of(headings_.begin(), headings_.end(), [&](const auto& heading) {
                return heading.first == page && has_words(line, heading.second);
            });
        require(there, "12.3.2",
                "\"" + line + "\" leads to page " + std::to_string(page + 1) +
                    ", where no such heading stands");
    }

    /// The number by which a reader of the file calls a page.
    std::optional<long long> label(std::size_t page) {
        QPDFPageLabelDocumentHelper labels(reader_.file());
        QPDFObjectHandle made = labels.getLabelForPage(static_cast<long long>(page));
        const bool decimal = made.isDictionary() && made.getKey("/S").isName() &&
                             made.getKey("/S").getName() == "/D" && !made.hasKey("/P");
        return decimal ? std::optional(made.getKey("/St").getIntValue()) : std::nullopt;
    }

    PdfReader& reader_;
    std::vector<ClauseFailure>& failures_;
    std::vector<QPDFObjectHandle> pages_;
    std::vector<std::pair<std::size_t, std::string>> headings_; ///< page and text
};

} // namespace

void check_contents(PdfReader& reader, const StructureElement& root,
                    std::vector<ClauseFailure>& failures) {
    ContentsChecker(reader, failures).check(root);
}

} // namespace tickleaf::testing
