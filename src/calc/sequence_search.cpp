// Local search for many products: moves of segments from several starts, then shakes from the best one found.
#include <algorithm>
#include <numeric>
#include <random>
#include <tuple>

#include "calc/sequence_methods.h"

namespace peelbook::calc {
namespace {

using Order = std::vector<std::size_t>;

// Compared in this order: forbidden changeovers, minutes late, minutes of cleaning.
struct Cost {
    std::int64_t forbidden = 0, late = 0, cleaning = 0;
    auto operator<=>(const Cost&) const = default;
};

Cost cost_of(const SequenceQuestion& q, const Order& order) {
    Cost cost;
    std::int64_t now = 0;
    for (std::size_t i = 0; i < order.size(); ++i) {
        const SequenceJob& job = q.jobs[order[i]];
        Changeover before;
        if (i > 0) before = q.cleaning[order[i - 1]][order[i]];
        if (i == 0 && !q.first.empty()) before = q.first[order[i]];
        cost.forbidden += before.allowed ? 0 : 1;
        cost.cleaning += before.minutes;
        now += before.minutes + job.minutes;
        if (job.due && now > *job.due) cost.late += now - *job.due;
    }
    return cost;
}

// Moves segments of one to three products, and turns segments round, until nothing improves.
void improve(const SequenceQuestion& q, Order& order, Cost& cost) {
    const std::size_t n = order.size();
    const auto keep_if_better = [&](const Order& candidate) {
        const Cost tried = cost_of(q, candidate);
        if (!(tried < cost)) return false;
        order = candidate;
        cost = tried;
        return true;
    };
    const auto move_segment = [&](std::size_t length) {
        Order candidate;
        for (std::size_t from = 0; from + length <= n; ++from) {
            for (std::size_t to = 0; to + length <= n; ++to) {
                if (to == from) continue;
                candidate = order;
                const auto b = candidate.begin();
                const auto f = static_cast<std::ptrdiff_t>(from), t = static_cast<std::ptrdiff_t>(to);
                const auto l = static_cast<std::ptrdiff_t>(length);
                if (t < f) std::rotate(b + t, b + f, b + f + l);
                if (t > f) std::rotate(b + f, b + f + l, b + t + l);
                if (keep_if_better(candidate)) return true;
            }
        }
        return false;
    };
    const auto turn_segment = [&] {
        Order candidate;
        for (std::size_t from = 0; from < n; ++from) {
            for (std::size_t end = from + 2; end <= n; ++end) {
                candidate = order;
                std::reverse(candidate.begin() + static_cast<std::ptrdiff_t>(from),
                             candidate.begin() + static_cast<std::ptrdiff_t>(end));
                if (keep_if_better(candidate)) return true;
            }
        }
        return false;
    };
    while (move_segment(1) || move_segment(2) || move_segment(3) || turn_segment()) {
    }
}

// Always the nearest product next: allowed first, then least cleaning, then first due.
Order nearest_from(const SequenceQuestion& q, std::size_t start) {
    Order order{start};
    std::vector<bool> used(q.jobs.size());
    used[start] = true;
    constexpr std::int64_t any_time = INT64_MAX;
    while (order.size() < q.jobs.size()) {
        std::optional<std::size_t> best;
        const auto rank = [&](std::size_t job) {
            const Changeover& c = q.cleaning[order.back()][job];
            return std::tuple(!c.allowed, c.minutes, q.jobs[job].due.value_or(any_time));
        };
        for (std::size_t job = 0; job < q.jobs.size(); ++job) {
            if (!used[job] && (!best || rank(job) < rank(*best))) best = job;
        }
        used[*best] = true;
        order.push_back(*best);
    }
    return order;
}

Order by_due_time(const SequenceQuestion& q) {
    Order order(q.jobs.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return q.jobs[a].due.value_or(INT64_MAX) < q.jobs[b].due.value_or(INT64_MAX);
    });
    return order;
}

// Swaps two neighbouring segments at random: a change that single moves seldom undo.
Order shaken(const Order& order, std::mt19937& random) {
    const std::size_t n = order.size();
    std::size_t cuts[3];
    for (std::size_t& cut : cuts) cut = random() % (n + 1);
    std::sort(std::begin(cuts), std::end(cuts));
    Order out = order;
    std::rotate(out.begin() + static_cast<std::ptrdiff_t>(cuts[0]),
                out.begin() + static_cast<std::ptrdiff_t>(cuts[1]),
                out.begin() + static_cast<std::ptrdiff_t>(cuts[2]));
    return out;
}

}  // namespace

std::vector<std::size_t> searched_order(const SequenceQuestion& q) {
    // Work per round grows with the cube of the number of products; the rounds shrink to keep the time in
    // bounds.
    const std::size_t n = q.jobs.size();
    const std::size_t rounds = std::clamp<std::size_t>(10'000'000 / (n * n * n), 4, 400);
    Order best = by_due_time(q);
    Cost best_cost = cost_of(q, best);
    improve(q, best, best_cost);
    const auto consider = [&](Order order) {
        Cost cost = cost_of(q, order);
        improve(q, order, cost);
        if (cost < best_cost) {
            best = std::move(order);
            best_cost = cost;
        }
    };
    const std::size_t starts = std::min<std::size_t>(n, std::max<std::size_t>(rounds / 4, 2));
    for (std::size_t i = 0; i < starts; ++i) consider(nearest_from(q, i * n / starts));
    std::mt19937 random(15);
    for (std::size_t i = 0; i < rounds; ++i) consider(shaken(best, random));
    return best;
}

}  // namespace peelbook::calc
