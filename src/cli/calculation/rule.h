#pragma once
// Cooling rules by name, and as typed: "57C:21C/2h,5C/6h" counts every stage from the start,
// "60C:21C/2h,5C/+4h" a stage with '+' from the one before.
#include <string>
#include <vector>

#include "base/result.h"
#include "plan/plan.h"

namespace peelbook::cli {

struct CoolingRuleSource {
    plan::CoolingLimit limit;  // starts_at set: the clock starts with the first reading
    std::string source;
};

Result<CoolingRuleSource> cooling_rule(const std::string& typed);
std::vector<std::string> cooling_rule_names();

}  // namespace peelbook::cli
