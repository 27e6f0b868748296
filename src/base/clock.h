#pragma once
// What the program may know of the world outside: the time and the file system. Both are handed in, so that tests and the
// example run with a fixed clock. The shipped program has no switch for it: back-dating must stay visible.
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/bytes.h"
#include "base/instant.h"

namespace peelbook {

class Clock {
  public:
    virtual ~Clock() = default;
    virtual Instant now() const = 0;
};

class SystemClock final : public Clock {
  public:
    Instant now() const override;
};

// Set by hand: tests and the example's recorder.
class HandClock final : public Clock {
  public:
    explicit HandClock(Instant t = {}) : t_(t) {}
    Instant now() const override { return t_; }
    void set(Instant t) { t_ = t; }

  private:
    Instant t_;
};

class Files {
  public:
    virtual ~Files() = default;
    virtual std::optional<std::string> read(const std::filesystem::path& file) const = 0;  // absent: cannot be read
    // The same, part by part; null when it cannot be read.
    virtual std::unique_ptr<Bytes> open(const std::filesystem::path& file) const;
    virtual bool exists(const std::filesystem::path& path) const = 0;
    virtual std::vector<std::filesystem::path> list(const std::filesystem::path& folder) const = 0;  // sorted; empty when none
    // Creates the file; throws MachineFailed when it exists already or cannot be written. Nothing half-written stays.
    virtual void create(const std::filesystem::path& file, std::string_view text) = 0;
    virtual void make_folder(const std::filesystem::path& folder) = 0;  // with parents; throws MachineFailed
};

class DiskFiles final : public Files {
  public:
    std::optional<std::string> read(const std::filesystem::path& file) const override;
    std::unique_ptr<Bytes> open(const std::filesystem::path& file) const override;
    bool exists(const std::filesystem::path& path) const override;
    std::vector<std::filesystem::path> list(const std::filesystem::path& folder) const override;
    void create(const std::filesystem::path& file, std::string_view text) override;
    void make_folder(const std::filesystem::path& folder) override;
};

}  // namespace peelbook
