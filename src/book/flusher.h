#pragma once
// Brings a growing file to the disk behind the back of whoever writes it: start() returns at once, a thread flushes once for each
// start, one after the other, and wait() returns when what had been written at a start is there. Only for a log whose writer keeps
// quiet about what it wrote until wait() has returned.
#include <condition_variable>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <mutex>
#include <string>
#include <thread>

namespace peelbook::book {

class Flusher {
  public:
    // `flush` brings to the disk what stands in the file now; it answers with what went wrong, "" if nothing did.
    explicit Flusher(std::function<std::string()> flush);
    ~Flusher();  // waits
    Flusher(const Flusher&) = delete;
    Flusher& operator=(const Flusher&) = delete;

    void start();
    // How many were started, and returns when the first `count` of them are done. Throws MachineFailed when one failed, then and at
    // every later call: what a disk has refused once may be lost.
    std::uint64_t started() const { return started_; }
    void wait(std::uint64_t count);

  private:
    void work();

    std::function<std::string()> flush_;
    std::uint64_t started_ = 0;  // of the caller's thread alone
    std::mutex mutex_;           // guards what follows
    std::condition_variable changed_;
    std::uint64_t wanted_ = 0, done_ = 0;
    bool over_ = false;
    std::string failure_;
    std::thread thread_;  // last: it works on all of the above
};

// fdatasync of the write-ahead log beside `book`, through a descriptor of its own. (SQLite takes no locks on that file, so closing the
// descriptor drops none.)
std::function<std::string()> log_flush(const std::filesystem::path& book);

}  // namespace peelbook::book
