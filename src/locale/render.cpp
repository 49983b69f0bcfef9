// SPDX-License-Identifier: MIT
#include "locale/render.h"

#include <optional>
#include <utility>

#include "support/side.h"

namespace tickleaf::locale {
namespace {

const Branch* find_branch(const Choice& choice, std::string_view selector) {
    for (const Branch& branch : choice.branches) {
        if (branch.selector == selector) {
            return &branch;
        }
    }
    return nullptr;
}

class Renderer {
  public:
    Renderer(const Arguments& arguments, const Formats& formats)
        : arguments_(arguments), formats_(formats), right_to_left_(formats.right_to_left()) {}

    /// `count` is what `#` prints: the count of the plural around, less its offset.
    void pieces(const Pattern& pattern, std::optional<std::int64_t> count) {
        for (const Piece& piece : pattern) {
            if (const auto* literal = std::get_if<Literal>(&piece.value)) {
                out_.text += literal->text;
            } else if (const auto* placeholder = std::get_if<Placeholder>(&piece.value)) {
                put_value(placeholder->name);
            } else if (std::holds_alternative<CountSign>(piece.value)) {
                put(count ? formats_.number(*count) : "#");
            } else {
                choose(std::get<Choice>(piece.value), count);
            }
        }
    }

    Rendered take() { return std::move(out_); }

  private:
    void put(const std::string& value) { out_.text += isolated(value, right_to_left_); }

    const Value* value_of(const std::string& name) {
        for (const auto& [known, value] : arguments_) {
            if (known == name) {
                return &value;
            }
        }
        out_.problems.push_back({"value-missing", "no value was given for {" + name + "}"});
        return nullptr;
    }

    void wrong_type(const std::string& name, const char* expected) {
        out_.problems.push_back({"value-type", "the value of {" + name + "} is not " + expected});
    }

    void put_value(const std::string& name) {
        const Value* value = value_of(name);
        if (value == nullptr) {
            return;
        }
        if (const auto* number = std::get_if<std::int64_t>(value)) {
            put(formats_.number(*number));
        } else if (const auto* text = std::get_if<std::string>(value)) {
            put(*text);
        } else {
            // A side is a word in every language but its own name in none: only select can say it.
            wrong_type(name, "a number or a text; a side is said by select");
        }
    }

    void choose(const Choice& choice, std::optional<std::int64_t> outer_count) {
        const Value* value = value_of(choice.name);
        if (value == nullptr) {
            return;
        }
        if (choice.kind == Choice::Kind::Select) {
            select(choice, *value, outer_count);
        } else if (const auto* count = std::get_if<std::int64_t>(value)) {
            pieces(plural_branch(choice, *count).pieces, *count - choice.offset);
        } else {
            wrong_type(choice.name, "a count");
        }
    }

    void select(const Choice& choice, const Value& value, std::optional<std::int64_t> count) {
        std::string word;
        if (const auto* side = std::get_if<support::Side>(&value)) {
            word = support::to_word(*side);
        } else if (const auto* text = std::get_if<std::string>(&value)) {
            word = *text;
        } else {
            wrong_type(choice.name, "a side or a word");
            return;
        }
        const Branch* branch = find_branch(choice, word);
        pieces((branch != nullptr ? *branch : *find_branch(choice, "other")).pieces, count);
    }

    const Branch& plural_branch(const Choice& choice, std::int64_t count) {
        if (const Branch* exact = find_branch(choice, "=" + std::to_string(count))) {
            return *exact;
        }
        const std::int64_t rest = count - choice.offset;
        const Branch* branch = find_branch(choice, choice.kind == Choice::Kind::Plural
                                                       ? formats_.plural_category(rest)
                                                       : formats_.ordinal_category(rest));
        return branch != nullptr ? *branch : *find_branch(choice, "other");
    }

    const Arguments& arguments_;
    const Formats& formats_;
    bool right_to_left_;
    Rendered out_;
};

} // namespace

Rendered render(const Pattern& pattern, const Arguments& arguments, const Formats& formats) {
    Renderer renderer(arguments, formats);
    renderer.pieces(pattern, std::nullopt);
    return renderer.take();
}

} // namespace tickleaf::locale
