// SPDX-License-Identifier: MIT
#include "pdf/structure.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <map>

#include "pdf/object_stream.h"
#include "pdf/structure_box.h"
#include "pdf/text_string.h"

namespace tickleaf::pdf {

namespace {

using Role = page::Tag::Role;
/// Kids that fit a row beside what else an element says.
constexpr std::size_t kShortArray = 8;
constexpr std::size_t kUsualValue = 128;
/// The index of an element in what it is sorted by; a document has fewer than 2^32.
constexpr std::uint64_t kIndexMask = 0xFFFFFFFF;
constexpr std::size_t kNoOrder = std::numeric_limits<std::size_t>::max();

/// A kid of an element, with its place in the reading order of the document.
struct Kid {
    enum class Kind { Element, Marked, Annotation };
    Kind kind = Kind::Element;
    std::size_t order = 0;
    std::size_t page = 0;
    std::size_t number = 0; ///< tag, MCID or index of an annotation
};

const char* scope_name(page::Tag::Scope scope) {
    switch (scope) {
    case page::Tag::Scope::Row:
        return "Row";
    case page::Tag::Scope::Column:
        return "Column";
    case page::Tag::Scope::Both:
        return "Both";
    case page::Tag::Scope::None:
        break;
    }
    return "";
}

class TreeWriter {
  public:
    TreeWriter(Objects& objects, const page::Document& document, std::vector<WrittenPage>& pages)
        : objects_(objects),
          document_(document),
          pages_(pages),
          kids_(document.tags.size()),
          needless_(document.tags.size()),
          boxes_(figure_boxes(document)) {}

    void write() {
        for (std::size_t i = 0; i < pages_.size(); ++i) {
            collect(i);
        }
        if (document_.tags.empty()) {
            return;
        }
        order_kids();
        root_ = objects_.indirect_dict();
        number_elements();
        for (std::size_t i = 0; i < elements_.size(); ++i) {
            if (!needless_[i]) {
                write_element(i);
            }
        }
        write_root();
    }

  private:
    void collect(std::size_t page_number) {
        WrittenPage& page = pages_[page_number];
        Array annotations; // made with the first one: libharu owns arrays only where they are put
        for (const Piece& piece : page.content.pieces) {
            std::size_t number = piece.number;
            if (piece.kind == Piece::Kind::Annotation) {
                number = add_annotation(page_number, piece);
                if (annotations.raw() == nullptr) {
                    annotations = objects_.array();
                    page.object.put("Annots", annotations);
                }
                annotations.put(annotations_[number]);
            }
            const bool marked = piece.kind == Piece::Kind::Marked;
            if (piece.tag != page::kArtifact) {
                kids_[piece.tag].push_back(Kid{marked ? Kid::Kind::Marked : Kid::Kind::Annotation,
                                               order_, page_number, number});
            }
            ++order_;
        }
        if (page.content.marked > 0) {
            page.object.integer("StructParents", static_cast<std::int64_t>(page_number));
        }
    }

    std::size_t add_annotation(std::size_t page_number, const Piece& piece) {
        const page::Page& page = document_.pages[page_number];
        const auto& link = std::get<page::Link>(page.items[piece.number].content);
        Dict made = objects_.indirect_dict();
        made.name("Type", "Annot")
            .name("Subtype", "Link")
            .put("Rect", objects_.array()
                             .number(link.x)
                             .number(page.height - link.y - link.height)
                             .number(link.x + link.width)
                             .number(page.height - link.y))
            .put("Border", objects_.array().integer(0).integer(0).integer(0))
            .integer("F", 4)
            .text("Contents", link.description.empty() ? link.uri : link.description);
        if (link.uri.empty()) {
            const double y = document_.pages[link.page].height - link.target_y;
            Array target = objects_.array();
            target.put(pages_[link.page].object).name("XYZ").integer(0).number(y).integer(0);
            made.put("Dest", target);
        } else {
            made.put("A", objects_.dict().name("S", "URI").ascii("URI", link.uri));
        }
        if (piece.tag != page::kArtifact) {
            made.integer("StructParent",
                         static_cast<std::int64_t>(pages_.size() + annotations_.size()));
        }
        annotations_.push_back(made);
        annotation_tags_.push_back(piece.tag);
        return annotations_.size() - 1;
    }

    /// A Div says nothing but that its kids stand together, which its parent says as well.
    bool is_needless(std::size_t i) const {
        const page::Tag& tag = document_.tags[i];
        return tag.role == Role::Div && tag.parent != page::kArtifact && kids_[i].empty() &&
               !is_wordy(tag);
    }

    /// The element that an element hangs below in the file.
    Dict parent_of(std::size_t i) const {
        std::size_t parent = document_.tags[i].parent;
        while (parent != page::kArtifact && needless_[parent]) {
            parent = document_.tags[parent].parent;
        }
        return parent == page::kArtifact ? root_ : elements_[parent];
    }

    /// Child elements in the order of the tags; between an element's own content by where they
    /// first appear. In place of a needless element stand its kids.
    void order_kids() {
        const std::size_t count = document_.tags.size();
        std::vector<std::size_t> first(count, kNoOrder);
        std::vector<std::vector<Kid>> elements(count);
        for (std::size_t i = count; i-- > 0;) {
            if (!kids_[i].empty()) {
                first[i] = std::min(first[i], kids_[i].front().order);
            }
            needless_[i] = is_needless(i);
            const std::size_t parent = document_.tags[i].parent;
            if (parent != page::kArtifact) {
                first[parent] = std::min(first[parent], first[i]);
                elements[parent].push_back(Kid{Kid::Kind::Element, first[i], 0, i});
            }
        }
        for (std::size_t i = count; i-- > 0;) {
            const bool mixed = !kids_[i].empty();
            for (auto kid = elements[i].rbegin(); kid != elements[i].rend(); ++kid) {
                if (needless_[kid->number]) {
                    const std::vector<Kid>& inner = kids_[kid->number];
                    kids_[i].insert(kids_[i].end(), inner.begin(), inner.end());
                } else {
                    kids_[i].push_back(*kid);
                }
            }
            if (mixed) {
                std::stable_sort(kids_[i].begin(), kids_[i].end(),
                                 [](const Kid& a, const Kid& b) { return a.order < b.order; });
            }
        }
    }

    /// Whether the element's value holds text, which would be garbled by the rows of a grid.
    static bool is_wordy(const page::Tag& tag) {
        // Of a Form it is the description, of a Table the summary, which all of one name share.
        const bool has_alternative =
            !tag.alternative.empty() && tag.role != Role::Form && tag.role != Role::Table;
        return has_alternative || !tag.actual_text.empty() || !tag.language.empty() ||
               tag.role == Role::Note;
    }

    /// An element that has one marked-content sequence of a page and nothing else.
    bool is_leaf(std::size_t i) const {
        return kids_[i].size() == 1 && kids_[i].front().kind == Kid::Kind::Marked;
    }

    /// What elements are sorted by, from the highest bit to the lowest; the index last.
    static std::uint64_t likeness(bool wordy, bool leaf, std::size_t kids, Role role,
                                  std::size_t index) {
        constexpr std::uint64_t kMostKids = 0xFFFFFF;
        return std::uint64_t{wordy} << 63 | std::uint64_t{!leaf} << 62 |
               std::min<std::uint64_t>(kids, kMostKids) << 38 |
               static_cast<std::uint64_t>(role) << 32 | index;
    }

    /// Elements are numbered so that neighbours in the file differ in a few digits only: first all
    /// that have one sequence, in the order of their pages, tick boxes apart as they are painted,
    /// then the others by length and type.
    void number_elements() {
        std::vector<std::uint64_t> order;
        order.reserve(document_.tags.size());
        std::size_t last_mcid = 0;
        for (std::size_t i = 0; i < document_.tags.size(); ++i) {
            if (needless_[i]) {
                continue;
            }
            const page::Tag& tag = document_.tags[i];
            const bool leaf = is_leaf(i);
            const bool alike = leaf && tag.role != Role::Form;
            order.push_back(likeness(is_wordy(tag), leaf, kids_[i].size(),
                                     alike ? Role::Document : tag.role, i));
            last_mcid = leaf ? std::max(last_mcid, kids_[i].front().number) : last_mcid;
        }
        std::sort(order.begin(), order.end());
        elements_.resize(document_.tags.size());
        for (const std::uint64_t place : order) {
            elements_[place & kIndexMask] = objects_.indirect_value();
        }
        digits_ = objects_.digits();
        // Pages are numbered first, so their numbers are short, and so may rows be.
        std::string last_page;
        objects_.append_reference(last_page, pages_.back().object, 1);
        page_digits_ = last_page.find(' ');
        mcid_digits_ = std::to_string(last_mcid).size();
    }

    Form form_of(std::size_t i) const {
        if (is_wordy(document_.tags[i])) {
            return Form::Free;
        }
        if (kids_[i].size() > kShortArray) {
            return Form::List;
        }
        return is_leaf(i) ? Form::Grid : Form::WideGrid;
    }

    void write_element(std::size_t i) {
        const page::Tag& tag = document_.tags[i];
        const Form form = form_of(i);
        std::string value;
        value.reserve(kUsualValue);
        value += "<</P ";
        append_reference(value, parent_of(i));
        append_kids(value, i, form);
        value += std::string("/S/") + role_name(tag.role);
        if (!tag.language.empty() && tag.language != parent_language(tag)) {
            value += "/Lang";
            append_text_string(value, decode(tag.language));
        }
        if (!tag.alternative.empty() && tag.role != Role::Form && tag.role != Role::Table) {
            value += "/Alt";
            append_text_string(value, spoken(tag.alternative));
        }
        if (!tag.actual_text.empty()) {
            value += "/ActualText";
            append_text_string(value, decode(tag.actual_text));
        }
        if (tag.role == Role::Note) {
            value += "/ID(" + note_id(i) + ")";
        }
        append_attributes(value, i);
        objects_.set_value(elements_[i], value + ">>", form);
    }

    /// All references to elements have one width, for the sake of the grid.
    void append_reference(std::string& value, Dict object) const {
        objects_.append_reference(value, object, digits_);
    }

    /// Fills up the row that `value` has begun.
    static void fill_row(std::string& value, std::size_t width) {
        value.append((width - value.size() % width) % width, ' ');
    }

    const std::string& parent_language(const page::Tag& tag) const {
        std::size_t parent = tag.parent;
        while (parent != page::kArtifact && document_.tags[parent].language.empty()) {
            parent = document_.tags[parent].parent;
        }
        return parent == page::kArtifact ? document_.language : document_.tags[parent].language;
    }

    void append_kids(std::string& value, std::size_t i, Form form) {
        const std::vector<Kid>& kids = kids_[i];
        const auto content = std::find_if(kids.begin(), kids.end(), [](const Kid& kid) {
            return kid.kind != Kid::Kind::Element;
        });
        const std::size_t page = content == kids.end() ? page::kArtifact : content->page;
        if (page != page::kArtifact) {
            value += "/Pg ";
            objects_.append_reference(value, pages_[page].object, page_digits_);
        }
        if (kids.empty()) {
            return;
        }
        value += kids.size() > 1 ? "/K[" : "/K ";
        const bool in_rows = form == Form::List;
        if (in_rows) {
            fill_row(value, kListRow);
        }
        for (const Kid& kid : kids) {
            append_kid(value, kid, page);
            value.push_back(' ');
            if (in_rows) {
                fill_row(value, kListRow);
            }
        }
        if (kids.size() > 1) {
            value.back() = ']';
        } else {
            value.pop_back();
        }
    }

    void append_kid(std::string& value, const Kid& kid, std::size_t page) {
        if (kid.kind == Kid::Kind::Element) {
            append_reference(value, elements_[kid.number]);
            return;
        }
        if (kid.kind == Kid::Kind::Marked && kid.page == page) {
            const std::string number = std::to_string(kid.number);
            value.append(mcid_digits_ > number.size() ? mcid_digits_ - number.size() : 0, ' ');
            value += number;
            return;
        }
        if (kid.kind == Kid::Kind::Marked) {
            value += "<</Type/MCR/MCID " + std::to_string(kid.number);
        } else {
            value += "<</Type/OBJR/Obj ";
            append_reference(value, annotations_[kid.number]);
        }
        if (kid.page != page) {
            value += "/Pg ";
            append_reference(value, pages_[kid.page].object);
        }
        value += ">>";
    }

    std::string note_id(std::size_t i) const {
        std::string digits = std::to_string(i);
        return "n" + std::string(8 - std::min<std::size_t>(8, digits.size()), '0') + digits;
    }

    void append_attributes(std::string& value, std::size_t i) {
        if (boxes_[i]) {
            const Box& box = *boxes_[i];
            value += "/A<</O/Layout/BBox[";
            for (const double edge : {std::floor(box.left), std::floor(box.bottom),
                                      std::ceil(box.right), std::ceil(box.top)}) {
                value += std::to_string(std::lround(edge)) + " ";
            }
            value.back() = ']';
            value += ">>";
            return;
        }
        const Dict made = attributes(i);
        if (!made.is_null()) {
            value += "/A ";
            append_reference(value, made);
        }
    }

    /// Equal attributes are written once. Null where the element has none.
    Dict attributes(std::size_t i) {
        const page::Tag& tag = document_.tags[i];
        if (tag.role == Role::TH || tag.role == Role::TD) {
            return table_attributes(tag);
        }
        if (tag.role == Role::Table && !tag.alternative.empty()) {
            // Not Alt: a reader would say that in place of the cells.
            return shared("table " + tag.alternative, [this, &tag] {
                return objects_.indirect_dict()
                    .name("O", "Table")
                    .text("Summary", spoken(tag.alternative));
            });
        }
        if (tag.role == Role::L && tag.numbered) {
            return shared("list", [this] {
                return objects_.indirect_dict().name("O", "List").name("ListNumbering", "Decimal");
            });
        }
        if (tag.role == Role::Form) {
            return shared("form " + tag.alternative, [this, &tag] {
                Dict made = objects_.indirect_dict();
                made.name("O", "PrintField").name("Role", "cb").name("checked", "off");
                return tag.alternative.empty() ? made : made.text("Desc", spoken(tag.alternative));
            });
        }
        return Dict();
    }

    Dict table_attributes(const page::Tag& tag) {
        const bool has_scope = tag.role == Role::TH && tag.scope != page::Tag::Scope::None;
        if (!has_scope && tag.column_span <= 1 && tag.row_span <= 1) {
            return Dict();
        }
        const std::string key = std::string("cell ") + (has_scope ? scope_name(tag.scope) : "") +
                                " " + std::to_string(tag.column_span) + " " +
                                std::to_string(tag.row_span);
        return shared(key, [this, &tag, has_scope] {
            Dict made = objects_.indirect_dict();
            made.name("O", "Table");
            if (has_scope) {
                made.name("Scope", scope_name(tag.scope));
            }
            if (tag.column_span > 1) {
                made.integer("ColSpan", tag.column_span);
            }
            return tag.row_span > 1 ? made.integer("RowSpan", tag.row_span) : made;
        });
    }

    template <class Make>
    Dict shared(const std::string& key, Make make) {
        const auto found = attributes_.find(key);
        return found != attributes_.end() ? found->second : attributes_[key] = make();
    }

    void write_root() {
        root_.name("Type", "StructTreeRoot");
        Array roots = objects_.array();
        Array notes;
        for (std::size_t i = 0; i < elements_.size(); ++i) {
            if (document_.tags[i].parent == page::kArtifact) {
                roots.put(elements_[i]);
            }
            if (document_.tags[i].role == Role::Note) {
                if (notes.raw() == nullptr) {
                    notes = objects_.array();
                }
                notes.ascii(note_id(i)).put(elements_[i]);
            }
        }
        root_.put("K", roots);
        root_.put("ParentTree", parent_tree());
        root_.integer("ParentTreeNextKey",
                      static_cast<std::int64_t>(pages_.size() + annotations_.size()));
        if (notes.raw() != nullptr) {
            root_.put("IDTree", objects_.indirect_dict().put("Names", notes));
        }
        objects_.catalog().put("StructTreeRoot", root_);
        objects_.catalog().put("MarkInfo", objects_.dict().boolean("Marked", true));
    }

    /// The elements of one page's MCIDs.
    Dict page_parents(const WrittenPage& page) {
        std::vector<Dict> elements(page.content.marked);
        for (const Piece& piece : page.content.pieces) {
            if (piece.kind == Piece::Kind::Marked) {
                elements[piece.number] = elements_[piece.tag];
            }
        }
        Dict parents = objects_.indirect_value();
        std::string value;
        for (const Dict element : elements) {
            value.push_back(value.empty() ? '[' : ' ');
            append_reference(value, element);
            fill_row(value, kListRow);
        }
        value.back() = ']';
        objects_.set_value(parents, value, Form::List);
        return parents;
    }

    /// A number tree with leaves of limited size under one root.
    Dict parent_tree() {
        const std::size_t last = pages_.size() + annotations_.size();
        if (last <= kArrayChunk / 2) {
            return parent_numbers(0, last, "");
        }
        Array leaves = objects_.array();
        for (std::size_t begin = 0; begin < last; begin += kArrayChunk / 2) {
            const std::size_t end = std::min(last, begin + kArrayChunk / 2);
            leaves.put(parent_numbers(begin, end,
                                      "/Limits[" + std::to_string(begin) + " " +
                                          std::to_string(end - 1) + "]"));
        }
        return objects_.indirect_dict().put("Kids", leaves);
    }

    /// Keys [begin, end), each with what it leads to in a row of its own.
    Dict parent_numbers(std::size_t begin, std::size_t end, const std::string& limits) {
        Dict made = objects_.indirect_value();
        std::string value = "<<" + limits + "/Nums[";
        for (std::size_t key = begin; key < end; ++key) {
            const Dict parent = parent_of_key(key);
            if (!parent.is_null()) {
                fill_row(value, kListRow);
                value += std::to_string(key) + " ";
                append_reference(value, parent);
            }
        }
        objects_.set_value(made, value + "]>>", Form::List);
        return made;
    }

    /// Null for a page without marks and for a link outside the structure.
    Dict parent_of_key(std::size_t key) {
        if (key < pages_.size()) {
            return pages_[key].content.marked > 0 ? page_parents(pages_[key]) : Dict();
        }
        const std::size_t tag = annotation_tags_[key - pages_.size()];
        return tag != page::kArtifact ? elements_[tag] : Dict();
    }

    Objects& objects_;
    const page::Document& document_;
    std::vector<WrittenPage>& pages_;
    std::vector<std::vector<Kid>> kids_;
    std::vector<bool> needless_; ///< by tag
    std::vector<std::optional<Box>> boxes_;
    std::vector<Dict> elements_; ///< one a tag; null for those left out
    std::vector<Dict> annotations_;
    std::vector<std::size_t> annotation_tags_;
    std::map<std::string, Dict> attributes_;
    Dict root_;
    std::size_t order_ = 0;
    std::size_t digits_ = 1; ///< width of references
    std::size_t page_digits_ = 1;
    std::size_t mcid_digits_ = 1;
};

} // namespace

void write_structure(Objects& objects, const page::Document& document,
                     std::vector<WrittenPage>& pages) {
    TreeWriter(objects, document, pages).write();
}

std::vector<std::string> tag_languages(const page::Document& document) {
    std::vector<std::string> languages;
    languages.reserve(document.tags.size());
    for (const page::Tag& tag : document.tags) {
        if (!tag.language.empty()) {
            languages.push_back(tag.language);
        } else {
            languages.push_back(tag.parent == page::kArtifact ? document.language
                                                              : languages[tag.parent]);
        }
    }
    return languages;
}

} // namespace tickleaf::pdf
