#include "book/flusher.h"

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <memory>

#include "base/result.h"

namespace peelbook::book {

Flusher::Flusher(std::function<std::string()> flush) : flush_(std::move(flush)), thread_([this] { work(); }) {}

Flusher::~Flusher() {
    {
        const std::lock_guard held(mutex_);
        over_ = true;
    }
    changed_.notify_all();
    thread_.join();
}

void Flusher::start() {
    ++started_;
    {
        const std::lock_guard held(mutex_);
        wanted_ = started_;
    }
    changed_.notify_all();
}

void Flusher::wait(std::uint64_t count) {
    std::unique_lock held(mutex_);
    changed_.wait(held, [&] { return done_ >= std::min(count, wanted_) || !failure_.empty(); });
    if (!failure_.empty()) throw MachineFailed(failure_);
}

void Flusher::work() {
    std::unique_lock held(mutex_);
    for (;;) {
        changed_.wait(held, [&] { return over_ || (wanted_ > done_ && failure_.empty()); });
        if (wanted_ == done_ || !failure_.empty()) return;
        held.unlock();
        auto failure = flush_();
        held.lock();
        failure_ = std::move(failure);
        if (failure_.empty()) ++done_;
        changed_.notify_all();
    }
}

namespace {

class Log {
  public:
    explicit Log(std::string name) : name_(std::move(name)) {}
    ~Log() {
        if (file_ >= 0) ::close(file_);
    }
    Log(const Log&) = delete;
    Log& operator=(const Log&) = delete;
    std::string flush() {
        if (file_ < 0) file_ = ::open(name_.c_str(), O_RDWR | O_CLOEXEC);
        if (file_ >= 0 && ::fdatasync(file_) == 0) return {};
        return "The disk did not take in " + name_ + ": " + std::strerror(errno) +
               ". Check the disk, and look at the last entries before you repeat a command.";
    }

  private:
    std::string name_;
    int file_ = -1;  // opened by the first flush: the first commit made the file
};

}  // namespace

std::function<std::string()> log_flush(const std::filesystem::path& book) {
    return [log = std::make_shared<Log>(book.string() + "-wal")] { return log->flush(); };
}

}  // namespace peelbook::book
