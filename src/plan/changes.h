#pragma once
#include <string>
#include <vector>

#include "plan/plan.h"

namespace peelbook::plan {

// What differs from `before` to `after`, one sentence each, in plan order:
//   "point bake-core: limit was at least 93C, now at least 94C"
//   "product pan-loaf: added"
std::vector<std::string> changes(const Plan& before, const Plan& after);

// The plan in words, for `plan show`: every point with its limit, basis and actions. `only` picks one id or kind; empty: all.
std::string shown(const Plan& plan, std::string_view only);

}  // namespace peelbook::plan
