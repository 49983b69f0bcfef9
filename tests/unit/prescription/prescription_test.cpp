// SPDX-License-Identifier: MIT
// Whole prescriptions: the starter, and files of tests/golden/prescription whose last lines say
// what must be found in them, as "#! LINE:COLUMN: SEVERITY: MESSAGE [ID]".
#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "prescription/language_tag.h"
#include "prescription/limit.h"
#include "prescription/parts.h"
#include "prescription/prescription.h"
#include "yaml/tree.h"

namespace {

using namespace tickleaf;
using namespace tickleaf::prescription;

std::string bytes_of(const std::filesystem::path& path) {
    std::ifstream stream(path, std::ios::binary);
    REQUIRE(stream);
    return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

std::optional<Prescription> read_text(const std::string& text, support::Findings& findings) {
    support::Sources sources;
    const int file = sources.add("rx.yaml", text);
    const auto root = yaml::read(sources, file, findings);
    return root ? read(*root, findings) : std::nullopt;
}

std::string starter() {
    return bytes_of(std::string(TICKLEAF_ROOT) + "/templates/starters/ankle-sprain.yaml");
}

std::string line_of(const support::Finding& finding) {
    const std::string severity = finding.severity == support::Severity::Error     ? "error"
                                 : finding.severity == support::Severity::Warning ? "warning"
                                                                                  : "note";
    return std::to_string(finding.span.line) + ':' + std::to_string(finding.span.column) + ": " +
           severity + ": " + finding.message + " [" + finding.id + ']';
}

std::vector<std::string> expected_in(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t at = text.find("#! "); at != std::string::npos;
         at = text.find("#! ", at + 1)) {
        lines.push_back(text.substr(at + 3, text.find('\n', at) - at - 3));
    }
    return lines;
}

yaml::Node scalar(const std::string& text) {
    yaml::Node node;
    node.kind = yaml::Node::Kind::Scalar;
    node.text = text;
    node.span = {0, 1, 1};
    return node;
}

} // namespace

TEST_CASE("the ankle starter reads without a finding and as it was meant") {
    support::Findings findings;
    const auto rx = read_text(starter(), findings);
    for (const auto& finding : findings.all()) {
        UNSCOPED_INFO(line_of(finding));
    }
    CHECK(findings.size() == 0);
    REQUIRE(rx);
    CHECK(rx->patient.name.value == "Rosa M.");
    CHECK(rx->patient.height_mm->value == Approx(1620.0));
    CHECK(rx->patient.languages.front().value == "es");
    CHECK(rx->clinic.emergency.value == "112");
    CHECK(rx->clinic.name.for_all()->value == "Riverside Community Clinic");
    CHECK(rx->clinic.clinician.in("es")->value == "T. Adeyemi, fisioterapeuta");
    CHECK(rx->home.equipment.at(3).band->name == "light");
    CHECK(rx->home.equipment.at(3).band->title.in("es")->value == "suave");
    CHECK(rx->side->value == support::Side::Right);
    CHECK(rx->home.equipment.size() == 4);
    CHECK(*rx->home.equipment.at(1).height_mm == Approx(150.0));
    CHECK(rx->home.equipment.at(3).band->force_at_double_newtons == Approx(22.0));
    REQUIRE(rx->limits.size() == 2);
    CHECK(rx->limits.front().movement == "inversion");
    CHECK(rx->limits.front().degrees == Approx(10.0));
    CHECK(rx->limits.front().side == support::Side::Right);
    REQUIRE(rx->stages.size() == 3);
    for (const Stage& stage : rx->stages) {
        CHECK(stage.exercises.size() == 3);
        CHECK_FALSE(stage.move_on_when.empty());
    }
    CHECK(rx->stages.at(2).weeks == support::Range<int>{5, 8});
    CHECK(rx->stages.at(0).exercises.at(1).note.in("es")->value.substr(0, 8) == "Mantenga");
    CHECK(rx->logbook_weeks->value == 2);
}

TEST_CASE("a dump of the starter holds what a reader looks for") {
    support::Findings findings;
    const auto rx = read_text(starter(), findings);
    REQUIRE(rx);
    const std::string json = dump(*rx);
    for (const std::string part :
         {"\"dose\": \"4-5 x 45 s, rest 60 s, 2/day\"", "\"hold_seconds\": 15",
          "\"tempo\": \"lift 1 s, hold 1 s, lower 3 s\"", "\"starts\": \"2026-03-02\"",
          "\"degrees_at_most\": 10.0", "\"repetitions\": 5"}) {
        INFO(part);
        CHECK(json.find(part) != std::string::npos);
    }
    CHECK(json == dump(*rx));
}

TEST_CASE("every mistake of a bad file is found in one run, in order") {
    const std::filesystem::path folder = std::string(TICKLEAF_ROOT) + "/tests/golden/prescription";
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        files.push_back(entry.path());
    }
    std::sort(files.begin(), files.end());
    REQUIRE(files.size() >= 5);
    for (const auto& path : files) {
        INFO(path.filename());
        const std::string text = bytes_of(path);
        support::Findings findings;
        read_text(text, findings);
        std::vector<std::string> found;
        std::string all;
        for (const support::Finding& finding : findings.sorted()) {
            found.push_back(line_of(finding));
            all += "#! " + found.back() + '\n';
            CHECK((finding.hint.empty() && finding.id != "wrong-type" ? finding.message : "") ==
                  "");
        }
        INFO(all);
        CHECK(found == expected_in(text));
    }
}

TEST_CASE("free text among the criteria is told where it belongs") {
    std::string text =
        bytes_of(std::string(TICKLEAF_ROOT) + "/templates/starters/ankle-sprain.yaml");
    const std::string keys = "move_on_when: [";
    const auto at = text.find(keys);
    REQUIRE(at != std::string::npos);
    for (const std::string& given :
         {std::string("move_on_when: {en: You can walk} #"), keys + "{en: You can walk}, "}) {
        std::string wrong = text;
        support::Findings findings;
        read_text(wrong.replace(at, keys.size(), given), findings);
        REQUIRE(findings.size() == 1);
        const support::Finding& finding = findings.all().front();
        CHECK(finding.id == "wrong-type");
        CHECK(finding.message == "move_on_when is a map, but keys of criteria were expected");
        CHECK(finding.hint.find("under move_on_text") != std::string::npos);
    }
}

TEST_CASE("limits read in the trade's words") {
    struct Row {
        std::string text;
        Limit::Kind kind;
        support::Side side;
        std::string joint;
        std::string movement;
        double degrees;
    };
    using Kind = Limit::Kind;
    const std::vector<Row> rows = {
        {"right ankle inversion at most 10 degrees", Kind::JointAngle, support::Side::Right,
         "ankle", "inversion", 10},
        {"Left knee flexion at most 90\u00B0", Kind::JointAngle, support::Side::Left, "knee",
         "flexion", 90},
        {"hip external rotation at most 22.5 degrees", Kind::JointAngle, support::Side::Both, "hip",
         "lateral rotation", 22.5},
        {"both ankles dorsiflexion at most 0 degrees", Kind::JointAngle, support::Side::Both,
         "ankle", "dorsiflexion", 0},
        {"no impact", Kind::NoImpact, support::Side::Both, "", "", 0},
        {"no weight on right leg", Kind::NoWeightBearing, support::Side::Right, "leg", "", 0},
        {"partial weight on left leg", Kind::PartialWeightBearing, support::Side::Left, "leg", "",
         0},
    };
    for (const Row& row : rows) {
        INFO(row.text);
        support::Findings findings;
        const auto limit = read_limit(scalar(row.text), findings);
        CHECK(findings.size() == 0);
        REQUIRE(limit);
        CHECK(limit->kind == row.kind);
        CHECK(limit->side == row.side);
        CHECK(limit->joint == row.joint);
        CHECK(limit->movement == row.movement);
        CHECK(limit->degrees == Approx(row.degrees).margin(1e-9));
        CHECK(limit->as_written == row.text);
    }
}

TEST_CASE("language tags by shape (RFC 5646, section 2.1 and its appendix A)") {
    // The first row of good ones are examples of appendix A.
    for (const std::string good :
         {"de", "fr", "ja", "zh-Hant", "zh-Hans-CN", "sr-Latn-RS", "sl-rozaj-biske", "de-CH-1901",
          "es-419", "hy-Latn-IT-arevela", "EN", "pt-br", "ckb"}) {
        INFO(good);
        CHECK(is_language_tag(good));
    }
    // "de-419-DE" and "a-DE" are the invalid tags of appendix A.
    for (const std::string bad : {"de-419-DE", "a-DE", "", "english", "es_MX", "en-", "-en", "e",
                                  "en-Latn-Latn", "en US", "123"}) {
        INFO(bad);
        CHECK_FALSE(is_language_tag(bad));
    }
    CHECK(language_tag_hint("es_MX") == "did you mean \"es-MX\"?");
}

TEST_CASE("free text is found by lookup: own language, then its parent, then the text without a "
          "language") {
    FreeText text;
    text.by_language = {{"es", {"hola", {}}}, {"es-MX", {"qu\u00E9 onda", {}}}};
    CHECK(text.in("es-MX")->value == "qu\u00E9 onda");
    CHECK(text.in("es-ES")->value == "hola");
    CHECK(text.in("en") == nullptr);
    text.by_language.push_back({"", {"hi", {}}});
    CHECK(text.in("en")->value == "hi");
}

TEST_CASE("a text by language that names none is empty, for whoever must have one") {
    std::string text = starter();
    const std::string whole = "  name: Riverside Community Clinic\n";
    REQUIRE(text.find(whole) != std::string::npos);
    text.replace(text.find(whole), whole.size(), "  name: {}\n");
    support::Findings findings;
    read_text(text, findings);
    REQUIRE(findings.size() == 1);
    CHECK(findings.all().front().id == "empty-value");
    CHECK(findings.all().front().message == "name is empty");
}

TEST_CASE("dates that exist and dates that do not") {
    // Leap years by the Gregorian rule (ISO 8601-1:2019, 4.2.1): 2000 and 2024 are, 1900 and 2026
    // are not.
    const auto [text, good] = GENERATE(table<std::string, bool>({{"2024-02-29", true},
                                                                 {"2000-02-29", true},
                                                                 {"1900-02-29", false},
                                                                 {"2026-02-29", false},
                                                                 {"2026-04-31", false},
                                                                 {"2026-13-01", false},
                                                                 {"2026-00-10", false},
                                                                 {"2026-01-00", false},
                                                                 {"2026-1-1", false},
                                                                 {"20260101", false},
                                                                 {"2026-01-0x", false},
                                                                 {"0000-01-01", false},
                                                                 {"2026-03-29", true}}));
    INFO(text);
    support::Findings findings;
    CHECK(read_date(scalar(text), "starts", findings).has_value() == good);
    CHECK(findings.has_errors() != good);
}

TEST_CASE("pain thresholds: both ends belong to the lower band, order and scale are held") {
    // Bands 0 to 2 and 2 to 5: Thomee 1997, Phys Ther 77:1690-703; other bands (3 and 5) are in
    // use, so they are data.
    const auto [carry, ease, good] =
        GENERATE(table<std::string, std::string, bool>({{"2", "5", true},
                                                        {"3", "5", true},
                                                        {"0", "1", true},
                                                        {"8", "9", true},
                                                        {"5", "5", false},
                                                        {"5", "2", false},
                                                        {"2", "10", false},
                                                        {"2", "11", false},
                                                        {"-1", "5", false},
                                                        {"2.5", "5", false},
                                                        {"2", "5.5", false}}));
    INFO(carry << ' ' << ease);
    yaml::Node map;
    map.kind = yaml::Node::Kind::Map;
    map.entries.push_back({{"carry_on_up_to", {0, 1, 1}}, scalar(carry)});
    map.entries.push_back({{"ease_off_up_to", {0, 1, 1}}, scalar(ease)});
    support::Findings findings;
    const PainRule rule = read_pain_rule(map, findings);
    CHECK(findings.has_errors() != good);
    if (good) {
        CHECK(std::to_string(rule.carry_on_up_to) == carry);
        CHECK(std::to_string(rule.ease_off_up_to) == ease);
    }
}

TEST_CASE("heights with their unit") {
    const auto [text, mm] = GENERATE(table<std::string, double>({{"162 cm", 1620.0},
                                                                 {"1.62 m", 1620.0},
                                                                 {"1620 mm", 1620.0},
                                                                 {"162cm", 1620.0},
                                                                 {"162", -1.0},
                                                                 {"1.62", -1.0},
                                                                 {"162 m", -1.0},
                                                                 {"16 cm", -1.0},
                                                                 {"5 ft 4 in", -1.0},
                                                                 {"-162 cm", -1.0},
                                                                 {"162 cm tall", -1.0}}));
    INFO(text);
    support::Findings findings;
    yaml::Node map;
    map.kind = yaml::Node::Kind::Map;
    map.entries.push_back({{"name", {0, 1, 1}}, scalar("Rosa M.")});
    map.entries.push_back({{"languages", {0, 1, 1}}, scalar("en")});
    map.entries.push_back({{"height", {0, 1, 1}}, scalar(text)});
    const Patient patient = read_patient(map, findings);
    CHECK(patient.height_mm.has_value() == (mm > 0));
    CHECK(findings.size() == (mm > 0 ? 0u : 1u));
    if (patient.height_mm) {
        CHECK(patient.height_mm->value == Approx(mm));
    }
}
