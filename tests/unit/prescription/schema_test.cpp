// SPDX-License-Identifier: MIT
// The published schema and notation are those of the reader: one key table for both, and every
// example of templates/NOTATION.md is read.
#include <catch2/catch.hpp>

#include <fstream>
#include <iterator>
#include <sstream>

#include "prescription/dose_form.h"
#include "prescription/fields.h"
#include "prescription/prescription.h"
#include "prescription/schema.h"
#include "support/json.h"
#include "yaml/tree.h"

namespace {

using namespace tickleaf;
using namespace tickleaf::prescription;

std::string bytes_of(const std::string& path) {
    std::ifstream stream(std::string(TICKLEAF_ROOT) + path, std::ios::binary);
    REQUIRE(stream);
    return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

/// The value of "a: TEXT".
yaml::Node value_of(const std::string& text) {
    support::Sources sources;
    support::Findings findings;
    const auto root = yaml::read(sources, sources.add("a.yaml", "a: " + text + '\n'), findings);
    INFO(text);
    REQUIRE(root);
    REQUIRE(findings.size() == 0);
    return root->entries.front().value;
}

struct Part {
    const char* name; ///< in $defs; empty for the root
    const FieldMap& (*fields)();
};
const std::vector<Part>& parts() {
    static const std::vector<Part> all = {
        {"", root_fields},           {"patient", patient_fields},    {"clinic", clinic_fields},
        {"home", home_fields},       {"band", band_fields},          {"pain", pain_fields},
        {"stage", stage_fields},     {"exercise", exercise_fields},  {"dose_map", dose_fields},
        {"logbook", logbook_fields}, {"waived_rule", waiver_fields},
    };
    return all;
}

/// Rows "| `a` | `b` |" under a heading.
std::vector<std::pair<std::string, std::string>> rows_under(const std::string& heading) {
    std::istringstream lines(bytes_of("/templates/NOTATION.md"));
    std::vector<std::pair<std::string, std::string>> rows;
    bool is_inside = false;
    for (std::string line; std::getline(lines, line);) {
        is_inside = line.starts_with("## ") ? line == heading : is_inside;
        const auto middle = line.find("` | `");
        if (is_inside && line.starts_with("| `") && middle != std::string::npos) {
            rows.emplace_back(line.substr(3, middle - 3),
                              line.substr(middle + 5, line.rfind('`') - middle - 5));
        }
    }
    return rows;
}

} // namespace

TEST_CASE("the committed schema is the one that is generated") {
    CHECK(bytes_of("/templates/prescription.schema.json") == json_schema());
}

TEST_CASE("schema and reader know the same keys and ask for the same ones") {
    const auto schema = support::Json::parse(json_schema());
    for (const Part& part : parts()) {
        INFO(part.name);
        const support::Json& map = *part.name == '\0' ? schema : schema.at("$defs").at(part.name);
        CHECK(map.at("additionalProperties") == false);
        std::vector<std::string> keys;
        std::vector<std::string> required;
        for (const Field& field : part.fields().fields) {
            keys.emplace_back(field.key);
            if (field.is_required) {
                required.emplace_back(field.key);
            }
        }
        std::vector<std::string> in_schema;
        for (const auto& item : map.at("properties").items()) {
            in_schema.push_back(item.key());
            CHECK_FALSE(item.value().at("description").get<std::string>().empty());
        }
        CHECK(in_schema == keys);
        CHECK(map.value("required", std::vector<std::string>{}) == required);
    }
}

TEST_CASE("every reference of the schema is defined") {
    const std::string text = json_schema();
    const auto schema = support::Json::parse(text);
    std::size_t references = 0;
    for (auto at = text.find("#/$defs/"); at != std::string::npos;
         at = text.find("#/$defs/", at + 1)) {
        const std::string name = text.substr(at + 8, text.find('"', at) - at - 8);
        CHECK(schema.at("$defs").contains(name));
        ++references;
    }
    CHECK(references > 10);
}

TEST_CASE("a reader that leaves its table is a bug of ours, and is told so") {
    support::Findings findings;
    const yaml::Node node = value_of("{rule: a, reason: b}");
    FieldReader asks_more(node, waiver_fields(), findings);
    CHECK_THROWS_AS(asks_more.text("why"), std::logic_error);
    FieldReader asks_less(node, waiver_fields(), findings);
    asks_less.text("rule");
    CHECK_THROWS_AS(asks_less.finish(), std::logic_error);
    FieldReader asks_all(node, waiver_fields(), findings);
    asks_all.text("rule");
    asks_all.text("reason");
    CHECK_NOTHROW(asks_all.finish());
    CHECK(findings.size() == 0);
}

TEST_CASE("every dose of the notation page is read, and equals its map") {
    const auto rows = rows_under("## Doses");
    CHECK(rows.size() >= 7);
    for (const auto& [text, map] : rows) {
        INFO(text << " | " << map);
        support::Findings findings;
        const auto dose = read_dose(value_of('"' + text + '"'), findings);
        const auto same = read_dose(value_of(map), findings);
        CHECK(findings.size() == 0);
        REQUIRE(dose);
        REQUIRE(same);
        CHECK(to_notation(*dose) == to_notation(*same));
        CHECK(dose->content == same->content);
    }
}

TEST_CASE("every tempo of the notation page is read, and equals its map") {
    const auto rows = rows_under("## Tempo");
    CHECK(rows.size() >= 5);
    for (const auto& [text, map] : rows) {
        INFO(text << " | " << map);
        support::Findings findings;
        const auto tempo = read_tempo(value_of('"' + text + '"'), findings);
        const auto same = read_tempo(value_of(map), findings);
        CHECK(findings.size() == 0);
        REQUIRE(tempo);
        REQUIRE(same);
        CHECK(tempo->steps == same->steps);
    }
}

TEST_CASE("what the notation page calls no dose is none") {
    const std::string page = bytes_of("/templates/NOTATION.md");
    std::string rest = page.substr(page.find("understood: "));
    int bad = 0;
    for (auto at = rest.find('`'); at != std::string::npos; at = rest.find('`', at + 1)) {
        const auto end = rest.find('`', at + 1);
        const std::string text = rest.substr(at + 1, end - at - 1);
        INFO(text);
        support::Findings findings;
        CHECK_FALSE(read_dose(value_of('"' + text + '"'), findings));
        CHECK(findings.has_errors());
        at = end;
        ++bad;
    }
    CHECK(bad >= 8);
}
