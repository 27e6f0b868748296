#include "calc/first_expired.h"

#include <algorithm>
#include <numeric>

namespace peelbook::calc {
namespace {

bool goes_first(const StockLot& a, const StockLot& b) {
    if (a.expires.has_value() != b.expires.has_value()) return a.expires.has_value();
    if (a.expires != b.expires) return *a.expires < *b.expires;
    return a.arrived < b.arrived;
}

}  // namespace

TakePlan take_first_expired(const std::vector<StockLot>& lots, std::int64_t wanted_mg) {
    std::vector<std::size_t> order(lots.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return goes_first(lots[a], lots[b]); });
    TakePlan plan;
    plan.missing_mg = wanted_mg;
    for (std::size_t i : order) {
        if (plan.missing_mg <= 0) break;
        if (!lots[i].usable || lots[i].on_hand_mg <= 0) continue;
        const std::int64_t taken = std::min(lots[i].on_hand_mg, plan.missing_mg);
        plan.takes.push_back({i, taken});
        plan.missing_mg -= taken;
    }
    return plan;
}

}  // namespace peelbook::calc
