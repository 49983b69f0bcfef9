// SPDX-License-Identifier: MIT
// How the strings of a composite font fall into codes, and what the codes lead to.
// Errors: throws std::runtime_error on a CMap it cannot make sense of.
// Source: ISO 32000-1:2008, 9.7.5 CMaps, 9.7.6.2 code space ranges, 9.10.3 ToUnicode CMaps.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include <qpdf/QPDFObjectHandle.hh>

namespace tickleaf::testing {

/// Codes of different lengths have different first bytes here, so a number stands for one code.
class Encoding {
  public:
    /// The codes of a string, big-endian, or nothing where its bytes fall into no code space range.
    std::optional<std::vector<unsigned>> codes(const std::string& bytes) const;
    /// What the code is called in the CIDFont; 0 where nothing is said of it.
    unsigned cid(unsigned code) const;

    struct Space {
        std::string first, last; ///< of one length
    };
    struct Range {
        unsigned first = 0, last = 0, cid = 0;
    };
    std::vector<Space> spaces;
    std::vector<Range> ranges;
};

/// Identity-H or an embedded CMap.
Encoding read_encoding(QPDFObjectHandle encoding);

/// A ToUnicode CMap: code to UTF-8.
std::map<unsigned, std::string> read_to_unicode(const std::string& cmap);

} // namespace tickleaf::testing
