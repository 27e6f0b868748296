#pragma once
// A height above the sea as a person types it.
#include <string>

#include "base/result.h"

namespace peelbook::cli {

// Metres, from "5000ft" or a length with its unit; "-10m" is below the sea. `option` names it in a refusal.
Result<double> height_metres(const std::string& option, const std::string& typed);

}  // namespace peelbook::cli
