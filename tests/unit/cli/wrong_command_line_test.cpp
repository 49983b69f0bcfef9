// SPDX-License-Identifier: MIT
// Wrong things typed: each is answered with what was found and how to mend it, with exit code 2.
#include <catch2/catch.hpp>

#include <sstream>

#include "cli/exit_code.h"
#include "cli/run.h"

using namespace tickleaf;

namespace {

struct Typed {
    std::vector<std::string> words;
    std::string found; ///< stands in the first line
    std::string hint;  ///< stands in the second
};

const std::vector<Typed> kTyped = {
    {{}, "a command is missing after \"tickleaf\"", "make, check, draw"},
    {{"mak"}, "\"mak\" is no command of \"tickleaf\"", "did you mean \"make\"?"},
    {{"zzzzzzz", "a.yaml"}, "\"zzzzzzz\" is no command", "choose one of: make"},
    {{"--data", "x", "lst"}, "\"lst\" is no command", "did you mean \"list\"?"},
    {{"translate"}, "missing after \"tickleaf translate\"", "export, import"},
    {{"translate", "exprt", "pl"}, "of \"tickleaf translate\"", "did you mean \"export\"?"},
    {{"make"}, "the prescription is missing after \"tickleaf make\"", "Prescription files"},
    {{"make", "--languag", "es"}, "\"--languag\" is no option", "did you mean \"--language\"?"},
    {{"check", "a.yaml", "--bogus"}, "\"--bogus\" is no option of \"tickleaf check\"", "--help"},
    {{"make", "a.yaml", "--paper", "a3"}, "a3 not in {a4,letter,a5}", "tickleaf make --help"},
    {{"make", "a.yaml", "--stage", "x"}, "--stage", "tickleaf make --help"},
    {{"list"}, "the kind is missing after \"tickleaf list\"", "expected: exercises, languages"},
    {{"start", "a", "b"}, "\"b\" is one word too many for \"tickleaf start\"", "--help"},
    {{"draw"}, "needs an exercise, or --all", "tickleaf draw --help"},
};

} // namespace

TEST_CASE("a wrong command line says what was found and how to mend it") {
    for (const auto& typed : kTyped) {
        CAPTURE(typed.words);
        std::ostringstream out;
        std::ostringstream err;
        CHECK(cli::run(typed.words, out, err) == cli::kWrongCommandLine);
        CHECK(out.str().empty());
        const std::string said = err.str();
        CAPTURE(said);
        const auto end = said.find('\n');
        REQUIRE(end != std::string::npos);
        CHECK(said.substr(0, end).find(typed.found) != std::string::npos);
        CHECK(said.substr(end).find(typed.hint) != std::string::npos);
    }
}
