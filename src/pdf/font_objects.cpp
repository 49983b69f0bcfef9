// SPDX-License-Identifier: MIT
#include "pdf/font_objects.h"

#include <cmath>

#include "pdf/text_string.h"

namespace tickleaf::pdf {

namespace {

using Entries = std::vector<FontCodes::Entry>;

/// Ranges of one bfrange section, as the CMap format limits it.
constexpr std::size_t kRangesPerSection = 100;
constexpr int kSymbolic = 4;
constexpr int kForceBold = 1 << 18;

std::string big_endian(std::uint32_t value) {
    return {static_cast<char>(static_cast<unsigned char>(value >> 8U)),
            static_cast<char>(static_cast<unsigned char>(value))};
}

/// Entries [begin, end) have consecutive codes with the same high byte.
std::size_t range_end(const Entries& entries, std::size_t begin) {
    std::size_t end = begin + 1;
    while (end < entries.size() && entries[end].code == entries[end - 1].code + 1 &&
           entries[end].code >> 8U == entries[begin].code >> 8U) {
        ++end;
    }
    return end;
}

std::string range_line(const Entries& entries, std::size_t begin, std::size_t end) {
    std::string line = "<" + hex(big_endian(entries[begin].code)) + "><" +
                       hex(big_endian(entries[end - 1].code)) + ">[";
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

Dict cid_font(Objects& objects, const page::Font& font, const Entries& entries,
              const std::string& name) {
    const bool cff = font.kind == page::Font::Kind::CffCid;
    Dict made = objects.indirect_dict();
    made.name("Type", "Font")
        .name("Subtype", cff ? "CIDFontType0" : "CIDFontType2")
        .name("BaseFont", name)
        .put("CIDSystemInfo", objects.dict()
                                  .ascii("Registry", "Adobe")
                                  .ascii("Ordering", "Identity")
                                  .integer("Supplement", 0))
        .put("FontDescriptor", descriptor(objects, font, name))
        .put("W", widths(objects, entries));
    if (!cff) {
        std::string map(2, '\0');
        for (const FontCodes::Entry& entry : entries) {
            map += big_endian(entry.subset);
        }
        made.put("CIDToGIDMap", objects.stream(map, Packing::Deflate));
    }
    return made;
}

Dict font_object(Objects& objects, const FontCodes& codes) {
    const Entries entries = codes.entries();
    const page::Font& font = codes.font();
    const std::string name = subset_tag(entries) + "+" + font.postscript_name;
    return objects.indirect_dict()
        .name("Type", "Font")
        .name("Subtype", "Type0")
        .name("BaseFont", name)
        .name("Encoding", "Identity-H")
        .put("DescendantFonts", objects.array().put(cid_font(objects, font, entries, name)))
        .put("ToUnicode", objects.stream(to_unicode_map(entries), Packing::Deflate));
}

} // namespace

std::string to_unicode_map(const Entries& entries) {
    std::vector<std::string> lines;
    for (std::size_t begin = 0; begin < entries.size();) {
        const std::size_t end = range_end(entries, begin);
        lines.push_back(range_line(entries, begin, end));
        begin = end;
    }
    std::string map = "/CIDInit/ProcSet findresource begin\n12 dict begin\nbegincmap\n"
                      "/CIDSystemInfo<</Registry(Adobe)/Ordering(UCS)/Supplement 0>>def\n"
                      "/CMapName/Adobe-Identity-UCS def\n/CMapType 2 def\n"
                      "1 begincodespacerange\n<0000><FFFF>\nendcodespacerange\n";
    for (std::size_t i = 0; i < lines.size(); i += kRangesPerSection) {
        const std::size_t end = std::min(lines.size(), i + kRangesPerSection);
        map += std::to_string(end - i) + " beginbfrange\n";
        for (std::size_t line = i; line < end; ++line) {
            map += lines[line];
        }
        map += "endbfrange\n";
    }
    return map + "endcmap\nCMapName currentdict/CMap defineresource pop\nend\nend\n";
}

Dict font_resources(Objects& objects, const std::vector<FontCodes>& fonts) {
    Dict resources = objects.dict();
    for (std::size_t i = 0; i < fonts.size(); ++i) {
        if (!fonts[i].is_empty()) {
            resources.put(("F" + std::to_string(i)).c_str(), font_object(objects, fonts[i]));
        }
    }
    return resources;
}

} // namespace tickleaf::pdf
