// SPDX-License-Identifier: MIT
#include "yaml/reader.h"

#include <algorithm>
#include <utility>

#include "support/number.h"

namespace tickleaf::yaml {

using support::Findings;
using support::Located;

namespace {

constexpr std::size_t kLongestQuote = 60;

template <class T>
std::optional<Located<T>> located(const Node* node, std::optional<T> value) {
    if (node == nullptr || !value) {
        return std::nullopt;
    }
    return Located<T>{std::move(*value), node->span};
}

void expected(const Node& node, std::string_view what, std::string_view wanted, Findings& findings,
              std::string hint = {}) {
    findings.error(node.span, "wrong-type",
                   std::string(what) + " is " + describe(node) + ", but " + std::string(wanted) +
                       " was expected",
                   std::move(hint));
}

} // namespace

std::string describe(const Node& node) {
    switch (node.kind) {
    case Node::Kind::Null:
        return "empty";
    case Node::Kind::List:
        return "a list";
    case Node::Kind::Map:
        return "a map";
    case Node::Kind::Scalar:
        break;
    }
    if (node.text.size() > kLongestQuote) {
        return "a long text";
    }
    return '"' + node.text + '"';
}

std::optional<std::string> as_text(const Node& node, std::string_view what, Findings& findings) {
    if (node.kind != Node::Kind::Scalar) {
        expected(node, what, "a text", findings);
        return std::nullopt;
    }
    return node.text;
}

std::optional<std::int64_t> as_integer(const Node& node, std::string_view what,
                                       Findings& findings) {
    const auto value =
        node.kind == Node::Kind::Scalar ? support::parse_integer(node.text) : std::nullopt;
    if (!value) {
        expected(node, what, "a whole number", findings);
    }
    return value;
}

std::optional<double> as_number(const Node& node, std::string_view what, Findings& findings) {
    const auto value =
        node.kind == Node::Kind::Scalar ? support::parse_decimal(node.text) : std::nullopt;
    if (!value) {
        expected(node, what, "a number", findings, "write decimals with a point, such as 2.5");
    }
    return value;
}

std::optional<bool> as_flag(const Node& node, std::string_view what, Findings& findings) {
    if (node.kind == Node::Kind::Scalar && !node.quoted &&
        (node.text == "true" || node.text == "false")) {
        return node.text == "true";
    }
    expected(node, what, "true or false", findings,
             "write true or false; yes, no, on and off are plain words here");
    return std::nullopt;
}

MapReader::MapReader(const Node& node, std::string what, Findings& findings)
    : span_(node.span), what_(std::move(what)), findings_(&findings) {
    if (node.kind == Node::Kind::Map) {
        node_ = &node;
    } else {
        expected(node, what_, "a map of keys and values", findings,
                 "write one \"key: value\" a line");
    }
}

const Node* MapReader::optional_node(std::string_view key) {
    asked_.emplace_back(key);
    const Node* found = node_ == nullptr ? nullptr : node_->find(key);
    if (found == nullptr) {
        return nullptr;
    }
    if (found->kind == Node::Kind::Null) {
        findings_->error(found->span, "empty-value",
                         "\"" + std::string(key) + "\" of " + what_ + " has no value",
                         "give it a value or remove the line");
        return nullptr;
    }
    return found;
}

const Node* MapReader::required_node(std::string_view key) {
    const Node* found = optional_node(key);
    if (found == nullptr && node_ != nullptr && node_->find(key) == nullptr) {
        findings_->error(span_, "missing-key", what_ + " has no \"" + std::string(key) + "\"",
                         "add a line \"" + std::string(key) + ": ...\"");
    }
    return found;
}

std::optional<Located<std::string>> MapReader::optional_text(std::string_view key) {
    const Node* node = optional_node(key);
    return located(node, node == nullptr ? std::nullopt : as_text(*node, key, *findings_));
}

std::optional<Located<std::string>> MapReader::required_text(std::string_view key) {
    const Node* node = required_node(key);
    return located(node, node == nullptr ? std::nullopt : as_text(*node, key, *findings_));
}

std::optional<Located<std::int64_t>> MapReader::optional_integer(std::string_view key) {
    const Node* node = optional_node(key);
    return located(node, node == nullptr ? std::nullopt : as_integer(*node, key, *findings_));
}

std::optional<Located<std::int64_t>> MapReader::required_integer(std::string_view key) {
    const Node* node = required_node(key);
    return located(node, node == nullptr ? std::nullopt : as_integer(*node, key, *findings_));
}

std::optional<Located<double>> MapReader::optional_number(std::string_view key) {
    const Node* node = optional_node(key);
    return located(node, node == nullptr ? std::nullopt : as_number(*node, key, *findings_));
}

std::optional<Located<double>> MapReader::required_number(std::string_view key) {
    const Node* node = required_node(key);
    return located(node, node == nullptr ? std::nullopt : as_number(*node, key, *findings_));
}

std::optional<Located<bool>> MapReader::optional_flag(std::string_view key) {
    const Node* node = optional_node(key);
    return located(node, node == nullptr ? std::nullopt : as_flag(*node, key, *findings_));
}

std::vector<Located<std::string>> MapReader::optional_texts(std::string_view key) {
    std::vector<Located<std::string>> texts;
    const Node* node = optional_node(key);
    if (node == nullptr) {
        return texts;
    }
    if (node->kind != Node::Kind::List) {
        if (auto text = located(node, as_text(*node, key, *findings_))) {
            texts.push_back(std::move(*text));
        }
        return texts;
    }
    for (const Node& item : node->items) {
        if (auto text = located(&item, as_text(item, key, *findings_))) {
            texts.push_back(std::move(*text));
        }
    }
    return texts;
}

void MapReader::finish() {
    if (node_ == nullptr) {
        return;
    }
    for (const Entry& entry : node_->entries) {
        if (std::find(asked_.begin(), asked_.end(), entry.key.value) != asked_.end()) {
            continue;
        }
        const std::string near = support::closest(entry.key.value, asked_);
        std::string hint = near.empty() ? "remove it, or look the key up in the starter"
                                        : "did you mean \"" + near + "\"?";
        findings_->error(entry.key.span, "unknown-key",
                         what_ + " has no key \"" + entry.key.value + "\"", std::move(hint));
    }
}

} // namespace tickleaf::yaml
