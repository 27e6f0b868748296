#pragma once
// Which lots to take for a wanted mass: first expired, first out. Lots with the same date go in order of
// arrival; lots without a date come last, because nothing says that they may wait. Suggests only: what was
// used is what a person records.
// Source: common practice.
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "base/calendar.h"
#include "base/instant.h"

namespace peelbook::calc {

struct StockLot {
    std::int64_t on_hand_mg = 0;
    std::optional<Date> expires;  // the date it is kept to, whatever its kind
    Instant arrived;
    bool usable = true;  // false: held, refused, past a use-by date
};

struct Take {
    std::size_t lot = 0;  // index into the lots given
    std::int64_t mg = 0;
};

struct TakePlan {
    std::vector<Take> takes;      // in order
    std::int64_t missing_mg = 0;  // 0 when the usable stock covers what is wanted
};

TakePlan take_first_expired(const std::vector<StockLot>& lots, std::int64_t wanted_mg);

}  // namespace peelbook::calc
