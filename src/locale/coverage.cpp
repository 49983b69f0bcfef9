// SPDX-License-Identifier: MIT
#include "locale/language.h"

#include <algorithm>

#include "locale/catalog.h"
#include "locale/language_file.h"

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
    const Catalog english = read_all_catalogs(kSourceTag, reading);
    const Catalog own = tag == kSourceTag ? english : read_all_catalogs(tag, reading);
    for (const auto& [key, source] : english.texts) {
        ++out.texts;
        const Entry* entry = own.find(key);
        if (entry == nullptr) {
            continue;
        }
        ++out.present;
        const ReviewState state = state_of(*entry, &source);
        out.reviewed += state == ReviewState::Reviewed ? 1 : 0;
        out.stale += state == ReviewState::Stale ? 1 : 0;
    }
    return out;
}

} // namespace tickleaf::locale
