#include "output/drawing.h"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <filesystem>

#include "base/text.h"

extern char** environ;

namespace peelbook::output {
namespace {

namespace fs = std::filesystem;

// A file that is gone when this goes.
class Scratch {
  public:
    Scratch() : path_((fs::temp_directory_path() / "peelbook-drawing-XXXXXX").string()) {
        fd_ = ::mkstemp(path_.data());
        if (fd_ < 0) failed("cannot make");
    }
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;
    ~Scratch() {
        ::close(fd_);
        ::unlink(path_.c_str());
    }

    int fd() const { return fd_; }
    void write(std::string_view text) {
        while (!text.empty()) {
            const ssize_t n = ::write(fd_, text.data(), text.size());
            if (n < 0 && errno != EINTR) failed("cannot write");
            if (n > 0) text.remove_prefix(static_cast<std::size_t>(n));
        }
        ::lseek(fd_, 0, SEEK_SET);
    }
    std::string read() const {
        std::string text;
        std::array<char, 65536> part;
        ::lseek(fd_, 0, SEEK_SET);
        for (ssize_t n = 0; (n = ::read(fd_, part.data(), part.size())) != 0;) {
            if (n < 0 && errno != EINTR) failed("cannot read");
            if (n > 0) text.append(part.data(), static_cast<std::size_t>(n));
        }
        return text;
    }

  private:
    [[noreturn]] void failed(const char* what) const {
        throw MachineFailed(std::string(what) + " the temporary file '" + path_ + "': " + std::strerror(errno) +
                            "; make room, or set TMPDIR to a folder that may be written to");
    }
    std::string path_;
    int fd_ = -1;
};

// The exit code of the program; 127 when it could not be started, as a shell says.
int run(const std::string& program, const std::string& format, const Scratch& in, const Scratch& out, const Scratch& complaints) {
    posix_spawn_file_actions_t streams;
    posix_spawn_file_actions_init(&streams);
    posix_spawn_file_actions_adddup2(&streams, in.fd(), STDIN_FILENO);
    posix_spawn_file_actions_adddup2(&streams, out.fd(), STDOUT_FILENO);
    posix_spawn_file_actions_adddup2(&streams, complaints.fd(), STDERR_FILENO);
    std::string name = program, option = "-T" + format;
    std::array<char*, 3> arguments{name.data(), option.data(), nullptr};
    pid_t child = 0;
    const int error = posix_spawnp(&child, program.c_str(), &streams, nullptr, arguments.data(), environ);
    posix_spawn_file_actions_destroy(&streams);
    if (error != 0) return 127;
    int status = 0;
    while (::waitpid(child, &status, 0) < 0 && errno == EINTR) {
    }
    return WIFEXITED(status) ? WEXITSTATUS(status) : 1;
}

}  // namespace

Result<std::string> draw(std::string_view dot_text, const std::string& format, const std::string& program) {
    Scratch in, out, complaints;
    in.write(dot_text);
    const int code = run(program, format, in, out, complaints);
    if (code == 127)
        return Refusal{"a picture without Graphviz",
                       "the program '" + shown(program) + "', which draws it",
                       "install it (Debian: apt-get install graphviz), or leave the picture out; the trace "
                       "itself needs it not",
                       {}};
    std::string picture = out.read();
    if (code == 0 && !picture.empty()) return picture;
    return Refusal{"a picture that '" + shown(program) + "' did not draw",
                   "what it understands: " + shown(complaints.read()),
                   "ask for a smaller trace, or leave the picture out",
                   {}};
}

}  // namespace peelbook::output
