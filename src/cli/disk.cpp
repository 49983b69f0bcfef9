// SPDX-License-Identifier: MIT
#include "cli/disk.h"

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <utility>

#include <fcntl.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

namespace tickleaf::cli {

namespace fs = std::filesystem;

namespace {

/// Largest data file that is read: a catalog of one language is far below.
constexpr std::size_t kMostDataBytes = 8u << 20;

class Handle {
  public:
    Handle(const char* path, int flags, mode_t mode = 0)
        : number_(::open(path, flags | O_CLOEXEC, mode)) {}
    ~Handle() { close(); }
    Handle(const Handle&) = delete;
    Handle& operator=(const Handle&) = delete;
    int number() const { return number_; }
    bool is_open() const { return number_ >= 0; }
    /// Reports whether the system could really write what it was given.
    bool close() {
        const bool good = number_ < 0 || ::close(number_) == 0;
        number_ = -1;
        return good;
    }

  private:
    int number_;
};

class Mapping : public support::Bytes {
  public:
    Mapping(void* address, std::size_t size) : address_(address), size_(size) {}
    ~Mapping() override { ::munmap(address_, size_); }
    Mapping(const Mapping&) = delete;
    Mapping& operator=(const Mapping&) = delete;
    std::span<const std::byte> view() const override {
        return {static_cast<const std::byte*>(address_), size_};
    }

  private:
    void* address_;
    std::size_t size_;
};

bool write_all(int number, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t written = ::write(number, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR) {
            continue;
        }
        if (written <= 0) {
            return false;
        }
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    return true;
}

bool has_data(const fs::path& folder) {
    std::error_code ignored;
    return fs::is_directory(folder / "locales", ignored) &&
           fs::is_directory(folder / "figures", ignored) &&
           fs::is_directory(folder / "templates", ignored);
}

std::string temporary_for(const fs::path& path) {
    return path.string() + ".part-" + std::to_string(::getpid());
}

bool write_synced(const std::string& path, std::string_view bytes) {
    Handle handle(path.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0644);
    return handle.is_open() && write_all(handle.number(), bytes) && ::fsync(handle.number()) == 0 &&
           handle.close();
}

} // namespace

std::optional<std::string> read_file(const std::string& path, std::size_t most, std::string& why) {
    const Handle handle(path.c_str(), O_RDONLY);
    struct stat facts {};
    if (!handle.is_open() || ::fstat(handle.number(), &facts) != 0) {
        why = std::strerror(errno);
        return std::nullopt;
    }
    if (S_ISDIR(facts.st_mode)) {
        why = "it is a folder";
        return std::nullopt;
    }
    std::string text;
    std::string block(1u << 16, '\0');
    while (text.size() <= most) {
        const ssize_t got = ::read(handle.number(), block.data(), block.size());
        if (got < 0 && errno == EINTR) {
            continue;
        }
        if (got < 0) {
            why = std::strerror(errno);
            return std::nullopt;
        }
        if (got == 0) {
            return text;
        }
        text.append(block, 0, static_cast<std::size_t>(got));
    }
    why = "it is larger than " + std::to_string(most >> 20) + " MiB";
    return std::nullopt;
}

std::string write_file(const fs::path& path, std::string_view bytes) {
    const std::string temporary = temporary_for(path);
    if (write_synced(temporary, bytes) && ::rename(temporary.c_str(), path.c_str()) == 0) {
        return {};
    }
    const std::string why = std::strerror(errno);
    ::unlink(temporary.c_str());
    return why;
}

std::string write_files(const std::vector<std::pair<fs::path, std::string>>& files) {
    std::string why;
    for (const auto& [path, bytes] : files) {
        std::error_code ignored;
        fs::create_directories(path.parent_path(), ignored);
        if (!write_synced(temporary_for(path), bytes)) {
            why = path.string() + ": " + std::strerror(errno);
            break;
        }
    }
    for (const auto& [path, bytes] : files) {
        const std::string temporary = temporary_for(path);
        if (!why.empty()) {
            ::unlink(temporary.c_str());
        } else if (::rename(temporary.c_str(), path.c_str()) != 0) {
            why = path.string() + ": " + std::strerror(errno);
            ::unlink(temporary.c_str());
        }
    }
    return why;
}

Disk::Disk(fs::path data) : data_(std::move(data)) {}

std::optional<std::string> Disk::read_data(const std::string& path) const {
    std::string why;
    return read_file((data_ / path).string(), kMostDataBytes, why);
}

std::vector<std::string> Disk::list_data(const std::string& folder) const {
    std::vector<std::string> names;
    std::error_code error;
    for (fs::directory_iterator entry(data_ / folder, error), end; !error && entry != end;
         entry.increment(error)) {
        names.push_back(entry->path().filename().string());
    }
    std::sort(names.begin(), names.end());
    return names;
}

std::unique_ptr<support::Bytes> Disk::map_file(const std::string& path) const {
    const Handle handle(path.c_str(), O_RDONLY);
    struct stat facts {};
    if (!handle.is_open() || ::fstat(handle.number(), &facts) != 0 || facts.st_size <= 0) {
        return nullptr;
    }
    const auto size = static_cast<std::size_t>(facts.st_size);
    void* address = ::mmap(nullptr, size, PROT_READ, MAP_PRIVATE, handle.number(), 0);
    if (address == MAP_FAILED) { // NOLINT(performance-no-int-to-ptr): the system's own macro
        return nullptr;
    }
    return std::make_unique<Mapping>(address, size);
}

std::optional<fs::path> find_data(const fs::path& wished) {
    if (!wished.empty()) {
        return has_data(wished) ? std::optional(wished) : std::nullopt;
    }
    std::error_code error;
    const fs::path program = fs::read_symlink("/proc/self/exe", error);
    if (!error) {
        const fs::path installed = program.parent_path().parent_path() / "share" / "tickleaf";
        if (has_data(installed)) {
            return installed;
        }
    }
    if (has_data(TICKLEAF_SOURCE_DATA)) {
        return fs::path(TICKLEAF_SOURCE_DATA);
    }
    const char* named = std::getenv("TICKLEAF_DATA");
    if (named != nullptr && has_data(named)) {
        return fs::path(named);
    }
    return std::nullopt;
}

} // namespace tickleaf::cli
