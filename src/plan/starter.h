#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "plan/reader.h"

namespace peelbook::plan {

// The plans that `new` writes: the files of src/plan/starter/ ("full", whose comments together name every key of a plan) or those of
// its folder small/ ("small": six people, at most eight points, and what a small bakery does not need left out). Each passes read_plan
// without a fault or warning, and every limit in it says that it is a starting point to be validated. `site_name` and `zone` are
// written into site.toml in place of its marks @NAME@ and @ZONE@.
inline constexpr std::string_view starters[] = {"full", "small"};
std::vector<Text> starter_plan(const std::string& site_name, const std::string& zone, std::string_view starter = starters[0]);

}  // namespace peelbook::plan
