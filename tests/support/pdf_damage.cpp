// SPDX-License-Identifier: MIT
#include "tests/support/pdf_damage.h"

#include <stdexcept>

#include <qpdf/QPDFWriter.hh>

namespace tickleaf::testing {

QPDFObjectHandle find_element(QPDF& file, const std::string& role) {
    for (QPDFObjectHandle object : file.getAllObjects()) {
        if (object.isDictionary() && object.hasKey("/S") && object.hasKey("/P") &&
            object.getKey("/S").getName() == role) {
            return object;
        }
    }
    throw std::runtime_error("no element " + role);
}

QPDFObjectHandle find_object(QPDF& file, const std::string& key, const std::string& value) {
    for (QPDFObjectHandle object : file.getAllObjects()) {
        QPDFObjectHandle dictionary = object.isStream() ? object.getDict() : object;
        if (dictionary.isDictionary() && dictionary.getKey(key).isName() &&
            dictionary.getKey(key).getName() == value) {
            return dictionary;
        }
    }
    throw std::runtime_error("no object " + value);
}

namespace {

std::string data_of(QPDFObjectHandle stream) {
    const auto buffer = stream.getStreamData();
    return std::string(reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize());
}

void replace_in(QPDFObjectHandle stream, const std::string& from, const std::string& to) {
    std::string content = data_of(stream);
    const std::size_t at = content.find(from);
    if (at == std::string::npos) {
        throw std::runtime_error("nothing to break: " + from);
    }
    content.replace(at, from.size(), to);
    stream.replaceStreamData(content, QPDFObjectHandle::newNull(), QPDFObjectHandle::newNull());
}

} // namespace

void replace_content(QPDF& file, const std::string& from, const std::string& to) {
    QPDFObjectHandle page = file.getAllPages().at(0);
    replace_in(page.getKey("/Contents"), from, to);
}

void replace_metadata(QPDF& file, const std::string& from, const std::string& to) {
    replace_in(file.getRoot().getKey("/Metadata"), from, to);
}

std::string metadata_of(const std::string& bytes) {
    QPDF file;
    file.processMemoryFile("test.pdf", bytes.data(), bytes.size());
    return data_of(file.getRoot().getKey("/Metadata"));
}

std::string damaged(const std::string& bytes, const std::function<void(QPDF&)>& damage) {
    QPDF file;
    file.processMemoryFile("test.pdf", bytes.data(), bytes.size());
    damage(file);
    QPDFWriter writer(file);
    writer.setOutputMemory();
    writer.write();
    const auto buffer = writer.getBufferSharedPointer();
    return std::string(reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize());
}

} // namespace tickleaf::testing
