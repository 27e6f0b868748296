#include "base/read_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

#include "base/result.h"

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

class OpenFile final : public Bytes {
  public:
    OpenFile(int fd, std::int64_t size) : fd_(fd), size_(size) {}
    ~OpenFile() override { ::close(fd_); }
    OpenFile(const OpenFile&) = delete;
    OpenFile& operator=(const OpenFile&) = delete;

    std::int64_t size() const override { return size_; }
    void read(std::int64_t from, char* to, std::size_t many) override {
        for (std::size_t done = 0; done < many;) {
            const ssize_t n = ::pread(fd_, to + done, many - done, from + static_cast<std::int64_t>(done));
            if (n < 0 && errno == EINTR) continue;
            if (n < 0) throw MachineFailed(std::string("the file cannot be read to its end: ") + std::strerror(errno));
            if (n == 0) throw MachineFailed("the file became shorter while it was read; copy it first and record the copy");
            done += static_cast<std::size_t>(n);
        }
    }

  private:
    int fd_;
    std::int64_t size_;
};

}  // namespace

std::unique_ptr<Bytes> open_file(const std::filesystem::path& file) {
    const int fd = ::open(file.c_str(), O_RDONLY | O_CLOEXEC);
    if (fd < 0) return nullptr;
    struct stat status = {};
    if (::fstat(fd, &status) != 0 || !S_ISREG(status.st_mode)) {
        ::close(fd);
        return nullptr;
    }
    return std::make_unique<OpenFile>(fd, static_cast<std::int64_t>(status.st_size));
}

std::optional<std::string> read_file(const std::filesystem::path& file) {
    const int fd = ::open(file.c_str(), O_RDONLY | O_CLOEXEC);
    if (fd < 0) return std::nullopt;
    std::optional<std::string> bytes = read_open(fd);
    ::close(fd);
    return bytes;
}

}  // namespace peelbook
