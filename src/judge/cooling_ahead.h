#pragma once
// What is ahead of a product that cools: the deadline that a stage still has, and when it will get there if
// it goes on cooling as it does (calc/forecast.h). A prediction gives time to act; the verdict
// is judge_point's, from readings alone.
#include <optional>
#include <string>
#include <vector>

#include "judge/facts.h"
#include "plan/plan.h"

namespace peelbook::judge {

// The stage that is due next on any unit of a staged cooling or a souring: counted from the last moment known
// above where the stage begins, or from the event that starts the clock; of a guarded point for certain above
// it, and reached only for certain. Empty: no clock has started, or nothing is open.
struct StageDue {
    Instant opens, due;
    plan::Bound to;
};
std::optional<StageDue> next_stage(const plan::Point& point, const Facts& facts);

inline constexpr std::size_t least_readings_to_predict = 3;

struct CoolingAhead {
    std::string unit;          // which tray; empty
    plan::Bound target;        // of a guarded point less what the instruments used may be off by
    std::size_t readings = 0;  // that the curve was fitted to: from where it falls fastest on
    bool settled = false;      // three of them past there: before, nobody is warned
    double room_c = 0;
    bool room_fitted = false;                 // else the room was told
    std::optional<Instant> at;                // half such products are there by then; absent: never in this room
    std::optional<Instant> earliest, latest;  // nine of ten come between these; absent: not for certain
    std::optional<Instant> limit;             // when the target must be reached at the latest; absent: none (before packing)

    bool never() const { return !at; }
    bool late() const { return settled && (never() || (limit && *at > *limit)); }           // expected after the limit
    bool may_be_late() const { return settled && limit && (!latest || *latest > *limit); }  // the interval does not end before it
};

// One for each unit of a point with a limit cooling or before_packing that has not reached its next target,
// with at least least_readings_to_predict effective readings from where it falls fastest on. `room`: of the place it
// cools in; absent: as its readings bear out, of a bakery, or of a chiller for what must get cold. A unit whose readings follow no
// such curve has none.
std::vector<CoolingAhead> cooling_ahead(const plan::Point& point, const Facts& facts, const std::optional<Measure>& room);

}  // namespace peelbook::judge
