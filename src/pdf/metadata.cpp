// SPDX-License-Identifier: MIT
#include "pdf/metadata.h"

#include <algorithm>
#include <optional>

#include "pdf/colour_profile.h"
#include "pdf/text_string.h"

namespace tickleaf::pdf {

namespace {

constexpr const char* kProducer = "Tickleaf";

/// PDF/A knows nothing of PDF/UA's identifier, so the file has to say what it is (ISO 19005-2:2011,
/// 6.6.2.3).
constexpr const char* kExtensionSchema =
    "<pdfaExtension:schemas xmlns:pdfaExtension=\"http://www.aiim.org/pdfa/ns/extension/\" "
    "xmlns:pdfaSchema=\"http://www.aiim.org/pdfa/ns/schema#\" "
    "xmlns:pdfaProperty=\"http://www.aiim.org/pdfa/ns/property#\">"
    "<rdf:Bag><rdf:li rdf:parseType=\"Resource\">"
    "<pdfaSchema:schema>PDF/UA identification</pdfaSchema:schema>"
    "<pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>"
    "<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>"
    "<pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType=\"Resource\">"
    "<pdfaProperty:name>part</pdfaProperty:name>"
    "<pdfaProperty:valueType>Integer</pdfaProperty:valueType>"
    "<pdfaProperty:category>internal</pdfaProperty:category>"
    "<pdfaProperty:description>Part of ISO 14289</pdfaProperty:description>"
    "</rdf:li></rdf:Seq></pdfaSchema:property></rdf:li></rdf:Bag></pdfaExtension:schemas>\n";

/// "2026-03-02" without its dashes, or nothing where the date is not of that form.
std::optional<std::string> compact_date(const page::Document& document) {
    if (!document.date || document.date->size() != 10) {
        return std::nullopt;
    }
    std::string digits = *document.date;
    std::erase(digits, '-');
    const bool good = digits.size() == 8 && std::all_of(digits.begin(), digits.end(), [](char c) {
                          return c >= '0' && c <= '9';
                      });
    return good ? std::optional(digits) : std::nullopt;
}

void write_info(Objects& objects, const page::Document& document) {
    Dict info = objects.info();
    info.ascii("Producer", kProducer);
    if (!document.title.empty()) {
        info.text("Title", spoken(document.title));
    }
    if (!document.author.empty()) {
        info.text("Author", spoken(document.author));
    }
    if (!document.subject.empty()) {
        info.text("Subject", spoken(document.subject));
    }
    if (const auto date = compact_date(document)) {
        info.ascii("CreationDate", "D:" + *date + "000000Z");
    }
}

/// `<name><rdf:Alt><rdf:li xml:lang="x-default">value` and so on.
std::string language_alternative(const std::string& name, const std::string& value) {
    return "<" + name + "><rdf:Alt><rdf:li xml:lang=\"x-default\">" + xml_escaped(spoken(value)) +
           "</rdf:li></rdf:Alt></" + name + ">\n";
}

void write_preferences(Objects& objects, const page::Document& document) {
    Dict preferences = objects.dict();
    preferences.boolean("DisplayDocTitle", true);
    if (document.right_to_left) {
        preferences.name("Direction", "R2L");
    }
    if (document.no_print_scaling) {
        preferences.name("PrintScaling", "None");
    }
    if (document.duplex_short_edge) {
        preferences.name("Duplex", "DuplexFlipShortEdge");
    }
    objects.catalog().put("ViewerPreferences", preferences);
}

/// All colours are sRGB; said once for the whole file.
void write_output_intent(Objects& objects) {
    Dict profile = objects.stream(srgb_profile(), Packing::Deflate).integer("N", 3);
    Dict intent = objects.dict();
    intent.name("Type", "OutputIntent")
        .name("S", "GTS_PDFA1")
        .ascii("OutputConditionIdentifier", kColourProfileName)
        .put("DestOutputProfile", profile);
    objects.catalog().put("OutputIntents", objects.array().put(intent));
}

class OutlineWriter {
  public:
    OutlineWriter(Objects& objects, const page::Document& document, const std::vector<Dict>& pages)
        : objects_(objects), document_(document), pages_(pages) {}

    void write() {
        for (const page::OutlineEntry& entry : document_.outline) {
            items_.push_back(make_item(entry));
        }
        Dict root = objects_.indirect_dict();
        root.name("Type", "Outlines");
        write_children(root, 0, items_.size());
        objects_.catalog().put("Outlines", root);
    }

  private:
    Dict make_item(const page::OutlineEntry& entry) {
        Dict item = objects_.indirect_dict();
        const double y = document_.pages[entry.page].height - entry.y;
        item.text("Title", spoken(entry.title))
            .put("Dest", objects_.array()
                             .put(pages_[entry.page])
                             .name("XYZ")
                             .integer(0)
                             .number(y)
                             .integer(0));
        return item;
    }

    /// Entries [begin, end) hang below `parent`; the next entry of the same or a higher level ends
    /// a branch.
    void write_children(Dict parent, std::size_t begin, std::size_t end) {
        Dict previous;
        for (std::size_t i = begin; i < end;) {
            std::size_t next = i + 1;
            while (next < end && document_.outline[next].level > document_.outline[i].level) {
                ++next;
            }
            items_[i].put("Parent", parent);
            if (previous.is_null()) {
                parent.put("First", items_[i]);
            } else {
                items_[i].put("Prev", previous);
                previous.put("Next", items_[i]);
            }
            if (next > i + 1) {
                write_children(items_[i], i + 1, next);
            }
            previous = items_[i];
            i = next;
        }
        parent.put("Last", previous).integer("Count", static_cast<std::int64_t>(end - begin));
    }

    Objects& objects_;
    const page::Document& document_;
    const std::vector<Dict>& pages_;
    std::vector<Dict> items_;
};

} // namespace

std::string xmp_packet(const page::Document& document, bool claims_accessibility) {
    std::string xmp =
        "<?xpacket begin=\"\xEF\xBB\xBF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
        "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n"
        "<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n"
        "<rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\" "
        "xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\" xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\"";
    xmp += " xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\"";
    xmp += claims_accessibility ? " xmlns:pdfuaid=\"http://www.aiim.org/pdfua/ns/id/\">\n" : ">\n";
    xmp += language_alternative("dc:title", document.title);
    if (!document.subject.empty()) {
        xmp += language_alternative("dc:description", document.subject);
    }
    if (!document.author.empty()) {
        xmp += "<dc:creator><rdf:Seq><rdf:li>" + xml_escaped(spoken(document.author)) +
               "</rdf:li></rdf:Seq></dc:creator>\n";
    }
    if (!document.language.empty()) {
        xmp += "<dc:language><rdf:Bag><rdf:li>" + xml_escaped(spoken(document.language)) +
               "</rdf:li></rdf:Bag></dc:language>\n";
    }
    xmp += std::string("<pdf:Producer>") + kProducer + "</pdf:Producer>\n";
    if (compact_date(document)) {
        xmp += "<xmp:CreateDate>" + *document.date + "T00:00:00Z</xmp:CreateDate>\n";
    }
    xmp += "<pdfaid:part>2</pdfaid:part><pdfaid:conformance>";
    xmp += claims_accessibility ? "A" : "U";
    xmp += "</pdfaid:conformance>\n";
    if (claims_accessibility) {
        xmp += std::string("<pdfuaid:part>1</pdfuaid:part>\n") + kExtensionSchema;
    }
    return xmp + "</rdf:Description>\n</rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"r\"?>";
}

void write_metadata(Objects& objects, const page::Document& document, bool claims_accessibility) {
    write_info(objects, document);
    write_preferences(objects, document);
    Dict catalog = objects.catalog();
    if (is_language_tag(document.language)) {
        catalog.ascii("Lang", document.language);
    }
    // Deflated, which PDF/A-1 forbade and PDF/A-2 no longer does: 1.2 kB of 72.
    catalog.put("Metadata",
                objects.stream(xmp_packet(document, claims_accessibility), Packing::Deflate)
                    .name("Type", "Metadata")
                    .name("Subtype", "XML"));
    write_output_intent(objects);
    Array labels = objects.array();
    labels.integer(0).put(objects.dict().name("S", "D"));
    catalog.put("PageLabels", objects.dict().put("Nums", labels));
}

void write_outline(Objects& objects, const page::Document& document,
                   const std::vector<Dict>& pages) {
    if (!document.outline.empty()) {
        OutlineWriter(objects, document, pages).write();
    }
}

} // namespace tickleaf::pdf
