#pragma once
// SHA-256 of what arrives part by part; sha256() of record/entry.h is the same over a whole text.
#include <array>
#include <cstddef>
#include <string>
#include <string_view>

namespace peelbook::record {

class Hasher {
  public:
    Hasher();
    void add(std::string_view part);
    std::string hex();  // of all that was added; afterwards nothing more may be

  private:
    static constexpr std::size_t state_bytes = 104;  // of libsodium's state, checked in hash.cpp
    alignas(8) std::array<unsigned char, state_bytes> state_;
};

}  // namespace peelbook::record
