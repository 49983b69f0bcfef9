// SPDX-License-Identifier: MIT
#include "tests/support/pdf_cmap.h"

#include <algorithm>
#include <stdexcept>

#include <qpdf/QUtil.hh>

namespace tickleaf::testing {

namespace {

std::string utf8_from_utf16be(const std::string& bytes) {
    return QUtil::utf16_to_utf8("\xFE\xFF" + bytes);
}

unsigned big_endian(const std::string& bytes) {
    unsigned value = 0;
    for (const char byte : bytes) {
        value = value << 8U | static_cast<unsigned char>(byte);
    }
    return value;
}

/// A reader of the few CMap tokens that embedded maps are made from.
class CMapReader {
  public:
    explicit CMapReader(const std::string& cmap) : cmap_(cmap) {}
    void read() {
        std::string section;
        while (next()) {
            if (token_.starts_with("begin") && token_ != "begincmap" && token_ != "begin") {
                section = token_.substr(5);
            } else if (token_.starts_with("end")) {
                section.clear();
            } else if (section == "bfchar") {
                const unsigned code = big_endian(value());
                next();
                texts[code] = utf8_from_utf16be(value());
            } else if (section == "bfrange") {
                text_range();
            } else if (section == "codespacerange") {
                const std::string first = value();
                next();
                encoding.spaces.push_back({first, value()});
            } else if (section == "cidrange") {
                number_range();
            }
        }
    }

    std::map<unsigned, std::string> texts;
    Encoding encoding;

  private:
    void number_range() {
        const unsigned first = big_endian(value());
        next();
        const unsigned last = big_endian(value());
        next();
        encoding.ranges.push_back({first, last, static_cast<unsigned>(std::stoul(token_))});
    }

    void text_range() {
        const unsigned first = big_endian(value());
        next();
        const unsigned last = big_endian(value());
        next();
        if (token_ == "[") {
            for (unsigned code = first; next() && token_ != "]"; ++code) {
                texts[code] = utf8_from_utf16be(value());
            }
            return;
        }
        std::string text = value();
        for (unsigned code = first; code <= last; ++code) {
            texts[code] = utf8_from_utf16be(text);
            text.back() = static_cast<char>(text.back() + 1);
        }
    }

    std::string value() const {
        if (token_.empty() || token_.front() != '<') {
            throw std::runtime_error("CMap: a string was expected, not " + token_);
        }
        return QUtil::hex_decode(token_.substr(1));
    }

    bool next() {
        at_ = cmap_.find_first_not_of(" \r\n\t", at_);
        if (at_ == std::string::npos) {
            token_.clear();
            return false;
        }
        if (cmap_[at_] == '<' && at_ + 1 < cmap_.size() && cmap_[at_ + 1] != '<') {
            const std::size_t end = cmap_.find('>', at_);
            token_ = cmap_.substr(at_, end - at_);
            at_ = end + 1;
        } else if (cmap_[at_] == '[' || cmap_[at_] == ']') {
            token_ = cmap_[at_++];
        } else {
            const std::size_t end = cmap_.find_first_of(" \r\n\t[]<", at_ + 1);
            token_ = cmap_.substr(at_, end - at_);
            at_ = std::min(end, cmap_.size());
        }
        return true;
    }

    const std::string& cmap_;
    std::size_t at_ = 0;
    std::string token_;
};

/// Each byte must be within the range of its own place (9.7.6.2).
bool is_within(const std::string& code, const Encoding::Space& space) {
    for (std::size_t i = 0; i < code.size(); ++i) {
        const auto byte = static_cast<unsigned char>(code[i]);
        if (byte < static_cast<unsigned char>(space.first[i]) ||
            byte > static_cast<unsigned char>(space.last[i])) {
            return false;
        }
    }
    return true;
}

} // namespace

std::optional<std::vector<unsigned>> Encoding::codes(const std::string& bytes) const {
    std::vector<unsigned> found;
    for (std::size_t at = 0; at < bytes.size();) {
        const auto space = std::find_if(spaces.begin(), spaces.end(), [&](const Space& candidate) {
            const std::size_t length = candidate.first.size();
            return at + length <= bytes.size() && is_within(bytes.substr(at, length), candidate);
        });
        if (space == spaces.end()) {
            return std::nullopt;
        }
        found.push_back(big_endian(bytes.substr(at, space->first.size())));
        at += space->first.size();
    }
    return found;
}

unsigned Encoding::cid(unsigned code) const {
    for (const Range& range : ranges) {
        if (code >= range.first && code <= range.last) {
            return range.cid + (code - range.first);
        }
    }
    return 0;
}

Encoding read_encoding(QPDFObjectHandle encoding) {
    if (encoding.isStream()) {
        const auto data = encoding.getStreamData();
        const std::string cmap(reinterpret_cast<const char*>(data->getBuffer()), data->getSize());
        CMapReader reader(cmap);
        reader.read();
        return reader.encoding;
    }
    if (encoding.isName() && encoding.getName() == "/Identity-H") {
        Encoding identity;
        identity.spaces.push_back({std::string(2, '\0'), "\xFF\xFF"});
        identity.ranges.push_back({0, 0xFFFF, 0});
        return identity;
    }
    throw std::runtime_error("a composite font has an encoding that is not known here");
}

std::map<unsigned, std::string> read_to_unicode(const std::string& cmap) {
    CMapReader reader(cmap);
    reader.read();
    return reader.texts;
}

} // namespace tickleaf::testing
