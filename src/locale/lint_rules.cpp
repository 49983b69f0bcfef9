// SPDX-License-Identifier: MIT
#include "locale/lint_rules.h"

#include <algorithm>
#include <set>
#include <utility>

namespace tickleaf::locale {
namespace {

/// Calls `see` with every choice of a text, the inner ones too.
template <class See>
void each_choice(const Pattern& pattern, const See& see) {
    for (const Piece& piece : pattern) {
        if (const auto* choice = std::get_if<Choice>(&piece.value)) {
            see(*choice);
            for (const Branch& branch : choice->branches) {
                each_choice(branch.pieces, see);
            }
        }
    }
}

void collect_placeholders(const Pattern& pattern, std::map<std::string, Use>& out) {
    for (const Piece& piece : pattern) {
        if (const auto* placeholder = std::get_if<Placeholder>(&piece.value)) {
            out.emplace(placeholder->name, Use::Printed);
        } else if (const auto* choice = std::get_if<Choice>(&piece.value)) {
            out.emplace(choice->name,
                        choice->kind == Choice::Kind::Select ? Use::Selected : Use::Printed);
            for (const Branch& branch : choice->branches) {
                collect_placeholders(branch.pieces, out);
            }
        }
    }
}

bool prints_count(const Pattern& pattern, const std::string& name) {
    return std::any_of(pattern.begin(), pattern.end(), [&name](const Piece& piece) {
        const auto* placeholder = std::get_if<Placeholder>(&piece.value);
        if (const auto* choice = std::get_if<Choice>(&piece.value)) {
            return std::any_of(
                choice->branches.begin(), choice->branches.end(),
                [&name](const Branch& branch) { return prints_count(branch.pieces, name); });
        }
        return std::holds_alternative<CountSign>(piece.value) ||
               (placeholder != nullptr && placeholder->name == name);
    });
}

const Branch* branch_of(const Choice& choice, const std::string& selector) {
    const auto found =
        std::find_if(choice.branches.begin(), choice.branches.end(),
                     [&selector](const Branch& branch) { return branch.selector == selector; });
    return found == choice.branches.end() ? nullptr : &*found;
}

std::string counts_as_text(const std::vector<std::int64_t>& counts) {
    std::string out;
    for (std::size_t i = 0; i < std::min<std::size_t>(counts.size(), 3); ++i) {
        out += (out.empty() ? "" : ", ") + std::to_string(counts[i]);
    }
    return out;
}

void check_unknown_categories(const Suspect& suspect, const Choice& choice,
                              const Formats& formats) {
    const auto known = formats.plural_keywords();
    for (const Branch& branch : choice.branches) {
        if (branch.selector.front() != '=' &&
            std::find(known.begin(), known.end(), branch.selector) == known.end()) {
            suspect.error("message-plural",
                          "the language has no plural category \"" + branch.selector + "\"",
                          "remove the branch, or write =0 or =1 for a single count");
        }
    }
}

void check_categories(const Suspect& suspect, const Choice& choice, const Formats& formats) {
    const bool numbers = std::any_of(
        choice.branches.begin(), choice.branches.end(),
        [&choice](const Branch& branch) { return prints_count(branch.pieces, choice.name); });
    for (const auto& category : formats.plural_categories()) {
        const Branch* branch = branch_of(choice, category.name);
        if (branch == nullptr) {
            suspect.error("message-plural",
                          "{" + choice.name + ", plural} has no branch \"" + category.name +
                              "\", used for " + counts_as_text(category.counts),
                          "add " + category.name + " {...}");
        } else if (numbers && category.counts.size() > 1 &&
                   !prints_count(branch->pieces, choice.name)) {
            suspect.error("message-number",
                          "branch \"" + category.name + "\" of {" + choice.name +
                              "} prints no number, but is used for " +
                              counts_as_text(category.counts),
                          "write # where the number belongs");
        }
    }
}

} // namespace

void Suspect::error(const char* id, const std::string& message, const std::string& hint) const {
    findings.error(entry.span, id, "text \"" + key + "\": " + message, hint);
}

std::map<std::string, Use> placeholders(const Pattern& pattern) {
    std::map<std::string, Use> out;
    collect_placeholders(pattern, out);
    return out;
}

void check_placeholders(const Suspect& suspect, const Pattern& english) {
    const auto mine = placeholders(suspect.pattern);
    const auto theirs = placeholders(english);
    for (const auto& [name, use] : mine) {
        const auto other = theirs.find(name);
        if (other == theirs.end()) {
            suspect.error("message-placeholder",
                          "placeholder {" + name + "} is not in the English");
        } else if (other->second != use) {
            suspect.error("message-placeholder",
                          "placeholder {" + name +
                              "} is a select in one language and not in the other");
        }
    }
    for (const auto& [name, use] : theirs) {
        if (mine.find(name) == mine.end()) {
            suspect.error("message-placeholder",
                          "placeholder {" + name + "} of the English is missing");
        }
    }
}

void check_plurals(const Suspect& suspect, const Formats& formats) {
    each_choice(suspect.pattern, [&](const Choice& choice) {
        if (choice.kind == Choice::Kind::Plural) {
            check_unknown_categories(suspect, choice, formats);
            check_categories(suspect, choice, formats);
        }
    });
}

namespace {

void check_literal(const Suspect& suspect, const std::string& text) {
    if (text.find('#') != std::string::npos) {
        suspect.error("message-syntax", "# outside a plural prints as it stands",
                      "write {n} there");
    }
    for (const char* mark : {"\u200E", "\u200F", "\u061C", "\u202A", "\u202B", "\u202C", "\u202D",
                             "\u202E", "\u2066", "\u2067", "\u2068", "\u2069"}) {
        if (text.find(mark) != std::string::npos) {
            suspect.error("message-syntax",
                          "the text holds a direction mark; the program sets these itself",
                          "remove it");
        }
    }
}

void check_literals_in(const Suspect& suspect, const Pattern& pattern) {
    for (const Piece& piece : pattern) {
        if (const auto* literal = std::get_if<Literal>(&piece.value)) {
            check_literal(suspect, literal->text);
        } else if (const auto* choice = std::get_if<Choice>(&piece.value)) {
            for (const Branch& branch : choice->branches) {
                check_literals_in(suspect, branch.pieces);
            }
        }
    }
}

} // namespace

void check_literals(const Suspect& suspect) {
    check_literals_in(suspect, suspect.pattern);
    if (suspect.pattern.empty()) {
        suspect.error("message-syntax", "the text is empty");
    }
}

} // namespace tickleaf::locale
