#include "calc/apportion.h"

#include <algorithm>
#include <cassert>
#include <numeric>

#include "base/units.h"

namespace peelbook::calc {

std::vector<std::int64_t> apportion(std::int64_t total, const std::vector<std::int64_t>& weights) {
    const std::int64_t whole = std::accumulate(weights.begin(), weights.end(), std::int64_t{0});
    assert(total >= 0 && whole > 0);
    std::vector<std::int64_t> parts, remainders;
    std::int64_t left = total;
    for (std::int64_t weight : weights) {
        const Wide product = static_cast<Wide>(total) * weight;
        parts.push_back(static_cast<std::int64_t>(product / whole));
        remainders.push_back(static_cast<std::int64_t>(product % whole));
        left -= parts.back();
    }
    std::vector<std::size_t> order(weights.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return remainders[a] > remainders[b]; });
    for (std::size_t i = 0; left > 0; ++i, --left) ++parts[order[i]];
    return parts;
}

std::int64_t rounded_share(std::int64_t total, std::int64_t part, std::int64_t whole) {
    assert(total >= 0 && part >= 0 && whole > 0);
    return static_cast<std::int64_t>(divided(static_cast<Wide>(total) * part, whole));
}

}  // namespace peelbook::calc
