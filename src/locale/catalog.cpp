// SPDX-License-Identifier: MIT
#include "locale/catalog.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <utility>

#include "locale/phrases.h"
#include "yaml/reader.h"
#include "yaml/tree.h"

namespace tickleaf::locale {
namespace {

constexpr std::string_view kHexDigits = "0123456789abcdef";
constexpr std::size_t kHashLength = 8;

bool is_hash(std::string_view text) {
    return text.size() == kHashLength &&
           text.find_first_not_of(kHexDigits) == std::string_view::npos;
}

bool is_date(std::string_view text) {
    if (text.size() != 10) {
        return false;
    }
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool dash = i == 4 || i == 7;
        if (dash ? text[i] != '-' : (text[i] < '0' || text[i] > '9')) {
            return false;
        }
    }
    return true;
}

bool is_key(std::string_view key) {
    return !key.empty() && key.front() != '.' && key.back() != '.' &&
           std::all_of(key.begin(), key.end(), [](char c) {
               return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '.' || c == '-' ||
                      c == '_';
           });
}

/// The scalar under a key as it is written: a hash such as 12345678 is no number.
std::string written(yaml::MapReader& map, std::string_view key) {
    const yaml::Node* node = map.optional_node(key);
    return node != nullptr && node->kind == yaml::Node::Kind::Scalar ? node->text : std::string();
}

void read_state(yaml::MapReader& map, const std::string& key, Entry& entry,
                support::Findings& findings) {
    const std::string state = written(map, "state");
    entry.by = written(map, "by");
    entry.on = written(map, "on");
    entry.state = state == "reviewed" ? ReviewState::Reviewed : ReviewState::Draft;
    if (state != "reviewed" && state != "draft") {
        findings.error(entry.span, "catalog-state",
                       "text \"" + key + "\": state is \"" + state +
                           "\", expected draft or reviewed");
    }
    if (entry.state == ReviewState::Reviewed && (entry.by.empty() || !is_date(entry.on))) {
        findings.error(entry.span, "catalog-state",
                       "text \"" + key +
                           "\" is reviewed, but not by whom and when; expected a role and a date",
                       "write by: medical translator and on: 2026-02-01, or state: draft");
    }
}

std::optional<Entry> read_translation(const yaml::Node& node, const std::string& key,
                                      support::Findings& findings) {
    yaml::MapReader map(node, "text \"" + key + "\"", findings);
    if (!map.is_map()) {
        return std::nullopt;
    }
    const auto text = map.required_text("text");
    Entry entry;
    entry.span = text ? text->span : map.span();
    entry.written = text ? text->value : std::string();
    entry.of = written(map, "of");
    if (!is_hash(entry.of)) {
        findings.error(map.span(), "catalog-hash",
                       "text \"" + key + "\": of is \"" + entry.of +
                           "\", expected the 8 hex digits of the English it was made from");
    }
    read_state(map, key, entry, findings);
    map.finish();
    return text ? std::optional<Entry>(std::move(entry)) : std::nullopt;
}

std::optional<Entry> read_source(const yaml::Node& node, const std::string& key,
                                 support::Findings& findings) {
    auto text = yaml::as_text(node, "text \"" + key + "\"", findings);
    if (!text) {
        return std::nullopt;
    }
    Entry entry;
    entry.written = std::move(*text);
    entry.span = node.span;
    return entry;
}

/// Reads the entries of `texts:` of one file.
void read_texts(const yaml::Node& texts, const CatalogFile& file, support::Findings& findings,
                Catalog& catalog) {
    std::vector<std::string> keys;
    for (const yaml::Entry& item : texts.entries) {
        const std::string& key = item.key.value;
        if (!is_key(key)) {
            findings.error(
                item.key.span, "catalog-key",
                "\"" + key + "\" is no key; expected lower-case words with . - or _ between them");
            continue;
        }
        auto entry = file.tag == kSourceTag ? read_source(item.value, key, findings)
                                            : read_translation(item.value, key, findings);
        if (!entry) {
            continue;
        }
        const auto [place, added] = catalog.texts.emplace(file.prefix + key, std::move(*entry));
        // Twice in one file has been told by the reader of YAML.
        if (!added && place->second.span.file != item.key.span.file) {
            findings.error(item.key.span, "catalog-key",
                           "text \"" + place->first + "\" is already in another file");
        }
        keys.push_back(place->first);
    }
    put_phrases_in(catalog, keys, findings);
}

} // namespace

const Entry* Catalog::find(std::string_view key) const {
    const auto place = texts.find(key);
    return place == texts.end() ? nullptr : &place->second;
}

CatalogFile main_file(std::string_view tag, std::string_view name) {
    return {std::string(tag), "locales/" + std::string(tag) + "/" + std::string(name) + ".yaml",
            ""};
}

CatalogFile phrase_file(std::string_view tag) {
    CatalogFile file = main_file(tag, "phrases");
    file.prefix = kPhrasePrefix;
    return file;
}

CatalogFile exercise_file(std::string_view tag, std::string_view id) {
    return {std::string(tag),
            "locales/" + std::string(tag) + "/exercises/" + std::string(id) + ".yaml",
            "exercise." + std::string(id) + "."};
}

bool read_catalog(const CatalogFile& file, const Reading& reading, Catalog& catalog) {
    std::optional<std::string> bytes = reading.environment.read_data(file.path);
    if (!bytes) {
        return false;
    }
    const int source = reading.sources.add(file.path, std::move(*bytes));
    const auto root = yaml::read(reading.sources, source, reading.findings);
    if (!root) {
        return true;
    }
    yaml::MapReader map(*root, "the catalog", reading.findings);
    const auto format = map.required_integer("format");
    if (format && format->value != 1) {
        reading.findings.error(format->span, "catalog-format",
                               "this catalog has format " + std::to_string(format->value) +
                                   ", expected 1");
    }
    if (const yaml::Node* texts = map.required_node("texts")) {
        if (texts->kind == yaml::Node::Kind::Map) {
            read_texts(*texts, file, reading.findings, catalog);
        } else {
            reading.findings.error(texts->span, "catalog-format",
                                   "texts is " + yaml::describe(*texts) +
                                       ", expected a map of key to text");
        }
    }
    map.finish();
    return true;
}

Catalog read_all_catalogs(std::string_view tag, const Reading& reading) {
    Catalog catalog;
    read_catalog(phrase_file(tag), reading, catalog);
    read_catalog(main_file(tag, "booklet"), reading, catalog);
    read_catalog(main_file(tag, "units"), reading, catalog);
    constexpr std::string_view kSuffix = ".yaml";
    for (const std::string& name :
         reading.environment.list_data("locales/" + std::string(tag) + "/exercises")) {
        if (name.size() > kSuffix.size() && name.ends_with(kSuffix)) {
            read_catalog(exercise_file(tag, name.substr(0, name.size() - kSuffix.size())), reading,
                         catalog);
        }
    }
    return catalog;
}

bool is_plain_name(std::string_view name) {
    return !name.empty() && std::all_of(name.begin(), name.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
               c == '-';
    });
}

ReviewState state_of(const Entry& entry, const Entry* english) {
    if (entry.state == ReviewState::Source) {
        return ReviewState::Source;
    }
    return english != nullptr && source_hash(english->text) == entry.of ? entry.state
                                                                        : ReviewState::Stale;
}

ReviewState state_of(std::string_view key, const Catalog& own, const Catalog& english) {
    // From the most trusted to the least.
    constexpr std::array kOrder = {ReviewState::Source, ReviewState::Reviewed, ReviewState::Draft,
                                   ReviewState::Stale};
    const auto rank = [&](ReviewState state) {
        return std::find(kOrder.begin(), kOrder.end(), state);
    };
    const Entry& entry = *own.find(key);
    ReviewState state = state_of(entry, english.find(key));
    for (const std::string& phrase : entry.phrases) {
        if (entry.lacks.empty()) {
            state = *std::max(rank(state), rank(state_of(phrase, own, english)));
        }
    }
    return state;
}

std::string source_hash(std::string_view english) {
    constexpr std::uint32_t kOffset = 2166136261u;
    constexpr std::uint32_t kPrime = 16777619u;
    std::uint32_t hash = kOffset;
    for (const char c : english) {
        hash = (hash ^ static_cast<unsigned char>(c)) * kPrime;
    }
    std::string out(kHashLength, '0');
    for (std::size_t i = kHashLength; i-- > 0; hash >>= 4) {
        out[i] = kHexDigits[hash & 0xfu];
    }
    return out;
}

} // namespace tickleaf::locale
