// SPDX-License-Identifier: MIT
// Deflate in the zlib format, as FlateDecode reads it. The only place of the house that includes
// libdeflate. Same bytes in, same bytes out. Source: RFC 1950 and 1951; ISO 32000-1:2008, 7.4.4.
#pragma once

#include <memory>
#include <string>
#include <string_view>

struct libdeflate_compressor;

namespace tickleaf::pdf {

/// Keeps the tables of a compressor, which are dear to make, for one stream after another.
class Deflater {
  public:
    Deflater();
    ~Deflater();
    Deflater(const Deflater&) = delete;
    Deflater& operator=(const Deflater&) = delete;

    /// Empty only where memory is short: even no bytes deflate to some.
    std::string deflated(std::string_view bytes);

  private:
    struct Free {
        void operator()(libdeflate_compressor* compressor) const;
    };
    std::unique_ptr<libdeflate_compressor, Free> compressor_;
};

} // namespace tickleaf::pdf
