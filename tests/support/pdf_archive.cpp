// SPDX-License-Identifier: MIT
#include "tests/support/pdf_archive.h"

#include <algorithm>
#include <map>
#include <set>

#include <qpdf/QPDFPageObjectHelper.hh>

namespace tickleaf::testing {

namespace {

std::string data_of(QPDFObjectHandle stream) {
    const auto buffer = stream.getStreamData();
    return std::string(reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize());
}

std::string name_of(QPDFObjectHandle dictionary, const std::string& key) {
    QPDFObjectHandle value = dictionary.getKey(key);
    return value.isName() ? value.getName() : std::string();
}

std::string xml_escaped(const std::string& text) {
    std::string out;
    for (const char c : text) {
        out += c == '&' ? "&amp;" : c == '<' ? "&lt;" : c == '>' ? "&gt;" : std::string(1, c);
    }
    return out;
}

/// The text between the first `after` behind `from` and the next '<'; empty where there is none.
std::string value_behind(const std::string& xml, const std::string& from,
                         const std::string& after) {
    const std::size_t start = xml.find(from);
    const std::size_t begin = start == std::string::npos ? start : xml.find(after, start);
    if (begin == std::string::npos) {
        return {};
    }
    const std::size_t text = begin + after.size();
    return xml.substr(text, xml.find('<', text) - text);
}

/// How deep q is nested.
class Nesting : public QPDFObjectHandle::ParserCallbacks {
  public:
    void handleObject(QPDFObjectHandle object) override {
        if (object.isOperator()) {
            depth_ += object.getOperatorValue() == "q" ? 1 : 0;
            depth_ -= object.getOperatorValue() == "Q" ? 1 : 0;
            deepest = std::max(deepest, depth_);
        }
    }
    void handleEOF() override {}
    int deepest = 0;

  private:
    int depth_ = 0;
};

class ArchiveChecker {
  public:
    explicit ArchiveChecker(const std::string& bytes) : bytes_(bytes) {
        file_.setSuppressWarnings(true);
        file_.processMemoryFile("test.pdf", bytes_.data(), bytes_.size());
    }

    std::vector<ClauseFailure> check() {
        check_file();
        check_output_intent();
        check_metadata();
        check_structure();
        for (QPDFObjectHandle object : file_.getAllObjects()) {
            check_object(object);
        }
        for (QPDFObjectHandle page : file_.getAllPages()) {
            check_page(page);
        }
        return failures_;
    }

  private:
    void require(bool condition, const char* clause, const std::string& message) {
        if (!condition) {
            failures_.push_back({clause, message});
        }
    }

    QPDFObjectHandle catalog() { return file_.getRoot(); }

    void check_file() {
        const std::size_t comment = bytes_.find('\n') + 1;
        const bool binary = bytes_.size() > comment + 5 && bytes_[comment] == '%' &&
                            std::all_of(bytes_.begin() + static_cast<std::ptrdiff_t>(comment) + 1,
                                        bytes_.begin() + static_cast<std::ptrdiff_t>(comment) + 5,
                                        [](char c) { return static_cast<unsigned char>(c) > 127; });
        require(bytes_.starts_with("%PDF-1.") && binary, "6.1.2",
                "the header has no comment of binary bytes");
        QPDFObjectHandle id = file_.getTrailer().getKey("/ID");
        require(id.isArray() && id.getArrayNItems() == 2 &&
                    !id.getArrayItem(0).getStringValue().empty(),
                "6.1.3", "the trailer has no ID");
        require(!file_.isEncrypted(), "6.1.3", "the file is encrypted");
        QPDFObjectHandle names = catalog().getKey("/Names");
        require(!names.isDictionary() || !names.hasKey("/EmbeddedFiles"), "6.8",
                "the file holds other files");
        require(!catalog().hasKey("/OCProperties"), "6.9", "the file has optional content");
        require(!catalog().hasKey("/Requirements"), "6.11", "the file has requirements");
        require(!catalog().hasKey("/AcroForm"), "6.4.1", "the file has interactive forms");
    }

    void check_output_intent() {
        QPDFObjectHandle intents = catalog().getKey("/OutputIntents");
        QPDFObjectHandle intent = intents.isArray() && intents.getArrayNItems() == 1
                                      ? intents.getArrayItem(0)
                                      : QPDFObjectHandle::newNull();
        require(intent.isDictionary() && name_of(intent, "/S") == "/GTS_PDFA1", "6.2.3",
                "there is no output intent of PDF/A");
        if (!intent.isDictionary()) {
            return;
        }
        require(intent.getKey("/OutputConditionIdentifier").isString(), "6.2.3",
                "the output condition has no name");
        QPDFObjectHandle profile = intent.getKey("/DestOutputProfile");
        require(profile.isStream(), "6.2.3", "the output intent has no profile");
        if (profile.isStream()) {
            check_profile(data_of(profile), profile.getDict().getKey("/N"));
        }
    }

    void check_profile(const std::string& icc, QPDFObjectHandle components) {
        const bool whole = icc.size() > 128 && icc.substr(36, 4) == "acsp";
        require(whole, "6.2.3", "the profile is no ICC profile");
        if (!whole) {
            return;
        }
        const std::size_t size =
            static_cast<unsigned char>(icc[2]) * 256U + static_cast<unsigned char>(icc[3]);
        require(icc[0] == 0 && icc[1] == 0 && size == icc.size(), "6.2.3",
                "the profile has another size than it says");
        require(icc[8] == 2 || icc[8] == 4, "6.2.3", "the profile is of no known version");
        require(icc.substr(12, 4) == "mntr" || icc.substr(12, 4) == "prtr", "6.2.3",
                "the profile is of no output device");
        // Device colours may be used in the colour space of the output intent alone.
        require(icc.substr(16, 4) == "RGB " && components.isInteger() &&
                    components.getIntValueAsInt() == 3,
                "6.2.4.3", "the profile is not of RGB");
    }

    void check_metadata() {
        QPDFObjectHandle metadata = catalog().getKey("/Metadata");
        require(metadata.isStream(), "6.6.2.1", "there is no metadata stream");
        if (!metadata.isStream()) {
            return;
        }
        const std::string xmp = data_of(metadata);
        const std::string head = xmp.substr(0, xmp.find("?>"));
        require(xmp.starts_with("<?xpacket begin=") && head.find(" bytes=") == std::string::npos &&
                    head.find(" encoding=") == std::string::npos,
                "6.6.2.1", "the packet's header is not that of an XMP packet");
        const std::string level = value_behind(xmp, "<pdfaid:conformance", ">");
        require(xmp.find("xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\"") != std::string::npos &&
                    value_behind(xmp, "<pdfaid:part", ">") == "2" && (level == "A" || level == "U"),
                "6.6.4", "the identifier of PDF/A-2 A or U is missing");
        is_level_a_ = level == "A";
        check_extension(xmp);
        check_info(xmp);
    }

    /// Properties that PDF/A does not know must be described in the packet itself.
    void check_extension(const std::string& xmp) {
        if (xmp.find("<pdfuaid:") == std::string::npos) {
            return;
        }
        const auto says = [&](const std::string& name, const std::string& value) {
            return xmp.find("<" + name + ">" + value + "</" + name + ">") != std::string::npos;
        };
        require(xmp.find("\"http://www.aiim.org/pdfa/ns/extension/\"") != std::string::npos &&
                    xmp.find("\"http://www.aiim.org/pdfa/ns/schema#\"") != std::string::npos &&
                    xmp.find("\"http://www.aiim.org/pdfa/ns/property#\"") != std::string::npos &&
                    says("pdfaSchema:namespaceURI", "http://www.aiim.org/pdfua/ns/id/") &&
                    says("pdfaSchema:prefix", "pdfuaid") && says("pdfaProperty:name", "part") &&
                    says("pdfaProperty:valueType", "Integer") &&
                    says("pdfaProperty:category", "internal"),
                "6.6.2.3", "pdfuaid is not described by an extension schema");
    }

    void check_info(const std::string& xmp) {
        QPDFObjectHandle info = file_.getTrailer().getKey("/Info");
        if (!info.isDictionary()) {
            return;
        }
        const std::map<std::string, std::pair<const char*, const char*>> twins{
            {"/Title", {"<dc:title>", "\"x-default\">"}},
            {"/Author", {"<dc:creator>", "<rdf:li>"}},
            {"/Subject", {"<dc:description>", "\"x-default\">"}},
            {"/Producer", {"<pdf:Producer", ">"}}};
        for (const auto& [key, where] : twins) {
            if (info.hasKey(key)) {
                require(value_behind(xmp, where.first, where.second) ==
                            xml_escaped(info.getKey(key).getUTF8Value()),
                        "6.6.3", "Info says another " + key + " than XMP");
            }
        }
        if (info.hasKey("/CreationDate")) {
            std::string date = value_behind(xmp, "<xmp:CreateDate", ">");
            std::erase_if(date, [](char c) { return c == '-' || c == ':' || c == 'T'; });
            require(info.getKey("/CreationDate").getUTF8Value() == "D:" + date, "6.6.3",
                    "Info says another date than XMP");
        }
    }

    void check_structure() {
        if (!is_level_a_) {
            return;
        }
        QPDFObjectHandle marks = catalog().getKey("/MarkInfo");
        require(marks.isDictionary() && marks.getKey("/Marked").isBool() &&
                    marks.getKey("/Marked").getBoolValue(),
                "6.7.2", "the file is not marked as tagged");
        require(catalog().getKey("/StructTreeRoot").isDictionary(), "6.7.3",
                "there is no structure tree");
        require(catalog().getKey("/Lang").isString(), "6.7.4", "the file has no language");
    }

    void check_object(QPDFObjectHandle object) {
        QPDFObjectHandle dictionary = object.isStream() ? object.getDict() : object;
        if (object.isStream()) {
            check_stream(dictionary);
        }
        if (!dictionary.isDictionary()) {
            return;
        }
        require(!dictionary.hasKey("/AA"), "6.5.2", "an object has actions of its own");
        static const std::set<std::string> kActions{"/GoTo", "/GoToR", "/GoToE",     "/Thread",
                                                    "/URI",  "/Named", "/SubmitForm"};
        for (const char* key : {"/A", "/OpenAction"}) {
            QPDFObjectHandle action = dictionary.getKey(key);
            if (action.isDictionary() && action.hasKey("/S")) {
                require(kActions.contains(name_of(action, "/S")), "6.5.1",
                        "the action " + name_of(action, "/S") + " is not allowed");
            }
        }
        const std::string subtype = name_of(dictionary, "/Subtype");
        if (subtype == "/Type0") {
            check_composite_font(dictionary);
        }
        require(!dictionary.hasKey("/CIDSet"), "6.2.11.4.2",
                "a CIDSet has to be complete, and none is written");
        require(!dictionary.hasKey("/SMask") && !dictionary.hasKey("/ca") &&
                    !dictionary.hasKey("/CA") && !dictionary.hasKey("/BM"),
                "6.2.10", "the file has transparency");
        for (const std::string& key : dictionary.getKeys()) {
            QPDFObjectHandle value = dictionary.getKey(key);
            require(key.size() <= 128, "6.1.13", "a name is longer than 127 bytes");
            require(!value.isString() || value.getStringValue().size() <= 32767, "6.1.13",
                    "a string is longer than 32767 bytes");
        }
    }

    void check_stream(QPDFObjectHandle dictionary) {
        require(!dictionary.hasKey("/F") && !dictionary.hasKey("/FFilter"), "6.1.7.1",
                "a stream lies outside of the file");
        require(dictionary.getKey("/Filter").unparse().find("LZW") == std::string::npos, "6.1.7.2",
                "a stream is compressed with LZW");
        const std::string subtype = name_of(dictionary, "/Subtype");
        require(subtype != "/PS" && !dictionary.hasKey("/Ref") && !dictionary.hasKey("/OPI"),
                "6.2.9", "a form XObject leads out of the file");
    }

    void check_composite_font(QPDFObjectHandle font) {
        QPDFObjectHandle encoding = font.getKey("/Encoding");
        QPDFObjectHandle of_font =
            font.getKey("/DescendantFonts").getArrayItem(0).getKey("/CIDSystemInfo");
        if (!encoding.isStream()) {
            require(name_of(font, "/Encoding") == "/Identity-H", "6.2.11.3.3",
                    "a CMap is neither embedded nor known to all");
            return;
        }
        QPDFObjectHandle of_map = encoding.getDict().getKey("/CIDSystemInfo");
        const auto same = [&](const char* key) {
            return of_map.getKey(key).unparse() == of_font.getKey(key).unparse();
        };
        require(of_map.isDictionary() && same("/Registry") && same("/Ordering"), "6.2.11.3.1",
                "a CMap and its font are of different collections");
        const std::string cmap = data_of(encoding);
        const bool vertical = cmap.find("/WMode 1") != std::string::npos;
        QPDFObjectHandle mode = encoding.getDict().getKey("/WMode");
        require(vertical == (mode.isInteger() && mode.getIntValueAsInt() == 1), "6.2.11.3.3",
                "a CMap is of two minds about its direction");
        require(!encoding.getDict().hasKey("/UseCMap") && cmap.find("usecmap") == std::string::npos,
                "6.2.11.3.3", "a CMap refers to another");
    }

    void check_page(QPDFObjectHandle page) {
        require(!page.hasKey("/Group"), "6.2.10", "a page has a transparency group");
        require(page.getKey("/Resources").isDictionary(), "6.2.2", "a page has no resources");
        require(!page.hasKey("/PresSteps"), "6.10", "a page has other presentations");
        Nesting nesting;
        QPDFPageObjectHelper(page).parseContents(&nesting);
        require(nesting.deepest <= 28, "6.1.13", "q is nested more than 28 deep");
        QPDFObjectHandle annotations = page.getKey("/Annots");
        if (annotations.isArray()) {
            for (QPDFObjectHandle annotation : annotations.getArrayAsVector()) {
                check_annotation(annotation);
            }
        }
    }

    void check_annotation(QPDFObjectHandle annotation) {
        static const std::set<std::string> kForbidden{"/3D", "/Sound", "/Screen", "/Movie"};
        const std::string subtype = name_of(annotation, "/Subtype");
        require(!subtype.empty() && !kForbidden.contains(subtype), "6.3.1",
                "the annotation " + subtype + " is not allowed");
        QPDFObjectHandle flags = annotation.getKey("/F");
        const int value = flags.isInteger() ? flags.getIntValueAsInt() : 0;
        // Print; not Invisible, Hidden, NoView, ToggleNoView.
        require((value & 4) != 0 && (value & (1 | 2 | 32 | 256)) == 0, "6.3.2",
                "an annotation is not printed as it is seen");
        const bool needs_none = subtype == "/Link" || subtype == "/Popup";
        require(needs_none || annotation.hasKey("/AP"), "6.3.3", "an annotation has no appearance");
    }

    const std::string& bytes_;
    QPDF file_;
    std::vector<ClauseFailure> failures_;
    bool is_level_a_ = false;
};

} // namespace

std::vector<ClauseFailure> check_pdf_a(const std::string& bytes) {
    return ArchiveChecker(bytes).check();
}

std::vector<std::string> failed_archive_clauses(const std::string& bytes) {
    std::set<std::string> clauses;
    for (const ClauseFailure& failure : check_pdf_a(bytes)) {
        clauses.insert(failure.clause);
    }
    return {clauses.begin(), clauses.end()};
}

} // namespace tickleaf::testing
