// Held and Karp: least cleaning for every (set of products done, last product).
#include <algorithm>
#include <limits>

#include "calc/sequence_methods.h"

namespace peelbook::calc {
namespace {

constexpr std::int64_t unreachable = std::numeric_limits<std::int64_t>::max();

struct Table {
    std::size_t n;
    std::vector<std::int64_t> cleaning;  // unreachable where no order works
    std::vector<std::int8_t> before;     // the product before the last one; -1: it is the first

    std::size_t at(std::size_t set, std::size_t last) const { return set * n + last; }
};

// Tries `to` after (set, from) and keeps it when it is the least so far and in time.
void extend(Table& table, const SequenceQuestion& q, std::size_t set, std::optional<std::size_t> from, std::size_t to,
            std::int64_t run_minutes) {
    const auto minutes = changeover_minutes(q, from, to);
    if (!minutes) return;
    const std::int64_t cleaning = (from ? table.cleaning[table.at(set, *from)] : 0) + *minutes;
    const std::int64_t done = run_minutes + q.jobs[to].minutes + cleaning;
    if (q.jobs[to].due && done > *q.jobs[to].due) return;
    const std::size_t cell = table.at(set | (std::size_t{1} << to), to);
    if (cleaning >= table.cleaning[cell]) return;
    table.cleaning[cell] = cleaning;
    table.before[cell] = from ? static_cast<std::int8_t>(*from) : std::int8_t{-1};
}

std::vector<std::size_t> read_back(const Table& table, std::size_t set, std::size_t last) {
    std::vector<std::size_t> order;
    for (;;) {
        order.push_back(last);
        const std::int8_t before = table.before[table.at(set, last)];
        if (before < 0) break;
        set &= ~(std::size_t{1} << last);
        last = static_cast<std::size_t>(before);
    }
    std::reverse(order.begin(), order.end());
    return order;
}

}  // namespace

std::optional<std::vector<std::size_t>> exact_order(const SequenceQuestion& q) {
    const std::size_t n = q.jobs.size();
    const std::size_t all = (std::size_t{1} << n) - 1;
    Table table{n, std::vector<std::int64_t>((all + 1) * n, unreachable), std::vector<std::int8_t>((all + 1) * n, -1)};
    for (std::size_t job = 0; job < n; ++job) extend(table, q, 0, std::nullopt, job, 0);
    for (std::size_t set = 1; set < all; ++set) {
        std::int64_t run_minutes = 0;
        for (std::size_t job = 0; job < n; ++job) run_minutes += (set >> job & 1) ? q.jobs[job].minutes : 0;
        for (std::size_t last = 0; last < n; ++last) {
            if (table.cleaning[table.at(set, last)] == unreachable) continue;
            for (std::size_t to = 0; to < n; ++to) {
                if (!(set >> to & 1)) extend(table, q, set, last, to, run_minutes);
            }
        }
    }
    std::size_t best = 0;
    for (std::size_t last = 1; last < n; ++last) {
        if (table.cleaning[table.at(all, last)] < table.cleaning[table.at(all, best)]) best = last;
    }
    if (table.cleaning[table.at(all, best)] == unreachable) return std::nullopt;
    return read_back(table, all, best);
}

}  // namespace peelbook::calc
