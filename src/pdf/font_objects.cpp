// SPDX-License-Identifier: MIT
#include "pdf/font_objects.h"

#include <algorithm>
#include <cmath>

#include "pdf/text_string.h"

namespace tickleaf::pdf {

namespace {

using Entries = std::vector<FontCodes::Entry>;

/// Ranges of one bfrange section, as the CMap format limits it.
constexpr std::size_t kRangesPerSection = 100;
constexpr const char* kMapEnd = "endcmap\nCMapName currentdict/CMap defineresource pop\nend\nend\n";
constexpr int kSymbolic = 4;
constexpr int kForceBold = 1 << 18;

std::string big_endian(std::uint32_t value) {
    return {static_cast<char>(static_cast<unsigned char>(value >> 8U)),
            static_cast<char>(static_cast<unsigned char>(value))};
}

std::string code_string(WrittenCode code) {
    return "<" + hex(std::string_view(big_endian(code.value)).substr(code.length == 1 ? 1 : 0)) +
           ">";
}

/// The code is the character's own value: nearly all codes of Latin fonts.
bool is_own_value(const FontCodes& codes, const FontCodes::Entry& entry) {
    return codes.is_short() && entry.text.size() == 1 && entry.text[0] == entry.code &&
           entry.code < kFirstTwoByte;
}

/// Entries [begin, end) are characters under their own values (codes that are not used may lie
/// between them), or have consecutive codes of one length with the same high byte.
std::size_t range_end(const FontCodes& codes, const Entries& entries, std::size_t begin) {
    const WrittenCode first = codes.written(entries[begin].code);
    std::size_t end = begin + 1;
    while (is_own_value(codes, entries[begin]) && end < entries.size() &&
           is_own_value(codes, entries[end])) {
        ++end;
    }
    for (; end < entries.size() && !is_own_value(codes, entries[begin]); ++end) {
        const WrittenCode next = codes.written(entries[end].code);
        if (entries[end].code != entries[end - 1].code + 1 || next.length != first.length ||
            next.value >> 8U != first.value >> 8U) {
            break;
        }
    }
    return end;
}

std::string range_line(const FontCodes& codes, const Entries& entries, std::size_t begin,
                       std::size_t end) {
    std::string line = code_string(codes.written(entries[begin].code)) +
                       code_string(codes.written(entries[end - 1].code));
    if (is_own_value(codes, entries[begin])) {
        return line + "<" + hex(utf16be(entries[begin].text)) + ">\n";
    }
    line.push_back('[');
    for (std::size_t i = begin; i < end; ++i) {
        line += "<" + hex(utf16be(entries[i].text)) + ">";
    }
    return line + "]\n";
}

/// Six capital letters that tell this subset from others of the same font.
std::string subset_tag(const Entries& entries) {
    std::uint64_t hash = 0xcbf29ce484222325ULL;
    for (const FontCodes::Entry& entry : entries) {
        hash = (hash ^ entry.subset) * 0x100000001b3ULL;
        for (const char32_t c : entry.text) {
            hash = (hash ^ c) * 0x100000001b3ULL;
        }
    }
    std::string tag;
    for (int i = 0; i < 6; ++i) {
        tag.push_back(static_cast<char>('A' + hash % 26U));
        hash /= 26U;
    }
    return tag;
}

Array widths(Objects& objects, const Entries& entries) {
    Array all = objects.array();
    for (std::size_t begin = 0; begin < entries.size();) {
        std::size_t end = begin + 1;
        while (end < entries.size() && entries[end].code == entries[end - 1].code + 1 &&
               end - begin < kArrayChunk) {
            ++end;
        }
        Array row = objects.array();
        for (std::size_t i = begin; i < end; ++i) {
            row.integer(entries[i].width);
        }
        all.integer(entries[begin].code).put(row);
        begin = end;
    }
    return all;
}

Dict program_stream(Objects& objects, const page::Font& font) {
    std::string bytes(font.program.size(), '\0');
    for (std::size_t i = 0; i < bytes.size(); ++i) {
        bytes[i] = static_cast<char>(font.program[i]);
    }
    Dict stream = objects.stream(bytes, Packing::Deflate);
    if (font.kind == page::Font::Kind::CffCid) {
        stream.name("Subtype", "CIDFontType0C");
    } else {
        stream.integer("Length1", static_cast<std::int64_t>(bytes.size()));
    }
    return stream;
}

Dict descriptor(Objects& objects, const page::Font& font, const std::string& name) {
    const double unit = 1000.0 / font.units_per_em;
    Dict made = objects.indirect_dict();
    made.name("Type", "FontDescriptor")
        .name("FontName", name)
        .integer("Flags", font.bold ? kSymbolic | kForceBold : kSymbolic)
        .put("FontBBox", objects.array()
                             .integer(std::llround(font.x_min * unit))
                             .integer(std::llround(font.y_min * unit))
                             .integer(std::llround(font.x_max * unit))
                             .integer(std::llround(font.y_max * unit)))
        .number("ItalicAngle", font.italic_angle)
        .integer("Ascent", std::llround(font.ascent * unit))
        .integer("Descent", std::llround(font.descent * unit))
        .integer("CapHeight", std::llround(font.cap_height * unit))
        .integer("StemV", std::llround(font.stem_v));
    const bool cff = font.kind == page::Font::Kind::CffCid;
    made.put(cff ? "FontFile3" : "FontFile2", program_stream(objects, font));
    return made;
}

Dict identity_collection(Objects& objects) {
    return objects.dict()
        .ascii("Registry", "Adobe")
        .ascii("Ordering", "Identity")
        .integer("Supplement", 0);
}

Dict cid_font(Objects& objects, const page::Font& font, const Entries& entries,
              const std::string& name) {
    const bool cff = font.kind == page::Font::Kind::CffCid;
    Dict made = objects.indirect_dict();
    made.name("Type", "Font")
        .name("Subtype", cff ? "CIDFontType0" : "CIDFontType2")
        .name("BaseFont", name)
        .put("CIDSystemInfo", identity_collection(objects))
        .put("FontDescriptor", descriptor(objects, font, name))
        .put("W", widths(objects, entries));
    if (!cff) {
        std::string map(2 * (std::size_t{entries.back().code} + 1), '\0');
        for (const FontCodes::Entry& entry : entries) {
            map.replace(2 * std::size_t{entry.code}, 2, big_endian(entry.subset));
        }
        made.put("CIDToGIDMap", objects.stream(map, Packing::Deflate));
    }
    return made;
}

Dict font_object(Objects& objects, const FontCodes& codes, Dict short_coding) {
    const Entries entries = codes.entries();
    const page::Font& font = codes.font();
    const std::string name = subset_tag(entries) + "+" + font.postscript_name;
    Dict made = objects.indirect_dict();
    made.name("Type", "Font")
        .name("Subtype", "Type0")
        .name("BaseFont", name)
        .put("DescendantFonts", objects.array().put(cid_font(objects, font, entries, name)))
        .put("ToUnicode", objects.stream(to_unicode_map(codes), Packing::Deflate));
    return codes.is_short() ? made.put("Encoding", short_coding)
                            : made.name("Encoding", "Identity-H");
}

constexpr const char* kShortCoding = "Tickleaf-Short-H";
constexpr const char* kShortRanges = "2 begincodespacerange\n<20><FF>\n<0100><1FFF>\n";
constexpr const char* kLongRange = "1 begincodespacerange\n<0000><FFFF>\n";

/// One for all fonts that use it; nothing where none does.
Dict short_coding(Objects& objects, const std::vector<FontCodes>& fonts) {
    std::uint16_t last = 0;
    for (const FontCodes& codes : fonts) {
        if (codes.is_short() && !codes.is_empty()) {
            last = std::max(last, codes.entries().back().code);
        }
    }
    if (last == 0) {
        return Dict();
    }
    return objects.stream(short_code_map(last), Packing::Deflate)
        .name("Type", "CMap")
        .name("CMapName", kShortCoding)
        .put("CIDSystemInfo", identity_collection(objects));
}

/// A range of the short coding; a code and its number are the same.
std::string number_range(std::uint16_t first, std::uint16_t last, int length) {
    return code_string({first, length}) + code_string({last, length}) + std::to_string(first) +
           "\n";
}

} // namespace

std::string to_unicode_map(const FontCodes& codes) {
    const Entries entries = codes.entries();
    std::vector<std::string> lines;
    for (std::size_t begin = 0; begin < entries.size();) {
        const std::size_t end = range_end(codes, entries, begin);
        lines.push_back(range_line(codes, entries, begin, end));
        begin = end;
    }
    std::string map = "/CIDInit/ProcSet findresource begin\n12 dict begin\nbegincmap\n"
                      "/CIDSystemInfo<</Registry(Adobe)/Ordering(UCS)/Supplement 0>>def\n"
                      "/CMapName/Adobe-Identity-UCS def\n/CMapType 2 def\n";
    map += codes.is_short() ? kShortRanges : kLongRange;
    map += "endcodespacerange\n";
    for (std::size_t i = 0; i < lines.size(); i += kRangesPerSection) {
        const std::size_t end = std::min(lines.size(), i + kRangesPerSection);
        map += std::to_string(end - i) + " beginbfrange\n";
        for (std::size_t line = i; line < end; ++line) {
            map += lines[line];
        }
        map += "endbfrange\n";
    }
    return map + kMapEnd;
}

std::string short_code_map(std::uint16_t last) {
    std::vector<std::string> lines{number_range(kFirstOneByte, kFirstTwoByte - 1, 1)};
    for (std::uint32_t code = kFirstTwoByte; code <= last; code += 256) {
        const auto first = static_cast<std::uint16_t>(code);
        lines.push_back(number_range(first, first | 0xFFU, 2));
    }
    std::string map = "/CIDInit/ProcSet findresource begin\n12 dict begin\nbegincmap\n"
                      "/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>def\n"
                      "/CMapName/" +
                      std::string(kShortCoding) + " def\n/CMapType 1 def\n/WMode 0 def\n";
    map += std::string(kShortRanges) + "endcodespacerange\n" + std::to_string(lines.size()) +
           " begincidrange\n";
    for (const std::string& line : lines) {
        map += line;
    }
    return map + "endcidrange\n" + kMapEnd;
}

Dict font_resources(Objects& objects, const std::vector<FontCodes>& fonts) {
    Dict resources = objects.dict();
    const Dict coding = short_coding(objects, fonts);
    for (std::size_t i = 0; i < fonts.size(); ++i) {
        if (!fonts[i].is_empty()) {
            resources.put(("F" + std::to_string(i)).c_str(),
                          font_object(objects, fonts[i], coding));
        }
    }
    return resources;
}

} // namespace tickleaf::pdf
