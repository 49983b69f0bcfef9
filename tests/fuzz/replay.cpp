// SPDX-License-Identifier: MIT
// Runs a fuzz target over the files of the folders named as arguments.
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

int main(int count, char** values) {
    int files = 0;
    for (int i = 1; i < count; ++i) {
        if (!std::filesystem::is_directory(values[i])) {
            continue;
        }
        for (const auto& entry : std::filesystem::directory_iterator(values[i])) {
            std::ifstream stream(entry.path(), std::ios::binary);
            std::ostringstream bytes;
            bytes << stream.rdbuf();
            const std::string text = bytes.str();
            std::printf("%s\n", entry.path().c_str());
            std::fflush(stdout);
            static_cast<void>(LLVMFuzzerTestOneInput(
                reinterpret_cast<const std::uint8_t*>(text.data()), text.size()));
            ++files;
        }
    }
    std::printf("%d files replayed\n", files);
    return files > 0 ? 0 : 1;
}
