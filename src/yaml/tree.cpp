// SPDX-License-Identifier: MIT
#include "yaml/tree.h"

#include <exception>
#include <istream>
#include <map>
#include <streambuf>
#include <utility>

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include "yaml/position.h"

namespace tickleaf::yaml {

namespace {

using support::Findings;
using support::Span;

/// Thrown to leave yaml-cpp's parser when a limit is passed; never leaves this file.
struct Stop : std::exception {};

/// Builds the tree from the parser's events. Anchored subtrees are copied where an alias names
/// them, so the node limit also bounds what aliases can blow up.
class TreeBuilder : public YAML::EventHandler {
  public:
    TreeBuilder(const LineIndex& lines, Findings& findings) : lines_(lines), findings_(findings) {}

    void OnDocumentStart(const YAML::Mark& /*mark*/) override {}
    void OnDocumentEnd() override {}
    void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
        // The parser tells of a value that is left out where it finds the next word, lines below.
        const bool has_key = !stack_.empty() && stack_.back().waits_for_value;
        Node node;
        node.span = has_key ? stack_.back().key.span : span(mark);
        add(std::move(node), anchor);
    }
    void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  const std::string& value) override {
        Node node;
        node.span = span(mark);
        node.quoted = tag == "!";
        refuse_tag(tag, node.span);
        node.kind = is_null(value, node.quoted) ? Node::Kind::Null : Node::Kind::Scalar;
        node.text = value;
        add(std::move(node), anchor);
    }
    void OnAlias(const YAML::Mark& mark, YAML::anchor_t anchor) override {
        const auto found = anchors_.find(anchor);
        if (found == anchors_.end()) {
            findings_.error(span(mark), "yaml-alias",
                            "this alias names the very value it stands in",
                            "write the value out instead of the alias");
            throw Stop{};
        }
        count(found->second.second, span(mark));
        attach(Node(found->second.first));
    }
    void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                         YAML::EmitterStyle::value /*style*/) override {
        open(Node::Kind::List, mark, tag, anchor);
    }
    void OnSequenceEnd() override { close(); }
    void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                    YAML::EmitterStyle::value /*style*/) override {
        open(Node::Kind::Map, mark, tag, anchor);
    }
    void OnMapEnd() override { close(); }

    bool has_root() const { return has_root_; }
    Node take_root() { return std::move(root_); }

  private:
    struct Open {
        Node node;
        YAML::anchor_t anchor = 0;
        std::size_t nodes_before = 0;
        bool waits_for_value = false;
        support::Located<std::string> key;
        std::map<std::string, Span> keys;
    };

    Span span(const YAML::Mark& mark) const { return lines_.span(mark.line, mark.column); }

    static bool is_null(const std::string& value, bool quoted) {
        return !quoted && (value.empty() || value == "~" || value == "null");
    }

    void refuse_tag(const std::string& tag, const Span& where) {
        if (!tag.empty() && tag != "?" && tag != "!") {
            findings_.error(where, "yaml-tag", "the tag \"" + tag + "\" is not used here",
                            "leave the tag out");
        }
    }

    void count(std::size_t nodes, const Span& where) {
        nodes_ += nodes;
        if (nodes_ > kMaxNodes) {
            findings_.error(where, "yaml-size",
                            "the file holds more than " + std::to_string(kMaxNodes) + " values",
                            "split it, or write fewer aliases");
            throw Stop{};
        }
    }

    void open(Node::Kind kind, const YAML::Mark& mark, const std::string& tag,
              YAML::anchor_t anchor) {
        const Span where = span(mark);
        refuse_tag(tag, where);
        if (stack_.size() >= static_cast<std::size_t>(kMaxDepth)) {
            findings_.error(where, "yaml-depth",
                            "values are nested deeper than " + std::to_string(kMaxDepth) +
                                " levels",
                            "nothing here needs to be nested so deep");
            throw Stop{};
        }
        if (!stack_.empty() && stack_.back().node.kind == Node::Kind::Map &&
            !stack_.back().waits_for_value) {
            findings_.error(where, "yaml-key", "a key is a list or a map; only a word can be a key",
                            "write the key as a plain word");
            throw Stop{};
        }
        Open level;
        level.node.kind = kind;
        level.node.span = where;
        level.anchor = anchor;
        level.nodes_before = nodes_;
        count(1, where);
        stack_.push_back(std::move(level));
    }

    void close() {
        Open level = std::move(stack_.back());
        stack_.pop_back();
        if (level.anchor != 0) {
            anchors_[level.anchor] = {level.node, nodes_ - level.nodes_before};
        }
        attach(std::move(level.node));
    }

    void add(Node node, YAML::anchor_t anchor) {
        count(1, node.span);
        if (anchor != 0) {
            anchors_[anchor] = {node, 1};
        }
        attach(std::move(node));
    }

    void attach(Node node) {
        if (stack_.empty()) {
            root_ = std::move(node);
            has_root_ = true;
            return;
        }
        Open& level = stack_.back();
        if (level.node.kind == Node::Kind::List) {
            level.node.items.push_back(std::move(node));
        } else if (level.waits_for_value) {
            level.waits_for_value = false;
            level.node.entries.push_back({std::move(level.key), std::move(node)});
        } else {
            take_key(level, node);
        }
    }

    void take_key(Open& level, const Node& node) {
        level.waits_for_value = true;
        level.key = {node.text, node.span};
        if (node.kind != Node::Kind::Scalar && !node.quoted) {
            findings_.error(node.span, "yaml-key", "a key is empty; only a word can be a key",
                            "write the key before the colon");
        }
        if (node.text == "<<" && !node.quoted) {
            findings_.error(node.span, "yaml-merge", "merge keys (\"<<\") are not supported",
                            "write the values out");
        }
        const auto [earlier, is_new] = level.keys.emplace(node.text, node.span);
        if (!is_new) {
            findings_.error(node.span, "yaml-duplicate-key",
                            "the key \"" + node.text +
                                "\" stands here a second time; it was first given on line " +
                                std::to_string(earlier->second.line),
                            "keep one of the two");
        }
    }

    const LineIndex& lines_;
    Findings& findings_;
    std::vector<Open> stack_;
    std::map<YAML::anchor_t, std::pair<Node, std::size_t>> anchors_;
    std::size_t nodes_ = 0;
    Node root_;
    bool has_root_ = false;
};

/// Lets the parser read a string in place, without the copy an istringstream makes.
class ViewBuffer : public std::streambuf {
  public:
    explicit ViewBuffer(std::string& text) {
        setg(text.data(), text.data(), text.data() + text.size());
    }
};

bool bytes_are_fine(std::string_view text, const LineIndex& lines, Findings& findings) {
    if (text.size() > kMaxBytes) {
        findings.error(lines.start(), "yaml-size",
                       "the file is larger than " + std::to_string(kMaxBytes >> 20) + " MiB",
                       "a prescription is a few kilobytes; is this the right file?");
        return false;
    }
    if (const auto bad = support::first_bad_utf8(text)) {
        findings.error(lines.span_of_byte(*bad), "not-utf-8", "the bytes here are not UTF-8 text",
                       "save the file as UTF-8");
        return false;
    }
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        const bool line_or_tab = byte == '\t' || byte == '\n' ||
                                 (byte == '\r' && i + 1 < text.size() && text[i + 1] == '\n');
        if ((byte < 0x20 && !line_or_tab) || byte == 0x7F) {
            findings.error(lines.span_of_byte(i), "control-character",
                           "an invisible control character stands here",
                           "delete it and type the line again");
            return false;
        }
    }
    return true;
}

/// yaml-cpp's words for what is wrong, made into one lower-case sentence.
std::string lower_first(std::string message) {
    if (!message.empty() && message[0] >= 'A' && message[0] <= 'Z') {
        message[0] = static_cast<char>(message[0] - 'A' + 'a');
    }
    return message;
}

void report(const YAML::Exception& exception, const LineIndex& lines, Findings& findings) {
    Span where = lines.start();
    if (!exception.mark.is_null()) {
        where = lines.span(exception.mark.line, exception.mark.column);
    }
    findings.error(where, "yaml-syntax", "this is not YAML: " + lower_first(exception.msg),
                   "look for a missing colon, quote or bracket, or a wrong indent, here or on the "
                   "line before");
}

/// Takes no notice of what it is told: used to ask whether there is another document.
class Ignore : public YAML::EventHandler {
  public:
    void OnDocumentStart(const YAML::Mark& /*mark*/) override {}
    void OnDocumentEnd() override {}
    void OnNull(const YAML::Mark& /*mark*/, YAML::anchor_t /*anchor*/) override {}
    void OnAlias(const YAML::Mark& /*mark*/, YAML::anchor_t /*anchor*/) override {}
    void OnScalar(const YAML::Mark& /*mark*/, const std::string& /*tag*/, YAML::anchor_t /*anchor*/,
                  const std::string& /*value*/) override {}
    void OnSequenceStart(const YAML::Mark& /*mark*/, const std::string& /*tag*/,
                         YAML::anchor_t /*anchor*/, YAML::EmitterStyle::value /*style*/) override {}
    void OnSequenceEnd() override {}
    void OnMapStart(const YAML::Mark& /*mark*/, const std::string& /*tag*/,
                    YAML::anchor_t /*anchor*/, YAML::EmitterStyle::value /*style*/) override {}
    void OnMapEnd() override {}
};

} // namespace

const Node* Node::find(std::string_view key) const {
    for (const Entry& entry : entries) {
        if (entry.key.value == key) {
            return &entry.value;
        }
    }
    return nullptr;
}

std::optional<Node> read(const support::Sources& sources, int file, Findings& findings) {
    std::string text = sources.at(file).text;
    if (text.starts_with("\xEF\xBB\xBF")) {
        text.erase(0, 3);
    }
    const LineIndex lines(text, file);
    if (!bytes_are_fine(text, lines, findings)) {
        return std::nullopt;
    }
    TreeBuilder builder(lines, findings);
    try {
        ViewBuffer buffer(text);
        std::istream stream(&buffer);
        YAML::Parser parser(stream);
        parser.HandleNextDocument(builder);
        // Asked once only: on a lone "," yaml-cpp 0.7.0 answers yes for ever.
        Ignore rest;
        if (parser.HandleNextDocument(rest)) {
            findings.error(
                lines.start(), "yaml-second-document",
                "the file holds more than one document, and only the first would be read",
                "remove the lines \"---\" and \"...\", and mend the indent of what follows a list");
        }
    } catch (const Stop&) {
        return std::nullopt;
    } catch (const YAML::Exception& exception) {
        report(exception, lines, findings);
        return std::nullopt;
    }
    if (!builder.has_root()) {
        findings.error(lines.start(), "yaml-empty", "the file is empty",
                       "start from a starter prescription");
        return std::nullopt;
    }
    return builder.take_root();
}

} // namespace tickleaf::yaml
