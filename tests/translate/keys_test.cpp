// SPDX-License-Identifier: MIT
// The keys that the program asks for against the keys of the English catalogs: none is asked for
// that is not there, none is there that nobody asks for. Read from the source, because a key may be
// asked for only once a year.
#include <catch2/catch.hpp>

#include <regex>
#include <set>
#include <string>

#include "shelf.h"

#include "locale/catalog.h"

using namespace tickleaf;
using tests::bytes;

namespace {

const std::filesystem::path kRoot = TICKLEAF_ROOT;

/// Quoted words of the rooms that speak.
std::set<std::string> quoted_words() {
    std::set<std::string> words;
    const std::regex word("\"([a-z_][a-z0-9_.-]*)\"");
    for (const char* room : {"src/content", "src/locale"}) {
        for (const auto& entry : std::filesystem::directory_iterator(kRoot / room)) {
            const std::string text = bytes(entry.path());
            for (std::sregex_iterator it(text.begin(), text.end(), word), end; it != end; ++it) {
                words.insert((*it)[1]);
            }
        }
    }
    return words;
}

/// All keys of the English but those of exercises, which words_test.cpp knows one by one.
std::set<std::string> english_keys() {
    std::set<std::string> keys;
    const cli::Disk disk(kRoot);
    support::Sources sources;
    support::Findings findings;
    for (const char* name : {"booklet", "units", "clinician"}) {
        locale::Catalog catalog;
        static_cast<void>(locale::read_catalog(locale::main_file("en", name),
                                               {disk, sources, findings}, catalog));
        for (const auto& [key, entry] : catalog.texts) {
            keys.insert(key);
        }
    }
    CHECK(findings.size() == 0);
    return keys;
}

bool is_number(const std::string& text) {
    return !text.empty() && text.find_first_not_of("0123456789") == std::string::npos;
}

/// Whether the program can ask for a key: whole, numbered, or put together from two quoted words.
bool is_asked(const std::string& key, const std::set<std::string>& words) {
    const std::size_t dot = key.rfind('.');
    if (words.contains(key) ||
        (is_number(key.substr(dot + 1)) && words.contains(key.substr(0, dot)))) {
        return true;
    }
    for (std::size_t at = 1; at < key.size(); ++at) {
        const std::string begin = key.substr(0, at);
        // "stage." and a name of the prescription's; or "tempo.lift" and "_fast".
        if (words.contains(begin) && (begin.back() == '.' || words.contains(key.substr(at)))) {
            return true;
        }
    }
    return false;
}

} // namespace

TEST_CASE("no text of the English is there that the program never asks for") {
    const auto words = quoted_words();
    const auto keys = english_keys();
    REQUIRE(keys.size() > 200);
    for (const std::string& key : keys) {
        CAPTURE(key);
        CHECK(is_asked(key, words));
    }
    CHECK_FALSE(is_asked("cover.weather", words));
    CHECK_FALSE(is_asked("cover.use_up.1", words));
}

TEST_CASE("no text is asked for that the English has not") {
    const auto keys = english_keys();
    std::set<std::string> areas;
    for (const std::string& key : keys) {
        areas.insert(key.substr(0, key.find('.')));
    }
    int asked = 0;
    for (const std::string& word : quoted_words()) {
        const std::size_t dot = word.find('.');
        if (dot == std::string::npos || dot + 1 == word.size() ||
            !areas.contains(word.substr(0, dot))) {
            continue;
        }
        ++asked;
        const auto after = keys.lower_bound(word);
        const std::string area = word.ends_with('.') ? word : word + ".";
        const bool is_prefix = after != keys.end() && after->starts_with(area);
        CAPTURE(word);
        CHECK((keys.contains(word) || is_prefix));
    }
    CHECK(asked > 100);
}
