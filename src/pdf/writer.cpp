// SPDX-License-Identifier: MIT
#include "pdf/writer.h"

#include <vector>

#include "pdf/content_stream.h"
#include "pdf/document_check.h"
#include "pdf/font_codes.h"
#include "pdf/font_objects.h"
#include "pdf/metadata.h"
#include "pdf/objects.h"
#include "pdf/page_content.h"
#include "pdf/pictures.h"
#include "pdf/structure.h"

namespace tickleaf::pdf {

namespace {

void add_forms(Objects& objects, const SharedDrawings& drawings, Dict forms) {
    for (const page::Drawing* drawing : drawings.all()) {
        ContentStream stream;
        paint_drawing(stream, *drawing);
        Dict form = objects.stream(stream.finish(), Packing::Deflate);
        // Strokes may reach past the drawing's own box by their width.
        const double margin = 20.0;
        form.name("Type", "XObject")
            .name("Subtype", "Form")
            .put("BBox", objects.array()
                             .number(-margin)
                             .number(-margin)
                             .number(drawing->width + margin)
                             .number(drawing->height + margin))
            .put("Resources", objects.dict());
        forms.put(drawings.name(drawing).c_str(), form);
    }
}

class DocumentWriter {
  public:
    DocumentWriter(const page::Document& document, support::Findings& findings)
        : document_(document),
          findings_(findings),
          drawings_(document),
          pictures_(document),
          languages_(tag_languages(document)) {
        for (const page::Font& font : document.fonts) {
            fonts_.emplace_back(font);
        }
    }

    std::optional<std::string> write() {
        const bool claim = may_claim_accessibility(document_, findings_);
        write_metadata(objects_, document_, claim);
        write_pages();
        write_structure(objects_, document_, pages_);
        std::vector<Dict> page_objects;
        for (const WrittenPage& page : pages_) {
            page_objects.push_back(page.object);
        }
        write_outline(objects_, document_, page_objects);
        resources_.put("Font", font_resources(objects_, fonts_));
        if (!drawings_.all().empty() || !pictures_.all().empty()) {
            Dict outside = objects_.dict();
            add_forms(objects_, drawings_, outside);
            add_pictures(objects_, pictures_, outside);
            resources_.put("XObject", outside);
        }
        return findings_.has_errors() ? std::nullopt : save();
    }

  private:
    void write_pages() {
        resources_ = objects_.indirect_dict();
        const ContentContext context{document_, drawings_,  pictures_,
                                     fonts_,    languages_, findings_};
        for (const page::Page& page : document_.pages) {
            WrittenPage written;
            written.content = write_page(page, context);
            written.object = objects_.add_page();
            written.object
                .put("MediaBox",
                     objects_.array().integer(0).integer(0).number(page.width).number(page.height))
                .put("Resources", resources_)
                .put("Contents", objects_.stream(written.content.stream, Packing::Deflate))
                .name("Tabs", "S");
            written.content.stream.clear();
            pages_.push_back(std::move(written));
        }
    }

    std::optional<std::string> save() {
        std::optional<std::string> bytes = objects_.save();
        if (!bytes) {
            findings_.error({}, "pdf-limit",
                            "the PDF could not be made: " +
                                objects_.problem().value_or("unknown reason"),
                            "make the document smaller");
        }
        return bytes;
    }

    const page::Document& document_;
    support::Findings& findings_;
    Objects objects_;
    SharedDrawings drawings_;
    Pictures pictures_;
    std::vector<std::string> languages_;
    std::vector<FontCodes> fonts_;
    std::vector<WrittenPage> pages_;
    Dict resources_;
};

} // namespace

std::optional<std::string> write(const page::Document& document, support::Findings& findings) {
    if (!is_writable(document, findings)) {
        return std::nullopt;
    }
    support::Findings own;
    std::optional<std::string> bytes = DocumentWriter(document, own).write();
    for (const support::Finding& finding : own.sorted()) {
        findings.add(finding);
    }
    return bytes;
}

} // namespace tickleaf::pdf
