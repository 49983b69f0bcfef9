// SPDX-License-Identifier: MIT
#include "locale/language.h"

#include <algorithm>

#include "locale/catalog.h"
#include "locale/language_file.h"
#include "locale/phrases.h"

namespace tickleaf::locale {

std::vector<std::string> available(const support::Environment& environment) {
    std::vector<std::string> tags;
    for (const std::string& name : environment.list_data("locales")) {
        if (!is_plain_name(name)) {
            continue;
        }
        const auto files = environment.list_data("locales/" + name);
        if (std::find(files.begin(), files.end(), "language.yaml") != files.end()) {
            tags.push_back(name);
        }
    }
    std::sort(tags.begin(), tags.end());
    std::stable_partition(tags.begin(), tags.end(),
                          [](const std::string& tag) { return tag == kSourceTag; });
    return tags;
}

namespace {

void count(const std::string& key, const Catalog& own, const Catalog& english, TextCounts& counts) {
    ++counts.texts;
    const Entry* entry = own.find(key);
    if (entry == nullptr || !entry->lacks.empty()) {
        return;
    }
    ++counts.present;
    const ReviewState state = state_of(key, own, english);
    counts.reviewed += state == ReviewState::Reviewed ? 1 : 0;
    counts.stale += state == ReviewState::Stale ? 1 : 0;
}

} // namespace

Coverage coverage(const support::Environment& environment, support::Sources& sources,
                  std::string_view tag, support::Findings& findings) {
    const Reading reading{environment, sources, findings};
    Coverage out;
    out.tag = tag;
    const auto file = read_language_file(tag, reading);
    if (!file) {
        return out;
    }
    out.own_name = file->name;
    Catalog english = read_all_catalogs(kSourceTag, reading);
    read_catalog(main_file(kSourceTag, kClinicianFile), reading, english);
    Catalog own = english;
    if (tag != kSourceTag) {
        own = read_all_catalogs(tag, reading);
        read_catalog(main_file(tag, kClinicianFile), reading, own);
        inherit_phrases(own, english);
    }
    for (const TextPart part : kTextParts) {
        out.parts.emplace_back(part, TextCounts{});
    }
    for (const auto& [key, entry] : english.texts) {
        const TextPart part = part_of(key);
        count(key, own, english, out.parts[static_cast<std::size_t>(part)].second);
        if (part != TextPart::Clinician) {
            count(key, own, english, out.all);
        }
    }
    return out;
}

} // namespace tickleaf::locale
