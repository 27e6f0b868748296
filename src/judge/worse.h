#pragma once
// Where a point may have come to one of several things, the worse counts.
#include "judge/judge.h"

namespace peelbook::judge {

// How bad it is that a unit, or the whole point where no unit has a finding, stands so. Open is worse than within, for nothing is shown,
// and better than what is not: that could be settled by a record that is still to come.
int badness(const Judged& judged, const Finding* finding);
const Finding* of_unit(const Judged& judged, std::int64_t ord);  // null: it has none

// Unit by unit the worse of two; of equals the first.
Judged worse_of(const Judged& a, const Judged& b);

}  // namespace peelbook::judge
