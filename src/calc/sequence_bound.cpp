// Below what no order can be. In every order each product has one changeover before it and, but for the last,
// one after it: the least choice of changeovers of which that is true (an assignment) costs no more than any
// order.
#include <algorithm>

#include "calc/sequence_methods.h"

namespace peelbook::calc {
namespace {

// Stands for "not allowed": large against any sum of real minutes, and a hundred of them still add up.
constexpr std::int64_t barred = 1'000'000'000'000;
using Matrix = std::vector<std::vector<std::int64_t>>;

// Node 0 is the line's start, node i + 1 is job i. Nothing leads back to the start.
Matrix costs_of(const SequenceQuestion& q) {
    const std::size_t n = q.jobs.size();
    Matrix cost(n + 1, std::vector<std::int64_t>(n + 1, barred));
    for (std::size_t to = 0; to < n; ++to) {
        cost[0][to + 1] = changeover_minutes(q, std::nullopt, to).value_or(barred);
        for (std::size_t from = 0; from < n; ++from)
            if (from != to) cost[from + 1][to + 1] = changeover_minutes(q, from, to).value_or(barred);
    }
    return cost;
}

// Least assignment, each row to a column of its own, by shortest augmenting paths (the Hungarian method):
// rows come in one by one; prices keep every reduced cost at 0 or more. The last product leads back to the
// start at no cost.
std::int64_t assignment(Matrix cost) {
    const std::size_t n = cost.size();
    for (std::size_t from = 1; from < n; ++from) cost[from][0] = 0;
    std::vector<std::int64_t> row_price(n), column_price(n + 1);
    std::vector<std::size_t> row_of(n + 1, n),
        came_from(n + 1);  // column n is outside the matrix, row n is none
    for (std::size_t row = 0; row < n; ++row) {
        std::vector<std::int64_t> least(n, INT64_MAX);
        std::vector<bool> done(n);
        std::size_t at = n;
        for (row_of[n] = row; row_of[at] != n;) {
            std::size_t next = n;
            for (std::size_t j = 0; j < n; ++j) {
                if (done[j]) continue;
                const std::int64_t reduced = cost[row_of[at]][j] - row_price[row_of[at]] - column_price[j];
                if (reduced < least[j]) least[j] = reduced, came_from[j] = at;
                if (next == n || least[j] < least[next]) next = j;
            }
            const std::int64_t step = least[next];
            row_price[row] += step;
            for (std::size_t j = 0; j < n; ++j) {
                if (done[j]) row_price[row_of[j]] += step, column_price[j] -= step;
                if (!done[j]) least[j] -= step;
            }
            done[at = next] = true;
        }
        for (; at != n; at = came_from[at]) row_of[at] = row_of[came_from[at]];
    }
    std::int64_t total = 0;
    for (std::size_t j = 0; j < n; ++j) total += cost[row_of[j]][j];
    return total;
}

// Least cleaning from each node to each other, by way of any products (Floyd and Warshall).
Matrix shortest_ways(Matrix cost) {
    for (std::size_t by = 1; by < cost.size(); ++by)
        for (std::size_t from = 0; from < cost.size(); ++from)
            for (std::size_t to = 0; to < cost.size(); ++to)
                if (from != to) cost[from][to] = std::min(cost[from][to], cost[from][by] + cost[by][to]);
    return cost;
}

// Products between which no cleaning is needed either way let an assignment run in circles. Leaving all but
// one of each kind out of an order leaves an order of the rest that costs no less than the shortest ways
// between them, so a bound for the rest is a bound for all.
Matrix one_of_each_kind(const Matrix& shortest) {
    std::vector<std::size_t> kept{0};
    for (std::size_t node = 1; node < shortest.size(); ++node) {
        const auto same = [&](std::size_t other) { return other > 0 && shortest[node][other] + shortest[other][node] == 0; };
        if (std::none_of(kept.begin(), kept.end(), same)) kept.push_back(node);
    }
    Matrix out(kept.size());
    for (std::size_t i = 0; i < kept.size(); ++i)
        for (const std::size_t to : kept) out[i].push_back(shortest[kept[i]][to]);
    return out;
}

}  // namespace

std::optional<std::int64_t> cleaning_bound(const SequenceQuestion& question) {
    const Matrix cost = costs_of(question), shortest = shortest_ways(cost);
    const bool all_reached = *std::max_element(shortest[0].begin() + 1, shortest[0].end()) < barred;
    const std::int64_t bound = std::max(assignment(cost), assignment(one_of_each_kind(shortest)));
    if (!all_reached || bound >= barred) return std::nullopt;
    return bound;
}

}  // namespace peelbook::calc
