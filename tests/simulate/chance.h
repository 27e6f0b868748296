#pragma once
// One seed, one row of numbers, the same on every machine: std's distributions are not, its engines are.
#include <cstdint>
#include <random>
#include <vector>

namespace peelbook::simulate {

class Chance {
  public:
    explicit Chance(std::uint64_t seed) : engine_(seed) {}
    std::int64_t below(std::int64_t n) { return static_cast<std::int64_t>(engine_() % static_cast<std::uint64_t>(n)); }
    std::int64_t between(std::int64_t least, std::int64_t most) { return least + below(most - least + 1); }
    bool of_100(std::int64_t percent) { return below(100) < percent; }
    template <class T> const T& of(const std::vector<T>& list) { return list[static_cast<std::size_t>(below(std::ssize(list)))]; }

  private:
    std::mt19937_64 engine_;
};

}  // namespace peelbook::simulate
