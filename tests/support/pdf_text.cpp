// SPDX-License-Identifier: MIT
#include "tests/support/pdf_text.h"

#include <algorithm>
#include <stdexcept>

#include <qpdf/QPDFPageDocumentHelper.hh>

#include "support/utf8.h"
#include "tests/support/pdf_cmap.h"

namespace tickleaf::testing {

namespace {

std::vector<char32_t> code_points(const std::string& utf8) {
    std::vector<char32_t> points;
    std::string_view rest = utf8;
    while (!rest.empty()) {
        const auto decoded = support::decode_utf8(rest);
        if (!decoded) {
            throw std::runtime_error("text is not UTF-8");
        }
        points.push_back(decoded->code_point);
        rest.remove_prefix(decoded->length);
    }
    return points;
}

/// Operators that put something on the page.
bool is_painting(const std::string& op) {
    static const std::set<std::string> kPainting{"Tj", "TJ", "S", "s",  "f",  "F",  "f*",
                                                 "B",  "B*", "b", "b*", "Do", "sh", "EI"};
    return kPainting.contains(op);
}

/// What a font's codes are and mean.
struct FontMaps {
    Encoding encoding;
    std::map<unsigned, std::string> texts;
};

/// An open marked-content sequence.
struct Mark {
    std::string tag;
    int mcid = -1;
    bool reversed = false;
    bool has_actual_text = false;
    std::string actual_text;
    std::string language;
    std::vector<std::string> pieces; ///< texts of codes, in the order shown
};

class ContentReader : public QPDFObjectHandle::ParserCallbacks {
  public:
    ContentReader(PageText& page, const std::map<std::string, FontMaps>& fonts)
        : page_(page), fonts_(fonts) {}

    void handleObject(QPDFObjectHandle object) override {
        if (object.isOperator()) {
            run(object.getOperatorValue());
            operands_.clear();
        } else {
            operands_.push_back(object);
        }
    }

    void handleEOF() override {
        if (!marks_.empty()) {
            page_.mark_errors.push_back("marked content is not closed at the end of the page");
        }
    }

  private:
    void run(const std::string& op) {
        if (op == "BDC" || op == "BMC") {
            begin(op == "BDC");
        } else if (op == "EMC") {
            end();
        } else if (op == "BT" || op == "ET") {
            text_object(op == "BT");
        } else if (op == "Tf") {
            font_ = operands_.at(0).getName();
        } else if (op == "Tj") {
            show(operands_.at(0).getStringValue());
        } else if (op == "TJ") {
            for (QPDFObjectHandle part : operands_.at(0).getArrayAsVector()) {
                if (part.isString()) {
                    show(part.getStringValue());
                }
            }
        }
        if (is_painting(op)) {
            painted(op);
        }
    }

    void text_object(bool begins) {
        if (begins) {
            marks_at_bt_ = marks_.size();
        } else if (marks_.size() != marks_at_bt_) {
            page_.mark_errors.push_back("a text object and marked content overlap");
        }
    }

    void painted(const std::string& op) {
        if (current_ == nullptr) {
            page_.mark_errors.push_back("operator " + op + " outside of all marked content");
        } else {
            current_->has_content = true;
        }
    }

    void begin(bool has_properties) {
        Mark mark;
        mark.tag = operands_.at(0).getName().substr(1);
        mark.reversed = mark.tag == "ReversedChars";
        if (has_properties) {
            QPDFObjectHandle properties = operands_.at(1);
            if (properties.hasKey("/MCID")) {
                mark.mcid = properties.getKey("/MCID").getIntValueAsInt();
            }
            if (properties.hasKey("/ActualText")) {
                mark.has_actual_text = true;
                mark.actual_text = properties.getKey("/ActualText").getUTF8Value();
            }
            if (properties.hasKey("/Lang")) {
                mark.language = properties.getKey("/Lang").getUTF8Value();
            }
        }
        open_content(mark);
        marks_.push_back(mark);
    }

    void open_content(const Mark& mark) {
        const bool artifact = mark.tag == "Artifact";
        if (!artifact && mark.mcid < 0) {
            return;
        }
        if (current_ != nullptr) {
            page_.mark_errors.push_back(mark.tag + " is nested in other marked content");
        }
        page_.marked.push_back(MarkedText{mark.mcid, artifact, false, mark.tag, {}, {}});
        current_ = &page_.marked.back();
    }

    void show(const std::string& bytes) {
        const auto font = fonts_.find(font_);
        if (font == fonts_.end()) {
            page_.mark_errors.push_back("font " + font_ + " is not in the resources");
            return;
        }
        const auto codes = font->second.encoding.codes(bytes);
        if (!codes) {
            page_.mark_errors.push_back("a string does not fall into codes of " + font_);
            return;
        }
        for (const unsigned code : *codes) {
            page_.codes[font_].insert(code);
            const auto text = font->second.texts.find(code);
            add_text(text == font->second.texts.end() ? "" : text->second, marks_.size());
        }
    }

    /// Hands text to the innermost mark below `depth` that holds text back, else to the content.
    void add_text(const std::string& text, std::size_t depth) {
        for (std::size_t i = depth; i-- > 0;) {
            if (marks_[i].reversed || marks_[i].has_actual_text) {
                marks_[i].pieces.push_back(text);
                return;
            }
        }
        if (current_ != nullptr) {
            current_->text += text;
        }
    }

    void end() {
        if (marks_.empty()) {
            page_.mark_errors.push_back("EMC without BDC");
            return;
        }
        Mark mark = marks_.back();
        marks_.pop_back();
        if (mark.has_actual_text) {
            add_text(mark.actual_text, marks_.size());
        } else if (mark.reversed) {
            std::string text;
            for (auto piece = mark.pieces.rbegin(); piece != mark.pieces.rend(); ++piece) {
                text += *piece;
            }
            add_text(text, marks_.size());
        }
        if (!mark.language.empty() && current_ != nullptr) {
            current_->language = mark.language;
        }
        if (mark.tag == "Artifact" || mark.mcid >= 0) {
            current_ = nullptr;
        }
    }

    PageText& page_;
    const std::map<std::string, FontMaps>& fonts_;
    std::vector<QPDFObjectHandle> operands_;
    std::vector<Mark> marks_;
    MarkedText* current_ = nullptr;
    std::string font_;
    std::size_t marks_at_bt_ = 0;
};

std::string joined(const std::vector<MarkedText>& marked, bool artifacts) {
    std::string text;
    for (const MarkedText& part : marked) {
        if (part.is_artifact == artifacts && !part.text.empty()) {
            text += as_copied(part.text) + "\n";
        }
    }
    return text;
}

std::map<std::string, FontMaps> page_fonts(QPDFObjectHandle page) {
    std::map<std::string, FontMaps> maps;
    QPDFObjectHandle resources = page.getKey("/Resources");
    if (!resources.isDictionary() || !resources.getKey("/Font").isDictionary()) {
        return maps;
    }
    for (auto& [name, font] : resources.getKey("/Font").getDictAsMap()) {
        FontMaps& made = maps[name];
        made.encoding = read_encoding(font.getKey("/Encoding"));
        QPDFObjectHandle cmap = font.getKey("/ToUnicode");
        if (cmap.isStream()) {
            const auto data = cmap.getStreamData();
            made.texts = read_to_unicode(
                std::string(reinterpret_cast<const char*>(data->getBuffer()), data->getSize()));
        }
    }
    return maps;
}

bool is_block(const std::string& role) {
    return role != "Span" && role != "Link" && role != "Lbl" && role != "Form";
}

/// The letter after lam in a presentation form of both (The Unicode Standard 15, compatibility
/// decompositions of FC43, FC44, FC86, FC87, FEF5-FEFC), or 0.
char32_t lam_follower(char32_t form) {
    if (form >= 0xFEF5 && form <= 0xFEFC) {
        constexpr char32_t kAlefs[] = {0x0622, 0x0623, 0x0625, 0x0627};
        return kAlefs[(form - 0xFEF5) / 2];
    }
    if (form == 0xFC43 || form == 0xFC86) {
        return 0x0649;
    }
    return form == 0xFC44 || form == 0xFC87 ? 0x064A : U'\0';
}

} // namespace

std::string as_copied(const std::string& utf8) {
    std::string out;
    for (const char32_t c : code_points(utf8)) {
        const bool control = c == 0x200B || c == 0x00AD || c == 0x061C || c == 0x200E ||
                             c == 0x200F || (c >= 0x202A && c <= 0x202E) || c == 0x2060 ||
                             (c >= 0x2066 && c <= 0x2069) || c == 0xFEFF;
        if (control) {
            continue;
        }
        const char32_t after_lam = lam_follower(c);
        if (after_lam != 0) {
            support::append_utf8(out, 0x0644);
            support::append_utf8(out, after_lam);
            continue;
        }
        support::append_utf8(out, c);
    }
    return out;
}

std::string PageText::text() const {
    return joined(marked, false);
}
std::string PageText::artifact_text() const {
    return joined(marked, true);
}

std::string StructureElement::text() const {
    std::string text;
    for (const Kid& kid : kids) {
        if (kid.element == nullptr) {
            text += kid.text;
            continue;
        }
        const std::string below = kid.element->text();
        if (below.empty()) {
            continue;
        }
        if (is_block(kid.element->role) && !text.empty() && text.back() != '\n') {
            text += "\n";
        }
        text += below;
        if (is_block(kid.element->role) && text.back() != '\n') {
            text += "\n";
        }
    }
    return text;
}

PdfReader::PdfReader(const std::string& bytes) : bytes_(bytes) {
    file_.setSuppressWarnings(true);
    file_.processMemoryFile("test.pdf", bytes_.data(), bytes_.size());
    std::size_t number = 0;
    for (auto& helper : QPDFPageDocumentHelper(file_).getAllPages()) {
        QPDFObjectHandle page = helper.getObjectHandle();
        page_index_[page.getObjGen()] = number++;
        PageText& text = pages_.emplace_back();
        const auto fonts = page_fonts(page);
        ContentReader reader(text, fonts);
        helper.parseContents(&reader);
    }
    for (const QPDFExc& warning : file_.getWarnings()) {
        warnings_.emplace_back(warning.what());
    }
}

std::shared_ptr<StructureElement> PdfReader::structure() {
    QPDFObjectHandle root = file_.getRoot().getKey("/StructTreeRoot");
    if (!root.isDictionary()) {
        return nullptr;
    }
    QPDFObjectHandle first = root.getKey("/K");
    if (first.isArray()) {
        first = first.getArrayNItems() > 0 ? first.getArrayItem(0) : QPDFObjectHandle::newNull();
    }
    return first.isDictionary() ? read_element(first, 0) : nullptr;
}

std::shared_ptr<StructureElement> PdfReader::read_element(QPDFObjectHandle element, int depth) {
    if (depth > 60) {
        throw std::runtime_error("the structure tree is too deep");
    }
    auto made = std::make_shared<StructureElement>();
    made->object = element;
    made->role = element.getKey("/S").getName().substr(1);
    if (element.hasKey("/Lang")) {
        made->language = element.getKey("/Lang").getUTF8Value();
    }
    if (element.hasKey("/Alt")) {
        made->alternative = element.getKey("/Alt").getUTF8Value();
    }
    QPDFObjectHandle kids = element.getKey("/K");
    if (kids.isArray()) {
        for (QPDFObjectHandle kid : kids.getArrayAsVector()) {
            read_kid(*made, kid, element.getKey("/Pg"), depth);
        }
    } else if (!kids.isNull()) {
        read_kid(*made, kids, element.getKey("/Pg"), depth);
    }
    return made;
}

void PdfReader::read_kid(StructureElement& element, QPDFObjectHandle kid, QPDFObjectHandle page,
                         int depth) {
    if (kid.isInteger()) {
        element.kids.push_back({marked_text(page, kid.getIntValueAsInt()), nullptr, false});
    } else if (kid.isDictionary() && kid.hasKey("/S")) {
        element.kids.push_back({{}, read_element(kid, depth + 1), false});
    } else if (kid.isDictionary() && kid.hasKey("/MCID")) {
        QPDFObjectHandle own_page = kid.hasKey("/Pg") ? kid.getKey("/Pg") : page;
        element.kids.push_back(
            {marked_text(own_page, kid.getKey("/MCID").getIntValueAsInt()), nullptr, false});
    } else if (kid.isDictionary() && kid.hasKey("/Obj")) {
        element.kids.push_back({{}, nullptr, true});
    } else {
        throw std::runtime_error("a kid of the structure tree is of no known kind");
    }
}

std::string PdfReader::marked_text(QPDFObjectHandle page, int mcid) const {
    const auto index = page_index_.find(page.getObjGen());
    if (index == page_index_.end()) {
        throw std::runtime_error("a structure element names no page of the file");
    }
    for (const MarkedText& part : pages_[index->second].marked) {
        if (part.mcid == mcid) {
            return as_copied(part.text);
        }
    }
    throw std::runtime_error("MCID " + std::to_string(mcid) + " is not on its page");
}

} // namespace tickleaf::testing
