#pragma once
// Rows of a logger in the hour that its clock showed twice, of a file that has this hour once (rule 55): they were all taken in the
// first of the two, or all in the second. A point is judged both ways, and the harder counts.
#include <optional>

#include "judge/facts.h"
#include "plan/plan.h"

namespace peelbook::judge {

// The facts with these rows of the point in the second hour; empty: it has none.
std::optional<Facts> in_the_second_hour(const plan::Point& point, const Facts& facts);

}  // namespace peelbook::judge
