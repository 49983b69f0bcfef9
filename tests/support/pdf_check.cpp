// SPDX-License-Identifier: MIT
#include "tests/support/pdf_check.h"

#include <algorithm>
#include <cctype>
#include <stdexcept>

#include <qpdf/QPDFPageObjectHelper.hh>

namespace tickleaf::testing {

namespace {

bool is_language(const std::string& tag) {
    std::size_t length = 0;
    bool first = true;
    for (const char c : tag) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '-') {
            if (length == 0) {
                return false;
            }
            length = 0;
            first = false;
        } else if (++length > 8 || (first ? std::isalpha(byte) : std::isalnum(byte)) == 0) {
            return false;
        }
    }
    return length > 0;
}

const std::set<std::string>& standard_types() {
    // ISO 32000-1, 14.8.4 (tables 333 to 340).
    static const std::set<std::string> kTypes{
        "Document", "Part",    "Art",   "Sect",      "Div",     "BlockQuote", "Caption",
        "TOC",      "TOCI",    "Index", "NonStruct", "Private", "P",          "H",
        "H1",       "H2",      "H3",    "H4",        "H5",      "H6",         "L",
        "LI",       "Lbl",     "LBody", "Table",     "TR",      "TH",         "TD",
        "THead",    "TBody",   "TFoot", "Span",      "Quote",   "Note",       "Reference",
        "BibEntry", "Code",    "Link",  "Annot",     "Ruby",    "RB",         "RT",
        "RP",       "Warichu", "WT",    "WP",        "Figure",  "Formula",    "Form"};
    return kTypes;
}

/// Which parent a type must have.
const std::map<std::string, std::pair<std::set<std::string>, const char*>>& parents() {
    static const std::map<std::string, std::pair<std::set<std::string>, const char*>> kParents{
        {"TR", {{"Table", "THead", "TBody", "TFoot"}, "7.2-4"}},
        {"TH", {{"TR"}, "7.2-8"}},
        {"TD", {{"TR"}, "7.2-9"}},
        {"LI", {{"L"}, "7.2-17"}},
        {"LBody", {{"LI"}, "7.2-18"}},
        {"TOCI", {{"TOC"}, "7.2-26"}}};
    return kParents;
}

class Checker {
  public:
    explicit Checker(const std::string& bytes) : bytes_(bytes), reader_(bytes) {}

    std::vector<ClauseFailure> check() {
        check_header();
        check_catalog();
        check_metadata();
        check_marks();
        check_structure();
        check_parent_tree();
        check_annotations();
        check_forms();
        check_fonts(reader_, failures_);
        return failures_;
    }

  private:
    void require(bool condition, const char* clause, const std::string& message) {
        if (!condition) {
            failures_.push_back({clause, message});
        }
    }

    QPDFObjectHandle catalog() { return reader_.file().getRoot(); }

    void check_structure() {
        try {
            if (const auto root = reader_.structure()) {
                walk(*root, "");
                check_contents(reader_, *root, failures_);
            }
        } catch (const std::runtime_error& error) {
            require(false, "7.1-3", error.what());
        }
    }

    void check_header() {
        const bool good = bytes_.size() > 9 && bytes_.starts_with("%PDF-1.") && bytes_[7] >= '0' &&
                          bytes_[7] <= '7' && (bytes_[8] == '\n' || bytes_[8] == '\r');
        require(good, "6.1-1", "the header is not %PDF-1.0 to 1.7");
        require(!reader_.file().isEncrypted(), "7.16-1", "the file is encrypted");
    }

    bool is_true(QPDFObjectHandle dictionary, const std::string& key) {
        return dictionary.isDictionary() && dictionary.getKey(key).isBool() &&
               dictionary.getKey(key).getBoolValue();
    }

    void check_catalog() {
        QPDFObjectHandle mark_info = catalog().getKey("/MarkInfo");
        require(is_true(mark_info, "/Marked"), "6.2-1", "the file is not marked as tagged");
        require(!is_true(mark_info, "/Suspects"), "7.1-4", "the file has suspects");
        require(is_true(catalog().getKey("/ViewerPreferences"), "/DisplayDocTitle"), "7.1-10",
                "the title is not shown");
        require(catalog().getKey("/StructTreeRoot").isDictionary(), "7.1-11",
                "there is no structure tree");
        QPDFObjectHandle language = catalog().getKey("/Lang");
        require(language.isString() && is_language(language.getUTF8Value()), "7.2-29",
                "the document has no valid language");
        require(!catalog().hasKey("/AA") && !catalog().hasKey("/OpenAction"), "7.19-1",
                "the file has actions of its own");
    }

    void check_metadata() {
        QPDFObjectHandle metadata = catalog().getKey("/Metadata");
        require(metadata.isStream(), "7.1-8", "there is no metadata stream");
        if (!metadata.isStream()) {
            return;
        }
        const auto buffer = metadata.getStreamData();
        const std::string xmp(reinterpret_cast<const char*>(buffer->getBuffer()),
                              buffer->getSize());
        require(xmp.find("xmlns:pdfuaid=\"http://www.aiim.org/pdfua/ns/id/\"") !=
                        std::string::npos &&
                    xmp.find("<pdfuaid:part>1</pdfuaid:part>") != std::string::npos,
                "5-1", "the identifier of PDF/UA-1 is missing");
        const std::size_t title = xmp.find("<dc:title>");
        const std::size_t item =
            title == std::string::npos ? title : xmp.find("x-default\">", title);
        require(item != std::string::npos && xmp[item + 11] != '<', "7.1-9", "dc:title is missing");
    }

    void check_marks() {
        for (const PageText& page : reader_.pages()) {
            std::set<int> seen;
            for (const std::string& error : page.mark_errors) {
                const bool outside = error.find("outside") != std::string::npos;
                require(false, outside ? "7.1-3" : "7.1-1", error);
            }
            for (const MarkedText& part : page.marked) {
                require(part.is_artifact || seen.insert(part.mcid).second, "7.1-3",
                        "MCID " + std::to_string(part.mcid) + " is there twice");
            }
        }
    }

    static std::string attribute(QPDFObjectHandle element, const std::string& key) {
        QPDFObjectHandle attributes = element.getKey("/A");
        if (attributes.isDictionary() && attributes.hasKey(key)) {
            return attributes.getKey(key).unparseResolved();
        }
        return {};
    }

    static int span(QPDFObjectHandle element, const std::string& key) {
        const std::string value = attribute(element, key);
        return value.empty() ? 1 : std::stoi(value);
    }

    void walk(const StructureElement& element, const std::string& parent) {
        const std::string& role = element.role;
        require(standard_types().contains(role), "7.1-5",
                "structure type " + role + " is not standard");
        require(element.language.empty() || is_language(element.language), "7.2-34",
                role + " has the language " + element.language);
        const auto rule = parents().find(role);
        if (rule != parents().end()) {
            require(rule->second.first.contains(parent), rule->second.second,
                    role + " stands in " + (parent.empty() ? "the root" : parent));
        }
        check_role(element);
        for (const StructureElement::Kid& kid : element.kids) {
            if (kid.element != nullptr) {
                walk(*kid.element, role);
            }
        }
    }

    void check_role(const StructureElement& element) {
        const std::string& role = element.role;
        QPDFObjectHandle object = element.object;
        if (role == "Figure") {
            require(!element.alternative.empty() || object.hasKey("/ActualText"), "7.3-1",
                    "a figure has no alternative text");
        } else if (role == "TH") {
            require(!attribute(object, "/Scope").empty(), "7.5-1", "a header cell has no scope");
        } else if (role == "Form") {
            require(!attribute(object, "/Role").empty(), "7.18.4-2",
                    "a form has neither a role nor a widget");
        } else if (role == "Note") {
            QPDFObjectHandle id = object.getKey("/ID");
            require(id.isString(), "7.9-1", "a note has no ID");
            require(!id.isString() || note_ids_.insert(id.getStringValue()).second, "7.9-2",
                    "two notes have one ID");
        } else if (role == "Table") {
            // ISO 32000-1, 14.9.3: an alternate description stands for the element and all in it.
            require(element.alternative.empty(), "14.9.3",
                    "a table's cells are replaced by a text");
            check_table(element);
        } else if (role.size() == 2 && role[0] == 'H' && role[1] >= '1' && role[1] <= '6') {
            const int level = role[1] - '0';
            require(level <= heading_ + 1, "7.4.2-1", "heading " + role + " skips a level");
            heading_ = level;
        }
    }

    /// Every row must fill the same columns, counting spans, without overlap.
    void check_table(const StructureElement& table) {
        std::set<std::pair<int, int>> filled;
        int row = 0;
        int columns = 0;
        for (const StructureElement::Kid& kid : table.kids) {
            if (kid.element == nullptr || kid.element->role != "TR") {
                continue;
            }
            place_row(*kid.element, row++, filled);
        }
        for (const auto& [r, c] : filled) {
            columns = std::max(columns, c + 1);
            require(r < row, "7.2-41", "a cell reaches below its table");
        }
        require(filled.size() == static_cast<std::size_t>(row) * static_cast<std::size_t>(columns),
                "7.2-42", "the rows of a table differ in width");
    }

    void place_row(const StructureElement& element, int row,
                   std::set<std::pair<int, int>>& filled) {
        int column = 0;
        for (const StructureElement::Kid& cell : element.kids) {
            if (cell.element == nullptr) {
                continue;
            }
            while (filled.contains({row, column})) {
                ++column;
            }
            const int width = span(cell.element->object, "/ColSpan");
            const int height = span(cell.element->object, "/RowSpan");
            for (int r = 0; r < height; ++r) {
                for (int c = 0; c < width; ++c) {
                    require(filled.insert({row + r, column + c}).second, "7.2-43",
                            "two cells overlap");
                }
            }
            column += width;
        }
    }

    QPDFObjectHandle parent_entry(QPDFObjectHandle node, int key, int depth = 0) {
        if (!node.isDictionary() || depth > 20) {
            return QPDFObjectHandle::newNull();
        }
        if (node.getKey("/Nums").isArray()) {
            const auto numbers = node.getKey("/Nums").getArrayAsVector();
            for (std::size_t i = 0; i + 1 < numbers.size(); i += 2) {
                if (QPDFObjectHandle(numbers[i]).getIntValueAsInt() == key) {
                    return numbers[i + 1];
                }
            }
        }
        if (node.getKey("/Kids").isArray()) {
            for (QPDFObjectHandle kid : node.getKey("/Kids").getArrayAsVector()) {
                QPDFObjectHandle found = parent_entry(kid, key, depth + 1);
                if (!found.isNull()) {
                    return found;
                }
            }
        }
        return QPDFObjectHandle::newNull();
    }

    /// Every MCID leads to an element, and that element names it among its kids.
    void check_parent_tree() {
        QPDFObjectHandle tree = catalog().getKey("/StructTreeRoot").isDictionary()
                                    ? catalog().getKey("/StructTreeRoot").getKey("/ParentTree")
                                    : QPDFObjectHandle::newNull();
        const auto pages = reader_.file().getAllPages();
        for (std::size_t i = 0; i < pages.size(); ++i) {
            QPDFObjectHandle page = pages[i];
            for (const MarkedText& part : reader_.pages()[i].marked) {
                if (part.is_artifact) {
                    continue;
                }
                QPDFObjectHandle key = page.getKey("/StructParents");
                QPDFObjectHandle row = key.isInteger() ? parent_entry(tree, key.getIntValueAsInt())
                                                       : QPDFObjectHandle::newNull();
                const bool found = row.isArray() && part.mcid < row.getArrayNItems() &&
                                   has_kid(row.getArrayItem(part.mcid), page, part.mcid);
                require(found, "7.1-3",
                        "MCID " + std::to_string(part.mcid) + " of page " + std::to_string(i + 1) +
                            " is not in the structure tree");
            }
        }
    }

    static bool has_kid(QPDFObjectHandle element, QPDFObjectHandle page, int mcid) {
        if (!element.isDictionary()) {
            return false;
        }
        QPDFObjectHandle kids = element.getKey("/K");
        const auto list =
            kids.isArray() ? kids.getArrayAsVector() : std::vector<QPDFObjectHandle>{kids};
        return std::any_of(list.begin(), list.end(), [&](QPDFObjectHandle kid) {
            QPDFObjectHandle on = element.getKey("/Pg");
            if (kid.isDictionary() && kid.hasKey("/MCID")) {
                on = kid.hasKey("/Pg") ? kid.getKey("/Pg") : on;
                kid = kid.getKey("/MCID");
            }
            return kid.isInteger() && kid.getIntValueAsInt() == mcid &&
                   on.getObjGen() == page.getObjGen();
        });
    }

    void check_annotations() {
        for (QPDFObjectHandle page : reader_.file().getAllPages()) {
            if (!page.getKey("/Annots").isArray()) {
                continue;
            }
            QPDFObjectHandle tabs = page.getKey("/Tabs");
            require(tabs.isName() && tabs.getName() == "/S", "7.18.3-1",
                    "the tab order is not by structure");
            for (QPDFObjectHandle annotation : page.getKey("/Annots").getArrayAsVector()) {
                check_link(annotation);
            }
        }
    }

    void check_link(QPDFObjectHandle annotation) {
        QPDFObjectHandle key = annotation.getKey("/StructParent");
        QPDFObjectHandle tree = catalog().getKey("/StructTreeRoot").getKey("/ParentTree");
        QPDFObjectHandle element = key.isInteger() ? parent_entry(tree, key.getIntValueAsInt())
                                                   : QPDFObjectHandle::newNull();
        require(element.isDictionary() && element.getKey("/S").getName() == "/Link", "7.18.5-1",
                "a link annotation is not in a Link element");
        require(element.isDictionary() && refers_to(element.getKey("/K"), annotation), "7.18.5-1",
                "a Link element does not refer to its annotation");
        check_target(annotation);
        QPDFObjectHandle contents = annotation.getKey("/Contents");
        require(contents.isString() && !contents.getUTF8Value().empty(), "7.18.5-2",
                "a link has no description");
    }

    /// Among the kids is an object reference to the annotation.
    static bool refers_to(QPDFObjectHandle kids, QPDFObjectHandle annotation) {
        const auto list =
            kids.isArray() ? kids.getArrayAsVector() : std::vector<QPDFObjectHandle>{kids};
        return std::any_of(list.begin(), list.end(), [&](QPDFObjectHandle kid) {
            return kid.isDictionary() && kid.hasKey("/Obj") &&
                   kid.getKey("/Obj").getObjGen() == annotation.getObjGen();
        });
    }

    /// ISO 32000-1, 12.3.2 and 12.6.4.7: a page of this file, or an address.
    void check_target(QPDFObjectHandle annotation) {
        QPDFObjectHandle target = annotation.getKey("/Dest");
        if (target.isArray()) {
            const auto pages = reader_.file().getAllPages();
            const auto found = std::find_if(pages.begin(), pages.end(), [&](QPDFObjectHandle page) {
                return page.getObjGen() == target.getArrayItem(0).getObjGen();
            });
            require(found != pages.end(), "12.3.2", "a link leads to no page of the file");
            return;
        }
        QPDFObjectHandle action = annotation.getKey("/A");
        require(action.isDictionary() && action.getKey("/URI").isString() &&
                    !action.getKey("/URI").getStringValue().empty(),
                "12.6.4.7", "a link leads nowhere");
    }

    void check_forms() {
        for (QPDFObjectHandle object : reader_.file().getAllObjects()) {
            if (object.isStream() && object.getDict().getKey("/Subtype").isName() &&
                object.getDict().getKey("/Subtype").getName() == "/Form") {
                const auto buffer = object.getStreamData();
                const std::string content(reinterpret_cast<const char*>(buffer->getBuffer()),
                                          buffer->getSize());
                require(content.find("/MCID") == std::string::npos, "7.20-2",
                        "a form XObject has marked content of its own");
            }
            require(!(object.isDictionary() && (object.hasKey("/JS") || object.hasKey("/AA"))),
                    "7.19-1", "the file has scripts");
        }
    }

    const std::string& bytes_;
    PdfReader reader_;
    std::vector<ClauseFailure> failures_;
    std::set<std::string> note_ids_;
    int heading_ = 0;
};

} // namespace

std::vector<ClauseFailure> check_pdf_ua(const std::string& bytes) {
    return Checker(bytes).check();
}

std::vector<std::string> failed_clauses(const std::string& bytes) {
    std::set<std::string> clauses;
    for (const ClauseFailure& failure : check_pdf_ua(bytes)) {
        clauses.insert(failure.clause);
    }
    return {clauses.begin(), clauses.end()};
}

} // namespace tickleaf::testing
