// SPDX-License-Identifier: MIT
#include "tests/support/pdf_check.h"

#include <cmath>
#include <cstdint>
#include <optional>

#include "tests/support/pdf_cmap.h"

namespace tickleaf::testing {

namespace {

std::string data_of(QPDFObjectHandle stream) {
    const auto buffer = stream.getStreamData();
    return std::string(reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize());
}

unsigned big_endian(const std::string& bytes, std::size_t at, std::size_t count) {
    unsigned value = 0;
    for (std::size_t i = 0; i < count; ++i) {
        value = value << 8U | static_cast<unsigned char>(bytes.at(at + i));
    }
    return value;
}

/// Advance widths straight from a TrueType program (tables head, hhea, hmtx).
class TrueTypeWidths {
  public:
    explicit TrueTypeWidths(const std::string& program) : program_(program) {
        const unsigned tables = big_endian(program_, 4, 2);
        for (unsigned i = 0; i < tables; ++i) {
            const std::size_t entry = 12 + 16U * i;
            offsets_[program_.substr(entry, 4)] = big_endian(program_, entry + 8, 4);
        }
        units_ = big_endian(program_, offsets_.at("head") + 18, 2);
        count_ = big_endian(program_, offsets_.at("hhea") + 34, 2);
        glyphs_ = big_endian(program_, offsets_.at("maxp") + 4, 2);
    }
    bool has(unsigned glyph) const { return glyph < glyphs_; }
    double width(unsigned glyph) const {
        const unsigned row = glyph < count_ ? glyph : count_ - 1;
        return 1000.0 * big_endian(program_, offsets_.at("hmtx") + 4U * row, 2) / units_;
    }

  private:
    const std::string& program_;
    std::map<std::string, std::size_t> offsets_;
    unsigned units_ = 0, count_ = 0, glyphs_ = 0;
};

std::map<unsigned, double> widths_of(QPDFObjectHandle cid_font) {
    std::map<unsigned, double> widths;
    auto array = cid_font.getKey("/W").getArrayAsVector();
    for (std::size_t i = 0; i + 1 < array.size();) {
        auto code = static_cast<unsigned>(array[i].getIntValueAsInt());
        QPDFObjectHandle second = array[i + 1];
        if (second.isArray()) {
            for (QPDFObjectHandle width : second.getArrayAsVector()) {
                widths[code++] = width.getNumericValue();
            }
            i += 2;
        } else {
            for (; code <= static_cast<unsigned>(second.getIntValueAsInt()); ++code) {
                widths[code] = array.at(i + 2).getNumericValue();
            }
            i += 3;
        }
    }
    return widths;
}

class FontChecker {
  public:
    FontChecker(QPDFObjectHandle font, const std::set<unsigned>& codes,
                std::vector<ClauseFailure>& failures)
        : font_(font),
          cid_font_(font.getKey("/DescendantFonts").getArrayItem(0)),
          codes_(codes),
          failures_(failures) {}

    void check() {
        check_to_unicode();
        QPDFObjectHandle descriptor = cid_font_.getKey("/FontDescriptor");
        const bool true_type = cid_font_.getKey("/Subtype").getName() == "/CIDFontType2";
        QPDFObjectHandle program = descriptor.getKey(true_type ? "/FontFile2" : "/FontFile3");
        require(program.isStream(), "7.21.4.1-1", "the font program is not embedded");
        require(!codes_.contains(0), "7.21.8-1", ".notdef is shown");
        if (true_type && program.isStream()) {
            check_true_type(data_of(program));
        }
    }

  private:
    void require(bool condition, const char* clause, const std::string& message) {
        if (!condition) {
            failures_.push_back({clause, font_.getKey("/BaseFont").getName() + ": " + message});
        }
    }

    void check_to_unicode() {
        QPDFObjectHandle cmap = font_.getKey("/ToUnicode");
        require(cmap.isStream(), "7.21.7-1", "there is no ToUnicode map");
        if (!cmap.isStream()) {
            return;
        }
        const auto map = read_to_unicode(data_of(cmap));
        for (const unsigned code : codes_) {
            const auto text = map.find(code);
            require(text != map.end() && !text->second.empty(), "7.21.7-1",
                    "code " + std::to_string(code) + " has no text");
            if (text != map.end()) {
                const bool bad = text->second.find('\0') != std::string::npos ||
                                 text->second.find("\xEF\xBB\xBF") != std::string::npos ||
                                 text->second.find("\xEF\xBF\xBE") != std::string::npos;
                require(!bad, "7.21.7-2",
                        "code " + std::to_string(code) + " maps to 0, FEFF or FFFE");
            }
        }
    }

    void check_true_type(const std::string& program) {
        QPDFObjectHandle map = cid_font_.getKey("/CIDToGIDMap");
        require(map.isStream() || map.isName(), "7.21.3.2-1", "there is no CIDToGIDMap");
        if (!map.isStream()) {
            return;
        }
        const std::string glyphs = data_of(map);
        const TrueTypeWidths true_widths(program);
        const auto widths = widths_of(cid_font_);
        const Encoding encoding = read_encoding(font_.getKey("/Encoding"));
        for (const unsigned code : codes_) {
            const unsigned cid = encoding.cid(code);
            const unsigned glyph =
                2U * cid + 1U < glyphs.size() ? big_endian(glyphs, 2U * cid, 2) : 0U;
            require(glyph != 0, "7.21.8-1", "code " + std::to_string(code) + " leads to .notdef");
            require(true_widths.has(glyph), "7.21.4.1-2",
                    "code " + std::to_string(code) + " leads to no glyph");
            const auto width = widths.find(cid);
            const double stated = width == widths.end() ? 1000.0 : width->second;
            require(std::abs(stated - true_widths.width(glyph)) <= 1.0, "7.21.5-1",
                    "code " + std::to_string(code) + " has another width than its glyph");
        }
    }

    QPDFObjectHandle font_;
    QPDFObjectHandle cid_font_;
    const std::set<unsigned>& codes_;
    std::vector<ClauseFailure>& failures_;
};

} // namespace

void check_fonts(PdfReader& reader, std::vector<ClauseFailure>& failures) {
    std::map<QPDFObjGen, std::set<unsigned>> used;
    const auto pages = reader.file().getAllPages();
    for (std::size_t i = 0; i < pages.size(); ++i) {
        QPDFObjectHandle page = pages[i];
        for (const auto& [name, codes] : reader.pages().at(i).codes) {
            QPDFObjectHandle font = page.getKey("/Resources").getKey("/Font").getKey(name);
            if (!font.isDictionary()) {
                failures.push_back({"7.21.4.1-1", "font " + name + " is not in the resources"});
                continue;
            }
            used[font.getObjGen()].insert(codes.begin(), codes.end());
        }
    }
    for (const auto& [id, codes] : used) {
        FontChecker(reader.file().getObjectByObjGen(id), codes, failures).check();
    }
}

} // namespace tickleaf::testing
