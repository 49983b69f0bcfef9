// SPDX-License-Identifier: MIT
// Breaks a finished file on purpose, to prove that a checker can fail.
// Errors: throws std::runtime_error where the file does not hold what is to be broken.
#pragma once

#include <functional>
#include <string>

#include <qpdf/QPDF.hh>

namespace tickleaf::testing {

/// The first structure element of a type, such as "/TH".
QPDFObjectHandle find_element(QPDF& file, const std::string& role);
/// The first dictionary (a stream's too) whose entry `key` is the name `value`.
QPDFObjectHandle find_object(QPDF& file, const std::string& key, const std::string& value);
/// In the first page's content; in the XMP packet.
void replace_content(QPDF& file, const std::string& from, const std::string& to);
void replace_metadata(QPDF& file, const std::string& from, const std::string& to);
/// The XMP packet of a file.
std::string metadata_of(const std::string& bytes);
/// The file as it is after `damage`.
std::string damaged(const std::string& bytes, const std::function<void(QPDF&)>& damage);

} // namespace tickleaf::testing
