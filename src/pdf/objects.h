// SPDX-License-Identifier: MIT
// The PDF objects of one file, held and written out by libharu's object layer. The only place of
// the house that includes its headers. libharu 2.3.0 writes every object plainly with a classic
// cross-reference table; a tagged booklet has thousands of small objects, so save() lets it write
// each object's value and packs them into compressed object streams with a cross-reference stream.
// Shapes: Dict and Array are handles; they live as long as the Objects they came from. A direct
// object may be put into one container only; an indirect one anywhere (as a reference). Errors:
// libharu's first error sticks, later calls do nothing; problem() says what it was. Nothing throws.
// Source: ISO 32000-1:2008, 7.3 objects, 7.5.7 object streams, 7.5.8 cross-reference streams;
// libharu's limits as measured with 2.3.0 (arrays 32767 entries, strings 65535 bytes, names 127
// bytes).
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

namespace tickleaf::pdf {

/// Most entries of one array or number tree node; libharu stops at 32767.
inline constexpr std::size_t kArrayChunk = 1000;
inline constexpr std::size_t kArrayLimit = 32767;
/// Longest string in bytes that PDF/A-2 allows (ISO 19005-2:2011, 6.1.13); libharu takes 65535.
inline constexpr std::size_t kStringLimit = 32766;

class Array;

/// A dictionary. Setters return the same handle, so that entries read as a list.
class Dict {
  public:
    Dict() = default;
    explicit Dict(void* raw) : raw_(raw) {}
    Dict& name(const char* key, const std::string& value);
    Dict& integer(const char* key, std::int64_t value);
    /// To 1/100; whole values are written as integers.
    Dict& number(const char* key, double value);
    Dict& boolean(const char* key, bool value);
    /// A text string: PDFDocEncoding where it can carry the text, else UTF-16BE.
    Dict& text(const char* key, std::string_view utf8);
    Dict& text(const char* key, const std::u32string& value);
    /// ASCII bytes without NUL: language tags, addresses, dates.
    Dict& ascii(const char* key, const std::string& value);
    Dict& put(const char* key, Dict value);
    Dict& put(const char* key, Array value);
    bool is_null() const { return raw_ == nullptr; }
    void* raw() const { return raw_; }

  private:
    void* raw_ = nullptr;
};

class Array {
  public:
    Array() = default;
    explicit Array(void* raw) : raw_(raw) {}
    Array& name(const std::string& value);
    Array& integer(std::int64_t value);
    Array& number(double value);
    Array& text(std::string_view utf8);
    Array& ascii(const std::string& value);
    Array& null();
    Array& put(Dict value);
    Array& put(Array value);
    void* raw() const { return raw_; }

  private:
    void* raw_ = nullptr;
};

enum class Packing { Plain, Deflate };
/// How an object's value goes into object streams: as it is, or in rows of a grid (see
/// pdf/object_stream.h), for values that differ from their neighbours in a few digits only.
enum class Form { Free, Grid, WideGrid, List };

class Objects {
  public:
    Objects();
    ~Objects();
    Objects(const Objects&) = delete;
    Objects& operator=(const Objects&) = delete;

    Dict dict();
    Dict indirect_dict();
    Array array();
    Array indirect_array();
    /// An indirect object whose value is given later as text by set_value: for the thousands of
    /// structure elements, which libharu's own dictionaries (128 bytes a key) would make slow. Only
    /// for referring to.
    Dict indirect_value();
    void set_value(Dict object, std::string value, Form form = Form::Free);
    /// Appends "7 0 R", the number padded with spaces to at least `digits`.
    void append_reference(std::string& out, Dict object, std::size_t digits = 1) const;
    /// How many digits the number of the last object made so far has.
    std::size_t digits() const;
    /// An indirect stream; Length and Filter are set here.
    Dict stream(std::string_view bytes, Packing packing);
    Dict catalog();
    Dict info();
    Dict page_tree();
    /// A page at the end of the page tree.
    Dict add_page();

    /// Nothing while all is well, else what libharu refused.
    std::optional<std::string> problem() const;
    /// The whole file, or nothing where problem() says why. To be called once.
    std::optional<std::string> save();

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

} // namespace tickleaf::pdf
