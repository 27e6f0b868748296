#pragma once
// Bytes that are read part by part, so that a file of any size passes through a fixed amount of memory: a
// file on disk, a file kept in the book, a text.
#include <algorithm>
#include <cstdint>
#include <cstring>
#include <memory>
#include <string>
#include <string_view>
#include <utility>

namespace peelbook {

class Bytes {
  public:
    virtual ~Bytes() = default;
    virtual std::int64_t size() const = 0;
    // All of [from, from + many), which must lie within the size. Throws MachineFailed when it cannot be
    // read.
    virtual void read(std::int64_t from, char* to, std::size_t many) = 0;
};

class BytesInMemory final : public Bytes {
  public:
    explicit BytesInMemory(std::string text) : text_(std::move(text)) {}
    std::int64_t size() const override { return static_cast<std::int64_t>(text_.size()); }
    void read(std::int64_t from, char* to, std::size_t many) override { std::memcpy(to, text_.data() + from, many); }

  private:
    std::string text_;
};

// Calls use(text) for each stretch of at most 64 KiB, in order.
template <class Use> void each_part(Bytes& bytes, Use use) {
    constexpr std::int64_t part = 65'536;
    std::string held(static_cast<std::size_t>(part), '\0');
    for (std::int64_t from = 0; from < bytes.size(); from += part) {
        const auto many = static_cast<std::size_t>(std::min(part, bytes.size() - from));
        bytes.read(from, held.data(), many);
        use(std::string_view(held.data(), many));
    }
}

}  // namespace peelbook
