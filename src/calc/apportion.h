#pragma once
// Splitting a whole into parts that add up exactly, by largest remainder (Hamilton's method): each part is
// its exact share rounded down, and the units left over go to the largest remainders, the earlier part first
// on a tie.
#include <cstdint>
#include <vector>

namespace peelbook::calc {

// `total` >= 0, weights >= 0 with a sum above 0; no part is off its exact share by a whole unit or more.
// total x weight may reach 10^37.
std::vector<std::int64_t> apportion(std::int64_t total, const std::vector<std::int64_t>& weights);

// total x part / whole, rounded half up; whole > 0, total and part >= 0.
std::int64_t rounded_share(std::int64_t total, std::int64_t part, std::int64_t whole);

}  // namespace peelbook::calc
