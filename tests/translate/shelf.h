// SPDX-License-Identifier: MIT
// A folder of catalogs on disk to export from and import into, and texts that are translated by a
// rule.
#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include "booklet/shell.h"
#include "cli/disk.h"
#include "locale/exchange.h"
#include "locale/formats.h"
#include "locale/pattern.h"
#include "locale/phrases.h"

namespace tickleaf::tests {

inline std::string bytes(const std::filesystem::path& path) {
    std::ifstream stream(path, std::ios::binary);
    std::ostringstream text;
    text << stream.rdbuf();
    return text.str();
}

inline void write(const std::filesystem::path& path, const std::string& text) {
    std::filesystem::create_directories(path.parent_path());
    std::ofstream(path, std::ios::binary) << text;
}

/// A copy of the source tree's data, to be changed.
class Shelf {
  public:
    Shelf() {
        for (const char* name : {"locales", "figures", "templates"}) {
            std::filesystem::copy(std::filesystem::path(TICKLEAF_ROOT) / name, folder_.file(name),
                                  std::filesystem::copy_options::recursive);
        }
    }
    std::string path() const { return folder_.path(); }
    std::string file(const std::string& name) const { return folder_.file(name); }
    Ran program(const std::string& arguments) const {
        return run(std::string(TICKLEAF_BINARY) + " --data " + path() + " " + arguments);
    }
    /// All files below locales/, one after the other.
    std::string locales() const {
        std::vector<std::filesystem::path> paths;
        for (const auto& entry :
             std::filesystem::recursive_directory_iterator(folder_.file("locales"))) {
            if (entry.is_regular_file()) {
                paths.push_back(entry.path());
            }
        }
        std::sort(paths.begin(), paths.end());
        std::string all;
        for (const auto& path : paths) {
            all += path.string() + "\n" + bytes(path);
        }
        return all;
    }

  private:
    Folder folder_;
};

/// Vowels with a roof: looks like another language, and keeps words apart and together as before.
inline std::string roofed(const std::string& text) {
    std::string out;
    for (const char c : text) {
        const std::size_t at = std::string("aeiouwyAEIOU").find(c);
        static const char* const kRoofs[] = {"â", "ê", "î", "ô", "û", "ŵ",
                                             "ŷ", "Â", "Ê", "Î", "Ô", "Û"};
        out += at == std::string::npos ? std::string(1, c) : kRoofs[at];
    }
    return out;
}

inline std::string pseudo(const locale::Pattern& pattern, const locale::Formats& formats);

inline std::string pseudo(const locale::Choice& choice, const locale::Formats& formats) {
    using Kind = locale::Choice::Kind;
    const auto branch = [&](const std::string& selector) -> const locale::Branch* {
        for (const locale::Branch& candidate : choice.branches) {
            if (candidate.selector == selector) {
                return &candidate;
            }
        }
        return nullptr;
    };
    std::string out = "{" + choice.name + (choice.kind == Kind::Select ? ", select," : ", plural,");
    if (choice.kind == Kind::Select) {
        for (const locale::Branch& one : choice.branches) {
            out += " " + one.selector + " {" + pseudo(one.pieces, formats) + "}";
        }
        return out + "}";
    }
    for (const auto& category : formats.plural_categories()) {
        const locale::Branch* one = category.name == "one" ? branch("one") : nullptr;
        out += " " + category.name + " {" +
               pseudo((one != nullptr ? one : branch("other"))->pieces, formats) + "}";
    }
    return out + "}";
}

/// The English text said in the invented language, with the plural branches CLDR asks for.
inline std::string pseudo(const locale::Pattern& pattern, const locale::Formats& formats) {
    std::string out;
    for (const locale::Piece& piece : pattern) {
        if (const auto* literal = std::get_if<locale::Literal>(&piece.value)) {
            out += roofed(literal->text);
        } else if (const auto* value = std::get_if<locale::Placeholder>(&piece.value)) {
            out += "{" + value->name + "}";
        } else if (const auto* choice = std::get_if<locale::Choice>(&piece.value)) {
            out += pseudo(*choice, formats);
        } else {
            out += "#";
        }
    }
    return out;
}

/// The same of a text that may name phrases, which a translator leaves as they are.
inline std::string pseudo(const std::string& source, const locale::Formats& formats) {
    std::string out;
    std::size_t from = 0;
    const auto say = [&](std::size_t end) {
        locale::PatternProblem problem;
        const auto pattern = locale::parse_pattern(source.substr(from, end - from), problem);
        out += pseudo(pattern.value(), formats);
    };
    for (const std::string& phrase : locale::phrases_in(source)) {
        const std::string named = "{" + phrase + "}";
        const std::size_t at = source.find(named, from);
        say(at);
        out += named;
        from = at + named.size();
    }
    say(source.size());
    return out;
}

} // namespace tickleaf::tests
