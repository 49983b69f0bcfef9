// SPDX-License-Identifier: MIT
#include "content/voice.h"

#include <algorithm>
#include <utility>

#include "locale/formats.h"

namespace tickleaf::content {

const std::string& text_in(const Words& words, const Tongue& tongue) {
    const bool second = words.second && words.second->language == tongue.tag();
    return second ? words.second->text : words.text;
}

std::string Tongue::say(std::string_view key, const locale::Arguments& arguments) {
    locale::Message message = language_->message(key, arguments, *findings_);
    note_state(key, message.state);
    said_source_ = message.is_source;
    return std::move(message.text);
}

void Tongue::note_state(std::string_view key, locale::ReviewState state) {
    const bool trusted =
        state == locale::ReviewState::Source || state == locale::ReviewState::Reviewed;
    if (!trusted && locale::is_safety_key(key) && unreviewed_safety_.emplace(key).second) {
        stale_safety_ += state == locale::ReviewState::Stale ? 1 : 0;
    }
}

std::string Tongue::range(support::Range<int> range) {
    return language_->range(range, *findings_);
}

std::string Tongue::duration(support::Seconds seconds) {
    return language_->duration(seconds, *findings_);
}

std::string Tongue::duration_range(support::Range<support::Seconds> range) {
    return language_->duration_range(range, *findings_);
}

std::string Tongue::joined(const std::vector<std::string>& texts, std::string_view key) {
    if (texts.empty()) {
        return {};
    }
    // From the end, so that every value but the last is isolated once and not once a level.
    std::string result = texts.back();
    for (std::size_t i = texts.size() - 1; i > 0; --i) {
        result = say(key, {{"first", texts[i - 1]}, {"second", result}});
    }
    return result;
}

Voice::Voice(locale::Language& first, locale::Language* second, support::Findings& findings)
    : findings_(&findings) {
    tongues_.emplace_back(first, findings);
    if (second != nullptr) {
        tongues_.emplace_back(*second, findings);
    }
}

Words Voice::tell(const Teller& teller, std::string_view key) {
    // The outermost message is said last, and its language is that of the whole.
    const auto told = [&](Tongue& tongue) {
        tongue.begin();
        std::string text = teller(tongue);
        return Words{std::move(text), tongue.spoken(), std::string(key), {}, nullptr};
    };
    std::shared_ptr<const Words> second;
    if (tongues_.size() > 1) {
        second = std::make_shared<const Words>(told(tongues_.back()));
    }
    Words words = told(first());
    words.second = std::move(second);
    return words;
}

Words Voice::say(std::string_view key, const locale::Arguments& arguments) {
    return tell([&](Tongue& tongue) { return tongue.say(key, arguments); }, key);
}

Words Voice::say_with(std::string_view key, const ArgumentMaker& make) {
    return tell([&](Tongue& tongue) { return tongue.say(key, make(tongue)); }, key);
}

Words Voice::number(std::int64_t value) {
    return tell([&](Tongue& tongue) { return tongue.number(value); });
}

Words Voice::range(support::Range<int> range) {
    return tell([&](Tongue& tongue) { return tongue.range(range); });
}

Words Voice::verbatim(const support::Located<std::string>& text) const {
    // A name or telephone number keeps its own direction inside a right-to-left booklet.
    const Tongue& own = tongues_.front();
    return Words{
        locale::isolated(text.value, own.right_to_left()), own.tag(), {}, text.span, nullptr};
}

namespace {

/// What was written in English, or else in the first language, with a mark that says so.
Words stand_in(const prescription::FreeText& text, const Tongue& tongue) {
    const auto& all = text.by_language;
    if (all.empty()) {
        return Words{{}, tongue.tag(), {}, {}, nullptr};
    }
    const auto english =
        std::find_if(all.begin(), all.end(), [](const auto& item) { return item.first == "en"; });
    const auto& [tag, words] = english != all.end() ? *english : all.front();
    return Words{locale::isolated("[" + tag + "] " + words.value, tongue.right_to_left()),
                 tag,
                 {},
                 words.span,
                 nullptr};
}

} // namespace

Words Voice::written(const prescription::FreeText& text, std::string_view what) {
    if (const auto* same = text.for_all()) {
        return verbatim(*same);
    }
    auto find = [&](Tongue& tongue) {
        if (const auto* found = text.in(tongue.tag())) {
            return Words{found->value, tongue.tag(), {}, found->span, nullptr};
        }
        Words other = stand_in(text, tongue);
        if (!tongue.language().allows_missing()) {
            findings_->error(other.span, "text-missing",
                             std::string(what) + " has no text in \"" + tongue.tag() +
                                 "\", the language of this booklet",
                             "add a line with " + tongue.tag() + ": and the text in that language");
        }
        return other;
    };
    Words words = find(first());
    if (tongues_.size() > 1) {
        words.second = std::make_shared<const Words>(find(tongues_.back()));
    }
    return words;
}

bool Voice::said_unreviewed_safety() const {
    return std::any_of(tongues_.begin(), tongues_.end(),
                       [](const Tongue& tongue) { return !tongue.unreviewed_safety().empty(); });
}

void Voice::report_unreviewed() const {
    constexpr std::size_t kNamed = 5;
    for (const Tongue& tongue : tongues_) {
        const auto& keys = tongue.unreviewed_safety();
        if (keys.empty()) {
            continue;
        }
        std::string named;
        std::size_t count = 0;
        for (auto key = keys.begin(); key != keys.end() && count < kNamed; ++key, ++count) {
            named += (count > 0 ? ", " : "") + *key;
        }
        findings_->error({}, "text-unreviewed",
                         std::to_string(keys.size()) +
                             " safety texts of this booklet are not reviewed in \"" + tongue.tag() +
                             "\" (" + std::to_string(keys.size() - tongue.stale_safety()) +
                             " drafts, " + std::to_string(tongue.stale_safety()) +
                             " stale): " + named + (keys.size() > kNamed ? "..." : ""),
                         "have them reviewed, see locales/README.md, or make the booklet without "
                         "--require-reviewed");
    }
}

} // namespace tickleaf::content
