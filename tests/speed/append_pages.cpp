// What a disk allows a book whose every entry is durable: appends a page of 4,096 bytes and waits for it (fdatasync), COUNT times.
// A commit of a write-ahead log does no less.
//   append_pages FILE COUNT
#include <fcntl.h>
#include <unistd.h>

#include <array>
#include <cstdlib>
#include <iostream>

int main(int count, char** words) {
    if (count != 3) {
        std::cerr << "append_pages FILE COUNT\n";
        return 2;
    }
    const int file = ::open(words[1], O_CREAT | O_TRUNC | O_WRONLY | O_CLOEXEC, 0644);
    if (file < 0) {
        std::cerr << "append_pages: " << words[1] << " cannot be made\n";
        return 4;
    }
    std::array<char, 4096> page{};
    for (long left = std::atol(words[2]); left > 0; --left) {
        page.fill(static_cast<char>(left));
        const bool written = ::write(file, page.data(), page.size()) == static_cast<ssize_t>(page.size());
        if (!written || ::fdatasync(file) != 0) {
            std::cerr << "append_pages: " << words[1] << " cannot be written\n";
            return 4;
        }
    }
    ::close(file);
    return 0;
}
