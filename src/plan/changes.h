#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "plan/described.h"

namespace peelbook::plan {

// What differs from `before` to `after`, one sentence each, in plan order (site, materials, products, ...
// points), within a section as in `after`, then what was removed:
//   "point bake-core: limit was at least 93C, now at least 94C"
//   "point bake-core: warning was not stated, now at least 95C"
//   "product pan-loaf: added"
// Empty when the two say the same.
std::vector<std::string> changes(const Plan& before, const Plan& after);

}  // namespace peelbook::plan
