// SPDX-License-Identifier: MIT
#include "prescription/schema.h"

#include "prescription/dose_form.h"
#include "prescription/dose_quantities.h"
#include "prescription/fields.h"
#include "prescription/parts.h"
#include "support/json.h"

namespace tickleaf::prescription {

namespace {

using support::Json;

// Pieces of patterns, as in the grammars of quantity.h and limit.h. Patterns of JSON Schema know no
// case, so words are written [Ss][Ee]...; spaces are free.
constexpr const char* kCounts = "[0-9]+(\\s*[-\u2013\u2212]\\s*[0-9]+)?";
constexpr const char* kNumber = "[0-9]+(\\.[0-9]+)?";
constexpr const char* kTag = "^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*$"; // the shape of RFC 5646 tags

/// A word in either case of letters.
std::string either_case(std::string_view word) {
    std::string pattern;
    for (const char c : word) {
        const char capital = static_cast<char>(c - 'a' + 'A');
        pattern += std::string("[") + capital + c + ']';
    }
    return pattern;
}

std::string unit_pattern() {
    std::string units;
    for (const char* unit : {"seconds", "second", "sec", "s", "minutes", "minute", "min"}) {
        units += (units.empty() ? "" : "|") + either_case(unit);
    }
    return '(' + units + ')';
}

constexpr const char* kSpace = "\\s*";
constexpr const char* kWhole = "[0-9]+";
constexpr const char* kTimes = "[xX\u00d7]";
constexpr const char* kDash = "[-\u2013\u2212]";

/// Words one after the other, in any case of letters.
std::string phrase(std::initializer_list<const char*> words) {
    std::string pattern;
    for (const char* word : words) {
        pattern += (pattern.empty() ? "" : kSpace) + either_case(word);
    }
    return pattern;
}

std::string optional(const std::string& inside) {
    return '(' + inside + kSpace + ")?";
}

std::string duration_pattern() {
    return std::string(kCounts) + kSpace + unit_pattern();
}

/// The compact notation of a dose, as in dose_form.h.
std::string dose_pattern() {
    const std::string sp = kSpace;
    const std::string sets = kCounts + sp + kTimes + sp;
    const std::string timed =
        optional(kWhole + sp + kTimes) + optional(phrase({"hold"})) + duration_pattern();
    const std::string spent = phrase({"time"}) + sp + duration_pattern();
    const std::string fatigue = phrase({"to", "fatigue", "at", "most"}) + sp + kWhole;
    const std::string work = '(' + sets + kCounts + "|(" + sets + ")?(" + timed + '|' + spent +
                             '|' + fatigue + "))(" + sp + phrase({"each", "side"}) + ")?";
    const std::string clause = '(' + phrase({"rest"}) + sp + duration_pattern() + '|' + kCounts +
                               sp + '/' + sp + phrase({"day"}) + '|' + kCounts + sp +
                               phrase({"day"}) + "[Ss]?" + sp + '/' + sp + phrase({"week"}) + ')';
    return work + '(' + sp + ',' + sp + clause + ")*";
}

/// Digits in their stated order, or named phases, as in dose_form.h.
std::string tempo_pattern() {
    const std::string sp = kSpace;
    const std::string step = "([0-9]+|" + std::string(kTimes) + ')';
    const std::string names = '(' + phrase({"lift"}) + '|' + phrase({"hold"}) + '|' +
                              phrase({"lower"}) + '|' + phrase({"rest"}) + '|' + phrase({"out"}) +
                              '|' + phrase({"back"}) + ')';
    const std::string length = "([0-9]+" + sp + '(' + either_case("seconds") + '|' +
                               either_case("s") + ")?|" + kTimes + '|' + phrase({"quick"}) + '|' +
                               phrase({"slow"}) + '|' + phrase({"as", "fast", "as"}) + sp +
                               optional(phrase({"is"})) + phrase({"safe"}) + ')';
    const std::string phase = names + sp + length;
    return '(' + step + '(' + sp + kDash + sp + step + "){2,3}|" + phase + '(' + sp + ',' + sp +
           phase + ")*)";
}

/// A precaution, as in limit.h; which movement a joint has is left to the reader.
std::string limit_pattern() {
    const std::string sp = kSpace;
    const std::string side =
        optional('(' + phrase({"left"}) + '|' + phrase({"right"}) + '|' + phrase({"both"}) + ')');
    const std::string weight = '(' + phrase({"no"}) + '|' + phrase({"partial"}) + ')' + sp +
                               phrase({"weight", "on"}) + sp + side + "[A-Za-z]+";
    const std::string angle = side + "[A-Za-z]+(\\s+[A-Za-z]+){1,3}" + sp + phrase({"at", "most"}) +
                              sp + kNumber + sp + phrase({"degree"}) + "[Ss]?";
    return '(' + phrase({"no", "impact"}) + '|' + weight + '|' + angle + ')';
}

Json pattern(const std::string& inside) {
    return {{"type", "string"}, {"pattern", "^\\s*" + inside + "\\s*$"}};
}

Json whole(std::int64_t least, std::int64_t most) {
    return {{"type", "integer"}, {"minimum", least}, {"maximum", most}};
}

/// A bare number is one value, a text may be a range.
Json counts(int most, const std::string& example) {
    return {{"anyOf", {whole(1, most), pattern(kCounts)}}, {"examples", {example}}};
}

Json count(int most) {
    return {{"anyOf", {whole(1, most), pattern("[0-9]+")}}};
}

Json duration(const std::string& example) {
    Json json = pattern(duration_pattern());
    json["examples"] = {example};
    return json;
}

Json measure(const std::string& units, const std::string& example) {
    Json json = pattern(std::string(kNumber) + "\\s*(" + units + ')');
    json["examples"] = {example};
    return json;
}

/// Text that YAML may have typed as a number, such as a telephone number without quotes.
Json text() {
    return {{"type", {"string", "number", "boolean"}}};
}

Json words() {
    return {{"type", {"string", "number", "boolean"}}, {"pattern", "\\S"}};
}

Json reference(const std::string& name) {
    return {{"$ref", "#/$defs/" + name}};
}

Json list_of(Json item, std::size_t least, std::size_t most) {
    Json json{{"type", "array"}, {"items", std::move(item)}};
    if (least > 0) {
        json["minItems"] = least;
    }
    if (most > 0) {
        json["maxItems"] = most;
    }
    return json;
}

Json one_or_list(const Json& item) {
    return {{"anyOf", {item, list_of(item, 0, 0)}}};
}

Json with_examples(Json json, std::initializer_list<const char*> examples) {
    json["examples"] = Json(examples);
    return json;
}

Json key() {
    return {{"type", "string"}, {"pattern", "^[a-z0-9]([a-z0-9-]*[a-z0-9])?$"}};
}

Json tempo() {
    const Json step = {{"type", {"string", "integer"}}};
    const Json phases = {{"type", "object"},
                         {"propertyNames",
                          {{"pattern", '(' + either_case("lift") + '|' + either_case("hold") + '|' +
                                           either_case("lower") + '|' + either_case("rest") + '|' +
                                           either_case("out") + '|' + either_case("back") + ')'}}},
                         {"additionalProperties", step}};
    return with_examples({{"anyOf", {pattern(tempo_pattern()), phases, list_of(phases, 1, 0)}}},
                         {"1-1-3", "out 2 s, hold 1 s, back 3 s"});
}

Json equipment() {
    const Json measured = {
        {"type", "object"},
        {"minProperties", 1},
        {"maxProperties", 1},
        {"properties", {{"band", reference("band")}, {"step", reference("step_height")}}},
        {"additionalProperties", reference("step_height")}};
    return list_of({{"anyOf", {key(), measured}}}, 0, 0);
}

/// What is written out once and referred to.
Json shared_definitions() {
    Json by_language = {{"type", "object"},
                        {"propertyNames", {{"pattern", kTag}}},
                        {"additionalProperties", words()}};
    Json side = {{"enum", {"left", "right", "both", "none"}}};
    return {{"free_text", {{"anyOf", {words(), by_language}}}},
            {"side", side},
            {"date",
             {{"type", "string"},
              {"pattern", "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"},
              {"examples", {"2026-03-02"}}}},
            {"step_height", measure("mm|cm|m", "15 cm")}};
}

struct Named {
    const char* name;
    const FieldMap& (*fields)();
};
// The maps that stand in $defs; the dose's is one of the two forms of a dose.
constexpr Named kNamed[] = {
    {"patient", patient_fields},    {"clinic", clinic_fields}, {"home", home_fields},
    {"band", band_fields},          {"pain", pain_fields},     {"stage", stage_fields},
    {"exercise", exercise_fields},  {"dose_map", dose_fields}, {"logbook", logbook_fields},
    {"waived_rule", waiver_fields},
};

Json quantity_schema(Shape shape) {
    switch (shape) {
    case Shape::Weeks:
        return counts(kLastWeek, "1-2");
    case Shape::Days:
        return counts(kDaysAWeek, "3-5");
    case Shape::Sets:
        return counts(kMostSets, "3-4");
    case Shape::Repetitions:
        return counts(kMostRepetitions, "8-12");
    case Shape::HoldCount:
        return count(kMostHolds);
    case Shape::RepetitionCap:
        return count(kMostRepetitions);
    case Shape::TimesADay:
        return counts(kMostTimesADay, "2");
    case Shape::Hold:
        return duration("45 s");
    case Shape::Time:
        return duration("10 min");
    case Shape::Rest:
        return duration("60-90 s");
    case Shape::Pain:
        return whole(0, 10);
    case Shape::Minutes:
        return whole(1, kMostMinutesADay);
    case Shape::LogbookWeeks:
        return whole(1, kMostLogbookWeeks);
    case Shape::Begin:
        return with_examples(
            {{"anyOf",
              {whole(1, kMostRepetitions), pattern("[0-9]+(\\s*" + unit_pattern() + ")?")}}},
            {"15 s", "5"});
    case Shape::Height:
    case Shape::BandLength:
        return measure("mm|cm|m", shape == Shape::Height ? "162 cm" : "120 cm");
    case Shape::Force:
        return measure("N", "22 N");
    default:
        support::internal_error_if(true, "a shape without a schema");
    }
    return {};
}

Json schema_of(Shape shape) {
    switch (shape) {
    case Shape::Format:
        return {{"const", 1}};
    case Shape::Text:
        return text();
    case Shape::Words:
        return words();
    case Shape::Phone:
        return with_examples(words(), {"+44 1632 960123"});
    case Shape::Languages: {
        const Json tag = {{"type", "string"}, {"pattern", kTag}};
        return with_examples({{"anyOf", {tag, list_of(tag, 1, 0)}}}, {"es"});
    }
    case Shape::FreeText:
        return reference("free_text");
    case Shape::CalendarDate:
        return reference("date");
    case Shape::Side:
        return reference("side");
    case Shape::Flag:
        return {{"type", "boolean"}};
    case Shape::Key:
        return key();
    case Shape::Keys:
        return one_or_list(key());
    case Shape::Limits:
        return list_of(with_examples(pattern(limit_pattern()),
                                     {"right ankle inversion at most 10 degrees", "no impact",
                                      "no weight on right leg", "partial weight on right leg"}),
                       0, 0);
    case Shape::Dose:
        return {{"anyOf",
                 {with_examples(pattern(dose_pattern()),
                                {"3 x 8-12, rest 60-90 s", "5 x 45 s, rest 60 s, 2/day", "10 min",
                                 "2 x to fatigue at most 15, 3 days/week"}),
                  reference("dose_map")}}};
    case Shape::Tempo:
        return tempo();
    case Shape::Equipment:
        return equipment();
    case Shape::Waivers:
        return list_of(reference("waived_rule"), 0, 0);
    case Shape::Stages:
        return list_of(reference("stage"), 1, kMostStages);
    case Shape::Exercises:
        return list_of(reference("exercise"), 1, kMostExercises);
    case Shape::Patient:
        return reference("patient");
    case Shape::Clinic:
        return reference("clinic");
    case Shape::Home:
        return reference("home");
    case Shape::PainRule:
        return reference("pain");
    case Shape::Logbook:
        return reference("logbook");
    default:
        return quantity_schema(shape);
    }
}

/// The members of a map's schema, added to `json`.
Json map_schema(const FieldMap& map, Json json = Json::object()) {
    json["description"] = map.about;
    json["type"] = "object";
    json["properties"] = Json::object();
    Json required = Json::array();
    for (const Field& field : map.fields) {
        Json property = {{"description", field.about}};
        property.update(schema_of(field.shape));
        json["properties"][std::string(field.key)] = std::move(property);
        if (field.is_required) {
            required.push_back(field.key);
        }
    }
    if (!required.empty()) {
        json["required"] = std::move(required);
    }
    json["additionalProperties"] = false;
    return json;
}

} // namespace

std::string json_schema() {
    Json json =
        map_schema(root_fields(), {{"$schema", "https://json-schema.org/draft/2020-12/schema"},
                                   {"title", "Prescription, format 1"}});
    json["$defs"] = shared_definitions();
    for (const Named& named : kNamed) {
        json["$defs"][named.name] = map_schema(named.fields());
    }
    return json.dump(2) + '\n';
}

} // namespace tickleaf::prescription
