#pragma once
#include <string>
#include <vector>

#include "base/result.h"
#include "fold/ledger.h"

namespace peelbook::site {

// Our code, a printed code, a vessel, a supply, SUPPLIER:LOT, or a supplier's code: all lots that carry it, of `material` when
// one is named. Refused with the nearest codes when there is none.
Result<std::vector<book::Lot>> named_lots(fold::Ledger& ledger, const std::string& word, const std::string& material);

}  // namespace peelbook::site
