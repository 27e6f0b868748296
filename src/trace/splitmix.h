#pragma once
// The generator behind every drawn sample, so that a seed written in the book gives the same sample on every machine and with
// every compiler (the distributions of <random> do not promise that).
//
// splitmix64: G. L. Steele Jr., D. Lea, C. H. Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014. The state
// grows by 0x9E3779B97F4A7C15 and is mixed by two xor-shift-multiply rounds. Not for secrets.
#include <cstdint>

namespace peelbook::trace {

class SplitMix64 {
  public:
    explicit SplitMix64(std::uint64_t seed) : state_(seed) {}

    std::uint64_t next() {
        std::uint64_t z = (state_ += 0x9E3779B97F4A7C15u);
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
        return z ^ (z >> 31);
    }

    // Evenly from 0 to n - 1; n > 0. Numbers in the incomplete last stretch of n are drawn again, or low ones would come
    // more often.
    std::uint64_t below(std::uint64_t n) {
        const std::uint64_t uneven = (0 - n) % n;  // 2^64 mod n
        std::uint64_t drawn = next();
        while (drawn < uneven) drawn = next();
        return drawn % n;
    }

  private:
    std::uint64_t state_;
};

}  // namespace peelbook::trace
