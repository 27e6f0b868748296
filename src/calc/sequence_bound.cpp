// Lower bounds on the cleaning of every order. An order is a path from the line's start through all products:
// it is both an assignment (each product has one successor, one predecessor) and an arborescence whose nodes
// have at most one child.
#include <algorithm>
#include <cmath>
#include <limits>

#include "calc/sequence_methods.h"

namespace peelbook::calc {
namespace {

// Stands for "not allowed". Large against any sum of real minutes, small enough to add up in a double.
constexpr double barred = 1e12;
using Matrix = std::vector<std::vector<double>>;

// Node 0 is the line's start, node i + 1 is job i. Nothing leads back to the start.
Matrix costs_of(const SequenceQuestion& q) {
    const std::size_t n = q.jobs.size();
    Matrix cost(n + 1, std::vector<double>(n + 1, barred));
    for (std::size_t to = 0; to < n; ++to) {
        if (const auto minutes = changeover_minutes(q, std::nullopt, to))
            cost[0][to + 1] = static_cast<double>(*minutes);
        for (std::size_t from = 0; from < n; ++from) {
            if (from == to) continue;
            if (const auto minutes = changeover_minutes(q, from, to)) {
                cost[from + 1][to + 1] = static_cast<double>(*minutes);
            }
        }
    }
    return cost;
}

// Least assignment by shortest augmenting paths (the Hungarian method with potentials).
double assignment(const Matrix& cost) {
    const std::size_t n = cost.size();
    const double infinity = std::numeric_limits<double>::infinity();
    std::vector<double> row_price(n + 1), column_price(n + 1);
    std::vector<std::size_t> row_of(n + 1, 0),
        came_from(n + 1, 0);  // counted from 1; column 0 is outside the matrix
    for (std::size_t row = 1; row <= n; ++row) {
        row_of[0] = row;
        std::size_t column = 0;
        std::vector<double> least(n + 1, infinity);
        std::vector<bool> done(n + 1, false);
        do {
            done[column] = true;
            const std::size_t i = row_of[column];
            double step = infinity;
            std::size_t next = 0;
            for (std::size_t j = 1; j <= n; ++j) {
                if (done[j]) continue;
                const double reduced = cost[i - 1][j - 1] - row_price[i] - column_price[j];
                if (reduced < least[j]) {
                    least[j] = reduced;
                    came_from[j] = column;
                }
                if (least[j] < step) {
                    step = least[j];
                    next = j;
                }
            }
            for (std::size_t j = 0; j <= n; ++j) {
                if (done[j]) {
                    row_price[row_of[j]] += step;
                    column_price[j] -= step;
                } else {
                    least[j] -= step;
                }
            }
            column = next;
        } while (row_of[column] != 0);
        while (column != 0) {
            row_of[column] = row_of[came_from[column]];
            column = came_from[column];
        }
    }
    double total = 0;
    for (std::size_t j = 1; j <= n; ++j) total += cost[row_of[j] - 1][j - 1];
    return total;
}

// A cycle among the chosen parents; empty when there is none.
std::vector<std::size_t> cycle_in(const std::vector<std::size_t>& parent) {
    std::vector<std::size_t> cycle;
    std::vector<std::size_t> seen(parent.size(), 0);
    for (std::size_t start = 1; start < parent.size() && cycle.empty(); ++start) {
        std::size_t at = start;
        while (at != 0 && seen[at] == 0) {
            seen[at] = start;
            at = parent[at];
        }
        if (at == 0 || seen[at] != start) continue;
        const std::size_t first = at;
        do {
            cycle.push_back(at);
            at = parent[at];
        } while (at != first);
    }
    return cycle;
}

// Parents of the least arborescence rooted at node 0 (Chu and Liu, Edmonds): shrink a cycle, solve, open it
// again.
std::vector<std::size_t> arborescence(const Matrix& cost) {
    const std::size_t n = cost.size();
    std::vector<std::size_t> parent(n, 0);
    for (std::size_t to = 1; to < n; ++to) {
        for (std::size_t from = 1; from < n; ++from) {
            if (from != to && cost[from][to] < cost[parent[to]][to]) parent[to] = from;
        }
    }
    const std::vector<std::size_t> cycle = cycle_in(parent);
    if (cycle.empty()) return parent;

    std::vector<bool> in_cycle(n, false);
    for (std::size_t node : cycle) in_cycle[node] = true;
    std::vector<std::size_t> outside;  // of the smaller graph, whose last node stands for the cycle
    for (std::size_t node = 0; node < n; ++node) {
        if (!in_cycle[node]) outside.push_back(node);
    }
    const std::size_t ring = outside.size();
    Matrix smaller(ring + 1, std::vector<double>(ring + 1, 2 * barred));
    std::vector<std::size_t> enters(ring), leaves(ring);
    for (std::size_t i = 0; i < ring; ++i) {
        for (std::size_t k = 0; k < ring; ++k) smaller[i][k] = cost[outside[i]][outside[k]];
        double in = std::numeric_limits<double>::infinity(), out = in;
        for (std::size_t node : cycle) {
            const double entering = cost[outside[i]][node] - cost[parent[node]][node];
            if (entering < in) in = entering, enters[i] = node;
            if (cost[node][outside[i]] < out) out = cost[node][outside[i]], leaves[i] = node;
        }
        smaller[i][ring] = in;
        smaller[ring][i] = out;
    }
    const std::vector<std::size_t> solved = arborescence(smaller);
    for (std::size_t i = 1; i < ring; ++i) {
        parent[outside[i]] = solved[i] == ring ? leaves[i] : outside[solved[i]];
    }
    parent[enters[solved[ring]]] = outside[solved[ring]];
    return parent;
}

// Raises the price of nodes with more than one child, step by step; every price vector gives a valid bound.
double arborescence_bound(const Matrix& cost) {
    const std::size_t n = cost.size();
    std::vector<double> price(n, 0);
    double best = 0, largest = 0;
    for (const auto& row : cost) {
        for (double c : row) largest = c < barred ? std::max(largest, c) : largest;
    }
    double step = largest / 2;
    for (int round = 0; round < 300 && step > 1e-3; ++round, step *= 0.98) {
        Matrix priced = cost;
        for (std::size_t from = 0; from < n; ++from) {
            for (double& c : priced[from]) c += price[from];
        }
        const auto parent = arborescence(priced);
        double value = 0;
        std::vector<int> children(n, 0);
        for (std::size_t node = 1; node < n; ++node) {
            value += priced[parent[node]][node];
            ++children[parent[node]];
        }
        for (double p : price) value -= p;
        best = std::max(best, value);
        for (std::size_t node = 0; node < n; ++node) {
            price[node] = std::max(0.0, price[node] + step * (children[node] - 1));
        }
    }
    return best;
}

// The bounds of one matrix. As an assignment, the last product "leads back" to the start at no cost.
double bound_of(const Matrix& cost) {
    Matrix closed = cost;
    for (std::size_t from = 1; from < closed.size(); ++from) closed[from][0] = 0;
    return std::max(assignment(closed), arborescence_bound(cost));
}

// Least cleaning from each node to each other, by way of any products (Floyd and Warshall).
Matrix shortest_ways(Matrix cost) {
    const std::size_t n = cost.size();
    for (std::size_t by = 1; by < n; ++by) {
        for (std::size_t from = 0; from < n; ++from) {
            for (std::size_t to = 0; to < n; ++to) {
                if (from != to) cost[from][to] = std::min(cost[from][to], cost[from][by] + cost[by][to]);
            }
        }
    }
    return cost;
}

// Products between which no cleaning is needed either way let an assignment run in circles. Leaving all but
// one of each kind out of an order leaves an order of the rest that costs no less than the shortest ways
// between them, so a bound for the rest is a bound for all.
Matrix one_of_each_kind(const Matrix& shortest) {
    std::vector<std::size_t> kept{0};
    for (std::size_t node = 1; node < shortest.size(); ++node) {
        const bool known = std::any_of(kept.begin() + 1, kept.end(), [&](std::size_t other) {
            return shortest[node][other] == 0 && shortest[other][node] == 0;
        });
        if (!known) kept.push_back(node);
    }
    Matrix out(kept.size(), std::vector<double>(kept.size()));
    for (std::size_t i = 0; i < kept.size(); ++i) {
        for (std::size_t k = 0; k < kept.size(); ++k)
            out[i][k] = std::min(shortest[kept[i]][kept[k]], barred);
    }
    return out;
}

}  // namespace

std::optional<std::int64_t> cleaning_bound(const SequenceQuestion& question) {
    const Matrix cost = costs_of(question);
    const double bound = std::max(bound_of(cost), bound_of(one_of_each_kind(shortest_ways(cost))));
    if (bound >= barred / 2) return std::nullopt;
    return static_cast<std::int64_t>(std::ceil(bound - 1e-6));
}

}  // namespace peelbook::calc
