// SPDX-License-Identifier: MIT
#include "locale/phrases.h"

#include <algorithm>
#include <set>

namespace tickleaf::locale {
namespace {

constexpr std::string_view kKeyLetters = "abcdefghijklmnopqrstuvwxyz0123456789.-_";

/// Where a text names a phrase: from the brace up to behind the other brace.
struct Place {
    std::size_t begin = std::string_view::npos;
    std::size_t end = std::string_view::npos;
    bool found() const { return begin != std::string_view::npos; }
    std::string key(std::string_view text) const {
        return std::string(text.substr(begin + 1, end - begin - 2));
    }
};

Place next_place(std::string_view text, std::size_t from) {
    for (std::size_t at = text.find('{', from); at != std::string_view::npos;
         at = text.find('{', at + 1)) {
        if (!text.substr(at + 1).starts_with(kPhrasePrefix)) {
            continue;
        }
        const std::size_t end = text.find_first_not_of(kKeyLetters, at + 1);
        if (end != std::string_view::npos && text[end] == '}') {
            return {at, end + 1};
        }
    }
    return {};
}

/// Writes texts in full, each phrase before the texts that need it.
class Expander {
  public:
    Expander(Catalog& catalog, support::Findings& findings)
        : catalog_(catalog), findings_(findings) {}

    void expand(const std::string& key) {
        Entry& entry = catalog_.texts.find(key)->second;
        if (!done_.insert(key).second) {
            return;
        }
        path_.push_back(key);
        entry.text.clear();
        entry.lacks.clear();
        entry.phrases = phrases_in(entry.written);
        std::size_t from = 0;
        for (Place place = next_place(entry.written, 0); place.found() && entry.lacks.empty();
             place = next_place(entry.written, from)) {
            const std::string phrase = place.key(entry.written);
            entry.text.append(entry.written, from, place.begin - from);
            from = place.end;
            put(phrase, key, entry);
        }
        entry.text = entry.lacks.empty() ? entry.text + entry.written.substr(from) : std::string();
        path_.pop_back();
    }

  private:
    void put(const std::string& phrase, const std::string& key, Entry& entry) {
        const auto known = catalog_.texts.find(phrase);
        if (known == catalog_.texts.end()) {
            entry.lacks = phrase;
            return;
        }
        const auto open = std::find(path_.begin(), path_.end(), phrase);
        if (open != path_.end()) {
            std::string circle;
            for (auto it = open; it != path_.end(); ++it) {
                circle += *it + ", ";
            }
            findings_.error(entry.span, "phrase-circle",
                            "text \"" + key + "\": the phrases go in a circle: " + circle + phrase,
                            "write one of them out");
            entry.lacks = phrase;
            return;
        }
        expand(phrase);
        entry.text += known->second.text;
        entry.lacks = known->second.lacks;
    }

    Catalog& catalog_;
    support::Findings& findings_;
    std::set<std::string> done_;
    std::vector<std::string> path_;
};

} // namespace

std::vector<std::string> phrases_in(std::string_view written) {
    std::vector<std::string> out;
    for (Place place = next_place(written, 0); place.found();
         place = next_place(written, place.end)) {
        out.push_back(place.key(written));
    }
    return out;
}

std::string only_phrase(std::string_view written) {
    const Place place = next_place(written, 0);
    return place.begin == 0 && place.end == written.size() ? place.key(written) : std::string();
}

void put_phrases_in(Catalog& catalog, const std::vector<std::string>& keys,
                    support::Findings& findings) {
    Expander expander(catalog, findings);
    for (const std::string& key : keys) {
        expander.expand(key);
    }
}

void inherit_phrases(Catalog& own, const Catalog& english, std::string_view prefix) {
    for (auto it = english.texts.lower_bound(prefix);
         it != english.texts.end() && it->first.starts_with(prefix); ++it) {
        const auto& [key, theirs] = *it;
        const std::string phrase = theirs.phrases.size() == 1 ? only_phrase(theirs.written) : "";
        const Entry* mine = phrase.empty() ? nullptr : own.find(phrase);
        if (mine == nullptr || own.find(key) != nullptr) {
            continue;
        }
        Entry entry;
        entry.text = mine->text;
        entry.written = theirs.written;
        entry.phrases = {phrase};
        entry.lacks = mine->lacks;
        entry.span = mine->span;
        entry.of = source_hash(theirs.text);
        entry.state = ReviewState::Reviewed; // as far as it goes: the phrase has its own
        entry.is_inherited = true;
        own.texts.emplace(key, std::move(entry));
    }
}

} // namespace tickleaf::locale
