#pragma once
// Measured values from a file, for charts and capability.
#include <string>
#include <vector>

#include "base/result.h"
#include "cli/frame/context.h"

namespace peelbook::cli {

// One value a line, alone or behind a label and a ';', tab or '|'. A comma in it is a decimal comma.
Result<std::vector<double>> read_values(const Context& context, const std::string& file);

// A subgroup a line.
Result<std::vector<std::vector<double>>> read_subgroups(const Context& context, const std::string& file);

}  // namespace peelbook::cli
