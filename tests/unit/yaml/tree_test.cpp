// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "yaml/reader.h"
#include "yaml/tree.h"

using namespace tickleaf;
using yaml::Node;

namespace {

struct Read {
    support::Sources sources;
    support::Findings findings;
    std::optional<Node> root;
    explicit Read(std::string text) {
        const int file = sources.add("rx.yaml", std::move(text));
        root = yaml::read(sources, file, findings);
    }
    std::string first() const {
        if (findings.size() == 0) {
            return "";
        }
        const auto finding = findings.sorted()[0];
        return std::to_string(finding.span.line) + ":" + std::to_string(finding.span.column) + " " +
               finding.id;
    }
};

std::string repeated(const std::string& part, int times) {
    std::string text;
    for (int i = 0; i < times; ++i) {
        text += part;
    }
    return text;
}

} // namespace

TEST_CASE("values keep their places in code points") {
    const Read read("name: Zo\xC3\xAB\n\xC3\xA9t\xC3\xA9: [a, \"b\"]\nlast: {x: 1}\n");
    REQUIRE(read.root);
    CHECK(read.findings.size() == 0);
    const Node* list = read.root->find("\xC3\xA9t\xC3\xA9");
    REQUIRE(list != nullptr);
    CHECK(list->span.line == 2);
    CHECK(list->span.column == 6);
    CHECK(list->items.at(1).span.column == 10);
    CHECK(list->items.at(1).quoted);
    CHECK_FALSE(list->items.at(0).quoted);
}

TEST_CASE("a value that is left out stands where its key is, not where the next word is") {
    const Read read("a:\n  # more to come\n  first:\n\n  second: {x: , y: 1}\nb:\n");
    REQUIRE(read.root);
    const Node* a = read.root->find("a");
    REQUIRE(a != nullptr);
    const Node* first = a->find("first");
    REQUIRE(first != nullptr);
    CHECK(first->kind == Node::Kind::Null);
    CHECK(first->span.line == 3);
    CHECK(first->span.column == 3);
    const Node* x = a->find("second")->find("x");
    REQUIRE(x != nullptr);
    CHECK(x->span.line == 5);
    CHECK(read.root->find("b")->span.line == 6);
}

TEST_CASE("bad YAML is a finding at its place") {
    struct Row {
        const char* text;
        const char* finding;
    };
    const Row rows[] = {
        {"a: 1\nb: 2\na: 3\n", "3:1 yaml-duplicate-key"},
        {"a: [1, 2\n", "2:1 yaml-syntax"},
        {"- a\nb: 1\n", "1:1 yaml-second-document"},
        {"a: 1\n---\nb: 2\n", "1:1 yaml-second-document"},
        {"base: &x {a: 1}\nb:\n  <<: *x\n", "3:3 yaml-merge"},
        {"a: !!int 5\n", "1:4 yaml-tag"},
        {"? [a, b]\n: 1\n", "1:3 yaml-key"},
        {"a: caf\xE9\n", "1:7 not-utf-8"},
        {"ab: x\x01y\n", "1:6 control-character"},
        {"", "1:1 yaml-empty"},
        {"# only a comment\n", "1:1 yaml-empty"},
        {"a: &x [*x]\n", "1:8 yaml-alias"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.text);
        CHECK(Read(row.text).first() == row.finding);
    }
}

TEST_CASE("a lone comma ends") {
    CHECK(Read(",").findings.has_errors());
}

TEST_CASE("limits end hostile files with one clear finding") {
    CHECK(Read("a: " + repeated("[", 80) + repeated("]", 80)).first() == "1:67 yaml-depth");
    std::string laughs = "a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n";
    for (int i = 1; i < 9; ++i) {
        const std::string earlier = "*a" + std::to_string(i - 1);
        laughs += "a" + std::to_string(i) + ": &a" + std::to_string(i) + " [" + earlier +
                  repeated(", " + earlier, 9) + "]\n";
    }
    CHECK(Read(laughs).first().ends_with("yaml-size"));
    CHECK(Read("a: " + std::string(yaml::kMaxBytes, 'x')).first() == "1:1 yaml-size");
}

TEST_CASE("only true and false are booleans, and numbers are plain decimals") {
    // Source: YAML 1.2.2, 10.3.2 (core schema), narrowed: True, TRUE are not taken.
    Read read("yes: yes\non: true\noct: 014\nfloat: 1.5\nhex: 0x1F\nquoted: \"5\"\n");
    REQUIRE(read.root);
    yaml::MapReader map(*read.root, "the test", read.findings);
    CHECK_FALSE(map.optional_flag("yes"));
    CHECK(map.optional_flag("on")->value);
    CHECK(map.optional_integer("oct")->value == 14);
    CHECK(map.optional_number("float")->value == 1.5);
    CHECK_FALSE(map.optional_integer("hex"));
    CHECK(map.required_text("quoted")->value == "5");
    map.finish();
    CHECK(read.findings.size() == 2);
}

TEST_CASE("missing, empty and unknown keys are all reported in one run") {
    Read read("nmae: Rosa\nheight:\nextra: 1\n");
    REQUIRE(read.root);
    yaml::MapReader map(*read.root, "the patient", read.findings);
    CHECK_FALSE(map.required_text("name"));
    CHECK_FALSE(map.optional_text("height"));
    map.finish();
    const auto found = read.findings.sorted();
    REQUIRE(found.size() == 4);
    CHECK(found[0].id == "missing-key");
    CHECK(found[1].message == "the patient has no key \"nmae\"");
    CHECK(found[1].hint == "did you mean \"name\"?");
    CHECK(found[2].id == "empty-value");
    CHECK(found[3].id == "unknown-key");
}

TEST_CASE("a byte order mark and Windows line ends are taken") {
    const Read read("\xEF\xBB\xBF"
                    "a: 1\r\nb: 2\r\n");
    REQUIRE(read.root);
    CHECK(read.root->find("b")->text == "2");
    CHECK(read.findings.size() == 0);
}
