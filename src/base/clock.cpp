#include "base/clock.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <chrono>
#include <cstring>
#include <string_view>
#include <system_error>

#include "base/read_file.h"
#include "base/result.h"

namespace peelbook {
namespace {

[[noreturn]] void failed(std::string_view deed, const std::filesystem::path& path, std::string_view why, std::string_view next) {
    throw MachineFailed(fmt::format("cannot {} '{}': {}; {}", deed, path.string(), why, next));
}

// All of `text`, then to the disk; 0 or errno.
int write_all(int fd, std::string_view text) {
    while (!text.empty()) {
        const ssize_t n = ::write(fd, text.data(), text.size());
        if (n < 0 && errno == EINTR) continue;
        if (n < 0) return errno;
        text.remove_prefix(static_cast<std::size_t>(n));
    }
    return ::fsync(fd) == 0 ? 0 : errno;
}

}  // namespace

Instant SystemClock::now() const {
    using namespace std::chrono;
    return {duration_cast<milliseconds>(system_clock::now().time_since_epoch()).count()};
}

std::unique_ptr<Bytes> Files::open(const std::filesystem::path& file) const {
    auto text = read(file);
    return text ? std::make_unique<BytesInMemory>(*std::move(text)) : nullptr;
}

std::unique_ptr<Bytes> DiskFiles::open(const std::filesystem::path& file) const { return open_file(file); }

std::optional<std::string> DiskFiles::read(const std::filesystem::path& file) const { return read_file(file); }

bool DiskFiles::exists(const std::filesystem::path& path) const {
    std::error_code trouble;
    return std::filesystem::exists(path, trouble);
}

std::vector<std::filesystem::path> DiskFiles::list(const std::filesystem::path& folder) const {
    std::error_code trouble;
    std::vector<std::filesystem::path> found;
    std::filesystem::directory_iterator at(folder, trouble);
    for (; !trouble && at != std::filesystem::directory_iterator(); at.increment(trouble)) found.push_back(at->path());
    std::sort(found.begin(), found.end());
    return found;
}

void DiskFiles::create(const std::filesystem::path& file, std::string_view text) {
    const int fd = ::open(file.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0644);
    if (fd < 0 && errno == EEXIST) failed("create", file, "it exists already", "choose another name or move it away");
    if (fd < 0) failed("create", file, std::strerror(errno), "check the folder and its permissions");
    int trouble = write_all(fd, text);
    if (::close(fd) != 0 && trouble == 0) trouble = errno;
    if (trouble == 0) return;
    ::unlink(file.c_str());
    failed("write", file, std::strerror(trouble), "check the space left on the disk");
}

void DiskFiles::make_folder(const std::filesystem::path& folder) {
    std::error_code trouble;
    std::filesystem::create_directories(folder, trouble);
    if (trouble) failed("make the folder", folder, trouble.message(), "check the path and its permissions");
}

}  // namespace peelbook
