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
class Improver {
  public:
    Improver(const SequenceQuestion& q, Order& order, Cost& cost) : q_(q), order_(order), cost_(cost) {}

    void run() {
        bool better = true;
        while (better) {
            better = false;
            for (std::size_t length = 1; length <= 3; ++length) better = move_segments(length) || better;
            better = turn_segments() || better;
        }
    }

  private:
    bool keep_if_better() {
        const Cost tried = cost_of(q_, candidate_);
        if (!(tried < cost_)) return false;
        order_ = candidate_;
        cost_ = tried;
        return true;
    }

    bool move_segments(std::size_t length) {
        bool better = false;
        for (std::size_t from = 0; from + length <= order_.size(); ++from) {
            for (std::size_t to = 0; to + length <= order_.size(); ++to) {
                if (to == from) continue;
                candidate_ = order_;
                const auto f = candidate_.begin() + static_cast<std::ptrdiff_t>(from);
                const auto t = candidate_.begin() + static_cast<std::ptrdiff_t>(to);
                const auto l = static_cast<std::ptrdiff_t>(length);
                if (to < from) std::rotate(t, f, f + l);
                if (to > from) std::rotate(f, f + l, t + l);
                better = keep_if_better() || better;
            }
        }
        return better;
    }

    bool turn_segments() {
        bool better = false;
        for (std::size_t from = 0; from < order_.size(); ++from) {
            for (std::size_t end = from + 2; end <= order_.size(); ++end) {
                candidate_ = order_;
                std::reverse(candidate_.begin() + static_cast<std::ptrdiff_t>(from),
                             candidate_.begin() + static_cast<std::ptrdiff_t>(end));
                better = keep_if_better() || better;
            }
        }
        return better;
    }

    const SequenceQuestion& q_;
    Order& order_;
    Cost& cost_;
    Order candidate_;
};

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
    const std::size_t rounds = std::clamp<std::size_t>(12'000'000 / (n * n * n), 10, 400);
    Order best = by_due_time(q);
    Cost best_cost = cost_of(q, best);
    Improver(q, best, best_cost).run();
    const auto consider = [&](Order order) {
        Cost cost = cost_of(q, order);
        Improver(q, order, cost).run();
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
