// SPDX-License-Identifier: MIT
#include "pdf/objects.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <hpdf.h>

#include "pdf/deflate.h"
#include "pdf/object_stream.h"
#include "pdf/text_string.h"
#include "support/number.h"

namespace tickleaf::pdf {

namespace {

/// Objects in one object stream; a reader unpacks a whole one to get at any of its objects.
constexpr std::size_t kObjectsPerStream = 2000;
/// Bytes of an entry of the cross-reference stream: type, place, index.
constexpr std::size_t kReferenceColumns = 7;
constexpr HPDF_UINT kValueBuffer = 1U << 10U;

HPDF_Dict raw_dict(void* raw) {
    return static_cast<HPDF_Dict>(raw);
}
HPDF_Array raw_array(void* raw) {
    return static_cast<HPDF_Array>(raw);
}

/// libharu escapes all but the space in names, so only plain characters are let through.
std::string safe_name(const std::string& value) {
    std::string name;
    for (const char c : value.substr(0, 120)) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                           (c >= '0' && c <= '9') || c == '+' || c == '_' || c == '.' || c == '-';
        name.push_back(plain ? c : '-');
    }
    return name.empty() ? "-" : name;
}

bool is_whole(double value) {
    return std::nearbyint(value) == value;
}
double to_hundredths(double value) {
    return std::nearbyint(value * 100.0) / 100.0;
}

void* new_number(HPDF_MMgr memory, double value) {
    const double rounded = to_hundredths(value);
    if (is_whole(rounded)) {
        return HPDF_Number_New(memory, static_cast<HPDF_INT32>(rounded));
    }
    return HPDF_Real_New(memory, static_cast<HPDF_REAL>(rounded));
}

void* new_text(HPDF_MMgr memory, const std::u32string& text) {
    if (const auto bytes = pdf_doc_encoded(text); bytes && bytes->size() <= kStringLimit) {
        return HPDF_String_New(memory, bytes->c_str(), nullptr);
    }
    std::string units = "\xFE\xFF" + utf16be(text);
    units.resize(std::min(units.size(), kStringLimit));
    std::vector<HPDF_BYTE> buffer(units.begin(), units.end());
    return HPDF_Binary_New(memory, buffer.data(), static_cast<HPDF_UINT>(buffer.size()));
}

void* new_ascii(HPDF_MMgr memory, const std::string& value) {
    return HPDF_String_New(memory, value.substr(0, kStringLimit).c_str(), nullptr);
}

/// The bytes of one of libharu's memory streams.
std::string bytes_of(HPDF_Stream stream) {
    std::string bytes;
    bytes.reserve(stream->size);
    const HPDF_UINT count = HPDF_MemStream_GetBufCount(stream);
    for (HPDF_UINT i = 0; i < count; ++i) {
        HPDF_UINT length = 0;
        const HPDF_BYTE* buffer = HPDF_MemStream_GetBufPtr(stream, i, &length);
        bytes.append(buffer, buffer + length);
    }
    return bytes;
}

/// Where an object ended up: at an offset of the file, or as number `index` of an object stream.
struct Place {
    bool packed = false;
    std::size_t where = 0;
    std::size_t index = 0;
};

} // namespace

Dict& Dict::name(const char* key, const std::string& value) {
    if (raw_ != nullptr) {
        HPDF_Dict_AddName(raw_dict(raw_), key, safe_name(value).c_str());
    }
    return *this;
}

Dict& Dict::integer(const char* key, std::int64_t value) {
    if (raw_ != nullptr) {
        HPDF_Dict_AddNumber(raw_dict(raw_), key, static_cast<HPDF_INT32>(value));
    }
    return *this;
}

Dict& Dict::number(const char* key, double value) {
    if (raw_ != nullptr) {
        HPDF_Dict_Add(raw_dict(raw_), key, new_number(raw_dict(raw_)->mmgr, value));
    }
    return *this;
}

Dict& Dict::boolean(const char* key, bool value) {
    if (raw_ != nullptr) {
        HPDF_Dict_AddBoolean(raw_dict(raw_), key, value ? HPDF_TRUE : HPDF_FALSE);
    }
    return *this;
}

Dict& Dict::text(const char* key, std::string_view utf8) {
    return text(key, decode(utf8));
}

Dict& Dict::text(const char* key, const std::u32string& value) {
    if (raw_ != nullptr) {
        HPDF_Dict_Add(raw_dict(raw_), key, new_text(raw_dict(raw_)->mmgr, value));
    }
    return *this;
}

Dict& Dict::ascii(const char* key, const std::string& value) {
    if (raw_ != nullptr) {
        HPDF_Dict_Add(raw_dict(raw_), key, new_ascii(raw_dict(raw_)->mmgr, value));
    }
    return *this;
}

Dict& Dict::put(const char* key, Dict value) {
    if (raw_ != nullptr && !value.is_null()) {
        HPDF_Dict_Add(raw_dict(raw_), key, value.raw());
    }
    return *this;
}

Dict& Dict::put(const char* key, Array value) {
    if (raw_ != nullptr && value.raw() != nullptr) {
        HPDF_Dict_Add(raw_dict(raw_), key, value.raw());
    }
    return *this;
}

Array& Array::name(const std::string& value) {
    if (raw_ != nullptr) {
        HPDF_Array_AddName(raw_array(raw_), safe_name(value).c_str());
    }
    return *this;
}

Array& Array::integer(std::int64_t value) {
    if (raw_ != nullptr) {
        HPDF_Array_AddNumber(raw_array(raw_), static_cast<HPDF_INT32>(value));
    }
    return *this;
}

Array& Array::number(double value) {
    if (raw_ != nullptr) {
        HPDF_Array_Add(raw_array(raw_), new_number(raw_array(raw_)->mmgr, value));
    }
    return *this;
}

Array& Array::text(std::string_view utf8) {
    if (raw_ != nullptr) {
        HPDF_Array_Add(raw_array(raw_), new_text(raw_array(raw_)->mmgr, decode(utf8)));
    }
    return *this;
}

Array& Array::ascii(const std::string& value) {
    if (raw_ != nullptr) {
        HPDF_Array_Add(raw_array(raw_), new_ascii(raw_array(raw_)->mmgr, value));
    }
    return *this;
}

Array& Array::null() {
    if (raw_ != nullptr) {
        HPDF_Array_Add(raw_array(raw_), HPDF_Null_New(raw_array(raw_)->mmgr));
    }
    return *this;
}

Array& Array::put(Dict value) {
    if (raw_ != nullptr && !value.is_null()) {
        HPDF_Array_Add(raw_array(raw_), value.raw());
    }
    return *this;
}

Array& Array::put(Array value) {
    if (raw_ != nullptr && value.raw() != nullptr) {
        HPDF_Array_Add(raw_array(raw_), value.raw());
    }
    return *this;
}

struct Objects::Impl {
    HPDF_Doc document = nullptr;
    /// The packed bytes of streams, by object number; empty for all other objects.
    std::vector<std::optional<std::string>> payloads;
    /// Values given as text, by object number; empty for all other objects.
    struct Value {
        std::string text;
        Form form = Form::Free;
    };
    std::vector<Value> values;
    std::string out;
    std::vector<Place> places;
    Deflater deflater;
    bool out_of_memory = false;

    bool failed() const { return document == nullptr || document->error.error_no != HPDF_OK; }

    HPDF_Dict new_dict() { return failed() ? nullptr : HPDF_Dict_New(document->mmgr); }

    /// Gives an object its number; libharu owns it from here on.
    bool number(void* object) {
        return object != nullptr && HPDF_Xref_Add(document->xref, object) == HPDF_OK;
    }

    std::size_t number_of(void* object) const {
        return static_cast<HPDF_Obj_Header*>(object)->obj_id & 0x00FFFFFFU;
    }

    std::string deflated(std::string_view bytes);
    std::string value_of(void* object);
    void write_object(std::size_t object_number, const std::string& head,
                      const std::string* payload);
    void write_streams();
    std::string packable_value(std::size_t object_number);
    void write_packed_objects(Form form);
    void write_packed_group(const std::vector<std::size_t>& group, Form form);
    void write_cross_references();
    std::string cross_reference_rows() const;
};

std::string Objects::Impl::deflated(std::string_view bytes) {
    std::string packed = deflater.deflated(bytes);
    out_of_memory = out_of_memory || packed.empty();
    return packed;
}

std::string Objects::Impl::value_of(void* object) {
    HPDF_Stream stream = HPDF_MemStream_New(document->mmgr, kValueBuffer);
    if (stream == nullptr) {
        return {};
    }
    HPDF_Obj_WriteValue(object, stream, nullptr);
    std::string value = bytes_of(stream);
    HPDF_Stream_Free(stream);
    return value;
}

void Objects::Impl::write_object(std::size_t object_number, const std::string& head,
                                 const std::string* payload) {
    if (places.size() <= object_number) {
        places.resize(object_number + 1);
    }
    places[object_number] = Place{false, out.size(), 0};
    out += std::to_string(object_number) + " 0 obj\n" + head;
    if (payload != nullptr) {
        out += "\nstream\n" + *payload + "\nendstream";
    }
    out += "\nendobj\n";
}

void Objects::Impl::write_streams() {
    for (std::size_t i = 1; i < payloads.size(); ++i) {
        if (payloads[i]) {
            const auto entry = HPDF_Xref_GetEntry(document->xref, static_cast<HPDF_UINT>(i));
            write_object(i, value_of(entry->obj), &*payloads[i]);
        }
    }
}

std::string Objects::Impl::packable_value(std::size_t object_number) {
    if (object_number < values.size() && !values[object_number].text.empty()) {
        return std::move(values[object_number].text);
    }
    return value_of(HPDF_Xref_GetEntry(document->xref, static_cast<HPDF_UINT>(object_number))->obj);
}

void Objects::Impl::write_packed_group(const std::vector<std::size_t>& group, Form form) {
    const std::size_t stream_number = places.size();
    places.emplace_back();
    std::vector<std::string> texts;
    texts.reserve(group.size());
    std::vector<NumberedValue> objects;
    for (std::size_t i = 0; i < group.size(); ++i) {
        texts.push_back(packable_value(group[i]));
        objects.push_back({group[i], texts.back()});
        places[group[i]] = Place{true, stream_number, i};
    }
    const std::size_t row = form == Form::WideGrid ? kWideGridRow
                            : form == Form::List   ? kListRow
                                                   : kGridRow;
    const ObjectStream made =
        form == Form::Free ? free_objects(objects) : grid_objects(objects, row);
    const std::string packed = deflated(made.bytes);
    const std::string predictor =
        form == Form::Free ? ""
                           : "/DecodeParms<</Predictor 12/Columns " + std::to_string(row) + ">>";
    write_object(stream_number,
                 "<</Type/ObjStm/N " + std::to_string(group.size()) + "/First " +
                     std::to_string(made.first) + predictor + "/Filter/FlateDecode/Length " +
                     std::to_string(packed.size()) + ">>",
                 &packed);
}

void Objects::Impl::write_packed_objects(Form form) {
    std::vector<std::size_t> group;
    for (std::size_t i = 1; i < payloads.size(); ++i) {
        const Form own = i < values.size() ? values[i].form : Form::Free;
        if (!payloads[i] && own == form) {
            group.push_back(i);
        }
        if (group.size() == kObjectsPerStream) {
            write_packed_group(group, form);
            group.clear();
        }
    }
    if (!group.empty()) {
        write_packed_group(group, form);
    }
}

/// Rows of type, four bytes of offset or stream number, two bytes of index, each as the difference
/// to the row above, which makes the table deflate to almost nothing.
std::string Objects::Impl::cross_reference_rows() const {
    std::string rows;
    for (std::size_t i = 0; i < places.size(); ++i) {
        const Place& place = places[i];
        const std::size_t last = i == 0 ? 65535U : place.index;
        rows.push_back(static_cast<char>(i == 0 ? 0 : (place.packed ? 2 : 1)));
        for (const unsigned shift : {24U, 16U, 8U, 0U}) {
            rows.push_back(static_cast<char>(static_cast<unsigned char>(place.where >> shift)));
        }
        rows.push_back(static_cast<char>(static_cast<unsigned char>(last >> 8U)));
        rows.push_back(static_cast<char>(static_cast<unsigned char>(last)));
    }
    return rows_up(rows, kReferenceColumns);
}

/// The identifier of the file is made from its own bytes: same content, same identifier (FNV-1a,
/// twice with different starting values; no secrecy is asked of it).
std::string content_id(std::string_view bytes) {
    std::string id;
    for (std::uint64_t hash : {0xcbf29ce484222325ULL, 0x84222325cbf29ce4ULL}) {
        for (const char byte : bytes) {
            hash = (hash ^ static_cast<unsigned char>(byte)) * 0x100000001b3ULL;
        }
        for (unsigned shift = 0; shift < 64U; shift += 8U) {
            id.push_back(static_cast<char>(static_cast<unsigned char>(hash >> shift)));
        }
    }
    return hex(id);
}

void Objects::Impl::write_cross_references() {
    const std::string id = content_id(out);
    const std::size_t number = places.size();
    const std::size_t offset = out.size();
    places.push_back(Place{false, offset, 0});
    const std::string packed = deflated(cross_reference_rows());
    write_object(number,
                 "<</Type/XRef/Size " + std::to_string(places.size()) + "/W[1 4 2]/Root " +
                     std::to_string(number_of(document->catalog)) + " 0 R/Info " +
                     std::to_string(number_of(document->info)) + " 0 R/ID[<" + id + "><" + id +
                     ">]/DecodeParms<</Predictor 12/Columns 7>>/Filter/FlateDecode/Length " +
                     std::to_string(packed.size()) + ">>",
                 &packed);
    out += "startxref\n" + std::to_string(offset) + "\n%%EOF\n";
}

Objects::Objects() : impl_(std::make_unique<Impl>()) {
    // No handler: libharu then only records its first error, which problem() reads.
    impl_->document = HPDF_New(nullptr, nullptr);
}

Objects::~Objects() {
    if (impl_->document != nullptr) {
        HPDF_Free(impl_->document);
    }
}

Dict Objects::dict() {
    return Dict(impl_->new_dict());
}

Dict Objects::indirect_dict() {
    HPDF_Dict raw = impl_->new_dict();
    return Dict(impl_->number(raw) ? raw : nullptr);
}

Dict Objects::indirect_value() {
    void* raw = impl_->failed() ? nullptr : HPDF_Null_New(impl_->document->mmgr);
    return Dict(impl_->number(raw) ? raw : nullptr);
}

void Objects::set_value(Dict object, std::string value, Form form) {
    if (object.is_null()) {
        return;
    }
    const std::size_t number = impl_->number_of(object.raw());
    if (impl_->values.size() <= number) {
        impl_->values.resize(std::max(number + 1, impl_->values.size() * 2));
    }
    impl_->values[number] = {std::move(value), form};
}

void Objects::append_reference(std::string& out, Dict object, std::size_t digits) const {
    if (object.is_null()) {
        out += "null";
        return;
    }
    const std::string number = std::to_string(impl_->number_of(object.raw()));
    out.append(digits > number.size() ? digits - number.size() : 0, ' ');
    out += number + " 0 R";
}

std::size_t Objects::digits() const {
    return impl_->failed() ? 1 : std::to_string(impl_->document->xref->entries->count).size();
}

Array Objects::array() {
    return Array(impl_->failed() ? nullptr : HPDF_Array_New(impl_->document->mmgr));
}

Array Objects::indirect_array() {
    const Array made = array();
    return Array(impl_->number(made.raw()) ? made.raw() : nullptr);
}

Dict Objects::stream(std::string_view bytes, Packing packing) {
    Dict made = indirect_dict();
    if (made.is_null()) {
        return made;
    }
    std::string payload = packing == Packing::Deflate ? impl_->deflated(bytes) : std::string(bytes);
    if (packing == Packing::Deflate) {
        made.name("Filter", "FlateDecode");
    }
    made.integer("Length", static_cast<std::int64_t>(payload.size()));
    const std::size_t number = impl_->number_of(made.raw());
    if (impl_->payloads.size() <= number) {
        impl_->payloads.resize(number + 1);
    }
    impl_->payloads[number] = std::move(payload);
    return made;
}

Dict Objects::catalog() {
    return Dict(impl_->failed() ? nullptr : impl_->document->catalog);
}
Dict Objects::info() {
    return Dict(impl_->failed() ? nullptr : impl_->document->info);
}
Dict Objects::page_tree() {
    return Dict(impl_->failed() ? nullptr : impl_->document->root_pages);
}

Dict Objects::add_page() {
    Dict page = indirect_dict();
    if (page.is_null()) {
        return page;
    }
    // libharu counts the pages of its tree by this mark when it writes the tree.
    raw_dict(page.raw())->header.obj_class |= HPDF_OSUBCLASS_PAGE;
    page.name("Type", "Page").put("Parent", page_tree());
    auto* kids = HPDF_Dict_GetItem(impl_->document->root_pages, "Kids", HPDF_OCLASS_ARRAY);
    Array(kids).put(page);
    return page;
}

std::optional<std::string> Objects::problem() const {
    if (impl_->document == nullptr || impl_->out_of_memory) {
        return "out of memory";
    }
    const HPDF_STATUS code = HPDF_GetError(impl_->document);
    if (code == HPDF_OK) {
        return std::nullopt;
    }
    return "PDF library error " + std::to_string(code);
}

std::optional<std::string> Objects::save() {
    if (problem()) {
        return std::nullopt;
    }
    impl_->payloads.resize(impl_->document->xref->entries->count);
    impl_->places.resize(impl_->payloads.size());
    impl_->out = "%PDF-1.7\n%\xE2\xE3\xCF\xD3\n";
    impl_->write_streams();
    impl_->write_packed_objects(Form::Free);
    impl_->write_packed_objects(Form::Grid);
    impl_->write_packed_objects(Form::WideGrid);
    impl_->write_packed_objects(Form::List);
    impl_->write_cross_references();
    if (problem()) {
        return std::nullopt;
    }
    return std::move(impl_->out);
}

} // namespace tickleaf::pdf
