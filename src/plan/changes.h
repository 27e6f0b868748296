#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "plan/plan.h"

namespace peelbook::plan {

// What differs from `before` to `after`, one sentence each, in plan order (site, materials, products, ...
// points), within a section as in `after`, then what was removed:
//   "point bake-core: limit was at least 93C, now at least 94C"
//   "point bake-core: warning was not stated, now at least 95C"
//   "product pan-loaf: added"
// Empty when the two say the same.
std::vector<std::string> changes(const Plan& before, const Plan& after);

// The plan in words, for `plan show`: every point with its limit, basis and actions; the caution
// (base/text.h) is the last line. `only` picks one id ("bake-core"), one section ("point" or "points"), or
// "allergens" (the vocabulary and its exceptions); empty: the whole plan. Empty text when nothing is called
// `only`: offer shown_names().
std::string shown(const Plan& plan, std::string_view only);
std::vector<std::string> shown_names(const Plan& plan);

}  // namespace peelbook::plan
