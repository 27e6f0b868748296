#pragma once
// Readings and thresholds of a staged cooling on one integer scale, for calc/cooling.h.
//
// All readings typed in one unit that every threshold states: millionths of that unit, exactly as typed.
// Otherwise canonical, and a reading whose own unit a threshold states is moved to that threshold's side, so
// that 70F counts as reaching "21C | 70F" in a series that is otherwise in C.
#include <vector>

#include "calc/cooling.h"
#include "judge/facts.h"
#include "plan/plan.h"

namespace peelbook::judge {

// Each reading carries the error of its instrument, when one of the same dimension is known.
struct ScaledCooling {
    calc::CoolingRule rule;
    std::vector<calc::CoolingReading> readings;
    std::int64_t tolerance = 0;  // the smallest of the instruments' (0 when one has none): a rise is excused only by all
    std::int64_t scatter = 0;    // by hand: 3 C, or 0.2 pH
};
ScaledCooling scaled(const plan::CoolingLimit& limit, const std::vector<const ReadingFact*>& readings);

}  // namespace peelbook::judge
