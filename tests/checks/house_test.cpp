// SPDX-License-Identifier: MIT
// Rules of the house that no compiler checks: who may include whom, which words may stand where.
#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace fs = std::filesystem;

namespace {

const fs::path kRoot = TICKLEAF_ROOT;

std::string read(const fs::path& path) {
    std::ifstream stream(path);
    std::ostringstream text;
    text << stream.rdbuf();
    return text.str();
}

std::vector<fs::path> files_of(const fs::path& folder, const std::set<std::string>& endings) {
    std::vector<fs::path> files;
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
        if (entry.is_regular_file() && endings.contains(entry.path().extension().string())) {
            files.push_back(entry.path());
        }
    }
    std::sort(files.begin(), files.end());
    return files;
}

std::vector<std::string> words(const std::string& text) {
    std::istringstream stream(text);
    std::vector<std::string> result;
    for (std::string word; stream >> word;) {
        result.push_back(word);
    }
    return result;
}

/// What src/CMakeLists.txt allows: room -> rooms it may include.
std::map<std::string, std::set<std::string>> allowed_arrows() {
    std::map<std::string, std::set<std::string>> arrows;
    const std::string text = read(kRoot / "src" / "CMakeLists.txt");
    const std::regex call(R"(tickleaf_room\(([^)]*)\))");
    for (std::sregex_iterator it(text.begin(), text.end(), call), end; it != end; ++it) {
        const auto parts = words((*it)[1]);
        auto& rooms = arrows[parts.at(0)];
        const auto begin = std::find(parts.begin(), parts.end(), "ROOMS");
        const auto stop = std::find(parts.begin(), parts.end(), "LIBRARIES");
        if (begin != parts.end()) {
            rooms.insert(begin + 1, std::max(begin + 1, stop));
        }
        rooms.insert(parts[0]);
    }
    return arrows;
}

struct Library {
    const char* include; ///< how its headers begin
    std::set<std::string> rooms;
};

} // namespace

TEST_CASE("rooms include only the rooms below them") {
    const auto arrows = allowed_arrows();
    REQUIRE(arrows.size() >= 15);
    const std::regex include(R"rx(#include "([a-z]+)/)rx");
    for (const fs::path& file : files_of(kRoot / "src", {".h", ".cpp"})) {
        const std::string room = file.parent_path().filename().string();
        REQUIRE(arrows.contains(room));
        const std::string text = read(file);
        for (std::sregex_iterator it(text.begin(), text.end(), include), end; it != end; ++it) {
            CAPTURE(file.string(), (*it)[1].str());
            CHECK(arrows.at(room).contains((*it)[1].str()));
        }
    }
}

TEST_CASE("each library has one room, and headers do not show it") {
    const Library libraries[] = {
        {"yaml-cpp/", {"yaml"}},    {"Eigen/", {"figure"}},           {"cairo", {"draw"}},
        {"hpdf", {"pdf"}},          {"libdeflate", {"pdf"}},          {"lcms2", {"pdf"}},
        {"harfbuzz/", {"text"}},    {"unicode/", {"text", "locale"}}, {"CLI/", {"cli"}},
        {"nlohmann/", {"support"}}, {"librsvg/", {"draw"}},
    };
    for (const fs::path& file : files_of(kRoot / "src", {".h", ".cpp"})) {
        const std::string room = file.parent_path().filename().string();
        const std::string text = read(file);
        for (const Library& library : libraries) {
            if (text.find(std::string("#include <") + library.include) != std::string::npos) {
                CAPTURE(file.string(), library.include);
                CHECK(library.rooms.contains(room));
            }
        }
    }
}

TEST_CASE("the words of the house are kept") {
    struct Ban {
        const char* pattern;
        const char* but_in;
    };
    const Ban bans[] = {
        {R"(\bassert\s*\()", ""},
        {R"(\bsetlocale\b)", ""},
        {R"(\bato[ifl]\s*\()", ""},
        {R"(std::(sin|cos|atan2)\b)", "angle.cpp"},
        {R"(std::locale::global)", ""},
        {R"(#include <iostream>)", "main.cpp"},
        {R"(system_clock|std::time\b)", ""},
        {R"(\bgetenv\b)", "disk.cpp"},
        {R"(std::rand\b|random_device)", ""},
    };
    for (const fs::path& file : files_of(kRoot / "src", {".h", ".cpp"})) {
        const std::string text = read(file);
        for (const Ban& ban : bans) {
            if (file.filename() != ban.but_in && std::regex_search(text, std::regex(ban.pattern))) {
                FAIL_CHECK(file.string() << " holds what matches " << ban.pattern);
            }
        }
        CAPTURE(file.string());
        CHECK(text.starts_with("// SPDX-License-Identifier: MIT\n"));
    }
}

TEST_CASE("no file grows past 600 lines") {
    for (const char* folder : {"src", "tests"}) {
        for (const fs::path& file : files_of(kRoot / folder, {".h", ".cpp"})) {
            const std::string text = read(file);
            CAPTURE(file.string());
            CHECK(std::count(text.begin(), text.end(), '\n') <= 600);
        }
    }
}

TEST_CASE("DEVELOPERS.md names every room") {
    const std::string guide = read(kRoot / "DEVELOPERS.md");
    for (const auto& [room, ignored] : allowed_arrows()) {
        CAPTURE(room);
        CHECK(guide.find("`" + room + "/`") != std::string::npos);
    }
}

TEST_CASE("the top level is the design's") {
    const std::set<std::string> known = {
        "CMakeLists.txt", "README.md", "DEVELOPERS.md", "src",   "templates", "figures",
        "locales",        "tests",     "out",           "build", "LICENSE",   "CMakePresets.json"};
    for (const auto& entry : fs::directory_iterator(kRoot)) {
        const std::string name = entry.path().filename().string();
        CAPTURE(name);
        CHECK((name.starts_with(".") || known.contains(name)));
    }
}
