#pragma once
// Codes that the program gives, and codes that are free.
#include <string>
#include <vector>

#include "site/record/admit.h"

namespace peelbook::site {

// PREFIX-yymmdd-n, the next n that no lot ever had. Look-up and entry share one transaction, so no two people get the same.
std::string next_code(fold::Ledger& ledger, const std::string& prefix, Instant at);
Check free_code(const Request& r, const std::string& code);

}  // namespace peelbook::site
