#pragma once
// A measured value against a bound of the plan.
//
// A bound may be stated in two units ("21C | 70F"). It is compared in the unit that was typed when the bound
// states that unit, exactly, in millionths of it: 70F meets 70F, though it is 21.111C. Any other unit is
// compared by the canonical integer of the bound's first value (base/measure.h). Limits are inclusive: equal
// meets.
#include <cstdint>
#include <optional>
#include <string>

#include "base/measure.h"
#include "plan/plan.h"

namespace peelbook::judge {

// The bound as stated in `unit`; absent when it is not.
const Measure* stated_in(const plan::Bound& bound, Unit unit);
// ... or its first value.
const Measure& shown_in(const plan::Bound& bound, Unit unit);

// Negative: the value is below the bound; 0: equal; positive: above.
int compare(const Measure& value, const plan::Bound& bound);

// How far apart they are, without a sign: "3.6C". In the typed unit when the bound states it, else in the
// bound's first.
std::string apart_text(const Measure& value, const plan::Bound& bound);
// "70F", or "70F (21.111C)" when the bound does not state the typed unit.
std::string value_text(const Measure& value, const plan::Bound& bound);

// Both sides of a range; either may be absent.
struct Sides {
    const plan::Bound* least = nullptr;
    const plan::Bound* most = nullptr;
};
Sides sides_of(const std::optional<plan::Bound>& least, const std::optional<plan::Bound>& most);

bool meets(const Measure& value, const Sides& sides);
// ... and still meets them when it is off by `guard` (a difference, inclusive) either way; false without a guard.
bool meets_guarded(const Measure& value, const Sides& sides, const std::optional<Measure>& guard);
// How far inside the nearer side, canonical; negative outside. The smallest is the worst. Largest integer
// without a side.
std::int64_t margin(const Measure& value, const Sides& sides);
// "at least 92C", "at most 5C", "from 2C to 5C", in the typed unit where stated; empty without a side.
std::string sides_text(const Sides& sides, Unit typed);
// "88.4C is 3.6C below the limit of at least 92C"; the value must not meet the sides. `limit` is the noun
// used.
std::string breach_text(const Measure& value, const Sides& sides, std::string_view limit);

}  // namespace peelbook::judge
