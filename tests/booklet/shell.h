// SPDX-License-Identifier: MIT
// Runs a command as a user would, in a folder of its own.
#pragma once

#include <array>
#include <cstdio>
#include <filesystem>
#include <string>

#include <sys/wait.h>
#include <unistd.h>

namespace tickleaf::tests {

struct Ran {
    int code = -1;
    std::string output; ///< standard output and error together
};

inline Ran run(const std::string& command) {
    Ran ran;
    FILE* pipe = ::popen((command + " 2>&1").c_str(), "r");
    if (pipe == nullptr) {
        return ran;
    }
    std::array<char, 65536> block{};
    for (std::size_t got = 0; (got = std::fread(block.data(), 1, block.size(), pipe)) > 0;) {
        ran.output.append(block.data(), got);
    }
    const int status = ::pclose(pipe);
    ran.code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    return ran;
}

/// An empty folder, removed with what is in it.
class Folder {
  public:
    Folder()
        : path_(std::filesystem::temp_directory_path() /
                ("tickleaf-test-" + std::to_string(::getpid()) + "-" + std::to_string(next()))) {
        std::filesystem::create_directories(path_);
    }
    ~Folder() { std::filesystem::remove_all(path_); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    std::string file(const std::string& name) const { return (path_ / name).string(); }
    std::string path() const { return path_.string(); }
    bool is_empty() const { return std::filesystem::is_empty(path_); }

  private:
    static int next() {
        static int count = 0;
        return ++count;
    }
    std::filesystem::path path_;
};

} // namespace tickleaf::tests
