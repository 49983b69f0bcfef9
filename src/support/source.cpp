// SPDX-License-Identifier: MIT
#include "support/source.h"

#include <stdexcept>
#include <utility>

namespace tickleaf::support {

int Sources::add(std::string path, std::string text) {
    const std::lock_guard lock(mutex_);
    sources_.push_back({std::move(path), std::move(text)});
    return static_cast<int>(sources_.size()) - 1;
}

bool Sources::contains(int file) const {
    const std::lock_guard lock(mutex_);
    return file >= 0 && static_cast<std::size_t>(file) < sources_.size();
}

const Source& Sources::at(int file) const {
    if (!contains(file)) {
        throw std::logic_error("a span names a source that was never added");
    }
    const std::lock_guard lock(mutex_);
    return sources_[static_cast<std::size_t>(file)];
}

void Sources::forget(int file) {
    const std::lock_guard lock(mutex_);
    sources_.at(static_cast<std::size_t>(file)).text = {};
}

std::string_view Sources::line(const Span& span) const {
    if (!contains(span.file) || span.line < 1) {
        return {};
    }
    std::string_view rest = at(span.file).text;
    for (int number = 1; number < span.line; ++number) {
        const auto end = rest.find('\n');
        if (end == std::string_view::npos) {
            return {};
        }
        rest.remove_prefix(end + 1);
    }
    rest = rest.substr(0, rest.find('\n'));
    if (!rest.empty() && rest.back() == '\r') {
        rest.remove_suffix(1);
    }
    return rest;
}

std::string Sources::describe(const Span& span) const {
    if (!contains(span.file)) {
        return {};
    }
    std::string text = at(span.file).path;
    if (span.line > 0) {
        text += ':' + std::to_string(span.line);
        if (span.column > 0) {
            text += ':' + std::to_string(span.column);
        }
    }
    return text;
}

} // namespace tickleaf::support
