#pragma once
// A first-in vessel as a queue along the running mass drawn: where each fill begins and ends, which draws
// fall where, and how far the clocks can shift that. Inside the layer only; the rules stand in
// trace/vessel.h.
#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include "trace/vessel_order.h"

namespace peelbook::trace {

// What stands between two inspected emptyings: fills [first, last) and the draws placed among them.
struct Period {
    std::size_t first = 0, last = 0;
    std::int64_t drawn = 0;            // by all its draws
    std::vector<std::size_t> draws;    // as ordered
    std::vector<std::int64_t> before;  // by draw: running mass when it starts, by the times as written
};

// A stretch of running mass.
struct Stretch {
    std::int64_t begin = 0, end = 0;
    std::int64_t overlap(const Stretch& other) const {
        return std::max<std::int64_t>(0, std::min(end, other.end) - std::max(begin, other.begin));
    }
};

class Queue {
  public:
    explicit Queue(const VesselHistory& history);

    // When the period was ended, or OrderedHistory::never.
    std::int64_t emptied_at(std::size_t period) const { return history.emptied_at(periods[period].last - 1); }

    // The stretch of a fill as it looks when the fills before `begun` have begun; the last of them is drawn
    // from on and on. By the times as written:
    Stretch written(std::size_t fill, std::size_t begun) const;
    // With every kilogram that may be of the fill:
    Stretch widest(std::size_t fill, std::size_t begun) const;
    // Only what is the fill and nothing else: not smeared, not of fills that may have gone in together, not
    // beyond its mass, not past an emptying in doubt. `first` is the first fill of the period. Empty (end <=
    // begin) when there is none.
    Stretch narrowest(std::size_t fill, std::size_t first, std::size_t begun) const;
    // The fills among [first, begun) whose widest stretch may meet `drawn`.
    std::pair<std::size_t, std::size_t> near(std::size_t first, std::size_t begun, const Stretch& drawn) const;

    const OrderedHistory history;
    std::vector<Period> periods;

  private:
    std::optional<std::size_t> period_at(std::int64_t at) const;
    void run(Period& period);
    void begin(const Period& period, std::size_t fill);
    void open_boundaries(const Period& period);
    bool doubt_before(const Period& period, std::size_t fill);
    void group(const Period& period);
    std::int64_t drawn_by(const Period& period, std::int64_t at) const;

    std::int64_t heel_, smear_;
    // By fill. Running mass where it begins: by the times as written (F of the header), and over all that the
    // clocks allow.
    std::vector<std::int64_t> begins_, earliest_, latest_;
    std::vector<std::int64_t> none_earlier_;                  // the least of earliest_ from this fill to the end of its period
    std::vector<std::int64_t> gone_;                          // running mass from which an emptying in doubt may have taken out this fill
    std::vector<std::size_t> gone_from_;                      // the fill that had begun, or might have, when it did
    std::vector<std::int64_t> group_begins_;                  // the least of earliest_ in a group, by its first fill
    std::vector<std::pair<std::size_t, std::size_t>> group_;  // [first, last) of the fills that may have gone in together
};

}  // namespace peelbook::trace
