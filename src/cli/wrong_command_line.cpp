// SPDX-License-Identifier: MIT
#include "cli/wrong_command_line.h"

#include <vector>

#include <CLI/CLI.hpp>

#include "support/finding.h"

namespace tickleaf::cli {

namespace {

using Names = std::vector<std::string>;

constexpr int kExtras = static_cast<int>(CLI::ExitCodes::ExtrasError);

struct Complaint {
    std::string message;
    std::string hint;
};

std::string quoted(const std::string& text) {
    return '"' + text + '"';
}

std::string listed(const Names& names) {
    std::string list;
    for (const auto& name : names) {
        list += (list.empty() ? "" : ", ") + name;
    }
    return list;
}

/// The command that was being read: the program itself where none was named.
const CLI::App& command_in_hand(const CLI::App& program) {
    const auto chosen = program.get_subcommands();
    return chosen.empty() ? program : command_in_hand(*chosen.back());
}

/// "tickleaf translate export", as it is typed.
std::string full_name(const CLI::App& command) {
    const CLI::App* parent = command.get_parent();
    return (parent != nullptr ? full_name(*parent) + ' ' : std::string()) + command.get_name();
}

Names commands_of(const CLI::App& command) {
    Names names;
    for (const CLI::App* sub : command.get_subcommands({})) {
        names.push_back(sub->get_name());
    }
    return names;
}

Names options_of(const CLI::App& command) {
    Names names;
    for (const CLI::Option* option : command.get_options()) {
        for (const auto& name : option->get_lnames()) {
            names.push_back("--" + name);
        }
    }
    return names;
}

/// What a command cannot take is left to the one above it.
std::string first_unread(const CLI::App& command) {
    const auto unread = command.remaining();
    if (!unread.empty()) {
        return unread.front();
    }
    return command.get_parent() != nullptr ? first_unread(*command.get_parent()) : std::string();
}

bool is_option(const std::string& word) {
    return word.starts_with('-');
}

std::string see_help(const CLI::App& command) {
    return quoted(full_name(command) + " --help") + " shows what it takes";
}

Complaint no_command(const CLI::App& command, const Names& commands) {
    const std::string word = first_unread(command);
    const std::string one_of = "choose one of: " + listed(commands);
    if (word.empty() || is_option(word)) {
        return {"a command is missing after " + quoted(full_name(command)), one_of};
    }
    const std::string near = support::closest(word, commands);
    return {quoted(word) + " is no command of " + quoted(full_name(command)),
            near.empty() ? one_of : "did you mean " + quoted(near) + "?"};
}

Complaint unexpected(const CLI::App& command) {
    const std::string word = first_unread(command);
    if (!is_option(word)) {
        return {quoted(word) + " is one word too many for " + quoted(full_name(command)),
                see_help(command)};
    }
    const std::string near = support::closest(word, options_of(command));
    return {quoted(word) + " is no option of " + quoted(full_name(command)),
            near.empty() ? see_help(command) : "did you mean " + quoted(near) + "?"};
}

/// What has to be named after the command and was not; nullptr where nothing lacks.
const CLI::Option* missing_word(const CLI::App& command) {
    for (const CLI::Option* option : command.get_options()) {
        if (option->get_positional() && option->get_required() && option->count() == 0) {
            return option;
        }
    }
    return nullptr;
}

Complaint complaint(const CLI::App& command, const CLI::ParseError& error) {
    const bool lacks = dynamic_cast<const CLI::RequiredError*>(&error) != nullptr;
    const Names commands = commands_of(command);
    if (lacks && !commands.empty()) {
        return no_command(command, commands);
    }
    // An unknown option is named first: what follows it may have been meant as its value.
    if (is_option(first_unread(command)) || error.get_exit_code() == kExtras) {
        return unexpected(command);
    }
    if (const CLI::Option* word = lacks ? missing_word(command) : nullptr) {
        return {"the " + word->get_name(true) + " is missing after " + quoted(full_name(command)),
                "expected: " + word->get_description()};
    }
    return {error.what(), see_help(command)};
}

} // namespace

std::string wrong_command_line(const CLI::App& program, const CLI::ParseError& error) {
    const Complaint found = complaint(command_in_hand(program), error);
    return "tickleaf: " + found.message + "\n    hint: " + found.hint + '\n';
}

} // namespace tickleaf::cli
