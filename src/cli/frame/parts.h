#pragma once
#include <string>
#include <vector>

#include "base/result.h"
#include "record/payload.h"

namespace peelbook::cli {

// "rack-A=40" forty pieces, "rack-A=12.5kg" a mass, "rack-A" or "rack-A=rest" all that is left.
Result<record::Part> parse_part(const std::string& typed);
Result<std::vector<record::Part>> parse_parts(const std::vector<std::string>& typed);

}  // namespace peelbook::cli
