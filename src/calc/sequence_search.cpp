// Local search for many products: a stretch of up to three products is taken out and put back where it does
// best, until no such move helps; then two neighbouring stretches change places at random, and so on from the
// best order found. It begins with the order of the due times, and what it returns is never worse.
#include <algorithm>
#include <numeric>
#include <random>
#include <tuple>

#include "calc/sequence_methods.h"

namespace peelbook::calc {
namespace {

using Order = std::vector<std::size_t>;

// Compared in this order: forbidden changeovers, minutes late, minutes of cleaning.
std::tuple<std::int64_t, std::int64_t, std::int64_t> cost_of(const SequenceQuestion& q, const Order& order) {
    std::int64_t forbidden = 0, late = 0, cleaning = 0, work = 0;
    for (std::size_t i = 0; i < order.size(); ++i) {
        const SequenceJob& job = q.jobs[order[i]];
        const Changeover before = before_position(q, order, i);
        forbidden += before.allowed ? 0 : 1;
        cleaning += before.minutes;
        work += job.minutes;
        late += std::max<std::int64_t>(0, cleaning + work - job.due.value_or(INT64_MAX));
    }
    return {forbidden, late, cleaning};
}

void improve(const SequenceQuestion& q, Order& best) {
    constexpr std::size_t longest = 3;
    auto least = cost_of(q, best);
    for (bool better = true; better;) {
        better = false;
        for (std::size_t length = 1; length <= longest; ++length)
            for (std::size_t from = 0; from + length <= best.size(); ++from)
                for (std::size_t to = 0; to + length <= best.size(); ++to) {
                    Order order = best;
                    const auto at = [&](std::size_t i) { return order.begin() + static_cast<std::ptrdiff_t>(i); };
                    if (to < from) std::rotate(at(to), at(from), at(from + length));
                    if (to > from) std::rotate(at(from), at(from + length), at(to + length));
                    const auto cost = cost_of(q, order);
                    if (!(cost < least)) continue;
                    best = std::move(order);
                    least = cost;
                    better = true;
                }
    }
}

}  // namespace

std::vector<std::size_t> searched_order(const SequenceQuestion& q) {
    const std::size_t n = q.jobs.size();
    Order best(n);
    std::iota(best.begin(), best.end(), std::size_t{0});
    std::stable_sort(best.begin(), best.end(),
                     [&](std::size_t a, std::size_t b) { return q.jobs[a].due.value_or(INT64_MAX) < q.jobs[b].due.value_or(INT64_MAX); });
    improve(q, best);
    // A round takes time as the cube of the number of products; the rounds grow fewer to keep it in bounds.
    const std::size_t rounds = std::clamp<std::size_t>(12'000'000 / (n * n * n), 10, 400);
    std::mt19937 random(15);
    for (std::size_t i = 0; i < rounds; ++i) {
        std::ptrdiff_t cuts[3];
        for (auto& cut : cuts) cut = static_cast<std::ptrdiff_t>(random() % (n + 1));
        std::sort(std::begin(cuts), std::end(cuts));
        Order order = best;
        std::rotate(order.begin() + cuts[0], order.begin() + cuts[1], order.begin() + cuts[2]);
        improve(q, order);
        if (cost_of(q, order) < cost_of(q, best)) best = std::move(order);
    }
    return best;
}

}  // namespace peelbook::calc
