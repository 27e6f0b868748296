#pragma once
// What has been weighed of one item of a batch so far, against its weigh sheet.
#include <optional>
#include <string>

#include "fold/ledger.h"

namespace peelbook::site {

// "wheat flour: 48kg so far of 50kg, 2kg to come", or what is too much of it. None within the plan's
// tolerance, for an item that is optional or not of the formula, and for what is no batch of a known size.
std::optional<std::string> weighed_line(fold::Ledger& ledger, const record::Used& used, Instant at);

}  // namespace peelbook::site
