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

bool is_safety_key(std::string_view key) {
    constexpr std::string_view kExercise = "exercise.";
    constexpr std::string_view kNote = ".safety";
    return key.starts_with("safety.") || (key.starts_with(kExercise) && key.ends_with(kNote));
}

std::string Tongue::say(std::string_view key, const locale::Arguments& arguments) {
    locale::Message message = language_->message(key, arguments, *findings_);
    note_state(key, message.state);
    return std::move(message.text);
}

void Tongue::note_state(std::string_view key, locale::ReviewState state) {
    const bool trusted =
        state == locale::ReviewState::Source || state == locale::ReviewState::Reviewed;
    said_unreviewed_safety_ = said_unreviewed_safety_ || (!trusted && is_safety_key(key));
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
    std::shared_ptr<const Words> second;
    if (tongues_.size() > 1) {
        Tongue& other = tongues_.back();
        second = std::make_shared<const Words>(
            Words{teller(other), other.tag(), std::string(key), {}, nullptr});
    }
    return Words{teller(first()), first().tag(), std::string(key), {}, std::move(second)};
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

Words Voice::written(const prescription::FreeText& text, std::string_view what) {
    const auto* any = text.empty() ? nullptr : &text.by_language.front().second;
    auto find = [&](Tongue& tongue) -> Words {
        if (const auto* found = text.in(tongue.tag())) {
            return Words{found->value, tongue.tag(), {}, found->span, nullptr};
        }
        const support::Span span = any != nullptr ? any->span : support::Span{};
        findings_->error(span, "text-missing",
                         std::string(what) + " has no text in \"" + tongue.tag() +
                             "\", the language of this booklet",
                         "add a line with " + tongue.tag() + ": and the text in that language");
        return Words{{}, tongue.tag(), {}, span, nullptr};
    };
    Words words = find(first());
    if (tongues_.size() > 1) {
        words.second = std::make_shared<const Words>(find(tongues_.back()));
    }
    return words;
}

bool Voice::said_unreviewed_safety() const {
    return std::any_of(tongues_.begin(), tongues_.end(),
                       [](const Tongue& tongue) { return tongue.said_unreviewed_safety(); });
}

} // namespace tickleaf::content
