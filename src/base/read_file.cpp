#include "base/read_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>

namespace peelbook {
namespace {

std::optional<std::string> read_open(int fd) {
    struct stat status = {};
    if (::fstat(fd, &status) != 0 || !S_ISREG(status.st_mode)) return std::nullopt;
    // One byte more than the size, so that the end is seen without a second buffer; the file may still grow.
    std::string bytes(static_cast<std::size_t>(status.st_size) + 1, '\0');
    std::size_t filled = 0;
    for (;;) {
        const ssize_t n = ::read(fd, bytes.data() + filled, bytes.size() - filled);
        if (n < 0 && errno == EINTR) continue;
        if (n < 0) return std::nullopt;
        if (n == 0) break;
        filled += static_cast<std::size_t>(n);
        if (filled == bytes.size()) bytes.resize(2 * bytes.size());
    }
    bytes.resize(filled);
    return bytes;
}

}  // namespace

std::optional<std::string> read_file(const std::filesystem::path& file) {
    const int fd = ::open(file.c_str(), O_RDONLY | O_CLOEXEC);
    if (fd < 0) return std::nullopt;
    std::optional<std::string> bytes = read_open(fd);
    ::close(fd);
    return bytes;
}

}  // namespace peelbook
