// SPDX-License-Identifier: MIT
#include "workspace/language_pool.h"

#include <algorithm>
#include <utility>

namespace tickleaf::workspace {

namespace {

std::string primary(const std::string& tag) {
    return tag.substr(0, tag.find('-'));
}

/// The tag most like the one asked for; else the same language in another script or region.
std::string nearest(const std::string& tag, const std::vector<std::string>& tags) {
    const std::string near = support::closest(tag, tags);
    if (!near.empty()) {
        return near;
    }
    const auto same = [&](const std::string& other) { return primary(other) == primary(tag); };
    const auto found = std::find_if(tags.begin(), tags.end(), same);
    return found == tags.end() ? std::string() : *found;
}

} // namespace

LanguagePool::LanguagePool(const support::Environment& environment, support::Sources& sources)
    : environment_(environment), sources_(sources) {}

LanguagePool::Loan LanguagePool::lend(Entry entry) {
    locale::Language* language = entry.language.get();
    return {language, [this, kept = std::move(entry)](locale::Language* /*same*/) {
                const std::lock_guard lock(mutex_);
                idle_.push_back(kept);
            }};
}

LanguagePool::Loan LanguagePool::borrow(const std::string& tag, const locale::Options& options,
                                        support::Findings& findings) {
    {
        const std::lock_guard lock(mutex_);
        const auto fits = [&](const Entry& entry) {
            return entry.tag == tag && entry.latin_digits == options.latin_digits &&
                   entry.allow_missing == options.allow_missing;
        };
        const auto found = std::find_if(idle_.begin(), idle_.end(), fits);
        if (found != idle_.end()) {
            Entry entry = std::move(*found);
            idle_.erase(found);
            return lend(std::move(entry));
        }
    }
    const auto tags = locale::available(environment_);
    if (std::find(tags.begin(), tags.end(), tag) == tags.end()) {
        const std::string near = nearest(tag, tags);
        findings.error(
            {}, "unknown-language", "there is no catalog for the language \"" + tag + "\"",
            near.empty() ? "see \"tickleaf list languages\"" : "did you mean \"" + near + "\"?");
        return {};
    }
    auto language = locale::Language::load(environment_, sources_, tag, options, findings);
    if (!language) {
        return {};
    }
    return lend({tag, options.latin_digits, options.allow_missing, std::move(language)});
}

} // namespace tickleaf::workspace
