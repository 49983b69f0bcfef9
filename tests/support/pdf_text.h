// SPDX-License-Identifier: MIT
// An independent reader of finished PDF files (libqpdf): what a copy, a search or a screen reader
// would get. Content -> codes -> ToUnicode or ActualText -> text by page and by structure element.
// Shapes: text inside /ReversedChars is turned round; U+200B and bidi controls are dropped,
// lam-alef presentation forms are taken apart, so that texts compare with what was written. Errors:
// throws std::runtime_error on a file it cannot make sense of. Source: ISO
// 32000-1:2008, 9.10, 14.6-14.9.
#pragma once

#include <map>
#include <memory>
#include <set>
#include <string>
#include <vector>

#include <qpdf/QPDF.hh>

namespace tickleaf::testing {

/// A stretch of page content between BDC and EMC (or outside of all).
struct MarkedText {
    int mcid = -1;
    bool is_artifact = false;
    bool has_content = false; ///< text, paths, forms
    std::string tag;
    std::string language; ///< of an enclosing Span, if any
    std::string text;     ///< logical order, UTF-8
};

/// What a page's content says, and what is wrong with its marks.
struct PageText {
    std::vector<MarkedText> marked;
    std::vector<std::string> mark_errors;
    std::map<std::string, std::set<unsigned>> codes; ///< used codes by font resource name
    std::string text() const;                        ///< all but artifacts
    std::string artifact_text() const;
};

/// An element of the structure tree.
struct StructureElement {
    std::string role;
    std::string language;
    std::string alternative;
    QPDFObjectHandle object;
    /// Text and children in order: a kid is either text (child == npos) or an element.
    struct Kid {
        std::string text;
        std::shared_ptr<StructureElement> element;
        bool is_object_reference = false;
    };
    std::vector<Kid> kids;
    /// All text below, elements of block kind separated by a line feed.
    std::string text() const;
};

class PdfReader {
  public:
    explicit PdfReader(const std::string& bytes);
    QPDF& file() { return file_; }
    const std::vector<PageText>& pages() const { return pages_; }
    /// The tree's first element, or nothing.
    std::shared_ptr<StructureElement> structure();
    const std::vector<std::string>& warnings() const { return warnings_; }

  private:
    std::shared_ptr<StructureElement> read_element(QPDFObjectHandle element, int depth);
    void read_kid(StructureElement& element, QPDFObjectHandle kid, QPDFObjectHandle page,
                  int depth);
    std::string marked_text(QPDFObjectHandle page, int mcid) const;

    std::string bytes_;
    QPDF file_;
    std::vector<PageText> pages_;
    std::vector<std::string> warnings_;
    std::map<QPDFObjGen, std::size_t> page_index_;
};

/// A text as a reader gives it back: controls dropped, presentation forms of lam-alef taken apart.
std::string as_copied(const std::string& utf8);

} // namespace tickleaf::testing
