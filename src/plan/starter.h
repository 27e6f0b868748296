#pragma once
#include <string>
#include <vector>

#include "plan/reader.h"

namespace peelbook::plan {

// The commented plan that `new` writes for a small bakery: it passes read_plan without a fault or warning, and every limit in it
// says that it is a starting point to be validated. The files are those of src/plan/starter/; `site_name` and `zone` are written
// into site.toml in place of its marks @NAME@ and @ZONE@. Together their comments name every key of a plan.
std::vector<Text> starter_plan(const std::string& site_name, const std::string& zone);

}  // namespace peelbook::plan
