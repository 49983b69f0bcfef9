// SPDX-License-Identifier: MIT
#include "locale/po.h"

#include <algorithm>
#include <map>

#include "support/utf8.h"

namespace tickleaf::locale {
namespace {

using support::Span;

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

/// Which text of an entry a quoted line belongs to.
enum class Target { None, Context, Source, Translation, PreviousContext, Previous };

std::string quoted(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        switch (c) {
        case '"':
            out += "\\\"";
            break;
        case '\\':
            out += "\\\\";
            break;
        case '\n':
            out += "\\n";
            break;
        case '\t':
            out += "\\t";
            break;
        default:
            out += c;
        }
    }
    return out + '"';
}

void write_lines(std::string& out, std::string_view mark, const std::vector<std::string>& lines) {
    for (const std::string& line : lines) {
        out += mark;
        out += line.empty() ? "" : " ";
        out += line + '\n';
    }
}

bool is_space(char c) {
    return c == ' ' || c == '\t';
}

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && is_space(text.front())) {
        text.remove_prefix(1);
    }
    while (!text.empty() && is_space(text.back())) {
        text.remove_suffix(1);
    }
    return text;
}

/// Reads a file line by line; an entry ends where the next one begins.
class Reader {
  public:
    Reader(std::string_view text, int file, support::Findings& findings)
        : text_(text), file_(file), findings_(findings) {}

    PoFile read() {
        while (begin_ < text_.size()) {
            const std::size_t end = std::min(text_.find('\n', begin_), text_.size());
            line_ = text_.substr(begin_, end - begin_);
            if (!line_.empty() && line_.back() == '\r') {
                line_.remove_suffix(1);
            }
            ++number_;
            take_line();
            begin_ = end + 1;
        }
        finish_entry();
        return std::move(out_);
    }

  private:
    void error(const char* id, const std::string& message, const std::string& hint = {}) {
        const std::size_t column = support::count_code_points(line_.substr(0, offset_)) + 1;
        findings_.error({file_, number_, static_cast<int>(column)}, id, message, hint);
    }

    Span here() const {
        return {file_, number_,
                static_cast<int>(support::count_code_points(line_.substr(0, offset_))) + 1};
    }

    void take_line() {
        offset_ = 0;
        skip_space();
        const std::string_view rest = line_.substr(offset_);
        if (rest.empty()) {
            finish_entry();
        } else if (rest.starts_with("#~")) {
            finish_entry();
            out_.obsolete += rest.find("msgid ") != std::string_view::npos ? 1 : 0;
        } else if (rest.starts_with("#|")) {
            begin_comment();
            offset_ += 2;
            skip_space();
            take_keyword(true);
        } else if (rest.front() == '#') {
            begin_comment();
            take_comment(rest);
        } else if (rest.front() == '"') {
            take_string();
        } else {
            take_keyword(false);
        }
    }

    void skip_space() {
        while (offset_ < line_.size() && is_space(line_[offset_])) {
            ++offset_;
        }
    }

    /// A comment after a translation belongs to the next entry.
    void begin_comment() {
        if (has_translation_) {
            finish_entry();
        }
    }

    void take_comment(std::string_view rest) {
        const std::string_view body = trimmed(rest.substr(rest.size() > 1 ? 2 : 1));
        if (rest.starts_with("#.")) {
            entry_.extracted.emplace_back(body);
        } else if (rest.starts_with("#:")) {
            entry_.references.emplace_back(body);
        } else if (rest.starts_with("#,")) {
            entry_.fuzzy = entry_.fuzzy || body.find("fuzzy") != std::string_view::npos;
        } else {
            entry_.notes.emplace_back(trimmed(rest.substr(1)));
        }
    }

    void take_keyword(bool is_previous) {
        struct Word {
            std::string_view text;
            Target target;
            Target previous;
        };
        constexpr Word kWords[] = {{"msgctxt", Target::Context, Target::PreviousContext},
                                   {"msgid", Target::Source, Target::Previous},
                                   {"msgstr", Target::Translation, Target::None}};
        const std::string_view rest = line_.substr(offset_);
        if (is_previous && rest.starts_with('"')) {
            take_string();
            return;
        }
        const std::size_t end = std::min(rest.find_first_of(" \t\""), rest.size());
        const std::string_view name = rest.substr(0, end);
        if (name == "msgid_plural" || name.starts_with("msgstr[")) {
            error("po-plural", "\"" + std::string(name) + "\" is not expected here",
                  "plural forms stand inside the text: {n, plural, one {...} other {...}}");
            target_ = Target::None;
            return;
        }
        for (const Word& word : kWords) {
            if (name == word.text) {
                start(is_previous ? word.previous : word.target, end);
                return;
            }
        }
        error("po-syntax", "\"" + std::string(name) +
                               "\" is no word of a PO file; expected msgctxt, msgid, "
                               "msgstr, a quoted text or a comment");
        target_ = Target::None;
    }

    void start(Target target, std::size_t keyword_length) {
        const bool begins = target == Target::Context || target == Target::Source;
        if (begins && has_translation_) {
            finish_entry();
        }
        if (target == Target::Context || (target == Target::Source && !has_source_)) {
            entry_.span = has_context_ ? entry_.span : here();
        }
        has_context_ = has_context_ || target == Target::Context;
        has_source_ = has_source_ || target == Target::Source;
        offset_ += keyword_length;
        skip_space();
        target_ = target;
        if (target == Target::Translation) {
            has_translation_ = true;
            entry_.translation_span = here();
        }
        if (target == Target::Previous) {
            entry_.previous = std::string();
        }
        take_string();
    }

    std::string* destination() {
        switch (target_) {
        case Target::Context:
            return &entry_.context;
        case Target::Source:
            return &entry_.source;
        case Target::Translation:
            return &entry_.translation;
        case Target::Previous:
            return &*entry_.previous;
        case Target::PreviousContext:
        case Target::None:
            break;
        }
        return &ignored_;
    }

    void take_string() {
        if (offset_ >= line_.size() || line_[offset_] != '"') {
            error("po-syntax", "a text in quotes is expected here");
            return;
        }
        std::string& to = *destination();
        for (++offset_; offset_ < line_.size(); ++offset_) {
            const char c = line_[offset_];
            if (c == '"') {
                ++offset_;
                check_end();
                return;
            }
            if (c == '\\') {
                ++offset_;
                take_escape(to);
            } else {
                to += c;
            }
        }
        error("po-syntax", "the quote that ends this text is missing");
    }

    void take_escape(std::string& to) {
        constexpr std::string_view kFrom = "nt\"\\";
        constexpr std::string_view kTo = "\n\t\"\\";
        const std::size_t at =
            offset_ < line_.size() ? kFrom.find(line_[offset_]) : std::string_view::npos;
        if (at == std::string_view::npos) {
            error("po-syntax", "after \\ one of n, t, \" or \\ is expected");
            return;
        }
        to += kTo[at];
    }

    void check_end() {
        skip_space();
        if (offset_ < line_.size()) {
            error("po-syntax", "nothing is expected after the text");
        }
    }

    void finish_entry() {
        const bool begun = has_source_ || has_context_ || has_translation_;
        if (begun && !(has_source_ && has_translation_)) {
            findings_.error(entry_.span, "po-syntax",
                            std::string("this entry has no ") + (has_source_ ? "msgstr" : "msgid"));
        } else if (begun && entry_.context.empty() && entry_.source.empty()) {
            take_header();
        } else if (begun) {
            out_.entries.push_back(std::move(entry_));
        }
        if (begun || line_.empty()) {
            entry_ = {};
        }
        has_context_ = has_source_ = has_translation_ = false;
        target_ = Target::None;
    }

    void take_header() {
        out_.notes = std::move(entry_.notes);
        std::string_view rest = entry_.translation;
        while (!rest.empty()) {
            const std::size_t end = std::min(rest.find('\n'), rest.size());
            const std::string_view line = rest.substr(0, end);
            const std::size_t colon = line.find(':');
            if (colon != std::string_view::npos) {
                out_.header.emplace_back(line.substr(0, colon), trimmed(line.substr(colon + 1)));
            }
            rest.remove_prefix(std::min(end + 1, rest.size()));
        }
    }

    std::string_view text_;
    std::string_view line_;
    std::size_t begin_ = 0;
    std::size_t offset_ = 0;
    int number_ = 0;
    int file_;
    support::Findings& findings_;
    PoFile out_;
    PoEntry entry_;
    std::string ignored_;
    Target target_ = Target::None;
    bool has_context_ = false;
    bool has_source_ = false;
    bool has_translation_ = false;
};

Span span_of_byte(std::string_view text, std::size_t offset, int file) {
    const auto line =
        std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(offset), '\n');
    const std::size_t start = text.rfind('\n', offset == 0 ? 0 : offset - 1);
    const std::size_t from = start == std::string_view::npos || offset == 0 ? 0 : start + 1;
    return {file, static_cast<int>(line) + 1,
            static_cast<int>(support::count_code_points(text.substr(from, offset - from))) + 1};
}

void check_contexts(const PoFile& po, support::Findings& findings) {
    std::map<std::string, int> first;
    for (const PoEntry& entry : po.entries) {
        if (entry.context.empty()) {
            findings.error(entry.span, "po-context",
                           "the text \"" + entry.source + "\" has no msgctxt that names its key",
                           "begin with a fresh \"tickleaf translate export\"");
            continue;
        }
        const auto [place, added] = first.emplace(entry.context, entry.span.line);
        if (!added) {
            findings.error(entry.span, "po-duplicate",
                           "text \"" + entry.context + "\" stands here twice, first in line " +
                               std::to_string(place->second),
                           "remove one of the two");
        }
    }
}

} // namespace

std::string PoFile::field(std::string_view name) const {
    const auto found = std::find_if(header.begin(), header.end(),
                                    [name](const auto& pair) { return pair.first == name; });
    return found == header.end() ? std::string() : found->second;
}

std::string write_po(const PoFile& file) {
    std::string out;
    write_lines(out, "#", file.notes);
    out += "msgid \"\"\nmsgstr \"\"\n";
    for (const auto& [name, value] : file.header) {
        out += quoted(name + ": " + value + "\n") + '\n';
    }
    for (const PoEntry& entry : file.entries) {
        out += '\n';
        write_lines(out, "#", entry.notes);
        write_lines(out, "#.", entry.extracted);
        write_lines(out, "#:", entry.references);
        out += entry.fuzzy ? "#, fuzzy\n" : "";
        if (entry.previous) {
            out += "#| msgid " + quoted(*entry.previous) + '\n';
        }
        out += "msgctxt " + quoted(entry.context) + '\n';
        out += "msgid " + quoted(entry.source) + '\n';
        out += "msgstr " + quoted(entry.translation) + '\n';
    }
    return out;
}

std::optional<PoFile> read_po(const support::Sources& sources, int file,
                              support::Findings& findings) {
    std::string_view text = sources.at(file).text;
    if (text.starts_with(kByteOrderMark)) {
        text.remove_prefix(kByteOrderMark.size());
    }
    const std::size_t before = findings.size();
    if (const auto bad = support::first_bad_utf8(text)) {
        findings.error(span_of_byte(text, *bad, file), "po-encoding",
                       "this byte is not UTF-8; the file may be Latin-1 or another old encoding",
                       "save the file as UTF-8, or run msgconv --to-code=UTF-8");
        return std::nullopt;
    }
    PoFile po = Reader(text, file, findings).read();
    const std::string type = po.field("Content-Type");
    if (findings.size() == before && !type.ends_with("charset=UTF-8") &&
        !type.ends_with("charset=utf-8")) {
        findings.error({file, 1, 1}, "po-encoding",
                       "the header says \"" + type + "\", expected charset=UTF-8",
                       "save the file as UTF-8, or run msgconv --to-code=UTF-8");
    }
    check_contexts(po, findings);
    return findings.size() == before ? std::optional(std::move(po)) : std::nullopt;
}

} // namespace tickleaf::locale
